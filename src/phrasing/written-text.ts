import { plainUnits, unitSymbol } from './measure-units.ts';
import type { UnitSymbol } from './measure-units.ts';

/** How one language says what stands in written text: figures, units, threads, signs. */
export interface TextSpeech {
  /** A comma before decimals; otherwise a comma before three figures parts the thousands. */
  readonly decimalComma: boolean;
  /** A figure with its unit, or without one. `next` is the word or two after it, '' where there is none. */
  readonly quantity: (value: number, unit: UnitSymbol | null, next: string) => string;
  readonly range: (low: number, high: number, unit: UnitSymbol | null, next: string) => string;
  /** A fraction, with inches where they were written. */
  readonly fraction: (whole: number, top: number, bottom: number, inches: boolean, next: string) => string;
  /** Hours on a clock face, from 0.5 to 12 in halves. */
  readonly clock: (hour: number) => string;
  /** Figures one after the other: "one five". */
  readonly digits: (value: number) => string;
  /** A thread's nominal size. Its pitch is not spoken. */
  readonly thread: (size: number) => string;
  readonly to: string;
  readonly plusOrMinus: string;
  readonly minus: string;
  readonly plus: string;
  /** Abbreviations and signs, in the order to replace them; after figures are words. */
  readonly before: readonly (readonly [RegExp, string])[];
  readonly after: readonly (readonly [RegExp, string])[];
}

const shortSpellings = ['μm', 'um', '"', '″', 'mm2', 'L', 'lbs', 'r/min', 'tr/min', 'sec', 'hr', 'hrs', 'mins', 'kph', '° C', '° F'];
const torqueSpellings = String.raw`(?:daN|N)[·∙⋅.\s]?m|lb[fs]?[·∙⋅.\s/-]?(?:ft|in)|(?:ft|in)[·∙⋅.\s/-]?lb[fs]?|kgf?[·∙⋅.\s]?c?m|ozf?[·∙⋅.\s-]?in`;
const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/gu, String.raw`\$&`);
// "5 in" is five inches only where nothing follows that it could belong to: "fit 2 in the holes".
const unitPattern = `(?:${torqueSpellings}|${[...plainUnits, ...shortSpellings]
  .filter((unit) => unit !== 'in')
  .sort((a, b) => b.length - a.length)
  .map(escaped)
  .join('|')}|in(?=[.,;:)]|\\s*$|\\s(?:drive|socket|bit)))(?![\\p{L}\\d])`;
const figure = String.raw`(?:\d{1,3}(?:[\u00a0\u2009\u202f]\d{3})+(?:[.,]\d+)?|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:[.,]\d+)?)`;
const vulgar: Readonly<Record<string, readonly [number, number]>> = {
  '¼': [1, 4],
  '½': [1, 2],
  '¾': [3, 4],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
};
const free = String.raw`(?<![\p{L}\d.,/])`;

const pattern = new RegExp(
  [
    String.raw`(?<![\p{L}\d])M(?<thread>\d+(?:[.,]\d+)?)(?:\s?[x×]\s?\d+(?:[.,]\d+)?){0,2}(?![\p{L}\d])`,
    String.raw`${free}(?:(?<whole>\d+)[ -])?(?<top>\d+)/(?<bottom>2|4|8|16|32|64)(?![\d/])(?:[ -]?(?<inches>(?:in|inch)(?!\p{L})|"|″))?`,
    String.raw`(?:${free}(?<vulgarWhole>\d+)\s?)?(?<vulgar>[¼½¾⅛⅜⅝⅞])(?:[ -]?(?<vulgarInches>(?:in|inch)(?!\p{L})|"|″))?`,
    String.raw`${free}(?<hour>1[0-2]|0?[1-9]):(?<minute>00|30)(?!\d)(?:\s?o'clock)?`,
    String.raw`${free}(?<low>${figure})\s?(?<lowUnit>${unitPattern})?(?:\s?[–—-]\s?|\sto\s|\sà\s)(?<high>${figure})(?:[\s-]?(?<highUnit>${unitPattern}))?(?![\p{L}\d])`,
    String.raw`(?<![\p{L}\d.,/])(?<sign>[-−+])?(?<value>${figure})(?:[\s\u00a0\u202f-]?(?<unit>${unitPattern}))?(?![\d])`,
    String.raw`(?<![\p{L}\d])(?<letters>\p{Lu}{1,4})-?(?<number>\d{1,4})(?![\p{L}\d])`,
    String.raw`(?<tolerance>±|\+\s?/\s?[-−])\s?`,
  ].join('|'),
  'gu',
);

