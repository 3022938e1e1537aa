import type { TorqueUnit } from '../torque/quantities.ts';
import { tidy } from '../torque/numbers.ts';
import { readFraction, readNumber, type SaidNumber } from './number-words.ts';
import type { Token } from './tokens.ts';
import { tableOf } from '../torque/table.ts';

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

const bare = (tokens: readonly Token[], index: number) => tokens[index]?.bare ?? '';
const closed = (tokens: readonly Token[], index: number) => (tokens[index]?.mark ?? '') !== '';
const oneOf = (words: string) => new Set(words.split(' '));

const feet = oneOf('foot feet ft');
const inches = oneOf('inch inches in');
const pounds = oneOf('pound pounds lb lbs lbf');
const metres = oneOf('metre metres meter meters m');
const centimetres = oneOf('centimetre centimetres centimeter centimeters cm');
const kilograms = oneOf('kilogram kilograms kilo kilos kg kgs kgf kp kilopond kiloponds');
const ounces = oneOf('ounce ounces oz ozf');
const millimetres = oneOf('mm mil mils mill mills millimeter millimeters millimetre millimetres millie millies');

/** A torque unit in words or letters at that token. */
function readTorqueUnit(tokens: readonly Token[], at: number): { readonly unit: TorqueUnit | null; readonly length: number } | null {
  const first = bare(tokens, at);
  const second = closed(tokens, at) ? '' : bare(tokens, at + 1);
  const pair = (unit: TorqueUnit) => ({ unit, length: 2 });
  if (first === 'nm') return { unit: 'N·m', length: 1 };
  if (first === 'danm') return { unit: 'daN·m', length: 1 };
  if (/^(?:newtons?|newt|n)$/.test(first) && metres.has(second)) return pair('N·m');
  if (/^newtons?$/.test(first)) return { unit: 'N·m', length: 1 };
  if (/^(?:dan|decanewtons?|dekanewtons?)$/.test(first) && metres.has(second)) return pair('daN·m');
  if (feet.has(first) && pounds.has(second)) return pair('lbf·ft');
  if (inches.has(first) && pounds.has(second)) return pair('lbf·in');
  if (pounds.has(first) && (feet.has(second) || second === 'foot')) return pair('lbf·ft');
  if (
    pounds.has(first) &&
    (second === 'inch' || second === 'inches' || (second === 'in' && first.startsWith('lb') && endsHere(tokens, at + 1)))
  )
    return pair('lbf·in');
  if (kilograms.has(first) && metres.has(second)) return pair('kgf·m');
  if (kilograms.has(first) && centimetres.has(second)) return pair('kgf·cm');
  if (inches.has(first) && ounces.has(second)) return pair('ozf·in');
  if (ounces.has(first) && (second === 'inch' || second === 'inches')) return pair('ozf·in');
  return pounds.has(first) ? { unit: null, length: 1 } : null;
}

const endsHere = (tokens: readonly Token[], index: number) => closed(tokens, index) || index + 1 >= tokens.length;

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
const turnWords = oneOf('turn turns');
const furtherWords = oneOf('another further plus more additional extra then past and');

const timeUnits: Readonly<Record<string, number>> = tableOf<number>({
  second: 1,
  seconds: 1,
  minute: 60,
  minutes: 60,
  min: 60,
  mins: 60,
  hour: 3600,
  hours: 3600,
});
const others: Readonly<Record<string, string>> = tableOf<string>({
  quart: 'volume',
  quarts: 'volume',
  pint: 'volume',
  pints: 'volume',
  litre: 'volume',
  litres: 'volume',
  liter: 'volume',
  liters: 'volume',
  gallon: 'volume',
  gallons: 'volume',
  cc: 'volume',
  ml: 'volume',
  millilitres: 'volume',
  milliliters: 'volume',
  psi: 'pressure',
  bar: 'pressure',
  kilos: 'weight',
  kilo: 'weight',
  kg: 'weight',
  kilograms: 'weight',
  ton: 'weight',
  tons: 'weight',
  tonne: 'weight',
  tonnes: 'weight',
  ounces: 'weight',
  ounce: 'weight',
  grams: 'weight',
  gram: 'weight',
  volts: 'volts',
  volt: 'volts',
  amps: 'amps',
  percent: 'percent',
  rpm: 'speed',
  mph: 'speed',
  years: 'time',
  year: 'time',
  months: 'time',
  month: 'time',
  bucks: 'money',
  dollars: 'money',
  quid: 'money',
  times: 'times',
  centimeters: 'length',
  centimetres: 'length',
  cm: 'length',
  metres: 'length',
  meters: 'length',
  metre: 'length',
  meter: 'length',
  feet: 'length',
  foot: 'length',
  yards: 'length',
  thou: 'length',
  thousandths: 'length',
  celsius: 'temperature',
  fahrenheit: 'temperature',
  threads: 'threads',
  thread: 'threads',
  flats: 'flats',
  flat: 'flats',
  speed: 'gears',
  cylinder: 'cylinders',
  cylinders: 'cylinders',
  "o'clock": 'clock',
  oclock: 'clock',
  man: 'people',
  people: 'people',
  guys: 'people',
  person: 'people',
  post: 'posts',
});

