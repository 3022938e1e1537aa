import { formatNumber } from '../../torque/numbers.ts';
import { torqueUnits } from '../../torque/quantities.ts';
import { readAloud } from '../foreign-text.ts';
import type { Spoken } from '../lines.ts';
import type { UnitSymbol } from '../measure-units.ts';
import { unitSymbol } from '../measure-units.ts';
import { speakable } from '../written-text.ts';
import type { TextSpeech } from '../written-text.ts';
import { clockHour } from './durations.ts';
import { isConfusable, numbers } from './numbers.ts';
import { unitAfter } from './units.ts';

const bottoms: Readonly<Record<number, string>> = {
  2: 'demi',
  4: 'quart',
  8: 'huitième',
  16: 'seizième',
  32: 'trente-deuxième',
  64: 'soixante-quatrième',
};

/** "un demi", "trois quarts", "neuf seizièmes", "un et un huitième". */
export function fraction(whole: number, top: number, bottom: number): string {
  const name = bottoms[bottom] ?? '';
  const part = `${numbers.plain(top)} ${name}${top > 1 ? 's' : ''}`;
  if (whole === 0) return part;
  return `${numbers.plain(whole)} et ${bottom === 2 && top === 1 ? 'demi' : part}`;
}

function quantity(value: number, unit: UnitSymbol | null): string {
  if (unit === null) return numbers.plain(value);
  return `${isTorque(unit) ? numbers.critical(value) : numbers.plain(value)} ${unitAfter(value, unit)}`;
}

const isTorque = (unit: UnitSymbol) => torqueUnits.some((torque) => torque === unit);

const speech: TextSpeech = {
  decimalComma: true,
  quantity: (value, unit) => quantity(value, unit),
  range: (low, high, unit) =>
    `${numbers.plain(low)} à ${unit === null ? numbers.plain(high) : `${numbers.plain(high)} ${unitAfter(high, unit)}`}`,
  fraction: (whole, top, bottom, inches) => `${fraction(whole, top, bottom)}${inches ? ' de pouce' : ''}`,
  clock: (hour) => clockHour(hour).say,
  digits: numbers.digits,
  thread: (size) => `M ${isConfusable(size) ? numbers.digits(size) : numbers.word(size)}`,
  to: 'à',
  plusOrMinus: 'plus ou moins',
  minus: 'moins',
  plus: 'plus',
  before: [
    [/\bp\.\s?ex\./giu, 'par exemple'],
    [/\bc\.-?à-?d\./giu, "c'est-à-dire"],
    [/\betc\./giu, 'et cetera'],
    [/\benv\.(?=\s)|~\s?(?=\d)/giu, 'environ '],
    [/\bmax\.?(?=\s\d)/giu, 'au plus'],
    [/\bmin\.?(?=\s\d)/giu, 'au moins'],
    [/\b[Nn]°\s?(?=\d)|#\s?(?=\d)/gu, 'numéro '],
    [/≥\s?/gu, 'au moins '],
    [/≤\s?/gu, 'au plus '],
    [/>\s?(?=\d)/gu, 'plus de '],
    [/<\s?(?=\d)/gu, 'moins de '],
  ],
  after: [
    [/&/gu, ' et '],
    [/\+/gu, ' plus '],
    [/=/gu, ' égale '],
    [/\s?×\s?|\sx(?=\s)/gu, ' par '],
    [/(?<=\p{L})\/(?=\p{L})/gu, ' ou '],
    [/\s[–—-]\s|[–—→;]/gu, ', '],
    [/\s?\(\s?/gu, ', '],
    [/\s?\)/gu, ', '],
    [/["“”„«»*_`<>[\]{}|\\^~#@/]/gu, ' '],
    [/°/gu, ' degrés'],
    [/%/gu, ' pour cent'],
  ],
};

/** An author's text of this language in words. */
export const readText = (written: string): string => speakable(written, speech);

/** An author's text: as written on the screen, in words aloud. */
export function text(written: string): Spoken {
  return { say: readAloud(written, readText), show: written };
}

/** Words of this language that stand where an author's text could: the plan's own names. */
export function ownText(written: string): Spoken {
  return { say: readText(written), show: written };
}

/** A number on the screen, with the decimal comma. */
export function shownNumber(value: number): string {
  return formatNumber(value).replace('.', ',').replace('-', '−');
}

/** A value with a unit as a file writes it; units of the author's own are read as text. */
export function measured(value: number, unit: string, figures: (value: number) => string): Spoken {
  const symbol = unitSymbol(unit);
  return {
    say: `${figures(value)} ${symbol === null ? speakable(unit, speech) : unitAfter(value, symbol)}`,
    show: `${shownNumber(value)} ${unit}`,
  };
}
