import { tableOf } from '../../torque/table.ts';

const figures: Readonly<Record<string, number>> = tableOf<number>({
  zero: 0,
  oh: 0,
  o: 0,
  nought: 0,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  niner: 9,
});
const teens: Readonly<Record<string, number>> = tableOf<number>({
  ten: 10,
  eleven: 11,
  twelve: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  seventeen: 17,
  eighteen: 18,
  nineteen: 19,
});
const tens: Readonly<Record<string, number>> = tableOf<number>({
  twenty: 20,
  thirty: 30,
  forty: 40,
  fifty: 50,
  sixty: 60,
  seventy: 70,
  eighty: 80,
  ninety: 90,
});
const pointWords = ['point', 'decimal', 'dot'];
const fractions: Readonly<Record<string, number>> = tableOf<number>({
  'a half': 0.5,
  'one half': 0.5,
  half: 0.5,
  'a quarter': 0.25,
  'one quarter': 0.25,
  quarter: 0.25,
  'three quarters': 0.75,
});

/** No measure in a workshop has more figures. */
const mostFigures = 9;

/**
 * Reads a number that was said: "four seven", "forty seven", "four seven point five", "point one two", "one hundred and four",
 * "twelve and a half", "minus five", figures as a recogniser writes them ("47.5", "4 7"), or the digits and then the word.
 * Null when it is none of these, or could be two things: "four fifty", "zero five".
 */
export function readNumber(words: readonly string[]): number | null {
  const [first, ...rest] = words;
  const isSigned = first === 'minus' || first === 'negative';
  const unsigned = isSigned ? rest.filter((word) => word !== first) : first?.startsWith('-') === true ? [first.slice(1), ...rest] : words;
  // A sign may be said again with the word, but belongs nowhere else.
  if (isSigned && unsigned.length < rest.length && readOnce(unsigned) !== null) return null;
  const value = readUnsigned(unsigned);
  return value === null || value === 0 || unsigned === words ? value : -value;
}

function readUnsigned(words: readonly string[]): number | null {
  return readOnce(words) ?? readTwice(words);
}

/** "four seven: forty-seven", the way that numbers are spoken to the person. */
function readTwice(words: readonly string[]): number | null {
  for (let split = 2; split < words.length; split++) {
    const apart = readOnce(words.slice(0, split));
    if (apart !== null && apart === readOnce(words.slice(split)) && isDigitString(words.slice(0, split))) return apart;
  }
  return null;
}

function readOnce(words: readonly string[]): number | null {
  if (words.length === 0) return null;
  const pointAt = words.findIndex((word) => pointWords.includes(word));
  if (pointAt >= 0)
    return joinDecimals(pointAt === 0 ? '0' : wholeFigures(words.slice(0, pointAt)), decimalFigures(words.slice(pointAt + 1)));
  const fraction = readFraction(words);
  if (fraction !== null) return fraction;
  const written = words.at(-1) ?? '';
  const decimal = /^(\d+)\.(\d+)$/u.exec(written.replace(/,(?=\d{3}(?:\D|$))/gu, ''));
  // "4 7.5" is four seven point five; "4 0.5" is not forty point five.
  if (decimal !== null && !(words.length > 1 && decimal[1] === '0')) {
    return joinDecimals(wholeFigures([...words.slice(0, -1), decimal[1] ?? '']), decimal[2] ?? null);
  }
  return joinDecimals(wholeFigures(words), '');
}

function joinDecimals(whole: string | null, decimals: string | null): number | null {
  if (whole === null || decimals === null || whole.length + decimals.length > mostFigures) return null;
  return Number(decimals === '' ? whole : `${whole}.${decimals}`);
}

function readFraction(words: readonly string[]): number | null {
  const text = words.join(' ');
  if (Object.hasOwn(fractions, text)) return fractions[text] ?? null;
  const parts = /^(.+) and (.+)$/u.exec(text);
  const part = parts?.[2] ?? '';
  if (!Object.hasOwn(fractions, part)) return null;
  const whole = wholeFigures((parts?.[1] ?? '').split(' '));
  return whole === null ? null : Number(whole) + (fractions[part] ?? 0);
}

/** The figures of a whole number, or null. */
function wholeFigures(words: readonly string[]): string | null {
  const [only] = words;
  if (words.length === 1 && only !== undefined && /^(?:\d+|\d{1,3}(?:,\d{3})+)$/u.test(only)) return unpadded(only.replaceAll(',', ''));
  const apart = figuresApart(words);
  if (apart !== null) return unpadded(apart);
  const value = wholeInWords(words);
  return value === null ? null : String(value);
}

/** A zero before other figures says that a point was not heard. */
function unpadded(text: string): string | null {
  return text.length > 1 && text.startsWith('0') ? null : text;
}

function decimalFigures(words: readonly string[]): string | null {
  const [only] = words;
  if (words.length === 1 && only !== undefined && /^\d+$/u.test(only)) return only;
  // "point twelve" for point one two.
  return figuresApart(words) ?? belowHundred(words)?.toString() ?? null;
}

function figuresApart(words: readonly string[]): string | null {
  const read = words.map((word) => (/^\d$/u.test(word) ? Number(word) : Object.hasOwn(figures, word) ? figures[word] : undefined));
  return read.length === 0 || read.includes(undefined) ? null : read.join('');
}

function isDigitString(words: readonly string[]): boolean {
  return figuresApart(words.filter((word) => !pointWords.includes(word))) !== null;
}

function belowHundred(words: readonly string[]): number | null {
  const [first = '', second, ...more] = words;
  if (more.length > 0) return null;
  if (second === undefined) return figures[first] ?? teens[first] ?? tens[first] ?? null;
  const [ten, figure] = [tens[first], figures[second]];
  return ten === undefined || figure === undefined || figure === 0 ? null : ten + figure;
}

function wholeInWords(words: readonly string[]): number | null {
  const thousand = words.indexOf('thousand');
  if (thousand >= 0) {
    const many = amountBefore(words.slice(0, thousand), belowThousand);
    const rest = restAfter(words.slice(thousand + 1), belowThousand);
    return many === null || rest === null ? null : many * 1000 + rest;
  }
  return belowThousand(words);
}

function belowThousand(words: readonly string[]): number | null {
  const hundred = words.indexOf('hundred');
  if (hundred < 0) return belowHundred(words);
  const many = amountBefore(words.slice(0, hundred), belowHundred);
  const rest = restAfter(words.slice(hundred + 1), belowHundred);
  return many === null || rest === null ? null : many * 100 + rest;
}

function amountBefore(words: readonly string[], read: (words: readonly string[]) => number | null): number | null {
  if (words.length === 1 && words[0] === 'a') return 1;
  const value = read(words);
  return value === 0 ? null : value;
}

function restAfter(words: readonly string[], read: (words: readonly string[]) => number | null): number | null {
  if (words.length === 0) return 0;
  const value = read(words[0] === 'and' ? words.slice(1) : words);
  return value === 0 ? null : value;
}
