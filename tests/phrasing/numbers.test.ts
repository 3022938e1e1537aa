import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { languages } from '../../src/phrasing/language.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { wordsOf } from '../../src/phrasing/words.ts';

const decimals = fc.integer({ min: -9_999_999, max: 9_999_999 }).map((whole) => whole / 1000);

describe.each(languages)('numbers in %s', (language) => {
  const { numbers, lexicon } = packFor(language);
  const read = (text: string) => numbers.read(wordsOf(text, lexicon.listening));
  const ways = ['digits', 'word', 'critical', 'plain'] as const;

  it.each(ways)('come back from 0 to 999 as %s', (way) => {
    for (let value = 0; value <= 999; value++) expect(read(numbers[way](value)), numbers[way](value)).toBe(value);
  });

  it.each(ways)('come back with decimals and signs as %s', (way) => {
    fc.assert(
      fc.property(decimals, (value) => {
        expect(read(numbers[way](value)), numbers[way](value)).toBe(value);
      }),
    );
  });

  it('come back as a recogniser writes them', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999 }), fc.integer({ min: 1, max: 99 }), (whole, hundredths) => {
        expect(read(String(whole))).toBe(whole);
        expect(read(`${whole}.${String(hundredths).padStart(2, '0')}`)).toBe(Number(`${whole}.${String(hundredths).padStart(2, '0')}`));
      }),
    );
  });

  it('sound different for different values', () => {
    const seen = new Map<string, number>();
    for (let value = 0; value <= 9999; value++) {
      for (const way of ['digits', 'word'] as const) {
        const text = numbers[way](value);
        expect(seen.get(text) ?? value, text).toBe(value);
        seen.set(text, value);
      }
    }
  });

  it('have no figures or hyphened nonsense in them', () => {
    fc.assert(
      fc.property(decimals, (value) => {
        for (const way of ways) expect(numbers[way](value)).toMatch(/^[\p{L}:,' -]+$/u);
      }),
    );
  });
});

describe('English numbers', () => {
  const { numbers, lexicon } = packFor('en');
  const read = (text: string) => numbers.read(wordsOf(text, lexicon.listening));

  it.each([
    [47, 'four seven: forty-seven'],
    [47.5, 'four seven point five: forty-seven point five'],
    [5, 'five'],
    [0.05, 'zero point zero five'],
    [104, 'one zero four: one hundred and four'],
    [1250, 'one two five zero: one thousand two hundred and fifty'],
    [1004, 'one zero zero four: one thousand and four'],
    [-15, 'minus one five: minus fifteen'],
    [2_000_000, 'two zero zero zero zero zero zero: two million'],
    [0, 'zero'],
    [100, 'one zero zero: one hundred'],
    [1100, 'one one zero zero: one thousand one hundred'],
    [1013, 'one zero one three: one thousand and thirteen'],
    [1_013_000, 'one zero one three zero zero zero: one million thirteen thousand'],
    [-0.5, 'minus zero point five'],
  ])('say %d as "%s" where someone acts on it', (value, spoken) => {
    expect(numbers.critical(value)).toBe(spoken);
  });

  it('have no word for what nobody measures, and are said figure by figure there', () => {
    expect(numbers.word(300_000_000_000_000)).toBe('three hundred trillion');
    expect(numbers.word(3_000_000_000_000_000)).toBe(numbers.digits(3_000_000_000_000_000));
  });

  it('never let a confusable one stand alone', () => {
    for (const teen of [13, 14, 15, 16, 17, 18, 19]) {
      for (const value of [teen, (teen - 10) * 10, 100 + teen, teen + 0.5, (teen - 10) * 10 + 0.5, teen * 1000]) {
        expect(numbers.plain(value)).toBe(`${numbers.digits(value)}, ${numbers.word(value)}`);
      }
    }
    for (const value of [0, 7, 10, 11, 12, 20, 21, 47, 99, 120]) expect(numbers.plain(value)).toBe(numbers.word(value));
  });

  it.each([
    ['four seven', 47],
    ['forty seven', 47],
    ['forty-seven', 47],
    ['four seven point five', 47.5],
    ['zero point one two', 0.12],
    ['point one two', 0.12],
    ['oh point oh five', 0.05],
    ['zero point twelve', 0.12],
    ['one hundred and four', 104],
    ['a hundred and four', 104],
    ['one hundred four', 104],
    ['twelve hundred', 1200],
    ['one thousand two hundred and fifty', 1250],
    ['twelve and a half', 12.5],
    ['twelve and three quarters', 12.75],
    ['a half', 0.5],
    ['minus five', -5],
    ['-5', -5],
    ['47,', 47],
    ['1,250', 1250],
    ['4 7', 47],
    ['4 7.5', 47.5],
    ['47 point 5', 47.5],
    ['47 and a half', 47.5],
    ['.5', 0.5],
    ['four seven: forty-seven', 47],
    ['one five, fifteen', 15],
    ['minus four seven, minus forty-seven', -47],
    ['negative five', -5],
    ['minus zero', 0],
    ['four seven point five: forty-seven point five', 47.5],
    ['4 7 47', 47],
    ['seven and a quarter', 7.25],
    ['quarter', 0.25],
    ['a thousand', 1000],
    ['two thousand and five', 2005],
    ['twenty one thousand three hundred', 21300],
    ['one point forty two', 1.42],
    ['nought point five', 0.5],
    ['four dot five', 4.5],
    ['four decimal five', 4.5],
    ['12,345,678', 12_345_678],
    ['1 2 3 4 5 6 7 8 9', 123_456_789],
    ['1.23456789', 1.23456789],
  ])('are read from "%s"', (text, value) => {
    expect(read(text)).toBe(value);
  });

  it.each([
    'four fifty',
    'forty fifty',
    'zero five',
    'point',
    'forty zero',
    'hundred',
    'seven hundred hundred',
    'one point two point three',
    'four seven forty eight',
    'minus',
    '',
    'and',
    'seven and',
    'one thousand thousand',
    '4..5',
    'minus minus five',
    'five minus',
    'four forty seven',
    '47 47',
    '4 0.5',
    '00.5',
    '007',
    '1,25',
    'seven and a bit',
    'and a half',
    'two thousand zero',
    'zero thousand',
    'zero hundred',
    'two hundred and',
    'five hundred and zero',
    'one point',
    'one point one hundred',
    'forty seven eight',
    'ten one',
    // More figures than anything in a workshop has.
    '1 2 3 4 5 6 7 8 9 0',
    '123456789.1',
  ])('are not guessed from "%s"', (text) => {
    expect(read(text)).toBeNull();
  });
});
