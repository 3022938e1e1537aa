import type { Token } from './tokens.ts';
import { tableOf } from '../torque/table.ts';

/** A number in running speech. */
export interface SaidNumber {
  readonly value: number;
  /** How many tokens it takes. */
  readonly length: number;
  /** As a fraction is written, such as "9/16" or "1 1/8"; null for whole and decimal numbers. */
  readonly fraction: string | null;
  readonly digits: boolean;
  /** "13s", "thirteens": the plural of a number names things by their size. */
  readonly plural: boolean;
}

/** Nought to nine. */
export const unitWords: Readonly<Record<string, number>> = tableOf<number>({
  zero: 0,
  oh: 0,
  nought: 0,
  naught: 0,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
});
/** Ten to nineteen. */
export const teens: Readonly<Record<string, number>> = tableOf<number>({
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
export const tens: Readonly<Record<string, number>> = tableOf<number>({
  twenty: 20,
  thirty: 30,
  forty: 40,
  fourty: 40,
  fifty: 50,
  sixty: 60,
  seventy: 70,
  eighty: 80,
  ninety: 90,
});
const parts: Readonly<Record<string, number>> = tableOf<number>({
  half: 2,
  halves: 2,
  third: 3,
  thirds: 3,
  quarter: 4,
  quarters: 4,
  fourth: 4,
  fourths: 4,
  eighth: 8,
  eighths: 8,
  sixteenth: 16,
  sixteenths: 16,
  '8ths': 8,
  '16ths': 16,
  '4ths': 4,
  thirtysecond: 32,
  thirtyseconds: 32,
});

const bareAt = (tokens: readonly Token[], index: number) => tokens[index]?.bare ?? '';
const runsOn = (tokens: readonly Token[], index: number) => (tokens[index]?.mark ?? '') === '';

/** The number that begins at that token, or null. A number never runs over punctuation. */
export function readNumber(tokens: readonly Token[], from: number): SaidNumber | null {
  return readFraction(tokens, from) ?? readPlain(tokens, from);
}

function readPlain(tokens: readonly Token[], from: number): SaidNumber | null {
  const word = bareAt(tokens, from);
  const pluralDigits = /^(\d{1,2})s$/.exec(word);
  if (pluralDigits !== null) return { value: Number(pluralDigits[1]), length: 1, fraction: null, digits: true, plural: true };
  if (/^\d+(?:\.\d+)?$|^\.\d+$/.test(word)) {
    const digits = { value: Number(word), length: 1, fraction: null, digits: true, plural: false };
    return withTail(tokens, from, digits);
  }
  const plural = readPluralWord(tokens, from);
  if (plural !== null) return plural;
  const whole = readWhole(tokens, from);
  if (whole === null) return null;
  return withTail(tokens, from, { value: whole.value, length: whole.length, fraction: null, digits: false, plural: false });
}

/** "thirteens", "twenty twos", "tens": sizes used as names. */
function readPluralWord(tokens: readonly Token[], from: number): SaidNumber | null {
  const single = (word: string) => {
    const stem = word.endsWith('ies') ? `${word.slice(0, -3)}y` : word.endsWith('sixes') ? 'six' : word.replace(/s$/, '');
    return word.endsWith('s') && stem !== word ? (teens[stem] ?? tens[stem] ?? unitWords[stem]) : undefined;
  };
  const word = bareAt(tokens, from);
  const alone = single(word);
  if (alone !== undefined && alone >= 5) return { value: alone, length: 1, fraction: null, digits: false, plural: true };
  const ten = tens[word];
  const second = single(bareAt(tokens, from + 1));
  if (ten !== undefined && second !== undefined && second < 10 && runsOn(tokens, from))
    return { value: ten + second, length: 2, fraction: null, digits: false, plural: true };
  return null;
}

function readWhole(tokens: readonly Token[], from: number): { value: number; length: number } | null {
  let index = from;
  let value: number | null = null;
  const take = (amount: number, words = 1) => {
    value = (value ?? 0) + amount;
    index += words;
  };
  const more = () => index === from || runsOn(tokens, index - 1);
  const below100 = (): number | null => {
    const word = bareAt(tokens, index);
    const ten = tens[word];
    if (ten !== undefined) {
      const unit = unitWords[bareAt(tokens, index + 1)];
      const joined = unit !== undefined && unit > 0 && runsOn(tokens, index) && !teenFollows(tokens, index + 1);
      return joined ? ten + unit : ten;
    }
    return teens[word] ?? unitWords[word] ?? null;
  };
  const wordsOf = (amount: number) => (amount > 20 && amount % 10 !== 0 ? 2 : 1);

  if (['a', 'one'].includes(bareAt(tokens, index)) && /^hundred|thousand$/.test(bareAt(tokens, index + 1))) {
    const hundred = bareAt(tokens, index + 1) === 'hundred';
    take(hundred ? 100 : 1000, 2);
  } else if (bareAt(tokens, index) === 'hundred') take(100);
  else {
    const first = below100();
    // "oh, ten", but "oh point seven".
    if (first === null || (bareAt(tokens, index) === 'oh' && !(bareAt(tokens, index + 1) === 'point' && runsOn(tokens, index))))
      return null;
    take(first, wordsOf(first));
    if (more() && bareAt(tokens, index) === 'hundred') {
      value = first * 100;
      index++;
    } else if (more() && bareAt(tokens, index) === 'thousand') {
      value = first * 1000;
      index++;
    } else return spokenByDigits(tokens, from, first, index) ?? { value: first, length: index - from };
  }
  // "a hundred and ten", "two hundred fifty"
  if (more()) {
    const skip = bareAt(tokens, index) === 'and' ? 1 : 0;
    index += skip;
    const rest = below100();
    const known = bareAt(tokens, index);
    if (rest !== null && rest > 0 && known !== 'oh' && !(skip === 1 && rest < 10 && parts[bareAt(tokens, index + 1)] !== undefined))
      take(rest, wordsOf(rest));
    else index -= skip;
  }
  return { value: value ?? 0, length: index - from };
}

/** "one ninety five" is 195, "two fifty" 250, "one oh five" and "one nought five" 105, "four zero" 40. */
function spokenByDigits(tokens: readonly Token[], from: number, first: number, index: number): { value: number; length: number } | null {
  if (first < 1 || first > 9 || !runsOn(tokens, index - 1)) return null;
  const word = bareAt(tokens, index);
  if (unitWords[word] === 0) {
    const last = unitWords[bareAt(tokens, index + 1)];
    return last === undefined || word === 'zero'
      ? { value: first * 10, length: index + 1 - from }
      : { value: first * 100 + last, length: index + 2 - from };
  }
  const ten = tens[word];
  // "two twenty ones" are two of 21.
  if (ten === undefined || /^(?:ones|twos|threes|fours|fives|sixes|sevens|eights|nines)$/.test(bareAt(tokens, index + 1))) return null;
  const unit = unitWords[bareAt(tokens, index + 1)];
  const joined = unit !== undefined && unit > 0 && runsOn(tokens, index);
  return { value: first * 100 + ten + (joined ? unit : 0), length: index + (joined ? 2 : 1) - from };
}

const teenFollows = (tokens: readonly Token[], index: number) =>
  parts[bareAt(tokens, index + 1)] !== undefined && bareAt(tokens, index) !== '';

/** "… point five", "… and a half", "17 1/2". */
function withTail(tokens: readonly Token[], from: number, number: SaidNumber): SaidNumber {
  const next = from + number.length;
  if (!runsOn(tokens, next - 1)) return number;
  // "12 point 8 millimeter" is a head of twelve points.
  if (
    number.value === 12 &&
    bareAt(tokens, next) === 'point' &&
    /^(?:mm|mil|mils|millimet(?:re|er)s?|inch)$/.test(bareAt(tokens, next + 2))
  )
    return number;
  if (['point', 'decimal'].includes(bareAt(tokens, next)) && runsOn(tokens, next)) {
    let text = '';
    let index = next + 1;
    for (; index < tokens.length; index++) {
      const word = bareAt(tokens, index);
      const digit = /^\d+$/.test(word) ? word : unitWords[word] !== undefined ? String(unitWords[word]) : null;
      if (digit === null) break;
      text += digit;
      if (!runsOn(tokens, index)) {
        index++;
        break;
      }
    }
    if (text !== '') return { ...number, value: Number(`${number.value}.${text}`), length: index - from };
  }
  const skip = bareAt(tokens, next) === 'and' ? 1 : 0;
  const tail = readFraction(tokens, next + skip);
  if (
    tail !== null &&
    tail.value < 1 &&
    Number.isInteger(number.value) &&
    (skip === 1 || (number.digits && /\//.test(bareAt(tokens, next))))
  )
    return {
      ...number,
      value: number.value + tail.value,
      length: number.length + skip + tail.length,
      fraction: `${number.value} ${tail.fraction ?? ''}`,
    };
  return number;
}

/** "9/16", "nine sixteenths", "half", "a quarter", "three quarter", "an eighth". */
export function readFraction(tokens: readonly Token[], from: number): SaidNumber | null {
  const word = bareAt(tokens, from);
  const written = /^(\d{1,3})\/(\d{1,3})$/.exec(word);
  if (written !== null && Number(written[2]) > 0) {
    return { value: Number(written[1]) / Number(written[2]), length: 1, fraction: word, digits: true, plural: false };
  }
  const made = (top: number, bottom: number, length: number): SaidNumber => {
    return { value: top / bottom, length, fraction: `${top}/${bottom}`, digits: false, plural: false };
  };
  const alone = parts[word];
  if (alone !== undefined && !/^(?:third|fourth|eighth|halves|thirds)/.test(word) && !word.endsWith('s')) return made(1, alone, 1);
  if (word === 'a' || word === 'an') {
    const bottom = parts[bareAt(tokens, from + 1)];
    return bottom === undefined || bareAt(tokens, from + 1).endsWith('s') ? null : made(1, bottom, 2);
  }
  const top = unitWords[word] ?? teens[word] ?? (/^\d{1,2}$/.test(word) ? Number(word) : undefined);
  const bottom = parts[bareAt(tokens, from + 1)];
  if (top === undefined || top === 0 || bottom === undefined || !runsOn(tokens, from)) return null;
  // "one half inch" is half an inch; "one third" could be an order, so thirds need their plural.
  if (bottom === 3 && !bareAt(tokens, from + 1).endsWith('s')) return null;
  return top < bottom ? made(top, bottom, 2) : null;
}
