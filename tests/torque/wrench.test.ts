import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { usualRules } from '../../src/torque/crib.ts';
import type { Crib, TorqueWrench } from '../../src/torque/crib.ts';
import type { Degrees, Millimetres, Torque, TorqueBand } from '../../src/torque/quantities.ts';
import { convert } from '../../src/torque/units.ts';
import { calibrationWarnings, chooseWrench, parseWrenchRange, roundToGraduation, tolerancePercent } from '../../src/torque/wrench.ts';
import type { WrenchChoice, WrenchFit, WrenchTask } from '../../src/torque/wrench.ts';
import { wrenchNote } from '../../src/phrasing/en/wrench-words.ts';
import { cribOf, makeWrench } from './make-wrench.ts';

const straight: WrenchTask = { adapter: null, square: null, today: '2026-06-01' };
const crowfoot = { centre: 50 as Millimetres, angle: 0 as Degrees };
const newtonMetres = (value: number): Torque => ({ value, unit: 'N·m' });
const percent = (of: number, share: number): TorqueBand => ({ minus: (of * share) / 100, plus: (of * share) / 100 });

function fit(choice: WrenchChoice): WrenchFit {
  if (!choice.fits) throw new Error(choice.reasons.map(({ code }) => code).join());
  return choice;
}
const warnings = (choice: WrenchChoice) => fit(choice).warnings.map(({ code }) => code);
const reasons = (choice: WrenchChoice) => (choice.fits ? [] : choice.reasons.map(({ code }) => code));

