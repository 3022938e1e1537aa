import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePropertyClass, propertyClassNames } from '../../src/torque/strength.ts';
import {
  coarseMetricThreads,
  minorDiameter,
  parseThread,
  pitchDiameter,
  rootDiameter,
  stressArea,
  stressDiameter,
} from '../../src/torque/threads.ts';
import { threadNamed } from './thread-named.ts';

describe('reading a thread', () => {
  it.each([
    ['M10', 'M10x1.5', 10, 1.5, true],
    ['m10', 'M10x1.5', 10, 1.5, true],
    ['M 10', 'M10x1.5', 10, 1.5, true],
    ['M10x1.5', 'M10x1.5', 10, 1.5, true],
    ['M10x1.25', 'M10x1.25', 10, 1.25, false],
    ['M10 × 1,25', 'M10x1.25', 10, 1.25, false],
    ['M10*1.25', 'M10x1.25', 10, 1.25, false],
    ['M10-1.25', 'M10x1.25', 10, 1.25, false],
    ['M10x1.25-6g', 'M10x1.25', 10, 1.25, false],
    ['M2.5', 'M2.5x0.45', 2.5, 0.45, true],
    ['M15x1.5', 'M15x1.5', 15, 1.5, false],
    [' M10 ', 'M10x1.5', 10, 1.5, true],
    ['M10-6g', 'M10x1.5', 10, 1.5, true],
    ['M16x4', 'M16x4', 16, 4, false],
  ])('takes %s', (text, designation, diameter, pitch, coarse) => {
    expect(parseThread(text)).toEqual({ ok: true, value: { designation, system: 'metric', diameter, pitch, coarse } });
  });

  it.each([
    ['3/4-16 UNF', '3/4-16 UNF', 19.05, 25.4 / 16, false],
    ['3/4 UNF', '3/4-16 UNF', 19.05, 25.4 / 16, false],
    ['3/4"-10 UNC-2A', '3/4-10 UNC', 19.05, 2.54, true],
    ['1/4-20', '1/4-20 UNC', 6.35, 1.27, true],
    ['1/4 x 28', '1/4-28 UNF', 6.35, 25.4 / 28, false],
    ['#10-32', '#10-32 UNF', 4.826, 25.4 / 32, false],
    ['No. 10-24 UNC', '#10-24 UNC', 4.826, 25.4 / 24, true],
    ['5/8-24 UNEF', '5/8-24 UN', 15.875, 25.4 / 24, false],
    ['1-8 UNC', '1-8 UNC', 25.4, 25.4 / 8, true],
    ['1 in - 12', '1-12 UNF', 25.4, 25.4 / 12, false],
    ['No 8 UNF', '#8-36 UNF', 4.1656, 25.4 / 36, false],
    ['1/4-80', '1/4-80 UN', 6.35, 25.4 / 80, false],
  ])('takes %s', (text, designation, diameter, pitch, coarse) => {
    expect(parseThread(text)).toEqual({ ok: true, value: { designation, system: 'inch', diameter, pitch, coarse } });
  });

  it.each([
    ['', 'unknown-thread'],
    ['10', 'unknown-thread'],
    ['1/4', 'unknown-thread'],
    ['G1/2', 'unknown-thread'],
    ['5/8 UNEF', 'unknown-thread'],
    ['M15', 'no-coarse-pitch'],
    ['M10x3', 'unlikely-pitch'],
    ['M10x0', 'unlikely-pitch'],
    ['M50x1', 'unlikely-pitch'],
    ['M16x4.1', 'unlikely-pitch'],
    ['1/4-2', 'unlikely-pitch'],
    ['1/4-81', 'unlikely-pitch'],
    ['old M10', 'unknown-thread'],
    ['M10 left', 'unknown-thread'],
    ['a 1/4-20', 'unknown-thread'],
    ['1/4-20 long', 'unknown-thread'],
    ['5/8 UN', 'unknown-thread'],
    ['1/0-20', 'unknown-thread'],
    [`M1${'0'.repeat(60)}`, 'unknown-thread'],
  ])('refuses %j with %s', (text, code) => {
    const thread = parseThread(text);
    expect(thread.ok ? 'read' : thread.problem).toMatchObject({ code, found: text });
  });

  it('reads back what it writes', () => {
    for (const thread of coarseMetricThreads) expect(parseThread(thread.designation)).toEqual({ ok: true, value: thread });
    const unified = threadNamed('9/16-18 UNF');
    expect(parseThread(unified.designation)).toEqual({ ok: true, value: unified });
  });

  it('answers every text without throwing', () => {
    fc.assert(fc.property(fc.string({ maxLength: 60 }), (text) => typeof parseThread(text).ok === 'boolean'));
  });
});

