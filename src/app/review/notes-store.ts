import { createStore, get, set } from 'idb-keyval';
import type { UseStore } from 'idb-keyval';
import type { ReviewNotes } from '../../review/notes.ts';
import { noNotes, parseNotes } from '../../review/notes.ts';

let opened: UseStore | null = null;
const store = (): UseStore => (opened ??= createStore('undertray-review', 'notes'));

/** A trainer's notes on this device. */
export const deviceNotes: ReviewNotes = {
  async read() {
    const found = await get<unknown>('notes', store());
    if (found === undefined) return noNotes;
    const notes = parseNotes(found);
    // Of another version, or damaged: what is there must not be written over unseen.
    if (notes === null) throw new Error('notes of another version');
    return notes;
  },
  write: (notes) => set('notes', notes, store()),
};