describe('choosing a wrench', () => {
  it('sets it on a mark in its own unit, from the value of the source', () => {
    const choice = fit(chooseWrench({ value: 47, unit: 'lbf·ft' }, null, cribOf(makeWrench(20, 100)), straight));
    expect(choice.set).toEqual({ value: 64, unit: 'N·m' });
    expect(choice.exact.value).toBeCloseTo(63.7234, 4);
    expect(choice.achieved.nominal.unit).toBe('lbf·ft');
    expect(choice.achieved.nominal.value).toBeCloseTo(47.204, 3);
    expect(choice.achieved.low.value).toBeCloseTo(47.204 * 0.96, 3);
    expect(choice.achieved.high.value).toBeCloseTo(47.204 * 1.04, 3);
    expect(choice.deviation).toBeCloseTo(0.434, 3);
    expect(choice.percentOfMax).toBe(64);
    expect(choice.corrected).toBe(false);
  });

  it('judges ranges after the correction for the adapter', () => {
    const crib = cribOf(makeWrench(20, 100, { graduation: 5 }));
    expect(reasons(chooseWrench(newtonMetres(105), null, crib, straight))).toEqual(['over-range']);
    const choice = fit(chooseWrench(newtonMetres(105), null, crib, { ...straight, adapter: crowfoot }));
    expect(choice.set.value).toBe(95);
    expect(choice.corrected).toBe(true);
    expect(choice.achieved.nominal.value).toBeCloseTo(106.875, 9);
  });

  it('prefers one with nothing to warn of to one in the middle of its range', () => {
    const crib = cribOf(makeWrench(20, 100, { calibrated: '2020-01-01' }), makeWrench(40, 60));
    expect(fit(chooseWrench(newtonMetres(50), null, crib, straight)).wrench.name).toBe('40–60');
  });

  it('prefers the one whose mark is nearer when both are in the middle', () => {
    const crib = cribOf(makeWrench(20, 100, { graduation: 5 }), makeWrench(20, 120, { graduation: 1 }));
    expect(fit(chooseWrench(newtonMetres(58), null, crib, straight)).set.value).toBe(58);
  });

  it('takes the mark that the band leaves, even when another is nearer', () => {
    const crib = cribOf(makeWrench(20, 100, { graduation: 5 }));
    expect(fit(chooseWrench(newtonMetres(52), { minus: 0, plus: 10 }, crib, straight)).set.value).toBe(55);
    expect(fit(chooseWrench(newtonMetres(53), { minus: 5, plus: 0 }, crib, straight)).set.value).toBe(50);
  });

  it('takes the first or last mark of a range that does not begin on a whole step', () => {
    const crib = cribOf(makeWrench(28, 210, { graduation: 5 }));
    expect(fit(chooseWrench(newtonMetres(28), null, crib, straight)).set.value).toBe(28);
  });

  it('sets a display to four figures', () => {
    const crib = cribOf(makeWrench(20, 200, { graduation: null }));
    expect(fit(chooseWrench({ value: 47, unit: 'lbf·ft' }, null, crib, straight)).set.value).toBe(63.72);
  });

  it('needs the square of the socket, or a step adapter to it', () => {
    const crib = cribOf(makeWrench(20, 100));
    const task = { ...straight, square: '3/8' as const };
    expect(reasons(chooseWrench(newtonMetres(50), null, crib, task))).toEqual(['square-differs']);
    const stepAdapters = [{ id: 'step', from: '1/2' as const, to: '3/8' as const }];
    expect(fit(chooseWrench(newtonMetres(50), null, { ...crib, stepAdapters }, task)).stepAdapter?.id).toBe('step');
    const direct = makeWrench(10, 120, { square: '3/8' });
    const both = { ...cribOf(makeWrench(20, 100), direct), stepAdapters };
    expect(fit(chooseWrench(newtonMetres(50), null, both, task)).wrench).toBe(direct);
  });

  it('takes no step adapter but the one from its square to that of the socket', () => {
    const task = { ...straight, square: '3/8' as const };
    const others = [
      { id: 'from another', from: '3/4' as const, to: '3/8' as const },
      { id: 'to another', from: '1/2' as const, to: '1/4' as const },
    ];
    const among = (stepAdapters: Crib['stepAdapters'], square: WrenchTask['square']) =>
      chooseWrench(newtonMetres(50), null, { ...cribOf(makeWrench(20, 100)), stepAdapters }, { ...task, square });
    expect(reasons(among(others, '3/8'))).toEqual(['square-differs']);
    const step = { id: 'step', from: '1/2' as const, to: '3/8' as const };
    expect(fit(among([...others, step], '3/8')).stepAdapter).toBe(step);
    expect(fit(among([...others, step], '1/2')).stepAdapter).toBeNull();
    expect(fit(among([...others, step], null)).stepAdapter).toBeNull();
  });

  it('prefers one without a step adapter even where its mark is further off', () => {
    const stepAdapters = [{ id: 'step', from: '1/2' as const, to: '3/8' as const }];
    const direct = makeWrench(20, 120, { square: '3/8', graduation: 5 });
    const crib = { ...cribOf(makeWrench(20, 100, { graduation: 1 }), direct), stepAdapters };
    expect(fit(chooseWrench(newtonMetres(51), null, crib, { ...straight, square: '3/8' })).wrench).toBe(direct);
  });

  it('prefers the middle of a range to its ends, and to either side alike', () => {
    const choose = (target: number, ...ranges: readonly (readonly [number, number])[]) =>
      fit(chooseWrench(newtonMetres(target), null, cribOf(...ranges.map(([min, max]) => makeWrench(min, max))), straight)).wrench.name;
    // 90 % of the one and 45 % of the other; then 25 % and 50 %; both ways of listing them.
    expect([choose(90, [20, 100], [40, 200]), choose(90, [40, 200], [20, 100])]).toEqual(['40–200', '40–200']);
    expect([choose(50, [20, 200], [20, 100]), choose(50, [20, 100], [20, 200])]).toEqual(['20–100', '20–100']);
    // 80 % is in the middle still, and so is 30 %: the one listed first by its id.
    expect(choose(80, [40, 200], [20, 100])).toBe('20–100');
    expect(choose(60, [40, 200], [20, 100])).toBe('20–100');
  });

  it('prefers the truer of two alike, then goes by their ids, however they are listed', () => {
    const alike = (id: string, tolerance: number) => makeWrench(20, 100, { id, tolerance });
    const choose = (...wrenches: readonly TorqueWrench[]) =>
      fit(chooseWrench(newtonMetres(50), null, cribOf(...wrenches), straight)).wrench.id;
    expect([choose(alike('a', 4), alike('b', 3)), choose(alike('b', 3), alike('a', 4))]).toEqual(['b', 'b']);
    expect([choose(alike('a', 4), alike('b', 4)), choose(alike('b', 4), alike('a', 4))]).toEqual(['a', 'a']);
  });

  it('takes the ends of a range in another unit for what they are', () => {
    const crib = cribOf(makeWrench(40, 150, { unit: 'lbf·ft' }));
    for (const end of [40, 150]) {
      const target = convert({ value: end, unit: 'lbf·ft' }, 'N·m');
      expect(fit(chooseWrench(target, { minus: 0, plus: 0 }, crib, straight)).set).toEqual({ value: end, unit: 'lbf·ft' });
    }
    expect(reasons(chooseWrench({ value: 39.99, unit: 'lbf·ft' }, null, crib, straight))).toEqual(['under-range']);
    expect(reasons(chooseWrench({ value: 150.01, unit: 'lbf·ft' }, null, crib, straight))).toEqual(['over-range']);
  });

  it('needs the lever for a correction, but not where there is nothing to correct', () => {
    const crib = cribOf(makeWrench(20, 100, { lever: null }));
    expect(reasons(chooseWrench(newtonMetres(50), null, crib, { ...straight, adapter: crowfoot }))).toEqual(['lever-unknown']);
    const across = { centre: 50 as Millimetres, angle: 90 as Degrees };
    expect(fit(chooseWrench(newtonMetres(50), null, crib, { ...straight, adapter: across })).corrected).toBe(false);
    const inLine = { centre: 0 as Millimetres, angle: 0 as Degrees };
    expect(fit(chooseWrench(newtonMetres(50), null, crib, { ...straight, adapter: inLine })).corrected).toBe(false);
  });

  it('says of every wrench why it will not do', () => {
    const crib = cribOf(makeWrench(1, 5), makeWrench(100, 500), makeWrench(40, 200, { graduation: 20, name: 'coarse' }));
    const short = cribOf(makeWrench(20, 60, { lever: 50 as Millimetres }));
    const back = { centre: 60 as Millimetres, angle: 180 as Degrees };
    expect(reasons(chooseWrench(newtonMetres(50), percent(50, 2), crib, straight))).toEqual([
      'over-range',
      'under-range',
      'rounding-outside-band',
    ]);
    expect(reasons(chooseWrench(newtonMetres(50), null, short, { ...straight, adapter: back }))).toEqual(['arm-impossible']);
    expect(reasons(chooseWrench(newtonMetres(50), null, cribOf(), straight))).toEqual(['no-wrench']);
  });

  it('always sets on a mark within the range, as near as marks allow', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 50 }),
        fc.integer({ min: 60, max: 300 }),
        fc.constantFrom(0.5, 1, 2, 5),
        fc.double({ min: 1, max: 300, noNaN: true }),
        (min, max, graduation, target) => {
          const choice = chooseWrench(newtonMetres(target), null, cribOf(makeWrench(min, max, { graduation })), straight);
          if (!choice.fits) return target < min || target > max;
          const { set } = choice;
          const onMark = Number.isInteger(set.value / graduation) || set.value === min || set.value === max;
          return onMark && set.value >= min && set.value <= max && Math.abs(set.value - target) <= graduation / 2 + 1e-9;
        },
      ),
    );
  });

  it('never leaves the band of the source with what it sets', () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 100, noNaN: true }), fc.double({ min: 0.1, max: 10, noNaN: true }), (target, share) => {
        const band = percent(target, share);
        const choice = chooseWrench(newtonMetres(target), band, cribOf(makeWrench(20, 100, { graduation: 2.5 })), straight);
        return !choice.fits || Math.abs(choice.achieved.nominal.value - target) <= band.plus + 1e-6;
      }),
    );
  });
});

