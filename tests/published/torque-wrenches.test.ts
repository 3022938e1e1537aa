import { describe, expect, it } from 'vitest';
import { emptyCrib, usualRules } from '../../src/torque/crib.ts';
import { settingFor, withFreeRunning } from '../../src/torque/lever.ts';
import type { Degrees, Millimetres, Torque, TorqueUnit } from '../../src/torque/quantities.ts';
import { chooseWrench, roundToGraduation, tolerancePercent } from '../../src/torque/wrench.ts';
import { cribOf, makeWrench } from '../torque/make-wrench.ts';

const setting = (target: Torque, lever: number, centre: number, angle: number) => {
  const read = settingFor(target, { lever: lever as Millimetres, centre: centre as Millimetres, angle: angle as Degrees });
  if (!read.ok) throw new Error(read.problem.code);
  return read.value.value;
};

describe('the setting of a wrench with an adapter; lever and adapter in one unit of length', () => {
  it.each<[number, TorqueUnit, number, number, number, number, string, string]>([
    [100, 'lbf·in', 12, 6, 0, 66.666667, '66.7', 'NAVEDTRA 14315, seen'],
    [300, 'lbf·in', 10, 4, 0, 214.285714, '214', 'TM 1-1500-204-23-9, seen'],
    [40, 'lbf·ft', 12, 4, 0, 30, '30', 'TM 9-2350-277-40&P, seen'],
    // This manual rounds 1.136 to 1.14 first.
    [19, 'lbf·ft', 22, 3, 0, 16.72, '17', 'TM 5-3805-274-13&P, seen'],
    // Its page for angled adapters prints × for +.
    [70, 'lbf·in', 12, 2, 0, 60, '60', 'TM 9-254, seen'],
    [135, 'lbf·in', 10, 1.5, 0, 117.391304, '117.39', 'helicopter maintenance manual 20.4, seen'],
    [135, 'lbf·in', 10, 1.5, 180, 158.823529, '158.82', 'helicopter maintenance manual 20.4, seen'],
    [20, 'lbf·ft', 14, 3, 0, 16.470588, '16.5', 'motorcycle workshop manual, seen'],
  ])('%d %s on %d with %d at %d° is %d (printed %s; %s)', (value, unit, lever, centre, angle, exact, printed) => {
    const found = setting({ value, unit }, lever, centre, angle);
    expect(found).toBeCloseTo(exact, 6);
    expect(found.toFixed(printed.split('.')[1]?.length ?? 0)).toBe(printed);
  });

  // Computed.
  it.each([
    [45, 91.87897],
    [90, 100],
    [135, 109.695833],
  ])('100 on 400 with 50 at %d° is %d', (angle, exact) => {
    expect(setting({ value: 100, unit: 'N·m' }, 400, 50, angle)).toBeCloseTo(exact, 6);
  });
});

it('free-running torque is added to the target (AC 43.13-1B, 7-40(d); the sum computed)', () => {
  expect(withFreeRunning({ value: 100, unit: 'lbf·in' }, { value: 14, unit: 'lbf·in' })).toEqual({ value: 114, unit: 'lbf·in' });
});

describe('torque wrenches', () => {
  const task = { adapter: null, square: null, today: '2026-06-01' } as const;
  const chosen = (target: number, ...ranges: readonly (readonly [number, number])[]) => {
    const crib = cribOf(...ranges.map(([min, max]) => makeWrench(min, max, { graduation: 0.1 })));
    const choice = chooseWrench({ value: target, unit: 'N·m' }, null, crib, task);
    return choice.fits ? `${choice.wrench.min}–${choice.wrench.max} at ${choice.percentOfMax.toFixed(0)} %` : 'none';
  };

  // Best used between 30 and 80 % of the range (TM 1-1500-204-23-9, seen); the rows are computed.
  it('24.6 N·m go to 10–60 rather than 5–25', () => {
    expect(chosen(24.6, [5, 25], [10, 60])).toBe('10–60 at 41 %');
  });

  it('103 N·m go to 40–200, being over 20–100', () => {
    expect(chosen(103, [20, 100], [40, 200])).toBe('40–200 at 52 %');
  });

  it('117.391 on marks of 5 is 115 and refused at ±1 %; on marks of 1 it is 117 and taken', () => {
    const target: Torque = { value: 117.391, unit: 'N·m' };
    const band = { minus: 1.17391, plus: 1.17391 };
    expect(roundToGraduation(117.391, 5)).toBe(115);
    const coarse = chooseWrench(target, band, cribOf(makeWrench(40, 200, { graduation: 5 })), task);
    expect(coarse.fits ? [] : coarse.reasons).toMatchObject([{ code: 'rounding-outside-band', nearest: { value: 115 } }]);
    expect(coarse.fits ? 0 : coarse.reasons[0]?.code === 'rounding-outside-band' && coarse.reasons[0].deviation).toBeCloseTo(-2.04, 2);
    const fine = chooseWrench(target, band, cribOf(makeWrench(40, 200, { graduation: 1 })), task);
    expect(fine.fits && fine.set.value).toBe(117);
    expect(fine.fits && fine.deviation).toBeCloseTo(-0.33, 2);
  });

  it('stray 4 % above 10 N·m and 6 % up to it in type II class A (ISO 6789:2003, second-hand)', () => {
    expect(tolerancePercent('II-A', { value: 10, unit: 'N·m' })).toBe(6);
    expect(tolerancePercent('II-A', { value: 10.01, unit: 'N·m' })).toBe(4);
  });

  it('are recalibrated after 5000 operations or 12 months (ISO 6789:2003, second-hand)', () => {
    expect(usualRules).toMatchObject({ calibrationMonths: 12, calibrationOperations: 5000 });
  });

  it('claim no accuracy below 20 % of full scale, and want marks of at most a tenth of the torque (TM 1-1500-204-23-9, seen)', () => {
    const codes = (target: number, graduation: number) => {
      const choice = chooseWrench(
        { value: target, unit: 'N·m' },
        null,
        { ...emptyCrib, wrenches: [makeWrench(10, 200, { graduation })] },
        task,
      );
      return choice.fits ? choice.warnings.map(({ code }) => code) : ['none'];
    };
    expect(codes(40, 4)).toEqual([]);
    expect(codes(39, 1)).toEqual(['under-usable-range']);
    expect(codes(50, 10)).toEqual(['coarse-graduation']);
  });
});
