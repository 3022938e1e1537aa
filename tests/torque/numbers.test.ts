import { describe, expect, it } from 'vitest';
import { formatNumber, parseNumber, tidy } from '../../src/torque/numbers.ts';

describe('reading a number', () => {
  it.each([
    ['47', 47],
    [' 47 ', 47],
    ['5.5', 5.5],
    ['5,5', 5.5],
    ['.5', 0.5],
    [',5', 0.5],
    // After a nought or past three figures a comma can only be a decimal one.
    ['0,125', 0.125],
    ['1,2345', 1.2345],
    ['1234,567', 1234.567],
    ['1 200', 1200],
    ['12 345,6', 12345.6],
    ['12 345.67', 12345.67],
    ['1\u00a0200\u00a0000', 1200000],
    ['1\u2009200', 1200],
    ['1\u202f200', 1200],
    ['7 1/2', 7.5],
    ['7-1/2', 7.5],
    ['15/16', 0.9375],
    ['½', 0.5],
    ['7½', 7.5],
    ['7 ½', 7.5],
    ['¼', 0.25],
    ['¾', 0.75],
    ['⅛', 0.125],
    ['⅜', 0.375],
    ['⅝', 0.625],
    ['⅞', 0.875],
    ['1⅞', 1.875],
  ])('takes %j', (text, value) => {
    expect(parseNumber(text)).toEqual({ ok: true, value });
  });

  it.each([
    ['1,200', 'ambiguous-number'],
    ['12,345', 'ambiguous-number'],
    ['120,000', 'ambiguous-number'],
    ['', 'not-a-number'],
    ['5.', 'not-a-number'],
    ['1.5.2', 'not-a-number'],
    ['12 34', 'not-a-number'],
    ['1200 300', 'not-a-number'],
    ['-5', 'not-a-number'],
    ['+5', 'not-a-number'],
    ['1e3', 'not-a-number'],
    ['x47', 'not-a-number'],
    ['47x', 'not-a-number'],
    ['1/0', 'not-a-number'],
    ['1/2/3', 'not-a-number'],
    ['x1/2', 'not-a-number'],
    ['7 1/2 x', 'not-a-number'],
    ['x½', 'not-a-number'],
    ['½5', 'not-a-number'],
  ])('refuses %j with %s', (text, code) => {
    expect(parseNumber(text)).toMatchObject({ ok: false, problem: { code, found: text } });
  });
});

describe('writing a number', () => {
  it('takes off the noise of binary arithmetic and nothing else', () => {
    expect(tidy(0.1 + 0.2)).toBe(0.3);
    expect(tidy(123456.789012)).toBe(123456.789012);
  });

  it.each([
    [14.100000000000001, '14.1'],
    [1200, '1200'],
    [1e-7, '0.0000001'],
    [1.2e-7, '0.00000012'],
    [0, '0'],
  ])('writes %d as %s', (value, text) => {
    expect(formatNumber(value)).toBe(text);
  });
});