describe('warnings', () => {
  it('has none for a sound wrench in its range', () => {
    expect(warnings(chooseWrench(newtonMetres(50), percent(50, 10), cribOf(makeWrench(20, 100)), straight))).toEqual([]);
  });

  it.each([
    ['calibration-overdue', { calibrated: '2025-05-31' }],
    ['calibration-unknown', { calibrated: null }],
    ['operations-overdue', { operations: 5000 }],
    ['suspect', { suspect: true }],
    ['coarse-graduation', { graduation: 10 }],
  ])('has %s', (code, changes) => {
    expect(warnings(chooseWrench(newtonMetres(50), null, cribOf(makeWrench(20, 100, changes)), straight))).toContain(code);
  });

  it('counts twelve months to the day', () => {
    const overdue = (today: string) => calibrationWarnings(makeWrench(20, 100, { calibrated: '2025-06-01' }), usualRules, today).length;
    expect(overdue('2026-06-01')).toBe(0);
    expect(overdue('2026-06-02')).toBe(1);
  });

  it('takes the rules of the crib', () => {
    const wrench = makeWrench(20, 100, { calibrated: '2026-01-01', operations: 100 });
    const rules = { ...usualRules, calibrationMonths: 3, calibrationOperations: 100 };
    expect(calibrationWarnings(wrench, rules, '2026-06-01').map(({ code }) => code)).toEqual(['calibration-overdue', 'operations-overdue']);
    expect(calibrationWarnings({ ...wrench, operations: 99 }, rules, '2026-04-01')).toEqual([]);
  });

  it('warns when the square bears less, that of the socket before its own', () => {
    const high = newtonMetres(140);
    const stepAdapters = [{ id: 'step', from: '1/2' as const, to: '3/8' as const }];
    const crib = { ...cribOf(makeWrench(40, 200)), stepAdapters };
    expect(fit(chooseWrench(high, null, crib, { ...straight, square: '3/8' })).warnings).toEqual([
      { code: 'square-overloaded', square: '3/8', limit: newtonMetres(135) },
    ]);
    expect(warnings(chooseWrench(newtonMetres(135), null, crib, { ...straight, square: '3/8' }))).toEqual([]);
    expect(warnings(chooseWrench(high, null, crib, straight))).toEqual([]);
    expect(warnings(chooseWrench(high, null, cribOf(makeWrench(40, 200, { square: '3/8' })), straight))).toEqual(['square-overloaded']);
    expect(warnings(chooseWrench(newtonMetres(1200), null, cribOf(makeWrench(500, 2000, { square: '1' })), straight))).toEqual([]);
  });

  it('lets a mark be a tenth of the torque', () => {
    const at = (target: number) =>
      warnings(chooseWrench(newtonMetres(target), null, cribOf(makeWrench(10, 100, { graduation: 5 })), straight));
    expect(at(50)).toEqual([]);
    expect(at(45)).toEqual(['coarse-graduation']);
    expect(warnings(chooseWrench(newtonMetres(45), null, cribOf(makeWrench(10, 100, { graduation: null })), straight))).toEqual([]);
  });

  it('warns under a fifth of the maximum', () => {
    expect(warnings(chooseWrench(newtonMetres(30), null, cribOf(makeWrench(20, 200)), straight))).toEqual(['under-usable-range']);
    expect(warnings(chooseWrench(newtonMetres(40), null, cribOf(makeWrench(20, 200)), straight))).toEqual([]);
  });

  it('warns when the wrench may stray out of the band', () => {
    expect(warnings(chooseWrench(newtonMetres(50), percent(50, 3), cribOf(makeWrench(20, 100)), straight))).toEqual([
      'spread-outside-band',
    ]);
    // To one side only: what strays up is out in the first, what strays down in the second.
    const oneSided = (band: TorqueBand) => warnings(chooseWrench(newtonMetres(50), band, cribOf(makeWrench(20, 100)), straight));
    expect(oneSided({ minus: 10, plus: 1 })).toEqual(['spread-outside-band']);
    expect(oneSided({ minus: 1, plus: 10 })).toEqual(['spread-outside-band']);
    expect(warnings(chooseWrench(newtonMetres(50), percent(50, 4), cribOf(makeWrench(20, 100)), straight))).toEqual([]);
  });

  it('warns of coarse rounding where the source gives no band', () => {
    const choice = chooseWrench(newtonMetres(52.4), null, cribOf(makeWrench(20, 100, { graduation: 5 })), straight);
    expect(warnings(choice)).toEqual(['rounding-beyond-tolerance']);
    const upward = chooseWrench(newtonMetres(52.6), null, cribOf(makeWrench(20, 100, { graduation: 5 })), straight);
    expect(fit(upward).set.value).toBe(55);
    expect(warnings(upward)).toEqual(['rounding-beyond-tolerance']);
    const near = chooseWrench(newtonMetres(51), null, cribOf(makeWrench(20, 100, { graduation: 5 })), straight);
    expect(warnings(near)).toEqual([]);
  });
});