/** All quantities of a sentence, in order, none overlapping. */
export function readQuantities(tokens: readonly Token[]): readonly QuantitySpan[] {
  const spans: QuantitySpan[] = [];
  for (let at = 0; at < tokens.length;) {
    const found = readCountedAloud(tokens, at) ?? readHundredAnd(tokens, at) ?? readQuantity(tokens, at);
    if (found === null) at++;
    else {
      spans.push(found);
      at = found.to;
    }
  }
  return spans;
}

/** "that one's one eighteen": a hundred and eighteen, where it is said of something named before. */
function readHundredAnd(tokens: readonly Token[], at: number): QuantitySpan | null {
  if (bare(tokens, at) !== 'one' || closed(tokens, at) || !/^(?:'s|are|'re|gets?|go|goes|is)$/.test(bare(tokens, at - 1))) return null;
  if (!/^(?:one|ones|they|those|these|that|it|them)$/.test(bare(tokens, at - 2))) return null;
  const rest = readNumber(tokens, at + 1);
  if (rest === null || rest.plural || rest.digits || rest.value < 10 || rest.value > 99 || !Number.isInteger(rest.value)) return null;
  const to = at + 1 + rest.length;
  if (millimetres.has(bare(tokens, to)) || inches.has(bare(tokens, to))) return null;
  const unit = readTorqueUnit(tokens, to);
  const value = 100 + rest.value;
  return unit === null
    ? { kind: 'number', value, high: null, plural: false, digits: false, from: at, to }
    : { kind: 'torque', low: value, high: null, unit: unit.unit, plusMinus: null, from: at, to: to + unit.length };
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
  return readDesignator(tokens, at) ?? readTurn(tokens, at) ?? readInchAndPart(tokens, at) ?? readMeasured(tokens, at);
}

/** T50, E12, "torx 50", M10, "M12 by 1.25", "number two Phillips". */
function readDesignator(tokens: readonly Token[], at: number): QuantitySpan | null {
  const word = bare(tokens, at);
  const joined = /^([tem])(\d{1,3})(s?)$/.exec(word);
  const number = /^[tem]$/.test(word) && !closed(tokens, at) ? readNumber(tokens, at + 1) : null;
  if (joined !== null || (number !== null && Number.isInteger(number.value) && number.value >= 3 && number.value <= 100 && word !== 'm')) {
    const letter = joined?.[1] ?? word;
    const size = joined?.[2] ?? String(number?.value);
    const to = at + (joined === null ? 1 + (number?.length ?? 0) : 1);
    const plural = joined?.[3] === 's' || number?.plural === true;
    if (letter !== 'm') return { kind: 'serration', text: `${letter.toUpperCase()}${size}`, plural, from: at, to };
    return withPitch(tokens, at, to, `M${size}`, plural);
  }
  if (['torx', 'star', 'hexalobular'].includes(word)) {
    const next = bare(tokens, at + 1) === 'bit' || bare(tokens, at + 1) === 'number' ? at + 2 : at + 1;
    const size = readNumber(tokens, next);
    if (size !== null && !closed(tokens, at) && size.value >= 5 && size.value <= 100 && Number.isInteger(size.value) && !size.plural)
      return { kind: 'serration', text: `T${size.value}`, plural: false, from: at, to: next + size.length };
    return null;
  }
  if (/^(?:ph|pz)\d$/.test(word)) return { kind: 'cross-head', number: word.slice(2), from: at, to: at + 1 };
  const crossHead = (index: number) =>
    /^(?:phillips|pozi|pozidriv|pozidrive)$/.test(bare(tokens, index)) ||
    (bare(tokens, index) === 'cross' && /^(?:head|point|slot|heads)$/.test(bare(tokens, index + 1)));
  const crossLength = (index: number) => (bare(tokens, index) === 'cross' ? 2 : 1);
  if (crossHead(at)) {
    const next = at + crossLength(at);
    const skip = bare(tokens, next) === 'number' ? 1 : 0;
    const size = skip === 1 ? readNumber(tokens, next + skip) : null;
    return {
      kind: 'cross-head',
      number: size === null ? null : String(size.value),
      from: at,
      to: size === null ? next : next + skip + size.length,
    };
  }
  if (word === 'number') {
    const size = readNumber(tokens, at + 1);
    if (size !== null && crossHead(at + 1 + size.length)) {
      const to = at + 1 + size.length;
      return { kind: 'cross-head', number: String(size.value), from: at, to: to + crossLength(to) };
    }
  }
  return null;
}

