import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jobFile, readLog } from '../../src/journal/log-file.ts';
import { recordedTypes } from '../../src/journal/record.ts';
import { sheetHtml } from '../../src/journal/sheet/sheet.ts';

/** A log as version 1 wrote it. The file is never written again: what it holds must open in every later build. */
const file = readFileSync(new URL('./frozen/version-1.jsonl', import.meta.url), 'utf8');

describe('a log of version 1', () => {
  const jobs = readLog(file);

  it('opens whole', () => {
    expect(jobs.map(({ faults, isSealed, events }) => [faults, isSealed, events.length])).toEqual([
      [[], true, 31],
      [[], true, 34],
    ]);
    const types = new Set(jobs.flatMap(({ events }) => events.map(({ event }) => event.type)));
    expect(recordedTypes.filter((type) => types.has(type))).toHaveLength(34);
  });

  it('goes out as it came in, and prints', () => {
    const again = jobs.flatMap(({ job, plan, events, lines }) =>
      job === null || plan === null ? [] : [...jobFile({ job, plan, events, lines })],
    );
    expect(again.join('')).toBe(file);
    const [first] = jobs;
    expect(first?.plan && sheetHtml({ job: first.job ?? '', plan: first.plan, events: first.events, faults: [] })).toContain('SIGNED');
  });
});
