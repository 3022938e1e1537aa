import { readQuantities, type QuantitySpan } from '../quantities.ts';
import { readNumber, tens, teens, unitWords } from '../number-words.ts';
import type { Token } from '../tokens.ts';
import { readTorqueUnit } from '../unit-words.ts';

/** Kinds that may hold what is told of fasteners. */
export const usable = new Set<string>(['torque', 'width', 'serration', 'thread', 'number', 'square', 'cross-head']);
/** More words make no number that anybody says of fasteners. */
const most = 5;
/** No fastener is turned by more millimetres (common practice). */
const longest = 100;

/**
 * Numbers that the grammar did not settle on and that may be meant: "two sixty eight" is 268, or 260 and 8, or two of 68. Which of them
 * holds is left to the net, which sees the talk around.
 */
export function otherReadings(tokens: readonly Token[], settled: readonly QuantitySpan[]): readonly QuantitySpan[] {
  const known = new Set(settled.filter(({ kind }) => usable.has(kind)).map(keyOf));
  const found: QuantitySpan[] = [];
  // "twenty-two" is one word and never 20 and 2.
  const cuts = (at: number) => at > 0 && at < tokens.length && tokens[at]?.word === tokens[at - 1]?.word;
  // "Four hundred and ten millimetres" is a length whatever part of it is read; what is short may be a size.
  const lengths = settled.filter((span) => span.kind === 'length' && span.millimetres > longest);
  const isOfLength = ({ from, to }: QuantitySpan) => lengths.some((span) => span.from <= from && span.to >= to);
  // Nobody who says "nought point seven" means seven.
  const isPoint = (at: number) => tokens[at]?.bare === 'point' && settled.some((span) => span.from < at && span.to > at);
  const isTorn = ({ from, to }: QuantitySpan) => cuts(from) || cuts(to) || isPoint(from - 1) || isPoint(to);
  const add = (span: QuantitySpan | null) => {
    if (span === null || isOfLength(span) || isTorn(span) || !usable.has(span.kind) || known.has(keyOf(span))) return;
    known.add(keyOf(span));
    found.push(span);
  };
  for (let from = 0; from < tokens.length;) {
    let to = from;
    while (to < tokens.length && isOfNumber(tokens, to)) {
      to++;
      if ((tokens[to - 1]?.mark ?? '') !== '') break;
    }
    if (to === from) {
      from++;
      continue;
    }
    // A number is read with the unit after it, and without.
    const unit = settled.find((span) => span.from < to && span.to > to)?.to ?? to;
    for (let start = from; start < to; start++) {
      for (let end = start + 1; end <= Math.min(to, start + most); end++) {
        if (to - from === 1 && unit === to) continue;
        add(readWhole(tokens, start, end));
        if (end === to && unit > to && unit <= to + 4) add(readWhole(tokens, start, unit));
        add(hundreds(tokens, start, end));
      }
    }
    // "two inch and an eighth": 2 1/8, or two of 1 1/8.
    for (let inch = to; inch < unit; inch++) if (tokens[inch]?.bare === 'inch') add(readWhole(tokens, inch, unit));
    from = to;
  }
  return found;
}

const keyOf = ({ from, to }: QuantitySpan) => `${from} ${to}`;

const words = new Set(['hundred', 'half', 'quarter', 'quarters', 'eighth', 'eighths', 'sixteenth', 'sixteenths', 'torx', 'star', 'dozen']);

function isOfNumber(tokens: readonly Token[], at: number): boolean {
  const word = tokens[at]?.bare ?? '';
  if (/^[a-z]?\d/.test(word) || word in unitWords || word in teens || word in tens || words.has(word)) return true;
  if (word === 'point') return isDigit(tokens[at - 1]) && isDigit(tokens[at + 1]);
  // "a hundred and ten"
  const next = tokens[at + 1]?.bare ?? '';
  if (word === 'a') return /^(?:hundred|dozen|half|quarter)$/.test(next);
  return (
    word === 'and' &&
    /^(?:hundred|half|quarters?|eighths?|sixteenths?)$/.test(tokens[at - 1]?.bare ?? '') &&
    readNumber(tokens, at + 1) !== null
  );
}

const isDigit = (token: Token | undefined) => token !== undefined && (token.bare in unitWords || /^\d+$/.test(token.bare));

/** The words as one quantity by themselves. */
function readWhole(tokens: readonly Token[], from: number, to: number): QuantitySpan | null {
  const own = tokens
    .slice(from, to)
    .map((token) => token.bare)
    .join(' ');
  if (/^(?:a half|half a|half) dozen$/.test(own)) return numberSpan(6, from, to);
  if (/^(?:a )?dozen$/.test(own))
    return tokens.slice(Math.max(0, from - 2), from).some(({ bare }) => bare === 'half') ? null : numberSpan(12, from, to);
  const read = readQuantities(tokens.slice(from, to));
  const [only] = read;
  return read.length === 1 && only?.from === 0 && only.to === to - from ? { ...only, from, to } : null;
}

const beforeOne =
  /^(?:this|that|each|every|other|another|next|last|which|big|little|long|short|top|bottom|front|back|rear|left|right|inner|outer|upper|lower|middle)$/;

/** "one ten" is 110, "two fifteen" 215, "one one five" 115: the grammar takes them for two numbers. */
function hundreds(tokens: readonly Token[], from: number, to: number): QuantitySpan | null {
  const first = unitWords[tokens[from]?.bare ?? ''] ?? 0;
  // "On this one twenty-six", "the big one, forty".
  if (first === 1 && beforeOne.test(tokens[from - 1]?.bare ?? '')) return null;
  if (first < 1 || to - from < 2 || to - from > 3) return null;
  const [second = '', third = ''] = tokens.slice(from + 1, to).map((token) => token.bare);
  const rest =
    third === ''
      ? (teens[second] ?? tens[second])
      : tens[second] !== undefined && (unitWords[third] ?? 0) > 0
        ? (tens[second] ?? 0) + (unitWords[third] ?? 0)
        : second in unitWords && third in unitWords
          ? (unitWords[second] ?? 0) * 10 + (unitWords[third] ?? 0)
          : undefined;
  if (rest === undefined) return null;
  const value = 100 * first + rest;
  const unit = (tokens[to - 1]?.mark ?? '') === '' ? readTorqueUnit(tokens, to) : null;
  return unit === null
    ? numberSpan(value, from, to)
    : { kind: 'torque', low: value, high: null, unit: unit.unit, plusMinus: null, from, to: to + unit.length };
}

const numberSpan = (value: number, from: number, to: number): QuantitySpan => ({
  kind: 'number',
  value,
  high: null,
  plural: false,
  digits: false,
  from,
  to,
});
