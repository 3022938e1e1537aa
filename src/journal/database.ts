import type { UseStore } from 'idb-keyval';
import type { NotStored } from './port.ts';

/** What the database needs from the browser; tests pass their own. */
export interface DatabaseDeps {
  readonly indexedDB: IDBFactory;
  /** Runs `act` after so many milliseconds unless the function that it returns is called first. */
  readonly after: (milliseconds: number, act: () => void) => () => void;
}

export interface DatabaseName {
  readonly database: string;
  readonly store: string;
  readonly version: number;
}

/** Storage that has not answered by then will not answer soon: the person is told, and what was asked is taken back. */
const patience = 10_000;

/** Thrown inside this folder for what IndexedDB has no error of its own for. */
class StorageFault extends Error {
  constructor(name: 'BlockedError' | 'SilenceError' | 'AbsentError', message: string) {
    super(message);
    this.name = name;
  }
}

/**
 * An idb-keyval store that differs from `createStore` in what an acknowledged event needs:
 * - `strict` durability. Browsers default to `relaxed`, which says "complete" once the operating system has the bytes; a flat battery
 *   then loses them, and the mechanic has heard "counted". Strict costs a flush to flash, some milliseconds, which is far less
 *   than the time between two fasteners.
 * - a version, so that a database of a newer build is refused instead of being misread, and this build closes its own
 *   connection when a newer one wants to upgrade.
 * - an end to waiting: a blocked or silent database becomes an answer.
 */
export function durableStore({ database, store, version }: DatabaseName, { indexedDB, after }: DatabaseDeps): UseStore {
  let connection: Promise<IDBDatabase> | null = null;

  function connect(): Promise<IDBDatabase> {
    connection ??= new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open(database, version);
      let isGivenUp = false;
      const stopWaiting = after(patience, () => giveUp(new StorageFault('SilenceError', 'the database does not open')));
      const giveUp = (reason: Error): void => {
        stopWaiting();
        isGivenUp = true;
        connection = null;
        reject(reason);
      };
      request.onupgradeneeded = () => {
        if (!request.result.objectStoreNames.contains(store)) request.result.createObjectStore(store);
      };
      request.onblocked = () => giveUp(new StorageFault('BlockedError', 'another tab keeps an older version open'));
      request.onerror = () => giveUp(request.error ?? new StorageFault('AbsentError', 'the database does not open'));
      request.onsuccess = () => {
        stopWaiting();
        const opened = request.result;
        // Nobody waits for it any more; left open it would block the next version.
        if (isGivenUp) {
          opened.close();
          return;
        }
        opened.onversionchange = () => {
          opened.close();
          connection = null;
        };
        // Fired when the browser itself closes it: the storage was cleared, or the disk went away.
        opened.onclose = () => {
          connection = null;
        };
        resolve(opened);
      };
    });
    return connection;
  }

  async function begin(mode: IDBTransactionMode): Promise<IDBTransaction> {
    try {
      return (await connect()).transaction(store, mode, { durability: 'strict' });
    } catch (error) {
      // A connection that closed without saying so, as Safari's do, is opened once more.
      if (!(error instanceof DOMException) || error.name !== 'InvalidStateError') throw error;
      connection = null;
      return (await connect()).transaction(store, mode, { durability: 'strict' });
    }
  }

  return async (mode, callback) => {
    const transaction = await begin(mode);
    const finished = untilFinished(transaction);
    const silence = { isOver: false };
    const stopWaiting = after(patience, () => {
      silence.isOver = true;
      abort(transaction);
    });
    try {
      const result = await callback(transaction.objectStore(store));
      await finished;
      return result;
    } catch (error) {
      abort(transaction);
      // The transaction's own reason is the better one: a full disk shows there, and a failed request only says "aborted".
      await finished.catch(() => undefined);
      if (silence.isOver) throw new StorageFault('SilenceError', 'the database does not answer');
      throw transaction.error ?? error;
    } finally {
      stopWaiting();
    }
  };
}

/**
 * Settles with the whole transaction. idb-keyval's `promisifyRequest` rejects at the first failed request already,
 * when the transaction does not yet know why it will abort.
 */
function untilFinished(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new StorageFault('AbsentError', 'the transaction was aborted'));
  });
}

function abort(transaction: IDBTransaction): void {
  try {
    transaction.abort();
  } catch {
    // It is finished already, or being written down and no longer to be stopped.
  }
}

/** What an error of storage means to the person. */
export function notStored(error: unknown): NotStored {
  const name = error instanceof Error || error instanceof DOMException ? error.name : 'unknown';
  const detail = `${name}: ${error instanceof Error || error instanceof DOMException ? error.message : String(error)}`;
  switch (name) {
    case 'QuotaExceededError':
      return { ok: false, code: 'not-stored-disk-full', detail };
    case 'VersionError':
      return { ok: false, code: 'not-stored-newer-version', detail };
    // A number that was free when this tab last looked is taken: somebody else writes this job.
    case 'ConstraintError':
      return { ok: false, code: 'not-stored-other-tab', detail };
    default:
      return { ok: false, code: 'not-stored-blocked', detail };
  }
}
