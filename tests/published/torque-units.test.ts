import { unit as mathUnit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { torqueUnits } from '../../src/torque/quantities.ts';
import type { TorqueUnit } from '../../src/torque/quantities.ts';
import { convert, shownTorque, toNewtonMetres } from '../../src/torque/units.ts';

const exactly = (value: number, expected: number) => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(1e-12);
};

describe('torque units, by the exact definitions of the pound, standard gravity and the foot (NIST SP 811, appendix B.8; computed)', () => {
  it.each<[TorqueUnit, number]>([
    ['lbf·ft', 1.3558179483314004],
    ['lbf·in', 0.1129848290276167],
    ['kgf·m', 9.80665],
    ['kgf·cm', 0.0980665],
    ['ozf·in', 0.00706155181422604375],
    ['daN·m', 10],
    ['N·m', 1],
  ])('1 %s is %d N·m', (unit, newtonMetres) => {
    exactly(toNewtonMetres({ value: 1, unit }), newtonMetres);
  });

  it.each<[number, TorqueUnit, TorqueUnit, number]>([
    [80, 'lbf·ft', 'N·m', 108.465435866512],
    [89, 'lbf·in', 'N·m', 10.05564978345789],
    [5.5, 'kgf·m', 'N·m', 53.936575],
    [50, 'ozf·in', 'N·m', 0.3530775907113022],
    [25, 'N·m', 'lbf·ft', 18.4390537319],
  ])('%d %s in %s', (value, from, to, expected) => {
    expect(Math.abs(convert({ value, unit: from }, to).value / expected - 1)).toBeLessThan(to === 'lbf·ft' ? 1e-11 : 1e-12);
  });
});

describe('torque units in workshop and engine manuals', () => {
  it('360 lbf·in are printed as 40.7 N·m (engine maintenance manual, seen)', () => {
    expect(convert({ value: 360, unit: 'lbf·in' }, 'N·m').value.toFixed(1)).toBe('40.7');
  });

  // Display practice seen in workshop manuals: lbf·ft and lbf·in to the whole number.
  it.each([
    [5.5, 4, 49],
    [9, 7, 80],
    [11, 8, 97],
    [28, 21, null],
    [55, 41, null],
    [80, 59, null],
    [130, 96, null],
    [170, 125, null],
  ])('%d N·m are printed as %d lbf·ft', (newtonMetres, feet, inches) => {
    expect(Math.round(convert({ value: newtonMetres, unit: 'N·m' }, 'lbf·ft').value)).toBe(feet);
    if (inches !== null) expect(Math.round(convert({ value: newtonMetres, unit: 'N·m' }, 'lbf·in').value)).toBe(inches);
  });

  it.each([
    [80, 59],
    [130, 96],
  ])('%d N·m are spoken as the printed %d lbf·ft where that is within one percent', (newtonMetres, feet) => {
    expect(shownTorque({ value: newtonMetres, unit: 'N·m' }, 'lbf·ft').value).toBe(feet);
  });
});

describe('torque units beside mathjs', () => {
  /** mathjs has no ounce-force; it is a sixteenth of a pound-force by definition. */
  const spelling: Readonly<Record<TorqueUnit, readonly [unit: string, per: number]>> = {
    'N·m': ['N m', 1],
    'daN·m': ['daN m', 1],
    'lbf·ft': ['lbf ft', 1],
    'lbf·in': ['lbf in', 1],
    'kgf·m': ['kgf m', 1],
    'kgf·cm': ['kgf cm', 1],
    'ozf·in': ['lbf in', 16],
  };

  it.each(torqueUnits.flatMap((from) => torqueUnits.map((to) => [from, to] as const)))('agrees on %s in %s', (from, to) => {
    const [fromUnit, fromPer] = spelling[from];
    const [toUnit, toPer] = spelling[to];
    const theirs = (mathUnit(47, fromUnit).toNumber(toUnit) / fromPer) * toPer;
    exactly(convert({ value: 47, unit: from }, to).value, theirs);
  });
});
