import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limits, parseBand, parseTorqueAndBand } from '../../src/torque/bands.ts';
import type { Torque } from '../../src/torque/quantities.ts';

const fifty: Torque = { value: 50, unit: 'N·m' };

describe('reading a band', () => {
  it.each([
    ['±5', 5, 5],
    ['± 5 N·m', 5, 5],
    ['+/-5', 5, 5],
    ['+/- 10%', 5, 5],
    ['±10 %', 5, 5],
    ['±4 percent', 2, 2],
    ['-0/+10 N·m', 0, 10],
    ['−0/+10', 0, 10],
    ['+10/-0', 0, 10],
    ['+10 -5', 5, 10],
    ['-0 +20 %', 0, 10],
    ['0/+10', 0, 10],
    ['±1 daN·m', 10, 10],
  ])('takes %s', (text, minus, plus) => {
    expect(parseBand(text, fifty)).toEqual({ ok: true, value: { minus, plus } });
  });

  it.each([
    ['5', 'not-a-band'],
    ['+5 +10', 'not-a-band'],
    ['±five', 'not-a-band'],
    ['±5 bananas', 'unknown-unit'],
    ['±50', 'band-below-zero'],
    ['±100 %', 'band-below-zero'],
    ['±1,000', 'ambiguous-number'],
    ['±5'.padEnd(100), 'too-long'],
  ])('refuses %j with %s', (text, code) => {
    const result = parseBand(text, fifty);
    expect(result.ok ? 'read' : result.problem.code).toBe(code);
  });

  it('keeps the band in the unit of its torque', () => {
    const result = parseBand('±5 lbf·ft', { value: 90, unit: 'N·m' });
    expect(result.ok && result.value.minus).toBeCloseTo(6.779089741657002, 9);
  });
});

describe('reading a torque with its band', () => {
  const read = (value: number, unit: Torque['unit'], minus: number, plus: number) => ({
    ok: true,
    value: { torque: { value, unit }, band: { minus, plus } },
  });

  it.each([
    ['47 lbf·ft ±10 %', read(47, 'lbf·ft', 4.7, 4.7)],
    ['47 ±5 lbf·ft', read(47, 'lbf·ft', 5, 5)],
    ['47 +/- 5 ft-lb', read(47, 'lbf·ft', 5, 5)],
    ['25 N·m -0/+10', read(25, 'N·m', 0, 10)],
    ['25 N·m +10/-0', read(25, 'N·m', 0, 10)],
    ['5 to 7 N·m', read(6, 'N·m', 1, 1)],
    ['5–7 N·m', read(6, 'N·m', 1, 1)],
    ['5-7 Nm', read(6, 'N·m', 1, 1)],
    ['28-33 lbf ft', read(30.5, 'lbf·ft', 2.5, 2.5)],
    ['5.1 N·m to 7 N·m', read(6.05, 'N·m', 0.95, 0.95)],
    ['7 1/2 to 8 lbf·ft', read(7.75, 'lbf·ft', 0.25, 0.25)],
  ])('takes %s', (text, expected) => {
    expect(parseTorqueAndBand(text)).toEqual(expected);
  });

  it.each(['47 lbf·ft', '1-1/2 lbf·ft'])('gives no band to %s', (text) => {
    const result = parseTorqueAndBand(text);
    expect(result.ok && result.value.band).toBeNull();
  });

  it.each([
    ['7 to 5 N·m', 'range-upside-down'],
    ['44 lbf·ft to 60 N·m', 'mixed-units'],
    ['5 to 7', 'no-unit'],
    ['47 ±5', 'no-unit'],
    ['47', 'no-unit'],
    ['60 + 10 N·m', 'not-a-band'],
    ['60 ±100 N·m', 'band-below-zero'],
    ['tight', 'no-value'],
  ])('refuses %s with %s, naming the whole text', (text, code) => {
    const result = parseTorqueAndBand(text);
    expect(result.ok ? 'read' : result.problem).toMatchObject({ code, found: text });
  });

  it('answers every text without throwing', () => {
    fc.assert(fc.property(fc.string({ maxLength: 120 }), (text) => typeof parseTorqueAndBand(text).ok === 'boolean'));
  });

  it('gives back the ends of a range as its limits', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 1, max: 999 }), (low, width) => {
        const result = parseTorqueAndBand(`${low / 10} to ${(low + width) / 10} N·m`);
        if (!result.ok) throw new Error(result.problem.code);
        const { low: least, high: most } = limits(result.value.torque, result.value.band);
        expect([least.value, most.value]).toEqual([low / 10, (low + width) / 10]);
      }),
    );
  });

  it('has no room where the source gives no band', () => {
    expect(limits(fifty, null)).toEqual({ low: fifty, high: fifty });
  });
});