describe('thread geometry', () => {
  it('has the root inside the minor diameter, that inside the pitch diameter, that inside the nominal', () => {
    for (const thread of coarseMetricThreads) {
      const inwards = [thread.diameter, pitchDiameter(thread), stressDiameter(thread), minorDiameter(thread), rootDiameter(thread)];
      expect(inwards).toEqual([...inwards].sort((a, b) => b - a));
    }
  });

  it('gives a finer pitch more area, and a larger thread more area', () => {
    expect(stressArea(threadNamed('M10x1.25'))).toBeGreaterThan(stressArea(threadNamed('M10')));
    const areas = coarseMetricThreads.map(stressArea);
    expect(areas).toEqual([...areas].sort((a, b) => a - b));
  });

  it('knows M10 to the last figure printed', () => {
    const thread = threadNamed('M10');
    expect(pitchDiameter(thread)).toBeCloseTo(9.026, 3);
    expect(minorDiameter(thread)).toBeCloseTo(8.376, 3);
    expect(rootDiameter(thread)).toBeCloseTo(8.16, 3);
  });
});

describe('property classes', () => {
  it.each([
    ['8.8', '8.8'],
    ['class 10.9', '10.9'],
    ['Property class 12.9', '12.9'],
    ['a2-70', 'A2-70'],
    ['grade 8', 'grade 8'],
    ['SAE Grade 5', 'grade 5'],
    ['Gr. 5', 'grade 5'],
    ['gr5', 'grade 5'],
    ['SAE gr.8', 'grade 8'],
    [' class 8.8 ', '8.8'],
  ])('takes %s', (text, name) => {
    const strength = parsePropertyClass(text, threadNamed('M10'));
    expect(strength.ok && strength.value.name).toBe(name);
  });

  it.each(['first class 8.8', 'upgrade 8', 'my grade 5', 'grade', '8'])('does not guess at %j', (text) => {
    expect(parsePropertyClass(text, threadNamed('M10')).ok).toBe(false);
  });

  it('goes by the diameter, up to the last that a row is for', () => {
    const proof = (name: string, thread: string) => {
      const strength = parsePropertyClass(name, threadNamed(thread));
      return strength.ok ? Math.round(strength.value.proofStress) : strength.problem.expected;
    };
    expect([proof('8.8', 'M16'), proof('8.8', 'M18')]).toEqual([580, 600]);
    // 3/4 inch is the last of the stronger row of grade 2: 55 ksi, and 33 from there.
    expect([proof('grade 2', '3/4-10'), proof('grade 2', '7/8-9')]).toEqual([379, 228]);
    expect(proof('9.8', 'M20')).toBe('a thread of at most 16 mm');
  });

  it('says which there are', () => {
    expect(parsePropertyClass('7.7', threadNamed('M10'))).toEqual({
      ok: false,
      problem: { code: 'unknown-class', path: '', found: '7.7', expected: propertyClassNames.join(', ') },
    });
  });

  it('has none for a diameter outside its standard', () => {
    expect(parsePropertyClass('9.8', threadNamed('M20')).ok).toBe(false);
  });

  it('bears proof below yield, and yield below breaking', () => {
    for (const name of propertyClassNames) {
      const strength = parsePropertyClass(name, threadNamed('M10'));
      if (!strength.ok) throw new Error(name);
      expect(strength.value.proofStress).toBeLessThanOrEqual(strength.value.yieldStress);
      expect(strength.value.yieldStress).toBeLessThan(strength.value.tensileStrength);
    }
  });
});
