import { browserRecordings } from '../../journal/notes.ts';
import type { Recordings } from '../../journal/notes.ts';
import { browserOutboxStore } from '../../journal/outbox/browser-store.ts';
import { makeOutbox } from '../../journal/outbox/outbox.ts';
import type { Outbox } from '../../journal/outbox/outbox.ts';
import { browserRoom, roomLeft } from '../../journal/storage-room.ts';

const after = (milliseconds: number, act: () => void) => {
  const timer = setTimeout(act, milliseconds);
  return () => clearTimeout(timer);
};

let recordings: Recordings | null = null;
let outbox: Outbox | null = null;

/** Spoken notes and pictures, beside the journal. */
export function theRecordings(): Recordings {
  recordings ??= browserRecordings({ indexedDB, after, room: () => roomLeft(browserRoom()) });
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
