import { describe, expect, it } from 'vitest';
import type { Moment } from '../../src/job/events.ts';
import { chainAfter, verifyChain } from '../../src/journal/chain.ts';
import { asBlob, exported, exportFormats } from '../../src/journal/formats/export.ts';
import { millisecondsBetween } from '../../src/journal/formats/times.ts';
import { recordedLine } from '../../src/journal/record.ts';
import { timeSpent } from '../../src/journal/sheet/facts.ts';
import { jobOf, sampleJob } from './sample-log.ts';
import { at, sampleHappenings, start } from './sample.ts';

const minute = 60_000;

function event(session: string, moment: Moment) {
  return { session, moment };
}

describe('the time between two events', () => {
  it("is the monotonic clock's, whatever happens to the one on the wall", () => {
    const before = event('a', { wall: start, offset: 120, mono: 1_000 });
    // The wall clock was set back an hour in between, and daylight saving ended.
    const after = event('a', { wall: start - 60 * minute, offset: 60, mono: 1_000 + 5 * minute });
    expect(millisecondsBetween(before, after)).toBe(5 * minute);
  });

  it("is the wall's over a restart, and never less than nothing", () => {
    const before = event('a', { wall: start, offset: 120, mono: 900_000 });
    expect(millisecondsBetween(before, event('b', { wall: start + 8 * minute, offset: 120, mono: 20 }))).toBe(8 * minute);
    expect(millisecondsBetween(before, event('b', { wall: start - minute, offset: 120, mono: 20 }))).toBe(0);
  });
});

describe('a record over a clock that was set back, a night asleep and a change of zone', () => {
  const moments: readonly Moment[] = [
    at(0),
    at(10),
    { ...at(20), wall: start - 3_600_000 },
    { wall: start + 9 * 3_600_000, offset: 60, mono: at(30).mono + 9 * 3_600_000 },
    { wall: start + 9 * 3_600_000 + 10_000, offset: -210, mono: at(40).mono + 9 * 3_600_000 },
  ];
  const happenings = moments.map((moment, index) => ({ ...sampleHappenings[index]!, moment }));

  it('is whole, and keeps both clocks as they were', () => {
    const check = verifyChain(chainAfter(null, happenings, { job: 'job', session: 's' }).map(recordedLine));
    expect(check.ok).toBe(true);
    expect(check.events.map(({ moment }) => moment)).toEqual(moments);
  });

  it('counts the time at work by the clock that only goes forward', () => {
    expect(timeSpent(jobOf('job', happenings).events).whole).toBe(9 * 3_600_000 + 40_000);
  });

  it('goes out in every form', () => {
    const job = jobOf('job', happenings);
    for (const format of exportFormats) expect([...(exported(format, [job])?.pieces ?? ['no follow-ups'])].join('')).not.toContain('NaN');
  });
});

describe('an export as a blob', () => {
  it('holds the text and says what it is', async () => {
    const jobs = Array.from({ length: 30 }, () => sampleJob);
    const file = exported('jsonl', jobs)!;
    const text = [...exported('jsonl', jobs)!.pieces].join('');
    const blob = asBlob(file);
    expect(text.length).toBeGreaterThan(300_000);
    expect(await blob.text()).toBe(text);
    expect(blob.type).toBe('application/jsonl');
  });
});
