import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { pack, unpack } from '../../src/journal/hand-over/packed.ts';
import { importLog, jobFile, readLog } from '../../src/journal/log-file.ts';
import { memoryJournal } from '../../src/journal/memory.ts';
import { recordedTypes } from '../../src/journal/record.ts';
import { sheetHtml } from '../../src/journal/sheet/sheet.ts';
import { happening } from './sample.ts';

/** A log as that version wrote it. The files are never written again: what they hold must open in every later build. */
const frozen = (version: number): string => readFileSync(new URL(`./frozen/version-${version}.jsonl`, import.meta.url), 'utf8');

describe.each([
  [1, [31, 34], 34],
  [2, [31, 36, 32], 36],
])('a log of version %i', (version, events, types) => {
  const file = frozen(version);
  const jobs = readLog(file);

  it('opens whole', () => {
    expect(jobs.map(({ faults, isSealed, events: found }) => [faults, isSealed, found.length])).toEqual(
      events.map((count) => [[], true, count]),
    );
    const found = new Set(jobs.flatMap((job) => job.events.map(({ event }) => event.type)));
    expect(recordedTypes.filter((type) => found.has(type))).toHaveLength(types);
  });

  it('goes out as it came in, and prints', () => {
    const again = jobs.flatMap(({ job, plan, events: found, lines }) =>
      job === null || plan === null ? [] : [...jobFile({ job, plan, events: found, lines })],
    );
    expect(again.join('')).toBe(file);
    const [first] = jobs;
    expect(first?.plan && sheetHtml({ job: first.job ?? '', plan: first.plan, events: first.events, faults: [] })).toContain('SIGNED');
  });

  it('is gone on with in lines of this version, and is still whole, on paper and in codes', async () => {
    const journal = memoryJournal({ session: 'now' });
    await importLog(journal, jobs);
    const [first] = jobs;
    const job = first?.job ?? '';
    await journal.open(job);
    expect(await journal.append(job, [happening({ type: 'asked', intent: 'help' }, 90_000)])).toMatchObject({ ok: true });
    const read = await journal.read(job);
    if (!read.ok) throw new Error(read.code);
    expect(read.stored.faults).toEqual([]);
    expect(read.stored.lines.slice(0, -1)).toEqual(first?.lines);
    expect(await unpack(await pack(read.stored))).toMatchObject({ ok: true, lines: read.stored.lines });
  });
});

it('says of a recording in a log of version 1 that it is sound, as all were', () => {
  const media = readLog(frozen(1)).flatMap(({ events }) => events.flatMap(({ event }) => (event.type === 'noted' ? [event.media] : [])));
  expect(media).toEqual([null, 'audio']);
});
