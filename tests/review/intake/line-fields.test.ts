import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../../src/journal/canonical.ts';
import { fieldKind, makeLineFields, readQuickly, readSlowly, slot, textOf } from '../../../src/review/intake/line-fields.ts';
import { makeNames } from '../../../src/review/intake/names.ts';
import { decodeUtf8, encodeUtf8 } from '../../../src/review/intake/utf8.ts';

const simpleText = fc.string({ unit: 'grapheme', maxLength: 20 });
const digits = ['0', '1', '2', '9', 'a', 'b', 'c', 'f'];
const sometimesNested = fc.oneof({ arbitrary: fc.constant(null), weight: 5 }, { arbitrary: fc.jsonValue({ maxDepth: 2 }), weight: 1 });
const record = fc.record({
  event: fc.record(
    {
      type: simpleText,
      step: fc.option(simpleText),
      group: simpleText,
      pass: fc.nat(9),
      position: fc.nat(99),
      passed: fc.boolean(),
      visit: fc.integer(),
      strange: sometimesNested,
    },
    { requiredKeys: ['type'] },
  ),
  hash: fc.string({ unit: fc.constantFrom(...digits), minLength: 64, maxLength: 64 }),
  job: simpleText,
  moment: fc.record({
    mono: fc.nat({ max: 2 ** 40 }).map((millionths) => millionths / 1000),
    offset: fc.integer({ min: -720, max: 840 }),
    wall: fc.nat({ max: 2 ** 31 }),
  }),
  previous: fc.string({ unit: fc.constantFrom(...digits), minLength: 64, maxLength: 64 }),
  seq: fc.nat(),
  session: simpleText,
  step: fc.option(simpleText),
  v: fc.constantFrom(1, 2),
  extra: sometimesNested,
});

/** What stands behind the line must not matter: the next line follows at once. */
function read(text: string, how: typeof readQuickly | typeof readSlowly): ReturnType<typeof snapshot> | null {
  const bytes = encodeUtf8(`${text}\n{"v":1}\n`);
  const end = encodeUtf8(text).length;
  const once = (fields: ReturnType<typeof makeLineFields>): ReturnType<typeof snapshot> | null => {
    const done = how(bytes, 0, how === readQuickly ? bytes.length : end, fields);
    return done === true || done === end ? snapshot(fields) : null;
  };
  const found = once(makeLineFields());
  // And once more by who has read other lines and, the second time, this one: it knows the shape and must find the same.
  expect([once(experienced), once(experienced)]).toEqual([found, found]);
  return found;
}

const experienced = makeLineFields();

function snapshot(fields: ReturnType<typeof makeLineFields>): Record<string, unknown> {
  const kinds = Object.entries(fieldKind);
  return Object.fromEntries(
    Object.entries(slot).map(([name, at]): [string, unknown] => {
      const kind = kinds.find(([, code]) => code === fields.kinds[at])?.[0];
      if (kind === 'text') return [name, textOf(fields, at)];
      if (kind === 'number') return [name, Math.round(fields.numbers[at]! * 1000)];
      return [name, kind];
    }),
  );
}