describe('tolerance', () => {
  it('is the figure given, or that of the class, wider up to ten newton metres', () => {
    expect(tolerancePercent(3, newtonMetres(5))).toBe(3);
    expect(tolerancePercent('II-A', newtonMetres(10))).toBe(6);
    expect(tolerancePercent('II-A', newtonMetres(10.1))).toBe(4);
    expect(tolerancePercent('II-A', { value: 80, unit: 'lbf·in' })).toBe(6);
  });
});

describe('graduation', () => {
  it.each([
    [117.391, 5, 115],
    [117.391, 1, 117],
    [0.30001, 0.1, 0.3],
    [117.391, null, 117.4],
  ])('%d on marks of %s is %d', (value, graduation, mark) => {
    expect(roundToGraduation(value, graduation)).toBe(mark);
  });
});

describe('reading a range', () => {
  it.each([
    ['40-200/5', { min: 40, max: 200, graduation: 5, unit: 'N·m' }],
    ['40–200', { min: 40, max: 200, graduation: null, unit: 'N·m' }],
    ['5 to 25/0.5 lbf·ft', { min: 5, max: 25, graduation: 0.5, unit: 'lbf·ft' }],
    ['10-60 / 0,5 Nm', { min: 10, max: 60, graduation: 0.5, unit: 'N·m' }],
    [' 40 - 200 / 5 ', { min: 40, max: 200, graduation: 5, unit: 'N·m' }],
    ['40to200', { min: 40, max: 200, graduation: null, unit: 'N·m' }],
    ['40-200 lbf·ft', { min: 40, max: 200, graduation: null, unit: 'lbf·ft' }],
    ['40-200/160', { min: 40, max: 200, graduation: 160, unit: 'N·m' }],
  ])('takes %s', (text, range) => {
    expect(parseWrenchRange(text, 'N·m')).toEqual({ ok: true, value: range });
  });

  it.each([
    ['40', 'not-a-range'],
    ['', 'not-a-range'],
    ['about 40-200', 'not-a-range'],
    ['40-', 'not-a-range'],
    ['1,000-2000', 'not-a-range'],
    ['40-1,000', 'not-a-range'],
    ['40-200/1,000', 'not-a-range'],
    ['40-200/5/5', 'unknown-unit'],
    ['200-40/5', 'range-upside-down'],
    ['40-40', 'range-upside-down'],
    ['40-200/161', 'graduation-too-wide'],
    ['40-200/500', 'graduation-too-wide'],
    ['40-200/0', 'graduation-too-wide'],
    ['40-200/5 bananas', 'unknown-unit'],
  ])('refuses %s with %s', (text, code) => {
    expect(parseWrenchRange(text, 'N·m')).toMatchObject({ ok: false, problem: { code, found: text } });
  });
});

