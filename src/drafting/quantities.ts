import { tidy } from '../torque/numbers.ts';
import type { TorqueUnit } from '../torque/quantities.ts';
import { readDesignator } from './designators.ts';
import { fastenerHead } from './fastener-words.ts';
import { readFraction, readNumber, teens, unitWords, type SaidNumber } from './number-words.ts';
import { bare, marked, phrase } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { readTurn, turnWords } from './turns.ts';
import { inches, millimetres, oneOf, others, pounds, readTorqueUnit, timeUnits } from './unit-words.ts';

/** Something measured or numbered in running speech. What a bare number means is left to who knows the sentence. */
export type Quantity =
  | {
      readonly kind: 'torque';
      readonly low: number;
      readonly high: number | null;
      /** Null where only "pounds" was said, which leaves open of what. */
      readonly unit: TorqueUnit | null;
      readonly plusMinus: { readonly amount: number; readonly percent: boolean } | null;
    }
  | { readonly kind: 'width'; readonly unit: 'mm' | 'in'; readonly value: number; readonly written: string; readonly high: number | null }
  | { readonly kind: 'square'; readonly size: string }
  | { readonly kind: 'length'; readonly millimetres: number; readonly of: 'extension' | 'other' }
  | { readonly kind: 'serration'; readonly text: string; readonly plural: boolean }
  | { readonly kind: 'cross-head'; readonly number: string | null }
  | { readonly kind: 'thread'; readonly text: string; readonly plural: boolean }
  | { readonly kind: 'angle'; readonly degrees: number; readonly further: boolean }
  | { readonly kind: 'time'; readonly seconds: number; readonly text: string }
  | { readonly kind: 'distance'; readonly value: number; readonly unit: 'km' | 'mi' }
  | { readonly kind: 'other'; readonly what: string; readonly value: number }
  | { readonly kind: 'number'; readonly value: number; readonly high: number | null; readonly plural: boolean; readonly digits: boolean };

export type QuantitySpan = Quantity & {
  /** Index of the first token, and of the one after the last. */
  readonly from: number;
  readonly to: number;
};

const squareSizes: ReadonlyMap<number, string> = new Map([
  [0.25, '1/4'],
  [0.375, '3/8'],
  [0.5, '1/2'],
  [0.75, '3/4'],
  [1, '1'],
]);
const drivers = oneOf('drive ratchet impact gun breaker torque air electric bar power rattle buzz rattler zip square');
const squareBefore = oneOf(
  'drive ratchet impact gun breaker bar torque air electric power rattle cordless extension swivel wobble universal adapter adaptor',
);
const lengthAfter = oneOf(
  'across long longer length deep thick gap out away clearance above below apart off short shorter bead pin pins pipe pipes hose hoses rod rods plate plates drill drift hole holes tube shim spacer high wide tall down play movement travel diameter round of from past proud',
);

