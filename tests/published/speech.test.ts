import { describe, expect, it } from 'vitest';
import { packFor } from '../../src/phrasing/packs.ts';

const { numbers, units } = packFor('en');

describe('numbers in speech', () => {
  // ICAO Annex 10 vol. II 5.2.1.4.3.1 (seen): digits are spoken one by one, decimals after "decimal" or "point".
  // FAA AIM 4-2-8 (seen): a figure may be restated as a group for clarity.
  it.each([
    [10, 'one zero'],
    [75, 'seven five'],
    [583, 'five eight three'],
    [600, 'six zero zero'],
    [11000, 'one one zero zero zero'],
    [38143, 'three eight one four three'],
    [122.1, 'one two two point one'],
    [118.005, 'one one eight point zero zero five'],
  ])('%d is spelled "%s"', (value, spoken) => {
    expect(numbers.digits(value)).toBe(spoken);
    expect(numbers.critical(value).startsWith(spoken)).toBe(true);
  });

  // No published confusion rate was found; the pairs are those that differ by teen and ty only (common practice).
  it.each([
    [13, 30],
    [14, 40],
    [15, 50],
    [16, 60],
    [17, 70],
    [18, 80],
    [19, 90],
  ])('%d and %d are told apart by more than their ending', (teen, ten) => {
    for (const value of [teen, ten]) {
      expect(numbers.plain(value)).toContain(numbers.digits(value));
      expect(numbers.critical(value)).toContain(numbers.digits(value));
    }
  });

  // Plain words for units, in full (NIST SP 811 names): "newton metres", never letters.
  it('names torque units in words', () => {
    expect(`${numbers.critical(47)} ${units.after(47, 'N·m')}`).toBe('four seven: forty-seven newton metres');
    expect(units.after(1, 'N·m')).toBe('newton metre');
  });
});
