import { createHash } from 'node:crypto';
import * as fc from 'fast-check';
import { describe, expect, expectTypeOf, it } from 'vitest';
import type { JobEvent } from '../../src/job/events.ts';
import { canonicalJson } from '../../src/journal/canonical.ts';
import { chainAfter, chainStart, startOf, verifyChain } from '../../src/journal/chain.ts';
import type { ChainFault } from '../../src/journal/chain.ts';
import { parseRecorded, recordedLine, upgraded } from '../../src/journal/record.ts';
import type { ReadEvent } from '../../src/journal/record.ts';
import { happening, sampleHappenings, samplePlan } from './sample.ts';

const ids = { job: 'job-1', session: 'session-1' };
const recorded = chainAfter(null, sampleHappenings, ids);
const lines = recorded.map(recordedLine);

function faultsOf(changed: readonly string[]): readonly ChainFault[] {
  const check = verifyChain(changed);
  return check.ok ? [] : check.faults;
}

describe('chaining', () => {
  it('numbers events from nought and links each to the one before', () => {
    expect(recorded.map(({ seq }) => seq)).toEqual(sampleHappenings.map((_, index) => index));
    expect(recorded[0]?.previous).toBe(chainStart);
    for (const [index, entry] of recorded.entries()) if (index > 0) expect(entry.previous).toBe(recorded[index - 1]?.hash);
  });

  it('goes on behind the last event as if all had been chained at once', () => {
    const first = chainAfter(null, sampleHappenings.slice(0, 7), ids);
    const second = chainAfter(first.at(-1)!, sampleHappenings.slice(7), ids);
    expect([...first, ...second]).toEqual(recorded);
  });

  it('makes the hash that an ordinary SHA-256 makes over the sorted fields', () => {
    const { hash, ...rest } = recorded[11]!;
    expect(createHash('sha256').update(canonicalJson(rest), 'utf8').digest('hex')).toBe(hash);
  });

  it('refuses what no record could carry', () => {
    const notANumber = happening({ type: 'measured', step: 'gap', measure: 'gap-width', value: Number.NaN, unit: 'mm', within: false }, 1);
    expect(() => chainAfter(null, [notANumber], ids)).toThrow(TypeError);
  });
});

describe('verifying', () => {
  it('finds nothing wrong with a whole record', () => {
    expect(verifyChain(lines)).toEqual({ ok: true, events: recorded });
  });

  it('names a changed line', () => {
    const changed = lines.with(8, lines[8]!.replace('"position":0', '"position":1'));
    expect(faultsOf(changed)).toEqual([{ line: 9, code: 'changed', seq: 8 }]);
  });

  it('names a line that was changed and given a new hash, by the line after it', () => {
    const forged = chainAfter(recorded[7]!, [{ ...sampleHappenings[8]!, step: 'place' }], ids)[0]!;
    expect(faultsOf(lines.with(8, recordedLine(forged)))).toEqual([{ line: 10, code: 'unlinked', seq: 9 }]);
  });

  it('names missing lines and where they should be', () => {
    expect(faultsOf(lines.toSpliced(8, 3))).toEqual([{ line: 9, code: 'missing', from: 8, to: 10 }]);
    expect(faultsOf(lines.slice(2))).toEqual([{ line: 1, code: 'missing', from: 0, to: 1 }]);
  });

  it('names lines that changed places', () => {
    const swapped = lines.with(8, lines[9]!).with(9, lines[8]!);
    expect(faultsOf(swapped)).toEqual([
      { line: 9, code: 'out-of-order', seq: 9 },
      { line: 10, code: 'out-of-order', seq: 8 },
    ]);
  });

  it('tells a repeated line from another event under the same number', () => {
    expect(faultsOf(lines.toSpliced(9, 0, lines[8]!))).toEqual([{ line: 10, code: 'repeated', seq: 8 }]);
    const other = chainAfter(recorded[7]!, [sampleHappenings[9]!], ids)[0]!;
    expect(faultsOf(lines.toSpliced(9, 0, recordedLine(other)))).toEqual([{ line: 10, code: 'forked', seq: 8 }]);
  });

  it('names a line that says the same in other words', () => {
    expect(faultsOf(lines.with(3, lines[3]!.replace('{', '{ ')))).toEqual([{ line: 4, code: 'rewritten', seq: 3 }]);
  });

  it('counts an unreadable line once, and reads on behind it', () => {
    const check = verifyChain(lines.with(5, lines[5]!.slice(0, 40)));
    expect(check).toMatchObject({ ok: false, faults: [{ line: 6, code: 'unreadable', why: 'not-json' }] });
    expect(check.events).toHaveLength(lines.length - 1);
  });

  it('begins at the plan, so that another plan than the first shows', () => {
    const chained = chainAfter(startOf(samplePlan), sampleHappenings, ids).map(recordedLine);
    expect(verifyChain(chained, samplePlan).ok).toBe(true);
    const [step] = samplePlan.steps;
    const harder = { ...samplePlan, steps: [{ ...step!, say: 'Place the cover, and leave the seal out.' }, ...samplePlan.steps.slice(1)] };
    expect(verifyChain(chained, harder)).toMatchObject({ ok: false, faults: [{ line: 1, code: 'other-plan' }] });
  });

  it('names a line of another job', () => {
    const other = chainAfter(recorded[7]!, [sampleHappenings[8]!], { ...ids, job: 'job-2' })[0]!;
    expect(faultsOf(lines.with(8, recordedLine(other)))).toContainEqual({ line: 9, code: 'other-job', seq: 8, job: 'job-2' });
  });

  it('finds every single change of a character, whichever', () => {
    fc.assert(
      fc.property(fc.nat(lines.length - 1), fc.nat(), fc.integer({ min: 0x20, max: 0x17f }), (index, where, code) => {
        const line = lines[index]!;
        const place = where % line.length;
        const changed = line.slice(0, place) + String.fromCharCode(code) + line.slice(place + 1);
        fc.pre(changed !== line);
        expect(faultsOf(lines.with(index, changed)).map(({ line: found }) => found)).toContain(index + 1);
      }),
    );
  });

  it('finds every missing run and every move', () => {
    const place = fc.nat(lines.length - 2);
    fc.assert(
      fc.property(place, fc.integer({ min: 1, max: 5 }), (from, count) => {
        fc.pre(from + count < lines.length);
        expect(faultsOf(lines.toSpliced(from, count))).toEqual([{ line: from + 1, code: 'missing', from, to: from + count - 1 }]);
      }),
    );
    fc.assert(
      fc.property(place, place, (from, to) => {
        fc.pre(from !== to);
        const moved = lines.toSpliced(from, 1).toSpliced(to, 0, lines[from]!);
        expect(faultsOf(moved).length).toBeGreaterThan(0);
        expect(faultsOf(moved).every(({ code }) => code === 'out-of-order')).toBe(true);
      }),
    );
  });
});

