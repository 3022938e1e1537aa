import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { fileJournal } from '../../src/cli/file-journal.ts';
import { browserJournal } from '../../src/journal/browser-journal.ts';
import { memoryJournal } from '../../src/journal/memory.ts';
import { happening, opened, samplePlan } from './sample.ts';

beforeAll(() => {
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
});

const tooLong = happening({ type: 'noted', text: 'a'.repeat(20_001), question: false, recording: null, media: null }, 5);
const longest = happening({ type: 'noted', text: 'a'.repeat(20_000), question: false, recording: null, media: null }, 6);

describe.each([
  ['in memory', () => memoryJournal({ session: 's' })],
  ['in the browser', () => browserJournal({ session: 's', locks: null, indexedDB: new IDBFactory(), after: () => () => undefined })],
  ['in a file', () => fileJournal({ path: join(mkdtempSync(join(tmpdir(), 'refused-')), 'log.jsonl'), session: 's' })],
])('what no record can carry, %s', (_, open) => {
  it('is answered with a value, and the job goes on behind what was stored', async () => {
    const journal = open();
    expect(await journal.begin('job', samplePlan, [tooLong])).toMatchObject({ ok: false, code: 'not-stored-refused' });
    expect(await journal.begin('job', samplePlan, [opened])).toMatchObject({ ok: true });
    expect(await journal.append('job', [longest, tooLong])).toMatchObject({ ok: false, code: 'not-stored-refused' });
    expect(await journal.append('job', [longest])).toMatchObject({ ok: true });
    const read = await journal.read('job');
    expect(read.ok && [read.stored.events.length, read.stored.faults]).toEqual([2, []]);
  });
});
