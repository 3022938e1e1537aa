import { tableOf } from '../../torque/table.ts';

const figures: Readonly<Record<string, number>> = tableOf<number>({
  zéro: 0,
  zero: 0,
  un: 1,
  une: 1,
  deux: 2,
  trois: 3,
  quatre: 4,
  cinq: 5,
  six: 6,
  sept: 7,
  huit: 8,
  neuf: 9,
});
const teens: Readonly<Record<string, number>> = tableOf<number>({
  dix: 10,
  onze: 11,
  douze: 12,
  treize: 13,
  quatorze: 14,
  quinze: 15,
  seize: 16,
});
const tens: Readonly<Record<string, number>> = tableOf<number>({
  vingt: 20,
  trente: 30,
  quarante: 40,
  cinquante: 50,
  soixante: 60,
  septante: 70,
  huitante: 80,
  octante: 80,
  nonante: 90,
});
const fractions: Readonly<Record<string, number>> = tableOf<number>({
  demi: 0.5,
  demie: 0.5,
  quart: 0.25,
  'un demi': 0.5,
  'un quart': 0.25,
  'trois quarts': 0.75,
});
const pointWords = ['virgule', 'point'];

/** No measure in a workshop has more figures. */
const mostFigures = 9;

/**
 * Reads a number that was said: "quatre sept", "quarante-sept", "quatre sept virgule cinq", "zéro virgule un deux", "cent quatre",
 * "douze et demi", "moins cinq", figures as a recogniser writes them ("47,5", "4 7"), or the digits and then the word.
 * Null when it is none of these, or could be two things: "quatre cinquante", "zéro cinq".
 */
export function readNumber(words: readonly string[]): number | null {
  const [first, ...rest] = words;
  const isSigned = first === 'moins';
  const unsigned = isSigned ? rest.filter((word) => word !== first) : first?.startsWith('-') === true ? [first.slice(1), ...rest] : words;
  // A sign may be said again with the word, but belongs nowhere else.
  if (isSigned && unsigned.length < rest.length && readOnce(unsigned) !== null) return null;
  const value = readOnce(unsigned) ?? readTwice(unsigned);
  return value === null || value === 0 || unsigned === words ? value : -value;
}

/** "quatre sept : quarante-sept", the way that numbers are spoken to the person. */
function readTwice(words: readonly string[]): number | null {
  for (let split = 2; split < words.length; split++) {
    const apart = words.slice(0, split);
    const value = figuresApart(apart.filter((word) => !pointWords.includes(word))) === null ? null : readOnce(apart);
    if (value !== null && value === readOnce(words.slice(split))) return value;
  }
  return null;
}

function readOnce(words: readonly string[]): number | null {
  if (words.length === 0) return null;
  const pointAt = words.findIndex((word) => pointWords.includes(word));
  if (pointAt >= 0) return joinDecimals(wholeFigures(words.slice(0, pointAt)), decimalFigures(words.slice(pointAt + 1)));
  const fraction = readFraction(words);
  if (fraction !== null) return fraction;
  const decimal = /^(\d+)[.,](\d+)$/u.exec(words.at(-1) ?? '');
  // "4 7,5" is four seven point five; "4 0,5" is not forty point five.
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
  const parts = /^(.+) et (?:un )?(demi|demie|quart)$|^(.+) (?:et )?(trois quarts)$/u.exec(text);
  const whole = parts === null ? null : wholeFigures((parts[1] ?? parts[3] ?? '').split(' '));
  return whole === null ? null : Number(whole) + (fractions[parts?.[2] ?? parts?.[4] ?? ''] ?? 0);
}

/** The figures of a whole number, or null. */
function wholeFigures(words: readonly string[]): string | null {
  const [only] = words;
  if (words.length === 1 && only !== undefined && /^\d+$/u.test(only)) return unpadded(only);
  // "1 250" with its thousands apart.
  if (words.length > 1 && /^\d{1,3}$/u.test(only ?? '') && words.slice(1).every((word) => /^\d{3}$/u.test(word)))
    return unpadded(words.join(''));
  const apart = figuresApart(words);
  if (apart !== null) return unpadded(apart);
  const value = wholeInWords(words);
  return value === null ? null : String(value);
}

/** A zero before other figures says that a comma was not heard. */
function unpadded(text: string): string | null {
  return text.length > 1 && text.startsWith('0') ? null : text;
}

function decimalFigures(words: readonly string[]): string | null {
  const [only] = words;
  if (words.length === 1 && only !== undefined && /^\d+$/u.test(only)) return only;
  // "virgule douze" for one two.
  return figuresApart(words) ?? belowHundred(words)?.toString() ?? null;
}

function figuresApart(words: readonly string[]): string | null {
  const read = words.map((word) => (/^\d$/u.test(word) ? Number(word) : Object.hasOwn(figures, word) ? figures[word] : undefined));
  return read.length === 0 || read.includes(undefined) ? null : read.join('');
}

function wholeInWords(words: readonly string[]): number | null {
  const million = words.findIndex((word) => word === 'million' || word === 'millions');
  if (million > 0) {
    const many = belowMillion(words.slice(0, million));
    const rest = restAfter(words.slice(million + 1), belowMillion);
    return many === null || rest === null ? null : many * 1_000_000 + rest;
  }
  return belowMillion(words);
}

function belowMillion(words: readonly string[]): number | null {
  const thousand = words.indexOf('mille');
  if (thousand < 0) return belowThousand(words);
  const many = thousand === 0 ? 1 : belowThousand(words.slice(0, thousand));
  const rest = restAfter(words.slice(thousand + 1), belowThousand);
  return many === null || rest === null || many === 0 ? null : many * 1000 + rest;
}

function belowThousand(words: readonly string[]): number | null {
  const hundred = words.findIndex((word) => word === 'cent' || word === 'cents');
  if (hundred < 0) return belowHundred(words);
  const many = hundred === 0 ? 1 : hundred === 1 ? (figures[words[0] ?? ''] ?? null) : null;
  const rest = restAfter(words.slice(hundred + 1), belowHundred);
  return many === null || many === 0 || rest === null ? null : many * 100 + rest;
}

/** Nothing more, or more than nothing: "cent zéro" may be the beginning of anything. */
function restAfter(words: readonly string[], read: (words: readonly string[]) => number | null): number | null {
  if (words.length === 0) return 0;
  const value = read(words);
  return value === 0 ? null : value;
}

function belowHundred(words: readonly string[]): number | null {
  const [first = '', second = ''] = words;
  if (first === 'quatre' && /^vingts?$/u.test(second)) return afterTens(80, words.slice(2), 19, false);
  const ten = tens[first];
  if (ten !== undefined) return afterTens(ten, words.slice(1), ten === 60 ? 19 : 9, true);
  return belowTwenty(words);
}

/** What follows the tens: nothing, "deux", "douze" after sixty and eighty, "et un", "et onze". */
function afterTens(ten: number, words: readonly string[], most: number, joined: boolean): number | null {
  if (words.length === 0) return ten;
  const rest = belowTwenty(words[0] === 'et' && joined ? words.slice(1) : words);
  if (rest === null || rest === 0 || rest > most) return null;
  return words[0] === 'et' && rest !== 1 && rest !== 11 ? null : ten + rest;
}

function belowTwenty(words: readonly string[]): number | null {
  const [first = '', second, ...more] = words;
  if (more.length > 0) return null;
  if (second === undefined) return figures[first] ?? teens[first] ?? null;
  const figure = figures[second] ?? 0;
  return first === 'dix' && figure >= 7 ? 10 + figure : null;
}
