import { describe, expect, it } from 'vitest';
import type { Told } from '../../src/procedure/told.ts';
import { lintProcedure } from '../../src/procedure/lint.ts';
import { lintInEnglish } from '../../src/procedure/words/lint-en.ts';
import { lintInFrench } from '../../src/procedure/words/lint-fr.ts';
import { read, withGroup } from './written.ts';

const torque = { value: 33.5, unit: 'N·m' } as const;
const everything: readonly Told[] = [
  { code: 'dangling-step', found: '"x"', expected: 'a step' },
  { code: 'no-torque', fastener: 'bolt' },
  { code: 'no-drive', fastener: 'bolt' },
  { code: 'thread-unreadable', found: 'Q9', expected: 'a thread such as M8' },
  {
    code: 'torque-too-low',
    torque,
    thread: 'M8',
    strength: '8.8',
    assumed: true,
    percent: 4,
    impossible: false,
    plausible: { low: torque, high: torque },
  },
  {
    code: 'torque-too-high',
    torque,
    thread: 'M8',
    strength: '8.8',
    assumed: false,
    percent: 140,
    impossible: true,
    plausible: { low: torque, high: torque },
  },
  { code: 'socket-misfit', drive: 'hex', size: '15', thread: 'M8', usual: ['13 mm', '12 mm'] },
  { code: 'drive-overloaded', torque, square: '1/4' },
  { code: 'tolerance-too-tight', fastener: 'bolt', percent: 1.5, held: 4 },
  { code: 'no-passes', fastener: 'bolt', count: 8, order: 'cross' },
  { code: 'build-forgotten', builds: ['M'] },
  { code: 'unreachable-side', side: 'aside' },
  { code: 'sounds-alike', number: '4', first: '2', sentence: 'Clean the seat.', same: false },
  { code: 'too-long-to-hear', what: 'sentence', words: 44, allowed: 30 },
  { code: 'single-use-part-missing', fastener: 'bolt', count: 6 },
  { code: 'too-few-parts', part: 'bolt', count: 4, needed: 6 },
  { code: 'supply-unused', name: 'glue', id: 'glue' },
  { code: 'hold-without-way-out', ask: 'Is it flush?' },
  { code: 'measure-without-limits', name: 'gap' },
  { code: 'measure-without-way-out', name: 'gap' },
  { code: 'jack-without-support' },
];

describe('the words of the lint', () => {
  it.each(everything.map((told) => [told.code, told] as const))('say %s, and what to do, differently in each language', (_, told) => {
    const [english, french] = [lintInEnglish(told), lintInFrench(told)];
    for (const { message, advice } of [english, french]) {
      expect(message.length).toBeGreaterThan(10);
      expect(advice.length).toBeGreaterThan(10);
      expect(`${message}${advice}`).not.toMatch(/undefined|\[object|NaN/u);
    }
    expect(french.message).not.toBe(english.message);
    expect(french.advice).not.toBe(english.advice);
  });

  it('are chosen by whoever lints, and code, place and severity stay', () => {
    const file = read(withGroup('name: bolt\ncount: 2\nthread: M6x1\nclass: 8.8\ndrive: hex 10\nsquare: 3/8\ntorque: 60 N·m'));
    const [english] = lintProcedure(file);
    const [french] = lintProcedure(file, lintInFrench);
    expect(french).toMatchObject({ code: english?.code, line: english?.line, column: english?.column, severity: 'error' });
    expect(french?.message).toContain("charge d'épreuve");
  });
});