/** Makes an author's text speakable: "Fit the 10 mm bolts (M10) at 47 N·m" and its like. What is words already stays as it is. */
export function speakable(text: string, speech: TextSpeech): string {
  const opened = speech.before.reduce((sofar, [found, words]) => sofar.replace(found, words), text);
  const worded = opened.replace(pattern, (...found) => {
    const groups = found.at(-1) as Readonly<Record<string, string | undefined>>;
    const [match, whole] = [found[0], String(found.at(-2))];
    const rest = whole.slice(Number(found.at(-3)) + match.length);
    const next = /^[\s\u00a0-]+(\p{L}[\p{L}'-]*(?:\s\p{L}+)?)/u.exec(rest)?.[1] ?? '';
    const glue = /^\p{L}/u.test(rest) ? ' ' : '';
    return spokenMatch(groups, next, speech, match) + glue;
  });
  return (
    speech.after
      .reduce((sofar, [found, words]) => sofar.replace(found, words), worded)
      // Figures that belong to nothing known, one by one.
      .replace(/\d/gu, (left) => ` ${speech.digits(Number(left))} `)
      .replace(/\s+/gu, ' ')
      .replace(/ (?=[,.;?!])/gu, '')
      .replace(/,(?:\s*,)+/gu, ',')
      .replace(/,(?=\s*[.;:?!])/gu, '')
      .trim()
  );
}

function spokenMatch(groups: Readonly<Record<string, string | undefined>>, next: string, speech: TextSpeech, match: string): string {
  const number = (text: string | undefined) => writtenNumber(text ?? '', speech.decimalComma);
  if (groups['thread'] !== undefined) return speech.thread(number(groups['thread']));
  if (groups['top'] !== undefined) {
    return speech.fraction(
      Number(groups['whole'] ?? 0),
      Number(groups['top']),
      Number(groups['bottom']),
      groups['inches'] !== undefined,
      next,
    );
  }
  if (groups['vulgar'] !== undefined) {
    const [top, bottom] = vulgar[groups['vulgar']] ?? [0, 1];
    return speech.fraction(Number(groups['vulgarWhole'] ?? 0), top, bottom, groups['vulgarInches'] !== undefined, next);
  }
  if (groups['hour'] !== undefined) {
    const hour = Number(groups['hour']) + (groups['minute'] === '30' ? 0.5 : 0);
    return speech.clock(hour > 12 ? hour - 12 : hour);
  }
  if (groups['low'] !== undefined) {
    const [lowUnit, highUnit] = [unitSymbol(groups['lowUnit'] ?? ''), unitSymbol(groups['highUnit'] ?? '')];
    const [low, high] = [number(groups['low']), number(groups['high'])];
    if (lowUnit === null || highUnit === null || lowUnit === highUnit) return speech.range(low, high, highUnit ?? lowUnit, next);
    return `${speech.quantity(low, lowUnit, speech.to)} ${speech.to} ${speech.quantity(high, highUnit, next)}`;
  }
  if (groups['letters'] !== undefined) return `${groups['letters'].split('').join(' ')} ${speech.digits(Number(groups['number']))}`;
  if (groups['tolerance'] !== undefined) return `${speech.plusOrMinus} `;
  if (groups['value'] === undefined) return match;
  const sign = groups['sign'] === undefined ? '' : groups['sign'] === '+' ? `${speech.plus} ` : `${speech.minus} `;
  return sign + speech.quantity(number(groups['value']), unitSymbol(groups['unit'] ?? ''), next);
}

function writtenNumber(text: string, decimalComma: boolean): number {
  const plain = text.replace(/[\u00a0\u2009\u202f]/gu, '');
  if (!decimalComma && /^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/u.test(plain)) return Number(plain.replaceAll(',', ''));
  return Number(plain.replace(',', '.'));
}