function withPitch(tokens: readonly Token[], from: number, to: number, text: string, plural: boolean): QuantitySpan {
  const pitch = /^(?:by|x)$/.test(bare(tokens, to)) && !closed(tokens, to - 1) ? readNumber(tokens, to + 1) : null;
  if (pitch !== null && pitch.value > 0.2 && pitch.value <= 4)
    return { kind: 'thread', text: `${text}x${pitch.value}`, plural, from, to: to + 1 + pitch.length };
  return { kind: 'thread', text, plural, from, to };
}

/** "a quarter turn", "half a turn", "an eighth of a turn", "a turn and a half", "ninety degrees". */
function readTurn(tokens: readonly Token[], at: number): QuantitySpan | null {
  const further = (from: number, to: number) =>
    [from - 1, from - 2, from - 3].some(
      (index) => index >= 0 && furtherWords.has(bare(tokens, index)) && !/[.?!]/.test(tokens[index]?.mark ?? ''),
    ) ||
    furtherWords.has(bare(tokens, to)) ||
    bare(tokens, to) === 'after';
  if (/^(?:a|one|full)$/.test(bare(tokens, at)) || turnWords.has(bare(tokens, at))) {
    const turn = [at, at + 1, at + 2].find((index) => turnWords.has(bare(tokens, index)));
    const between = turn === undefined ? [] : tokens.slice(at, turn).map((token) => token.bare);
    if (turn !== undefined && between.every((word) => /^(?:a|one|full)$/.test(word)) && (turn > at || bare(tokens, at + 1) === 'and')) {
      const half = bare(tokens, turn + 1) === 'and' ? readFraction(tokens, turn + 2) : null;
      const to = turn + 1 + (half === null ? 0 : 1 + half.length);
      return { kind: 'angle', degrees: 360 * (1 + (half?.value ?? 0)), further: further(at, to), from: at, to };
    }
  }
  const fraction = readFraction(tokens, at);
  if (fraction !== null && fraction.value < 1) {
    let next = at + fraction.length;
    if (bare(tokens, next) === 'of') next++;
    if (/^(?:a|an)$/.test(bare(tokens, next))) next++;
    if (turnWords.has(bare(tokens, next)))
      return { kind: 'angle', degrees: tidy(360 * fraction.value), further: further(at, next + 1), from: at, to: next + 1 };
  }
  const number = readNumber(tokens, at);
  if (number === null || !/^degrees?$/.test(bare(tokens, at + number.length))) return null;
  const to = at + number.length + 1;
  if (/^(?:celsius|fahrenheit|c|f)$/.test(bare(tokens, to)))
    return { kind: 'other', what: 'temperature', value: number.value, from: at, to: to + 1 };
  const turned = turnWords.has(bare(tokens, to)) ? 1 : 0;
  return { kind: 'angle', degrees: number.value, further: turned === 1 || further(at, to + turned), from: at, to: to + turned };
}

/** "an inch and an eighth", "inch and a quarter", "an inch". */
function readInchAndPart(tokens: readonly Token[], at: number): QuantitySpan | null {
  const skip = /^(?:a|an|one|1)$/.test(bare(tokens, at)) ? 1 : 0;
  if (bare(tokens, at + skip) !== 'inch') return null;
  const next = at + skip + 1;
  const part = bare(tokens, next) === 'and' && !closed(tokens, next - 1) ? readFraction(tokens, next + 1) : null;
  if (part !== null && part.value < 1)
    return inchSpan(tokens, at, next + 1 + part.length, 1 + part.value, `1 ${part.fraction ?? ''}`, null);
  return skip === 1 && !pounds.has(bare(tokens, next)) ? inchSpan(tokens, at, next, 1, '1', null) : null;
}