/** "the top two are a hundred and ten long, and the rest are sixty": how long they are, and no torque. */
function withLengths(tokens: readonly Token[], spans: readonly QuantitySpan[]): readonly QuantitySpan[] {
  let afterLength = false;
  return spans.map((span) => {
    if (span.kind !== 'number' || span.high !== null || span.plural) return span;
    const isLong = bare(tokens, span.to) === 'long' && !marked(tokens, span.to - 1);
    const open = !marked(tokens, span.to) && /^(?:[a-z]+)$/.test(bare(tokens, span.to + 1));
    const ownLength = isLong && span.value > 24 && (!open || /^(?:and|but|so|the|they|with)$/.test(bare(tokens, span.to + 1)));
    const others = afterLength && /^(?:rest|others|other ones|short ones) (?:are|'re|is)$/.test(phrase(tokens, span.from - 2, 2));
    if (!ownLength && !others) return span;
    afterLength = true;
    return { kind: 'length', millimetres: span.value, of: 'other', from: span.from, to: span.to + (ownLength ? 1 : 0) };
  });
}

/** All quantities of a sentence, in order, none overlapping. */
export function readQuantities(tokens: readonly Token[]): readonly QuantitySpan[] {
  const spans: QuantitySpan[] = [];
  for (let at = 0; at < tokens.length;) {
    // "six bolts, one at a time": how, not how many.
    if (/^(?:one|two) at a time\b/.test(phrase(tokens, at, 4))) {
      at += 4;
      continue;
    }
    const found = readCountedAloud(tokens, at) ?? readHundredAnd(tokens, at) ?? readHundredTeens(tokens, at) ?? readQuantity(tokens, at);
    if (found === null) at++;
    else {
      spans.push(found);
      at = found.to;
    }
  }
  return withLengths(tokens, spans);
}

/** "that one's one eighteen": a hundred and eighteen, where it is said of something named before. */
function readHundredAnd(tokens: readonly Token[], at: number): QuantitySpan | null {
  if (bare(tokens, at) !== 'one' || marked(tokens, at) || !/^(?:'s|are|'re|gets?|go|goes|is)$/.test(bare(tokens, at - 1))) return null;
  if (!/^(?:one|ones|they|those|these|that|it|them)$/.test(bare(tokens, at - 2))) return null;
  const rest = readNumber(tokens, at + 1);
  if (rest === null || rest.plural || rest.digits || rest.value < 10 || rest.value > 99 || !Number.isInteger(rest.value)) return null;
  const to = at + 1 + rest.length;
  // "that's one thirteen, twenty": one of 13, at 20.
  if (rest.value < 25 && readNumber(tokens, to) !== null) return null;
  if (millimetres.has(bare(tokens, to)) || inches.has(bare(tokens, to))) return null;
  const unit = readTorqueUnit(tokens, to);
  const value = 100 + rest.value;
  return unit === null
    ? { kind: 'number', value, high: null, plural: false, digits: false, from: at, to }
    : { kind: 'torque', low: value, high: null, unit: unit.unit, plusMinus: null, from: at, to: to + unit.length };
}

/** After "is" it may be one of 15. */
const saysValue = oneOf("at to get gets say says are 're go goes make want wants call do take takes about with spec torque");

/** "the card says one fifteen", "K4, one fifteen.", "two ten foot-pounds": hundreds that nobody calls so. One of 15 would be followed by more. */
function readHundredTeens(tokens: readonly Token[], at: number): QuantitySpan | null {
  const hundreds = unitWords[bare(tokens, at)] ?? 0;
  if (hundreds < 1 || hundreds > 4 || marked(tokens, at) || teens[bare(tokens, at + 1)] === undefined) return null;
  const rest = readNumber(tokens, at + 1);
  if (rest === null || rest.length !== 1 || rest.plural) return null;
  const value = hundreds * 100 + rest.value;
  const to = at + 2;
  const unit = marked(tokens, to - 1) ? null : readTorqueUnit(tokens, to);
  if (unit !== null) return torqueSpan(tokens, at, to + unit.length, value, null, unit.unit);
  const closes = to >= tokens.length || marked(tokens, to - 1) || /^(?:and|so|then|but|on|for)$/.test(bare(tokens, to));
  const opens = at === 0 || marked(tokens, at - 1);
  if (
    !closes ||
    readNumber(tokens, to) !== null ||
    !(saysValue.has(bare(tokens, at - 1)) || (opens && hundreds === 1 && at + 2 >= tokens.length))
  )
    return null;
  return { kind: 'number', value, high: null, plural: false, digits: false, from: at, to };
}

/** "one two three four": as many as the last. */
function readCountedAloud(tokens: readonly Token[], at: number): QuantitySpan | null {
  if (!/^(?:one|1)$/.test(bare(tokens, at))) return null;
  let value = 0;
  let to = at;
  for (let next = at; ;) {
    const number = readNumber(tokens, next);
    if (number === null || number.length !== 1 || number.value !== value + 1 || number.plural) break;
    value = number.value;
    next++;
    to = next;
  }
  return value >= 3 ? { kind: 'number', value, high: null, plural: false, digits: false, from: at, to } : null;
}

function readQuantity(tokens: readonly Token[], at: number): QuantitySpan | null {
  return (
    readDesignator(tokens, at) ?? readPair(tokens, at) ?? readTurn(tokens, at) ?? readInchAndPart(tokens, at) ?? readMeasured(tokens, at)
  );
}

/** "five eighths, a pair of them": two. */
const readPair = (tokens: readonly Token[], at: number): QuantitySpan | null =>
  /^a pair of (?:them|those|these)$/.test(phrase(tokens, at, 4))
    ? { kind: 'number', value: 2, high: null, plural: false, digits: false, from: at, to: at + 2 }
    : null;

/** "an inch and an eighth", "inch and a quarter", "an inch", "half an inch", "three quarters of an inch". */
function readInchAndPart(tokens: readonly Token[], at: number): QuantitySpan | null {
  const share = readFraction(tokens, at);
  if (share !== null && share.value < 1) {
    const of = at + share.length + (bare(tokens, at + share.length) === 'of' ? 1 : 0);
    const isInch = /^(?:an|a)$/.test(bare(tokens, of)) && bare(tokens, of + 1) === 'inch' && !pounds.has(bare(tokens, of + 2));
    if (isInch && !marked(tokens, of - 1)) return inchSpan(tokens, at, of + 2, share.value, share.fraction ?? String(share.value), null);
  }
  const skip = /^(?:a|an|one|1)$/.test(bare(tokens, at)) ? 1 : 0;
  if (bare(tokens, at + skip) !== 'inch') return null;
  const next = at + skip + 1;
  const part = bare(tokens, next) === 'and' && !marked(tokens, next - 1) ? readFraction(tokens, next + 1) : null;
  if (part !== null && part.value < 1)
    return inchSpan(tokens, at, next + 1 + part.length, 1 + part.value, `1 ${part.fraction ?? ''}`, null);
  return skip === 1 && !pounds.has(bare(tokens, next)) ? inchSpan(tokens, at, next, 1, '1', null) : null;
}

/** A number with its unit, or a bare number. */
function readMeasured(tokens: readonly Token[], at: number): QuantitySpan | null {
  const number = readNumber(tokens, at);
  if (number === null) return null;
  // "you can't see the last one | twenty newton metres"
  const pronoun = number.length > 1 && bare(tokens, at) === 'one' && !/^(?:hundred|thousand)$/.test(bare(tokens, at + 1));
  if (
    pronoun &&
    /^(?:last|first|other|big|little|long|short|top|bottom|front|back|rear|left|right|middle|that|this|each|every)$/.test(
      bare(tokens, at - 1),
    )
  )
    return { kind: 'number', value: 1, high: null, plural: false, digits: false, from: at, to: at + 1 };
  const ranged = readRange(tokens, at, number);
  return (
    (ranged === null ? null : unitAfter(tokens, at, ranged.to, number, ranged.high)) ??
    unitAfter(tokens, at, at + number.length, number, null) ??
    bareNumber(tokens, at, number, ranged)
  );
}

function readRange(tokens: readonly Token[], at: number, low: SaidNumber): { readonly to: number; readonly high: number } | null {
  const joint = at + low.length;
  const word = bare(tokens, joint);
  const between = word === 'and' && (bare(tokens, at - 1) === 'between' || bare(tokens, at - 1) === 'from');
  if (marked(tokens, joint - 1) || !(word === 'to' || word === 'or' || word === 'through' || between) || low.plural) return null;
  const high = readNumber(tokens, joint + 1);
  return high === null || high.plural || high.value <= low.value || high.value > low.value * 2
    ? null
    : { to: joint + 1 + high.length, high: high.value };
}

function unitAfter(tokens: readonly Token[], at: number, next: number, number: SaidNumber, high: number | null): QuantitySpan | null {
  if (number.plural || (marked(tokens, next - 1) && !/^[-—]?$/.test(tokens[next - 1]?.mark ?? ''))) return null;
  const word = bare(tokens, next);
  const torque = readTorqueUnit(tokens, next);
  if (torque !== null) return torqueSpan(tokens, at, next + torque.length, number.value, high, torque.unit);
  if (millimetres.has(word)) {
    if (isJoinedByDigits(number)) return null;
    return widthSpan(tokens, at, next + 1, number, high);
  }
  // "down about two inches": no socket's width is said so.
  if (word === 'inches' && number.fraction === null && number.value > 1)
    return {
      kind: 'length',
      millimetres: tidy((high ?? number.value) * 25.4),
      of: bare(tokens, next + 1) === 'of' ? 'extension' : 'other',
      from: at,
      to: next + 1,
    };
  if (word === 'inch' || word === 'inches') {
    const part =
      bare(tokens, next + 1) === 'and' && word === 'inch' && Number.isInteger(number.value) ? readFraction(tokens, next + 2) : null;
    const value = number.value + (part?.value ?? 0);
    const written = part === null ? (number.fraction ?? String(number.value)) : `${number.value} ${part.fraction ?? ''}`;
    return inchSpan(tokens, at, next + 1 + (part === null ? 0 : 1 + part.length), value, written, high);
  }
  if (
    word === 'in' &&
    number.fraction !== null &&
    (drivers.has(bare(tokens, next + 1)) || /^(?:socket|head|wrench|bolt|nut|extension)$/.test(bare(tokens, next + 1)))
  )
    return inchSpan(tokens, at, next + 1, number.value, number.fraction, high);
  const seconds = timeUnits[word];
  if (seconds !== undefined)
    return { kind: 'time', seconds: Math.round(number.value * seconds), text: `${number.value} ${word}`, from: at, to: next + 1 };
  if (/^(?:days?|weeks?)$/.test(word))
    return {
      kind: 'time',
      seconds: number.value * (word.startsWith('day') ? 86_400 : 604_800),
      text: `${number.value} ${word}`,
      from: at,
      to: next + 1,
    };
  if (/^(?:miles?|mi)$/.test(word)) return { kind: 'distance', value: number.value, unit: 'mi', from: at, to: next + 1 };
  if (/^(?:kilomet(?:re|er)s?|km|kms|k|kays)$/.test(word))
    return { kind: 'distance', value: number.value, unit: 'km', from: at, to: next + 1 };
  if (turnWords.has(word)) return { kind: 'other', what: 'turns', value: number.value, from: at, to: next + 1 };
  if (/^(?:feet|foot)$/.test(word) && bare(tokens, next + 1) === 'of' && /^extensions?$/.test(bare(tokens, next + 2)))
    return { kind: 'length', millimetres: Math.round(number.value * 304.8), of: 'extension', from: at, to: next + 3 };
  const other = others[word];
  // "it sits on four feet, and each foot has two"
  if (word === 'feet' && /^(?:on|got|has|with|the|have)$/.test(bare(tokens, at - 1)) && !lengthAfter.has(bare(tokens, next + 1)))
    return null;
  if (other !== undefined && !(number.value === 1 && number.fraction === null && !number.digits && /^(?:bar|point|post|man)$/.test(word)))
    return { kind: 'other', what: other, value: number.value, from: at, to: next + 1 };
  return null;
}

/** "five twenty one" before a millimetre is five of 21, not 521. */
const isJoinedByDigits = (number: SaidNumber) => !number.digits && number.value > 99 && number.fraction === null;

function bareNumber(
  tokens: readonly Token[],
  at: number,
  number: SaidNumber,
  ranged: { readonly to: number; readonly high: number } | null,
): QuantitySpan | null {
  if (isJoinedByDigits(number) && millimetres.has(bare(tokens, at + number.length))) {
    const first = readNumber(tokens.slice(at, at + 1), 0);
    if (first !== null) return { kind: 'number', value: first.value, high: null, plural: false, digits: false, from: at, to: at + 1 };
  }
  if (number.fraction !== null) {
    const next = at + number.length;
    const inOpen = !marked(tokens, next - 1);
    const square = squareSizes.get(number.value);
    if (inOpen && square !== undefined && squareBefore.has(bare(tokens, next)))
      return inchSpan(tokens, at, next, number.value, number.fraction, null);
    const inchBottom = /\/(?:8|16|32)$/.test(number.fraction) || number.value === 0.75;
    const named =
      inOpen &&
      /^(?:socket|sockets|wrench|wrenches|spanner|head|heads|hex|allen|key|bit|nut|bolt|bolts|nuts|twelve|12|deep|line|square)$/.test(
        bare(tokens, next),
      );
    const ofFastener = !marked(tokens, at - 1) && fastenerHead(tokens, at - 1) !== null && (!inOpen || next >= tokens.length);
    if (ofFastener || (inchBottom && !/^(?:of|full|way)$/.test(bare(tokens, next))) || named || (number.value > 1 && number.value < 2))
      return inchSpan(tokens, at, next, number.value, number.fraction, null);
    // "two and a half": no socket's width.
    return number.value < 2 ? null : { kind: 'number', value: number.value, high: null, plural: false, digits: false, from: at, to: next };
  }
  if (ranged !== null && bare(tokens, at + number.length) !== 'or')
    return { kind: 'number', value: number.value, high: ranged.high, plural: false, digits: number.digits, from: at, to: ranged.to };
  return {
    kind: 'number',
    value: number.value,
    high: null,
    plural: number.plural,
    digits: number.digits,
    from: at,
    to: at + number.length,
  };
}

function torqueSpan(
  tokens: readonly Token[],
  from: number,
  to: number,
  low: number,
  high: number | null,
  unit: TorqueUnit | null,
): QuantitySpan {
  const phrase = tokens.slice(to, to + 4).map((token) => token.bare);
  const skip =
    phrase[0] === 'plus' && phrase[1] === 'or' && phrase[2] === 'minus'
      ? 3
      : phrase[0] === 'give' && phrase[1] === 'or' && phrase[2] === 'take'
        ? 3
        : 0;
  const amount = skip > 0 ? readNumber(tokens, to + skip) : null;
  if (amount === null || high !== null) return { kind: 'torque', low, high, unit, plusMinus: null, from, to };
  const end = to + skip + amount.length;
  const percent = /^percent$/.test(bare(tokens, end));
  return { kind: 'torque', low, high, unit, plusMinus: { amount: amount.value, percent }, from, to: end + (percent ? 1 : 0) };
}

function widthSpan(tokens: readonly Token[], from: number, to: number, number: SaidNumber, high: number | null): QuantitySpan {
  const word = bare(tokens, to);
  const open = !marked(tokens, to - 1);
  if (open && (word === 'extension' || (word === 'of' && bare(tokens, to + 1) === 'extension')))
    return { kind: 'length', millimetres: number.value, of: 'extension', from, to: to + (word === 'of' ? 2 : 1) };
  const socket = word === 'deep' && /^(?:socket|sockets|impact|well|one|wall)$/.test(bare(tokens, to + 1));
  // "slides over the back about fifty mil in": how far.
  const far =
    bare(tokens, from - 1) === 'about' &&
    number.value > 36 &&
    /\b(?:slides?|goes|pushe?s?|comes?|sits?|drops?|moves?)\b/.test(phrase(tokens, from - 9, 9));
  const measured = far || (open && lengthAfter.has(word) && !socket && !isPlaceOf(tokens, to)) || number.value < 3 || number.value > 85;
  if (measured) return { kind: 'length', millimetres: high === null ? number.value : high, of: 'other', from, to };
  return { kind: 'width', unit: 'mm', value: number.value, written: String(number.value), high, from, to };
}

/** "14 millimetre of them", "13 millimeter out of the bag" say nothing about a length, nor does "18 millimeter from the side". */
const isPlaceOf = (tokens: readonly Token[], at: number) =>
  /^across(?: the)? flats$/.test(phrase(tokens, at, bare(tokens, at + 1) === 'the' ? 3 : 2)) ||
  (bare(tokens, at) === 'of' && !/^(?:thread|threads|gap|clearance|play|travel|movement|bead)$/.test(bare(tokens, at + 1))) ||
  (bare(tokens, at) === 'round' && bare(tokens, at + 1) !== '');

function inchSpan(tokens: readonly Token[], from: number, to: number, value: number, written: string, high: number | null): QuantitySpan {
  const word = bare(tokens, to);
  const open = !marked(tokens, to - 1);
  const square = squareSizes.get(value);
  // "that's a square drive, three eighths"
  if (square !== undefined && bare(tokens, from - 1) === 'drive' && bare(tokens, from - 2) === 'square')
    return { kind: 'square', size: square, from, to };
  if (open && square !== undefined) {
    if (word === 'drive') return { kind: 'square', size: square, from, to: to + 1 };
    if (word === 'square')
      return { kind: 'square', size: square, from, to: to + (/^(?:drive|hole|key|plug|end)$/.test(bare(tokens, to + 1)) ? 2 : 1) };
    if (
      squareBefore.has(word) &&
      !(word === 'impact' && /^sockets?$/.test(bare(tokens, to + 1))) &&
      !(word === 'extension' && value === 1) &&
      !(word === 'swivel' && /^sockets?$/.test(bare(tokens, to + 1)))
    )
      return { kind: 'square', size: square, from, to };
  }
  if (open && (/^extensions?$/.test(word) || (word === 'of' && /^extensions?$/.test(bare(tokens, to + 1)))))
    return { kind: 'length', millimetres: Math.round(value * 25.4), of: 'extension', from, to: to + (word === 'of' ? 2 : 1) };
  const socket = word === 'deep' && /^(?:socket|sockets|impact|well|one|wall)$/.test(bare(tokens, to + 1));
  if ((open && lengthAfter.has(word) && !socket && !isPlaceOf(tokens, to)) || value > 3 || value < 0.15)
    return { kind: 'length', millimetres: tidy(value * 25.4), of: 'other', from, to };
  return { kind: 'width', unit: 'in', value, written, high, from, to };
}
