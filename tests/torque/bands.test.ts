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
    ['  ±5  ', 5, 5],
    ['±½', 0.5, 0.5],
    ['± 1 1/2', 1.5, 1.5],
    ['+ / - 5', 5, 5],
    ['+/−5', 5, 5],
    ['±4 per cent', 2, 2],
    ['±4 PERCENT', 2, 2],
    ['-5 %/+10 N·m', 2.5, 10],
    ['+10, -5', 5, 10],
    ['+10 N·m -5', 5, 10],
    ['+ 10 ; - 5', 5, 10],
    ['-2½/+½', 2.5, 0.5],
    ['±49.9', 49.9, 49.9],
  ])('takes %s', (text, minus, plus) => {
    expect(parseBand(text, fifty)).toEqual({ ok: true, value: { minus, plus } });
  });

  it.each([
    ['5', 'not-a-band'],
    ['', 'not-a-band'],
    ['about ±5', 'not-a-band'],
    ['-5 -10', 'not-a-band'],
    ['+10 bananas/-5', 'unknown-unit'],
    ['+10/-5 bananas', 'unknown-unit'],
    ['+1,000/-5', 'ambiguous-number'],
    ['-5/+1,000', 'ambiguous-number'],
    ['-50/+5', 'band-below-zero'],
    ['±10 % of it', 'unknown-unit'],
    ['±10 about %', 'unknown-unit'],
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
    ['5 — 7 N·m', read(6, 'N·m', 1, 1)],
    ['5…7 N·m', read(6, 'N·m', 1, 1)],
    ['5 .. 7 N·m', read(6, 'N·m', 1, 1)],
    ['5...7 N·m', read(6, 'N·m', 1, 1)],
    ['5 N·m to 7', read(6, 'N·m', 1, 1)],
    ['5 - 7 N·m', read(6, 'N·m', 1, 1)],
    ['½ to 1½ lbf·ft', read(1, 'lbf·ft', 0.5, 0.5)],
    ['0.1 to 0.3 N·m', read(0.2, 'N·m', 0.1, 0.1)],
    ['47 −0/+5 lbf·ft', read(47, 'lbf·ft', 0, 5)],
    ['47 + 5 - 2 lbf·ft', read(47, 'lbf·ft', 2, 5)],
    ['47 +5 lbf·ft -2', read(47, 'lbf·ft', 2, 5)],
    ['47 +10 % -2 lbf·ft', read(47, 'lbf·ft', 2, 4.7)],
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
    ['5 to 5 N·m', 'range-upside-down'],
    ['5 N·m to soon', 'no-value'],
    ['5 bananas to 7 N·m', 'unknown-unit'],
    ['5 to 7 bananas', 'unknown-unit'],
    ['47 bananas ±5', 'unknown-unit'],
    ['47 N·m ±5 bananas', 'unknown-unit'],
    ['±5 N·m', 'no-value'],
    ['tight', 'no-value'],
  ])('refuses %s with %s, naming the whole text', (text, code) => {
    const result = parseTorqueAndBand(text);
    expect(result.ok ? 'read' : result.problem).toMatchObject({ code, found: text });
  });

  it('takes eighty characters and stops at one more', () => {
    expect(parseTorqueAndBand('47 lbf·ft ±10 %'.padEnd(80)).ok).toBe(true);
    const long = parseTorqueAndBand('47 lbf·ft ±10 %'.padEnd(81));
    expect(long.ok ? 'read' : long.problem).toMatchObject({ code: 'too-long', found: '47 lbf·ft ±10 %     …' });
    expect(parseBand('±5'.padEnd(80), fifty).ok).toBe(true);
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
