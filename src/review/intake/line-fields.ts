import { decodeUtf8, encodeUtf8 } from './utf8.ts';

/**
 * The fields of one line of a log, found without building an object: where each text stands, what each number is.
 * Five million lines go through here, so it works on bytes and on arrays that are used again for every line.
 */
export interface LineFields {
  /** What `starts` and `ends` point into: the line's own bytes, or a copy with its escapes resolved. */
  bytes: Uint8Array;
  /** The same bytes, to look at four at once. */
  view: DataView;
  readonly kinds: Uint8Array;
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  readonly numbers: Float64Array;
  /** How events have been written so far, by the first letters of their first key: see `readAlike`. */
  readonly shapes: Map<number, Shape[]>;
}

/** One way in which an event is written: what stands before each value, whose value it is and of what kind, and what stands behind the last. */
interface Shape {
  readonly values: readonly { readonly before: Expected; readonly slot: number; readonly kind: number }[];
  readonly tail: Uint8Array;
}

export const fieldKind = { none: 0, text: 1, number: 2, true: 3, false: 4, null: 5, other: 6 } as const;

const topKeys = ['v', 'job', 'seq', 'moment', 'session', 'step', 'event', 'previous', 'hash', 'kind', 'plan'] as const;
const momentKeys = ['wall', 'offset', 'mono'] as const;
const eventKeys = [
  'type',
  'step',
  'group',
  'pass',
  'position',
  'intent',
  'how',
  'visit',
  'reason',
  'text',
  'hold',
  'passed',
  'measure',
  'within',
  'sign',
  'felt',
  'seq',
  'question',
  'name',
  'procedure',
  'title',
  'revision',
  'build',
  'person',
] as const;

/** The slot of each field: the line's own, the moment's, the event's. */
export const slot = {
  v: 0,
  job: 1,
  seq: 2,
  moment: 3,
  session: 4,
  step: 5,
  event: 6,
  previous: 7,
  hash: 8,
  kind: 9,
  plan: 10,
  wall: 11,
  offset: 12,
  mono: 13,
  type: 14,
  ownStep: 15,
  group: 16,
  pass: 17,
  position: 18,
  intent: 19,
  how: 20,
  visit: 21,
  reason: 22,
  text: 23,
  hold: 24,
  passed: 25,
  measure: 26,
  within: 27,
  sign: 28,
  felt: 29,
  ownSeq: 30,
  question: 31,
  name: 32,
  procedure: 33,
  title: 34,
  revision: 35,
  build: 36,
  person: 37,
} as const;

const slots = 38;
const none = -1;
const lineFeed = 0x0a;
/** A key of one letter is followed by its closing quote where a second letter would stand. */
const quote = 0x22;
const keyBytes = [...topKeys, ...momentKeys, ...eventKeys].map(encodeUtf8);

/** Where a key is looked up: by its length and first two letters, once for each of the three objects. */
const tableSize = 4096;
const keyTable = new Int8Array(3 * tableSize).fill(none);
for (const [index, key] of keyBytes.entries()) {
  const scope = index < topKeys.length ? 0 : index < topKeys.length + momentKeys.length ? 1 : 2;
  const place = scope * tableSize + keyPlace(key.length, key[0] ?? 0, key[1] ?? quote);
  if (keyTable[place] !== none) throw new RangeError(`two keys at place ${place} of the table`);
  keyTable[place] = index;
}

function keyPlace(length: number, first: number, second: number): number {
  return (length * 577 + first * 31 + second) & (tableSize - 1);
}

export function makeLineFields(): LineFields {
  return {
    bytes: new Uint8Array(0),
    view: new DataView(new ArrayBuffer(0)),
    kinds: new Uint8Array(slots),
    starts: new Int32Array(slots),
    ends: new Int32Array(slots),
    numbers: new Float64Array(slots),
    shapes: new Map(),
  };
}

export function textOf(fields: LineFields, at: number): string {
  return decodeUtf8(fields.bytes, fields.starts[at] ?? 0, fields.ends[at] ?? 0);
}