describe('the quick reader of lines', () => {
  it('reads what JSON.parse reads, or leaves the line to it', () => {
    let quick = 0;
    fc.assert(
      fc.property(record, fc.boolean(), (value, spaced) => {
        const text = spaced ? JSON.stringify(value, null, 1).replaceAll('\n', '') : JSON.stringify(value);
        const found = read(text, readQuickly);
        if (found === null) return;
        quick += 1;
        expect(found).toEqual(read(text, readSlowly));
      }),
      { numRuns: 400 },
    );
    expect(quick).toBeGreaterThan(100);
  });

  it('reads a line as the app writes it without help', () => {
    const line =
      '{"event":{"group":"g","pass":0,"position":3,"step":"s","type":"fastener-tightened"},"hash":"' +
      'a'.repeat(64) +
      '","job":"j","moment":{"mono":1234.5,"offset":-60,"wall":1736773857349},"previous":"' +
      'b'.repeat(64) +
      '","seq":12,"session":"x","step":null,"v":1}';
    const found = read(line, readQuickly);
    expect(found).toMatchObject({
      job: 'j',
      seq: 12_000,
      type: 'fastener-tightened',
      ownStep: 's',
      step: 'null',
      mono: 1_234_500,
      offset: -60_000,
      position: 3000,
    });
    expect(found).toEqual(read(line, readSlowly));
  });

  it('reads every kind of line that the journal writes in the journal’s own order as JSON.parse does', () => {
    fc.assert(
      fc.property(record, fc.constantFrom(-1, 0, 1, 2, 3), ({ extra: _, ...value }, bent) => {
        const text = canonicalJson(value);
        // The same line with one byte gone must be told apart as surely.
        const cut = bent < 0 ? text : text.replace(['"hash"', '"moment":', '},"previous"', ',"v":'][bent]!, (part) => part.slice(1));
        const found = read(cut, readQuickly);
        const expected = read(cut, readSlowly);
        if (found !== null || bent >= 0) expect(found).toEqual(expected);
      }),
      { numRuns: 300 },
    );
  });

  it('never takes for whole what JSON.parse refuses', () => {
    fc.assert(
      fc.property(record, fc.nat(), (value, at) => {
        const text = JSON.stringify(value);
        const cut = text.slice(0, at % text.length);
        expect(read(cut, readQuickly)).toBeNull();
      }),
    );
  });

  it.each([
    '',
    '{',
    '{}x',
    '[1]',
    '"a"',
    '{"v":}',
    '{"v":1,}',
    '{"v":1 "job":"a"}',
    '{"a":tru}',
    '{"a":{"b":1}',
    '{"event":{"type":"x"}',
    '{"v":--1}',
    '{"v":1.}',
    '{"v":01}',
    '{"v":-01}',
    '{"v":-}',
    '{"v":.5}',
    '{"event":{"strange":{"":"""v":null},"type":""}}',
    '{"event":{"strange":[1 2]}}',
    '{"extra":{"a":tru}}',
  ])('refuses %s', (text) => {
    expect(read(text, readQuickly)).toBeNull();
    expect(read(text, readSlowly)).toBeNull();
  });

  it('survives any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (noise) => {
        const bytes = new Uint8Array([...noise.filter((byte) => byte !== 10), 10]);
        const fields = makeLineFields();
        if (readQuickly(bytes, 0, bytes.length, fields) < 0) readSlowly(bytes, 0, bytes.length - 1, fields);
      }),
      { numRuns: 500 },
    );
  });
});

describe('UTF-8', () => {
  it('is written and read as everybody does', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const bytes = encodeUtf8(text);
        expect(bytes).toEqual(new TextEncoder().encode(text));
        expect(decodeUtf8(bytes, 0, bytes.length)).toBe(new TextDecoder().decode(bytes));
      }),
    );
  });

  it('is read in one piece however long it is', () => {
    for (const before of [1020, 1021, 1022, 1023, 1024, 1025, 3000]) {
      const text = `${'a'.repeat(before)}🔧é${'b'.repeat(2000)}`;
      const bytes = encodeUtf8(text);
      expect(decodeUtf8(bytes, 0, bytes.length)).toBe(text);
    }
  });

  it('marks what is none instead of failing', () => {
    for (const bytes of [[0xff], [0xc0, 0x80], [0xe2, 0x82], [0xed, 0xa0, 0x80], [0xf4, 0x90, 0x80, 0x80]])
      expect(decodeUtf8(Uint8Array.from(bytes), 0, bytes.length)).toContain('\uFFFD');
  });
});

describe('names', () => {
  it('give the same text the same number and different texts different ones', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'grapheme' }), { maxLength: 3000 }), (texts) => {
        const names = makeNames();
        const numbers = new Map(texts.map((text) => [text, names.numberOfText(text)]));
        expect(new Set(numbers.values()).size).toBe(numbers.size);
        for (const [text, number] of numbers) {
          expect(names.numberOfText(text)).toBe(number);
          expect(names.text(number)).toBe(text);
        }
      }),
      { numRuns: 20 },
    );
  });
});