describe('in words', () => {
  it('says each warning in a sentence with its figures', () => {
    const crib = cribOf(makeWrench(20, 200, { calibrated: '2020-01-01', operations: 6000, suspect: true, graduation: 5 }));
    const choice = fit(chooseWrench(newtonMetres(30), percent(30, 3), crib, straight));
    expect(choice.warnings.map(wrenchNote)).toEqual([
      'It was dropped or overloaded since its calibration. Have it checked before use.',
      'Calibration was due on 2021-01-01.',
      'Calibration is due: 6000 operations since the last, and the limit is 5000.',
      'It is set to 15 % of its maximum; no accuracy is claimed under 20 %.',
      'Its marks are 5 N·m apart, more than a tenth of the torque.',
      'Its own tolerance can lead outside the limits: 29 N·m to 31 N·m.',
    ]);
    expect(wrenchNote({ code: 'calibration-unknown' })).toBe('Nobody has written down when it was last calibrated.');
    expect(wrenchNote({ code: 'rounding-beyond-tolerance', deviation: -4.58, tolerance: 4 })).toBe(
      'The nearest mark is 4.58 % off, and the wrench itself may stray 4 %.',
    );
  });

  it('says each reason in a sentence with its figures', () => {
    const crib = cribOf(makeWrench(1, 5), makeWrench(100, 500), makeWrench(40, 200, { graduation: 20, name: 'Coarse' }));
    const choice = chooseWrench(newtonMetres(50), percent(50, 2), crib, straight);
    expect(choice.fits ? [] : choice.reasons.map(wrenchNote)).toEqual([
      '1–5 ends at 5 N·m; it would have to be set to 50 N·m.',
      '100–500 begins at 100 N·m; it would have to be set to 50 N·m.',
      'Coarse has no mark within the limits; the nearest, 40 N·m, is 20 % off.',
    ]);
    expect(wrenchNote({ code: 'no-wrench' })).toBe('There is no torque wrench among the tools.');
    expect(wrenchNote({ code: 'square-differs', wrench: 'Long', has: '1/2', needs: '3/8' })).toBe(
      'Long has a 1/2 square, and the socket takes 3/8.',
    );
    expect(wrenchNote({ code: 'lever-unknown', wrench: 'Long' })).toContain('no lever length');
    expect(wrenchNote({ code: 'arm-impossible', wrench: 'Short' })).toContain('too short');
  });
});