describe('a line from elsewhere', () => {
  it('takes every event there is and no other', () => {
    expectTypeOf<ReadEvent>().toExtend<JobEvent>();
    expectTypeOf<JobEvent>().toExtend<ReadEvent>();
  });

  it('comes back as it was written', () => {
    for (const [index, line] of lines.entries()) expect(parseRecorded(line)).toMatchObject({ ok: true, recorded: recorded[index] });
  });

  it.each([
    ['nothing', '', 'not-json'],
    ['a list', '[]', 'not-an-object'],
    ['a null', 'null', 'not-an-object'],
    ['a newer version', '{"v":3,"what":"ever"}', 'newer-version'],
    ['no version', '{"seq":0}', 'unknown-version'],
    ['a version that never was', '{"v":0.5}', 'unknown-version'],
    ['a version that is a method', '{"v":"toString"}', 'unknown-version'],
    ['an event of no known type', lines[3]!.replace('kit-waved-through', 'kit-thrown-out'), 'wrong-shape'],
    ['a field too many', lines[3]!.replace('{', '{"more":1,'), 'wrong-shape'],
    ['a field that would reach the prototype', lines[3]!.replace('{', '{"__proto__":{"polluted":true},'), 'wrong-shape'],
    ['a negative number', lines[3]!.replace('"seq":3', '"seq":-3'), 'wrong-shape'],
    ['an endless number', lines[3]!.replace('"seq":3', '"seq":1e999'), 'wrong-shape'],
    ['ten million brackets', '['.repeat(10_000_000), 'too-long'],
    ['brackets within the limit', '['.repeat(65_000), 'not-json'],
    ['deep nesting within the limit', `{"v":1,"event":${'['.repeat(30_000)}${']'.repeat(30_000)}}`, 'wrong-shape'],
  ])('is refused when it is %s', (_, line, code) => {
    expect(parseRecorded(line)).toMatchObject({ ok: false, code });
    expect(Object.prototype).not.toHaveProperty('polluted');
  });

  it('says where it is wrong', () => {
    const line = lines[8]!.replace('"position":0', '"position":"first"');
    expect(parseRecorded(line)).toMatchObject({ ok: false, code: 'wrong-shape', path: 'event.position' });
  });

  it('never throws, whatever it holds', () => {
    fc.assert(fc.property(fc.oneof(fc.string(), fc.json()), (text) => typeof parseRecorded(text).ok === 'boolean'));
  });
});

describe('lines of an older version', () => {
  const steps = {
    1: (older: Readonly<Record<string, unknown>>) => ({ v: 2, text: older['said'] }),
    2: (older: Readonly<Record<string, unknown>>) => ({ ...older, v: 3, language: 'en' }),
  };

  it('are brought up to date one version at a time', () => {
    expect(upgraded({ v: 1, said: 'done' }, steps, 3)).toEqual({ ok: true, value: { v: 3, text: 'done', language: 'en' } });
    expect(upgraded({ v: 3, text: 'done' }, steps, 3)).toEqual({ ok: true, value: { v: 3, text: 'done' } });
  });

  it('are told from lines of a newer one', () => {
    expect(upgraded({ v: 4 }, steps, 3)).toEqual({ ok: false, code: 'newer-version', found: 4 });
    expect(upgraded({ v: 'one' }, steps, 3)).toEqual({ ok: false, code: 'unknown-version', found: 'one' });
  });
});

describe('canonical JSON', () => {
  it('sorts keys by code unit and writes numbers as ECMAScript does', () => {
    // RFC 8785, section 3.2.3 (from memory of it).
    const names = { '\u20ac': 5, '\r': 1, '\ufb33': 7, '1': 2, '\ud83d\ude00': 6, '\u0080': 3, '\u00f6': 4 };
    const inOrder = [...canonicalJson(names).matchAll(/":(\d)/gu)].map((match) => Number(match[1]));
    expect(inOrder).toEqual([1, 2, 3, 4, 5, 6, 7]);
    // RFC 8785, section 3.2.2.3 (from memory of it).
    expect(canonicalJson([333333333.33333329, 1e30, 4.5, 2e-3, 1e-27])).toBe('[333333333.3333333,1e+30,4.5,0.002,1e-27]');
  });
});