/** A number with its unit, or a bare number. */
function readMeasured(tokens: readonly Token[], at: number): QuantitySpan | null {
  const number = readNumber(tokens, at);
  if (number === null) return null;
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
  if (closed(tokens, joint - 1) || !(word === 'to' || word === 'or' || word === 'through' || between) || low.plural) return null;
  const high = readNumber(tokens, joint + 1);
  return high === null || high.plural || high.value <= low.value || high.value > low.value * 2
    ? null
    : { to: joint + 1 + high.length, high: high.value };
}

function unitAfter(tokens: readonly Token[], at: number, next: number, number: SaidNumber, high: number | null): QuantitySpan | null {
  if (number.plural || (closed(tokens, next - 1) && !/^[-—]?$/.test(tokens[next - 1]?.mark ?? ''))) return null;
  const word = bare(tokens, next);
  const torque = readTorqueUnit(tokens, next);
  if (torque !== null) return torqueSpan(tokens, at, next + torque.length, number.value, high, torque.unit);
  if (millimetres.has(word)) {
    if (isJoinedByDigits(number)) return null;
    return widthSpan(tokens, at, next + 1, number, high);
  }
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
  if (/^(?:kilomet(?:re|er)s?|km|kms|k)$/.test(word)) return { kind: 'distance', value: number.value, unit: 'km', from: at, to: next + 1 };
  if (turnWords.has(word)) return { kind: 'other', what: 'turns', value: number.value, from: at, to: next + 1 };
  if (/^(?:feet|foot)$/.test(word) && bare(tokens, next + 1) === 'of' && /^extensions?$/.test(bare(tokens, next + 2)))
    return { kind: 'length', millimetres: Math.round(number.value * 304.8), of: 'extension', from: at, to: next + 3 };
  const other = others[word];
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
    const inOpen = !closed(tokens, next - 1);
    const square = squareSizes.get(number.value);
    if (inOpen && square !== undefined && squareBefore.has(bare(tokens, next)))
      return inchSpan(tokens, at, next, number.value, number.fraction, null);
    const inchBottom = /\/(?:8|16|32)$/.test(number.fraction) || number.value === 0.75;
    const named =
      inOpen &&
      /^(?:socket|sockets|wrench|wrenches|spanner|head|heads|hex|allen|key|bit|nut|bolt|bolts|nuts|twelve|12|deep|line|square)$/.test(
        bare(tokens, next),
      );
    return (inchBottom && !/^(?:of|full|way)$/.test(bare(tokens, next))) || named || number.value > 1
      ? inchSpan(tokens, at, next, number.value, number.fraction, null)
      : null;
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
  const open = !closed(tokens, to - 1);
  if (open && (word === 'extension' || (word === 'of' && bare(tokens, to + 1) === 'extension')))
    return { kind: 'length', millimetres: number.value, of: 'extension', from, to: to + (word === 'of' ? 2 : 1) };
  const socket = word === 'deep' && /^(?:socket|sockets|impact|well|one|wall)$/.test(bare(tokens, to + 1));
  const measured = (open && lengthAfter.has(word) && !socket && !isPlaceOf(tokens, to)) || number.value < 3 || number.value > 85;
  if (measured) return { kind: 'length', millimetres: high === null ? number.value : high, of: 'other', from, to };
  return { kind: 'width', unit: 'mm', value: number.value, written: String(number.value), high, from, to };
}

/** "14 millimetre of them", "13 millimeter out of the bag" say nothing about a length, nor does "18 millimeter from the side". */
const isPlaceOf = (tokens: readonly Token[], at: number) =>
  (bare(tokens, at) === 'of' && !/^(?:thread|threads|gap|clearance|play|travel|movement|bead)$/.test(bare(tokens, at + 1))) ||
  (bare(tokens, at) === 'round' && bare(tokens, at + 1) !== '');

function inchSpan(tokens: readonly Token[], from: number, to: number, value: number, written: string, high: number | null): QuantitySpan {
  const word = bare(tokens, to);
  const open = !closed(tokens, to - 1);
  const square = squareSizes.get(value);
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
