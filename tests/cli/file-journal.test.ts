import { appendFileSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { fileJournal } from '../../src/cli/file-journal.ts';
import { jobFile, readLog } from '../../src/journal/log-file.ts';
import { journalContract, recordedOf, someJob, storedLines } from '../journal/journal-contract.ts';
import { happening, opened, sampleHappenings, samplePlan } from '../journal/sample.ts';

const folder = mkdtempSync(join(tmpdir(), 'journal-'));
afterAll(() => rmSync(folder, { recursive: true }));

let made = 0;
function newPath(): string {
  made += 1;
  return join(folder, `${made}.jsonl`);
}

const note = happening({ type: 'noted', text: 'more', question: false, recording: null, media: null }, 400);

describe('the file journal', () => {
  journalContract(() => {
    const path = newPath();
    return { journal: fileJournal({ path, session: 'first' }), reopened: () => fileJournal({ path, session: 'later' }) };
  });

  it('writes a log file that needs no export', async () => {
    const path = newPath();
    await fileJournal({ path, session: 'first' }).begin(someJob, samplePlan, sampleHappenings);
    expect(readLog(readFileSync(path, 'utf8'))).toMatchObject([{ job: someJob, plan: samplePlan, faults: [], isSealed: false }]);
  });

  it('goes on with a job in a file that was exported', async () => {
    const path = newPath();
    const first = fileJournal({ path: newPath(), session: 'first' });
    await first.begin(someJob, samplePlan, sampleHappenings.slice(0, 9));
    const found = await first.read(someJob);
    writeFileSync(path, found.ok ? [...jobFile(found.stored)].join('') : '');
    const journal = fileJournal({ path, session: 'second' });
    expect(await journal.open(someJob)).toMatchObject({ ok: true, writing: 'this-tab' });
    recordedOf(await journal.append(someJob, [note]));
    expect(readLog(readFileSync(path, 'utf8'))).toMatchObject([{ faults: [], isSealed: true }]);
  });

  it('drops what a crash left of a line, which nobody was told of', async () => {
    const path = newPath();
    await fileJournal({ path, session: 'first' }).begin(someJob, samplePlan, [opened]);
    const whole = readFileSync(path, 'utf8');
    appendFileSync(path, '{"event":{"type":"pau');
    const journal = fileJournal({ path, session: 'second' });
    await journal.open(someJob);
    const answer = await journal.append(someJob, [note]);
    expect(readFileSync(path, 'utf8')).toBe(`${whole}${recordedOf(answer).join('')}\n`);
  });

  it('does not write into a file that something else has written to', async () => {
    const path = newPath();
    const journal = fileJournal({ path, session: 'first' });
    await journal.begin(someJob, samplePlan, [opened]);
    const other = fileJournal({ path, session: 'other' });
    await other.open(someJob);
    recordedOf(await other.append(someJob, [note]));
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-other-tab' });
    expect(await storedLines(other)).toHaveLength(2);
  });

  it('says that the disk is full, and takes the batch back', async () => {
    const path = newPath();
    const journal = fileJournal({ path, session: 'first' });
    await journal.begin(someJob, samplePlan, [opened]);
    const before = statSync(path).size;
    const { open } = await import('node:fs/promises');
    const handle = await open(path, 'r');
    const prototype = Object.getPrototypeOf(handle) as { datasync: () => Promise<void> };
    await handle.close();
    vi.spyOn(prototype, 'datasync').mockRejectedValueOnce(Object.assign(new Error('no room'), { code: 'ENOSPC', syscall: 'fdatasync' }));
    expect(await journal.append(someJob, [note])).toMatchObject({ ok: false, code: 'not-stored-disk-full' });
    expect(statSync(path).size).toBe(before);
    recordedOf(await journal.append(someJob, [note]));
  });

  it('says that a place cannot be written to', async () => {
    const journal = fileJournal({ path: join(folder, 'no', 'such', 'folder.jsonl'), session: 'first' });
    expect(await journal.begin(someJob, samplePlan, [opened])).toMatchObject({ ok: false, code: 'not-stored-blocked' });
  });
});
