import { browserRecordings } from '../../journal/notes.ts';
import type { Recordings } from '../../journal/notes.ts';
import { browserOutboxStore } from '../../journal/outbox/browser-store.ts';
import { makeOutbox } from '../../journal/outbox/outbox.ts';
import type { Outbox } from '../../journal/outbox/outbox.ts';
import { roomLeft } from '../../journal/storage-room.ts';
import type { StorageRoom } from '../../journal/storage-room.ts';

/** The browser's word on room and persistence; undefined outside a secure context, whatever the types say. */
export const storageRoom = (): StorageRoom | undefined => (navigator as { readonly storage?: StorageManager }).storage;

const after = (milliseconds: number, act: () => void) => {
  const timer = setTimeout(act, milliseconds);
  return () => clearTimeout(timer);
};

let recordings: Recordings | null = null;
let outbox: Outbox | null = null;

/** Spoken notes and pictures, beside the journal. */
export function theRecordings(): Recordings {
  recordings ??= browserRecordings({ indexedDB, after, room: () => roomLeft(storageRoom()) });
  return recordings;
}

/** What goes to a training centre's record store, one for the page. */
export function theOutbox(): Outbox {
  outbox ??= makeOutbox({
    store: browserOutboxStore({ indexedDB, after }),
    fetch: (...request) => fetch(...request),
    after,
    now: () => Date.now(),
    chance: () => Math.random(),
  });
  return outbox;
}