/**
 * Finds the fields of the line that begins at `start`, and gives the place where it ends: behind its closing brace and blanks, where a line
 * feed must stand. −1 when the line is anything but a plain JSON object without escapes, exponents, and objects or arrays other than the moment and
 * the event, or goes on beyond `limit`: `readSlowly` then decides. Fields it does not know are passed over. It never reads past a line feed.
 */
export function readQuickly(bytes: Uint8Array, start: number, limit: number, fields: LineFields): number {
  pointTo(bytes, fields);
  const known = shapesAt(start, fields);
  for (let place = 0; known !== undefined && place < known.length; place++) {
    const shape = known[place];
    const end = shape === undefined ? -1 : readAlike(bytes, start, shape, fields);
    if (end >= 0) return end <= limit ? end : -1;
  }
  return readKeyByKey(bytes, start, limit, fields);
}

function readKeyByKey(bytes: Uint8Array, start: number, limit: number, fields: LineFields): number {
  const { kinds } = fields;
  kinds.fill(0);
  const shape: Seen = { values: [], behind: start };
  let at = skipBlanks(bytes, start);
  if (bytes[at] !== 0x7b) return -1;
  at = skipBlanks(bytes, at + 1);
  let scope = 0;
  for (;;) {
    if (bytes[at] !== quote) return -1;
    const keyStart = at + 1;
    const keyEnd = takeText(bytes, keyStart, none, fields);
    if (keyEnd < 0) return -1;
    const found = slotOfKey(bytes, keyStart, keyEnd, scope);
    at = skipBlanks(bytes, keyEnd + 1);
    if (bytes[at] !== 0x3a) return -1;
    at = skipBlanks(bytes, at + 1);
    const first = bytes[at] ?? 0;
    const valueStart = first === quote ? at + 1 : at;
    if (first === quote) {
      const to = takeText(bytes, at + 1, found, fields);
      if (to < 0) return -1;
      at = to + 1;
    } else if (first === 0x2d || (first >= 0x30 && first <= 0x39)) {
      at = takeNumber(bytes, at, found, fields);
      if (at < 0) return -1;
    } else if (first === 0x7b && scope === 0 && (found === slot.event || found === slot.moment)) {
      kinds[found] = fieldKind.other;
      scope = found === slot.event ? 2 : 1;
      at = skipBlanks(bytes, at + 1);
      if (bytes[at] !== 0x7d) continue;
    } else {
      at = takeLiteral(bytes, at, found, fields);
      if (at < 0) return -1;
    }
    if (scope !== 0) withValue(shape, bytes, valueStart, first === quote ? at - 1 : at, found);
    at = skipBlanks(bytes, at);
    while (bytes[at] === 0x7d) {
      at = skipBlanks(bytes, at + 1);
      if (scope === 0) return at <= limit ? at : -1;
      if (scope === 2) {
        const end = readRest(bytes, at, fields);
        if (end >= 0 && end <= limit) {
          keepShape(shape, bytes, start, at, fields);
          return end;
        }
      }
      scope = 0;
    }
    if (bytes[at] !== 0x2c) return -1;
    at = skipBlanks(bytes, at + 1);
  }
}

/** What stands before the event's first key in a line that the journal wrote. */
const opening = expected('{"event":{"');
/** Ways to write an event that are kept for each beginning of it. */
const mostShapes = 6;

function shapesAt(start: number, { view, shapes }: LineFields): Shape[] | undefined {
  const key = start + opening.length;
  return key + 4 <= view.byteLength ? shapes.get(view.getInt32(key)) : undefined;
}

/**
 * A line whose event has the keys of an earlier one in the same order: there are some twenty kinds of them in millions of lines, so what stands
 * between the values need only be compared. Gives the place behind the line, or −1 for any other line.
 */
