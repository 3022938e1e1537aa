import { IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { vi } from 'vitest';
import { browserJournal } from '../../src/journal/browser-journal.ts';
import type { Journal } from '../../src/journal/port.ts';
import type { Locks } from '../../src/journal/tab-lock.ts';

/** A clock that goes off when it is told to. */
function alarms(): { readonly after: (milliseconds: number, act: () => void) => () => void; readonly ring: () => void } {
  const set = new Set<() => void>();
  return {
    after: (_, act) => {
      set.add(act);
      return () => set.delete(act);
    },
    ring: () => [...set].forEach((act) => act()),
  };
}

export interface Device {
  readonly indexedDB: IDBFactory;
  readonly ring: () => void;
  readonly app: (session: string, locks?: Locks | null) => Journal;
}

/** A browser's storage, which outlives the apps that use it. */
export function device(indexedDB = new IDBFactory()): Device {
  const { after, ring } = alarms();
  return { indexedDB, ring, app: (session, locks = null) => browserJournal({ session, locks, indexedDB, after }) };
}

/** Reaches into the stored job behind the journal's back. */
export async function tamper(indexedDB: IDBFactory, act: (store: IDBObjectStore) => void): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    const request = indexedDB.open('undertray');
    request.onerror = () => reject(new Error('did not open'));
    request.onsuccess = () => {
      const transaction = request.result.transaction('journal', 'readwrite');
      act(transaction.objectStore('journal'));
      transaction.oncomplete = () => {
        request.result.close();
        resolve();
      };
    };
  });
}

type Add = (value: unknown, key?: IDBValidKey) => IDBRequest<IDBValidKey>;

/** Lets `act` stand between the journal and each request to add something. */
export function onAdd(act: (store: IDBObjectStore, add: () => IDBRequest<IDBValidKey>) => IDBRequest<IDBValidKey>): void {
  const real = Reflect.get(IDBObjectStore.prototype, 'add') as Add;
  vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, ...args) {
    return act(this, () => real.apply(this, args));
  });
}

/** After so many requests for room the disk is full. */
export function fillDisk(afterWrites: number): void {
  let writes = 0;
  onAdd((_, add) => {
    writes += 1;
    if (writes > afterWrites) throw new DOMException('no room left', 'QuotaExceededError');
    return add();
  });
}
