import { torqueUnits } from '../../torque/quantities.ts';
import { readAloud } from '../foreign-text.ts';
import type { Spoken } from '../lines.ts';
import type { UnitSymbol } from '../measure-units.ts';
import { unitSymbol } from '../measure-units.ts';
import { speakable } from '../written-text.ts';
import type { TextSpeech } from '../written-text.ts';
import { clockHour } from './durations.ts';
import { isConfusable, numbers } from './numbers.ts';
import { unitAfter, unitAsDescription } from './units.ts';

/** After a measure these go on with the sentence; anything else is the thing that it describes ("ten millimetre bolts"). */
const notDescribed =
  /^(?:a|about|above|across|after|and|apart|are|as|at|away|because|before|behind|below|beyond|but|by|clear|deep|down|each|evenly|every|for|forward|from|high|if|in|inside|into|is|left|less|long|more|of|off|on|onto|or|out|outside|over|per|plus|past|round|so|than|that|the|then|thick|to|toward|towards|under|until|up|when|while|wide|with|within|without)(?:\s|$)/u;

const bottoms: Readonly<Record<number, string>> = {
  2: 'half',
  4: 'quarter',
  8: 'eighth',
  16: 'sixteenth',
  32: 'thirty-second',
  64: 'sixty-fourth',
};

/** "half", "three quarters", "nine sixteenths", "one and one eighth". */
export function fraction(whole: number, top: number, bottom: number): string {
  const name = bottoms[bottom] ?? '';
  const part = top === 1 ? name : `${numbers.plain(top)} ${bottom === 2 ? 'halves' : `${name}s`}`;
  if (whole === 0) return part;
  return `${numbers.plain(whole)} and ${top === 1 ? (bottom === 2 ? 'a half' : bottom === 4 ? 'a quarter' : `one ${part}`) : part}`;
}

/** "half inch", "three eighths inch", "three quarter inch" as the trade says them before a noun. */
export function inches(whole: number, top: number, bottom: number): string {
  return whole === 0 && bottom === 4 && top === 3 ? 'three quarter inch' : `${fraction(whole, top, bottom)} inch`;
}

function quantity(value: number, unit: UnitSymbol | null, next: string): string {
  if (unit === null) return numbers.plain(value);
  const figures = isTorque(unit) ? numbers.critical(value) : numbers.plain(value);
  return `${figures} ${named(value, unit, next)}`;
}

function named(value: number, unit: UnitSymbol, next: string): string {
  return next !== '' && (next === 'deep socket' || !notDescribed.test(next.toLowerCase()))
    ? unitAsDescription(unit)
    : unitAfter(value, unit);
}

const isTorque = (unit: UnitSymbol) => torqueUnits.some((torque) => torque === unit);

const speech: TextSpeech = {
  decimalComma: false,
  quantity,
  range: (low, high, unit, next) =>
    `${numbers.plain(low)} to ${unit === null ? numbers.plain(high) : `${numbers.plain(high)} ${named(high, unit, next)}`}`,
  fraction: (whole, top, bottom, written, next) =>
    written || next.startsWith('drive') ? inches(whole, top, bottom) : fraction(whole, top, bottom),
  clock: (hour) => clockHour(hour).say,
  digits: numbers.digits,
  thread: (size) => `M ${isConfusable(size) ? numbers.digits(size) : numbers.word(size)}`,
  to: 'to',
  plusOrMinus: 'plus or minus',
  minus: 'minus',
  plus: 'plus',
  before: [
    [/\be\.\s?g\.,?/giu, 'for example'],
    [/\bi\.\s?e\.,?/giu, 'that is'],
    [/\betc\.?/giu, 'and so on'],
    [/\bapprox\.?(?=\s|$)/giu, 'about'],
    [/\bmax\.?(?=\s\d)/giu, 'at most'],
    [/\bmin\.?(?=\s\d)/giu, 'at least'],
    [/\b(?:No|Nr)\.\s?(?=\d)|#\s?(?=\d)/gu, 'number '],
    [/\bw\/(?=\s)/giu, 'with'],
    [/~\s?(?=\d)/gu, 'about '],
    [/≥\s?/gu, 'at least '],
    [/≤\s?/gu, 'at most '],
    [/>\s?(?=\d)/gu, 'more than '],
    [/<\s?(?=\d)/gu, 'less than '],
  ],
  after: [
    [/&/gu, ' and '],
    [/\+/gu, ' plus '],
    [/=/gu, ' equals '],
    [/\s?×\s?|\sx(?=\s)/gu, ' by '],
    [/(?<=\p{L})\/(?=\p{L})/gu, ' or '],
    [/\s[–—-]\s|[–—→;]/gu, ', '],
    [/\s?\(\s?/gu, ', '],
    [/\s?\)/gu, ', '],
    [/(?<=\p{L})\s?-\s(?=\p{L})/gu, ' '],
    [/["“”„«»*_`<>[\]{}|\\^~#@/]/gu, ' '],
    [/°/gu, ' degrees'],
    [/%/gu, ' percent'],
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

/** A value with a unit as a file writes it; units of the author's own are read as text. */
export function measured(value: number, unit: string, figures: (value: number) => string): Spoken {
  const symbol = unitSymbol(unit);
  return {
    say: `${figures(value)} ${symbol === null ? speakable(unit, speech) : unitAfter(value, symbol)}`,
    show: `${value} ${unit}`,
  };
}