function readAlike(bytes: Uint8Array, start: number, { values, tail }: Shape, fields: LineFields): number {
  const { kinds, view } = fields;
  kinds.fill(0);
  let at = start;
  for (let place = 0; place < values.length; place++) {
    const value = values[place];
    if (value === undefined) return -1;
    at = past(view, at, value.before);
    if (at < 0) return -1;
    if (value.kind === fieldKind.text) at = takeText(bytes, at, value.slot, fields);
    else if (value.kind === fieldKind.number) at = takeNumber(bytes, at, value.slot, fields);
    else at = takeLiteral(bytes, at, value.slot, fields);
    if (at < 0) return -1;
  }
  for (let index = 0; index < tail.length; index++) if (bytes[at + index] !== tail[index]) return -1;
  kinds[slot.event] = fieldKind.other;
  return readRest(bytes, at + tail.length, fields);
}

function takeLiteral(bytes: Uint8Array, at: number, into: number, fields: LineFields): number {
  const first = bytes[at];
  const kind = first === 0x74 ? fieldKind.true : first === 0x66 ? fieldKind.false : fieldKind.null;
  // Anything else, objects and arrays among it, is none of the three.
  const end = afterLiteral(bytes, at, kind);
  if (end < 0 || into === none) return end;
  fields.kinds[into] = kind;
  fields.starts[into] = at;
  fields.ends[into] = end;
  return end;
}

/** A shape while its line is read key by key. */
interface Seen {
  readonly values: { readonly before: Expected; readonly slot: number; readonly kind: number }[];
  /** Where the last value ends; its closing quotation mark stands behind that. */
  behind: number;
}

function withValue(seen: Seen, bytes: Uint8Array, from: number, to: number, into: number): void {
  const first = bytes[from] ?? 0;
  const isText = bytes[from - 1] === quote && bytes[to] === quote;
  const isNumber = first === 0x2d || (first >= 0x30 && first <= 0x39);
  seen.values.push({
    before: expectedBytes(bytes.slice(seen.behind, from)),
    slot: into,
    kind: isText ? fieldKind.text : isNumber ? fieldKind.number : fieldKind.null,
  });
  seen.behind = to;
}

function keepShape({ values, behind }: Seen, bytes: Uint8Array, start: number, end: number, fields: LineFields): void {
  if (values.length === 0 || past(fields.view, start, opening) < 0) return;
  const key = fields.view.getInt32(start + opening.length);
  const known = fields.shapes.get(key) ?? [];
  fields.shapes.set(key, known);
  known.unshift({ values, tail: bytes.slice(behind, end) });
  if (known.length > mostShapes) known.pop();
}

