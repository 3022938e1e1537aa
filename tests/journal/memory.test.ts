import { describe } from 'vitest';
import { memoryJournal } from '../../src/journal/memory.ts';
import type { Kept } from '../../src/journal/memory.ts';
import { journalContract } from './journal-contract.ts';

describe('the memory journal', () => {
  journalContract(() => {
    const storage = new Map<string, Kept>();
    return { journal: memoryJournal({ session: 'first', storage }), reopened: () => memoryJournal({ session: 'later', storage }) };
  });
});