function pointTo(bytes: Uint8Array, fields: LineFields): void {
  if (fields.bytes === bytes) return;
  fields.bytes = bytes;
  fields.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function skipBlanks(bytes: Uint8Array, from: number): number {
  let at = from;
  while (bytes[at] === 0x20 || bytes[at] === 0x09 || bytes[at] === 0x0d) at++;
  return at;
}

function slotOfKey(bytes: Uint8Array, start: number, end: number, scope: number): number {
  const length = end - start;
  const found = keyTable[scope * tableSize + keyPlace(length, bytes[start] ?? 0, bytes[start + 1] ?? 0)] ?? none;
  if (found === none) return none;
  const key = keyBytes[found];
  if (key?.length !== length) return none;
  for (let index = 0; index < length; index++) if (key[index] !== bytes[start + index]) return none;
  return found;
}

const literals: Readonly<Record<number, Uint8Array>> = {
  [fieldKind.true]: encodeUtf8('true'),
  [fieldKind.false]: encodeUtf8('false'),
  [fieldKind.null]: encodeUtf8('null'),
};

function afterLiteral(bytes: Uint8Array, start: number, kind: number): number {
  const literal = literals[kind];
  if (literal === undefined) return -1;
  for (let index = 0; index < literal.length; index++) if (bytes[start + index] !== literal[index]) return -1;
  return start + literal.length;
}

/** Text that is looked for where it is expected, four bytes at once: the last four may overlap those before. */
interface Expected {
  readonly length: number;
  readonly words: Int32Array;
}

function expected(text: string): Expected {
  return expectedBytes(encodeUtf8(text));
}

/** At least four of them. */
function expectedBytes(bytes: Uint8Array): Expected {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const words = Int32Array.from({ length: Math.ceil(bytes.length / 4) }, (_, word) => view.getInt32(Math.min(word * 4, bytes.length - 4)));
  return { length: bytes.length, words };
}

/** What stands between the values behind the event, in a line as the journal writes it (see `canonicalJson`). */
const between = {
  hash: expected(',"hash":"'),
  job: expected('","job":"'),
  mono: expected('","moment":{"mono":'),
  offset: expected(',"offset":'),
  wall: expected(',"wall":'),
  previous: expected('},"previous":"'),
  seq: expected('","seq":'),
  session: expected(',"session":"'),
  stepText: expected('","step":"'),
  stepNull: expected('","step":null'),
  v: expected('","v":'),
  vAfterNull: expected(',"v":'),
} as const;

/**
 * The rest of a line from behind its event on, where it has the keys that the journal writes in the order in which it writes them: then they need
 * only be compared and not looked up. Gives the place behind the line, or −1 for any other line.
 */
function readRest(bytes: Uint8Array, start: number, fields: LineFields): number {
  const { view } = fields;
  let at = takeHash(past(view, start, between.hash), slot.hash, fields);
  at = takeText(bytes, past(view, at, between.job), slot.job, fields);
  at = takeNumber(bytes, past(view, at, between.mono), slot.mono, fields);
  at = takeNumber(bytes, past(view, at, between.offset), slot.offset, fields);
  at = takeNumber(bytes, past(view, at, between.wall), slot.wall, fields);
  at = takeHash(past(view, at, between.previous), slot.previous, fields);
  at = takeNumber(bytes, past(view, at, between.seq), slot.seq, fields);
  at = takeText(bytes, past(view, at, between.session), slot.session, fields);
  if (at < 0) return -1;
  const text = past(view, at, between.stepText);
  if (text >= 0) {
    at = past(view, takeText(bytes, text, slot.step, fields), between.v);
  } else {
    fields.kinds[slot.step] = fieldKind.null;
    at = past(view, past(view, at, between.stepNull), between.vAfterNull);
  }
  at = takeNumber(bytes, at, slot.v, fields);
  if (at < 0 || bytes[at] !== 0x7d || bytes[at + 1] !== lineFeed) return -1;
  fields.kinds[slot.moment] = fieldKind.other;
  return at + 1;
}

/** The place behind what is expected, if that stands at `at`; −1 otherwise, and when `at` is negative itself. */
function past(view: DataView, at: number, { length, words }: Expected): number {
  if (at < 0 || at + length > view.byteLength) return -1;
  const last = words.length - 1;
  for (let word = 0; word < last; word++) if (view.getInt32(at + word * 4) !== words[word]) return -1;
  return view.getInt32(at + length - 4) === words[last] ? at + length : -1;
}

/** Takes the text that begins at `at` and gives the place of the quotation mark behind it; −1 where it has escapes or no end. */
function takeText(bytes: Uint8Array, at: number, into: number, fields: LineFields): number {
  if (at < 0) return -1;
  let to = at;
  for (;;) {
    const letter = bytes[to] ?? 0;
    if (letter === quote) break;
    if (letter === 0x5c || letter < 0x20) return -1;
    to++;
  }
  if (into === none) return to;
  fields.kinds[into] = fieldKind.text;
  fields.starts[into] = at;
  fields.ends[into] = to;
  return to;
}

/** A hash is always 64 letters: there is no need to look for its end, only to see that nothing in it would end the text or change it. */
function takeHash(at: number, into: number, fields: LineFields): number {
  const { view } = fields;
  if (at < 0 || at + 65 > view.byteLength) return -1;
  for (let word = at; word < at + 64; word += 4) {
    const letters = view.getInt32(word);
    const slashes = letters ^ 0x5c5c5c5c;
    // The usual tricks with the highest bit of each byte: under 0x23 or beyond ASCII; then, equal to a backslash.
    if ((((letters - 0x23232323) | letters | ((slashes - 0x01010101) & ~slashes)) & 0x80808080) !== 0) return -1;
  }
  if (view.getUint8(at + 64) !== quote) return -1;
  fields.kinds[into] = fieldKind.text;
  fields.starts[into] = at;
  fields.ends[into] = at + 64;
  return at + 64;
}

/** Takes the number that begins at `at` and gives the place behind it; −1 where it is none, or has an exponent. */
function takeNumber(bytes: Uint8Array, at: number, into: number, fields: LineFields): number {
  if (at < 0) return -1;
  const isNegative = bytes[at] === 0x2d;
  let next = isNegative ? at + 1 : at;
  let digit = (bytes[next] ?? 0) - 0x30;
  if (digit < 0 || digit > 9) return -1;
  // JSON has no number that begins with a nought and a digit.
  if (digit === 0 && (bytes[next + 1] ?? 0) >= 0x30 && (bytes[next + 1] ?? 0) <= 0x39) return -1;
  let value = 0;
  for (; digit >= 0 && digit <= 9; digit = (bytes[++next] ?? 0) - 0x30) value = value * 10 + digit;
  if (bytes[next] === 0x2e) {
    let scale = 1;
    digit = (bytes[++next] ?? 0) - 0x30;
    if (digit < 0 || digit > 9) return -1;
    // Digits beyond the ninth are less than a millionth of a millisecond.
    for (; digit >= 0 && digit <= 9; digit = (bytes[++next] ?? 0) - 0x30) if (scale > 1e-9) value += digit * (scale /= 10);
  }
  const after = bytes[next] ?? 0;
  if (after === 0x65 || after === 0x45) return -1;
  if (into !== none) {
    fields.kinds[into] = fieldKind.number;
    fields.numbers[into] = isNegative ? -value : value;
  }
  return next;
}

/** The same fields by way of JSON.parse, for a line that is written in another way. False when it is not a JSON object. */
export function readSlowly(bytes: Uint8Array, start: number, end: number, fields: LineFields): boolean {
  let value: unknown;
  try {
    value = JSON.parse(decodeUtf8(bytes, start, end));
  } catch {
    return false;
  }
  if (!isObject(value)) return false;
  fields.kinds.fill(0);
  const copied: Uint8Array[] = [];
  let length = 0;
  const take = (at: number, field: unknown): void => {
    if (field === undefined) return;
    fields.kinds[at] = kindOf(field);
    if (typeof field === 'number') fields.numbers[at] = field;
    if (typeof field !== 'string') return;
    const encoded = encodeUtf8(field);
    copied.push(encoded);
    fields.starts[at] = length;
    length += encoded.length;
    fields.ends[at] = length;
  };
  const takeAll = (keys: readonly string[], from: Readonly<Record<string, unknown>>, first: number): void => {
    for (const [index, key] of keys.entries()) if (Object.hasOwn(from, key)) take(first + index, from[key]);
  };
  takeAll(topKeys, value, 0);
  if (isObject(value['moment'])) takeAll(momentKeys, value['moment'], slot.wall);
  if (isObject(value['event'])) takeAll(eventKeys, value['event'], slot.type);
  pointTo(new Uint8Array(length), fields);
  let at = 0;
  for (const encoded of copied) {
    fields.bytes.set(encoded, at);
    at += encoded.length;
  }
  return true;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function kindOf(value: unknown): number {
  if (typeof value === 'string') return fieldKind.text;
  if (typeof value === 'number') return fieldKind.number;
  if (value === null) return fieldKind.null;
  if (typeof value === 'boolean') return value ? fieldKind.true : fieldKind.false;
  return fieldKind.other;
}
