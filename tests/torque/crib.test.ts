import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addMonths, isIsoDate } from '../../src/torque/calendar.ts';
import { countOperations, emptyCrib, recordCalibration } from '../../src/torque/crib.ts';
import type { Crib } from '../../src/torque/crib.ts';
import { formatCrib, parseCrib, readCrib } from '../../src/torque/crib-file.ts';
import type { Degrees, Millimetres } from '../../src/torque/quantities.ts';
import { cribOf, makeWrench } from './make-wrench.ts';

const whole: Crib = {
  ...cribOf(makeWrench(20, 100), makeWrench(5, 25, { unit: 'lbf·in', tolerance: 'II-A', graduation: null, calibrated: null, lever: null })),
  name: 'Van tools',
  adapters: [
    { id: 'crow-17', kind: 'crowfoot', size: '17', sizeUnit: 'mm', square: '1/2', centre: 38 as Millimetres, angle: null },
    { id: 'bent', kind: 'extension', size: null, sizeUnit: null, square: '3/8', centre: 50 as Millimetres, angle: 45 as Degrees },
  ],
  sockets: [{ id: 'hex-13', kind: 'hex', size: '13', sizeUnit: 'mm', square: '3/8', deep: true }],
  bits: [{ id: 't50', kind: 'internal serration', size: 'T50', sizeUnit: null, square: '1/2' }],
  extensions: [{ id: 'bar-150', length: 150 as Millimetres, square: '1/2' }],
  joints: [{ id: 'joint', square: '1/2' }],
  drives: [{ id: 'ratchet', kind: 'ratchet', square: '1/2' }],
  stepAdapters: [{ id: 'step', from: '1/2', to: '3/8' }],
  angleGauges: [{ id: 'gauge', name: 'Angle gauge', square: '1/2' }],
  others: [{ id: 'drift', name: 'Soft drift' }],
};

const problems = (raw: unknown) => {
  const reading = readCrib(raw);
  return reading.ok ? [] : reading.problems;
};
const plain = (crib: Crib) => JSON.parse(formatCrib(crib)) as Record<string, never>;

describe('a crib file', () => {
  it('comes back whole', () => {
    expect(parseCrib(formatCrib(whole))).toEqual({ ok: true, crib: whole });
    expect(parseCrib(formatCrib(emptyCrib))).toEqual({ ok: true, crib: emptyCrib });
  });

  it('comes back whole whatever the wrench', () => {
    const wrenches = fc.record({
      min: fc.integer({ min: 1, max: 100 }),
      width: fc.integer({ min: 10, max: 400 }),
      graduation: fc.constantFrom(0.5, 1, 5, null),
      tolerance: fc.constantFrom(3, 4, 'II-A' as const),
      operations: fc.nat(20000),
      suspect: fc.boolean(),
    });
    fc.assert(
      fc.property(wrenches, ({ min, width, ...changes }) => {
        const crib = cribOf(makeWrench(min, min + width, changes));
        expect(parseCrib(formatCrib(crib))).toEqual({ ok: true, crib });
      }),
    );
  });

  it('may leave out what has a usual value', () => {
    const reading = readCrib({
      format: 1,
      wrenches: [{ id: 'w', name: 'Long', min: 40, max: 200, unit: 'Nm', graduation: 5, square: '1/2"', tolerance: 4 }],
    });
    expect(reading).toEqual({
      ok: true,
      crib: cribOf(makeWrench(40, 200, { id: 'w', name: 'Long', graduation: 5, calibrated: null, lever: null })),
    });
  });

  it('names the place, what was found and what was expected', () => {
    const raw = plain(whole);
    const broken = {
      ...raw,
      colour: 'blue',
      wrenches: [
        { ...whole.wrenches[0], unit: 'bananas', calibrated: '2026-02-30', tolerance: 'very good', lever: -1 },
        { ...whole.wrenches[1], max: 1, id: undefined },
      ],
      sockets: [{ id: 'a b', kind: 'hex', size: 13, sizeUnit: 'cm', square: '5/8' }],
      bits: 'none',
    };
    expect(
      problems(broken)
        .map(({ code, path, found, expected }) => `${code} ${path}: ${found}, expected ${expected}`)
        .sort(),
    ).toEqual([
      'missing wrenches[1].id: nothing, expected an id',
      'unknown-field colour: "colour", expected no such field',
      'wrong-value bits: "none", expected a list',
      'wrong-value sockets[0].id: "a b", expected an id of letters, digits, dots and dashes',
      'wrong-value sockets[0].size: 13, expected a size, such as "13" or "T50"',
      'wrong-value sockets[0].sizeUnit: "cm", expected "mm" or "in"',
      'wrong-value sockets[0].square: "5/8", expected a square drive: 1/4, 3/8, 1/2, 3/4, 1',
      'wrong-value wrenches[0].calibrated: "2026-02-30", expected a date such as 2026-02-28',
      'wrong-value wrenches[0].lever: -1, expected a length above 0, in mm',
      'wrong-value wrenches[0].tolerance: "very good", expected a percentage above 0 and under 50, or a class of ISO 6789:2003: I-A, I-B, I-C, I-D, I-E, II-A, II-B, II-C, II-D, II-E, II-F, II-G',
      'wrong-value wrenches[0].unit: "bananas", expected a torque unit: N·m, lbf·ft, lbf·in, kgf·m, kgf·cm, ozf·in, daN·m',
    ]);
  });

  it('refuses a range upside down and a graduation wider than it', () => {
    expect(problems({ ...plain(emptyCrib), wrenches: [makeWrench(100, 20)] })).toMatchObject([
      { path: 'wrenches[0].max' },
      { path: 'wrenches[0].graduation' },
    ]);
    expect(problems({ ...plain(emptyCrib), wrenches: [makeWrench(20, 100, { graduation: 90 })] })).toMatchObject([
      { path: 'wrenches[0].graduation' },
    ]);
  });

  const refusals = (raw: object) => problems({ ...plain(emptyCrib), ...raw }).map(({ code, path, found }) => `${code} ${path}: ${found}`);

  it('takes values up to the last that make sense, and not one more', () => {
    const bent = (angle: number) => ({ adapters: [{ id: 'bent', kind: 'crowfoot', square: '1/2', centre: 40, angle }] });
    expect([...refusals(bent(0)), ...refusals(bent(180))]).toEqual([]);
    expect(refusals(bent(-1))).toEqual(['wrong-value adapters[0].angle: -1']);
    expect(refusals(bent(181))).toEqual(['wrong-value adapters[0].angle: 181']);
    const wrench = (changes: object) => ({ wrenches: [{ ...makeWrench(20, 100), ...changes }] });
    expect([...refusals(wrench({ tolerance: 49.9 })), ...refusals(wrench({ graduation: 80 }))]).toEqual([]);
    expect(refusals(wrench({ tolerance: 50 }))).toEqual(['wrong-value wrenches[0].tolerance: 50']);
    expect(refusals(wrench({ tolerance: 0 }))).toEqual(['wrong-value wrenches[0].tolerance: 0']);
    expect(refusals(wrench({ max: 20, graduation: null }))).toEqual(['wrong-value wrenches[0].max: 20']);
    expect(refusals(wrench({ operations: 1.5 }))).toEqual(['wrong-value wrenches[0].operations: 1.5']);
    expect(refusals(wrench({ operations: -1 }))).toEqual(['wrong-value wrenches[0].operations: -1']);
  });

  it('says of any value what it is', () => {
    expect(refusals({ name: ['a'] })).toEqual(['wrong-value name: a list']);
    expect(refusals({ name: { a: 1 } })).toEqual(['wrong-value name: an object']);
    expect(refusals({ name: null })).toEqual(['wrong-value name: null']);
    expect(refusals({ name: '  ' })).toEqual(['wrong-value name: "  "']);
    expect(refusals({ others: [{ id: 'x', name: 'y'.repeat(201) }] })).toEqual([`wrong-value others[0].name: "${'y'.repeat(40)}"`]);
    expect(refusals({ others: [null] })).toEqual(['wrong-value others[0]: null']);
    expect(refusals({ others: [{ id: 'x', name: 'Drift', weight: 2, colour: 'red' }] })).toEqual([
      'unknown-field others[0].weight: "weight"',
      'unknown-field others[0].colour: "colour"',
    ]);
    expect(refusals({ rules: { squareLimits: { '1/4': 30 } } })).toContain('missing rules.squareLimits.3/8: nothing');
  });

  it('shows where text stops being a crib', () => {
    const refusal = (text: string) => {
      const reading = parseCrib(text);
      return reading.ok ? 'read' : reading.problems[0]?.found;
    };
    expect(refusal('  ')).toBe('nothing');
    expect(refusal('  <html><head><title>Page</title>')).toBe('"<html><head><title>P…"');
    expect(refusal('"crib"')).toBe('"crib"');
    expect(refusal('null')).toBe('null');
  });

  it('refuses one id for two tools', () => {
    const twice = { ...plain(whole), joints: [{ id: 'hex-13', square: '1/2' }] };
    expect(problems(twice)).toEqual([
      { code: 'duplicate-id', path: 'joints[0].id', found: '"hex-13", as in sockets[0]', expected: 'an id of its own' },
    ]);
  });

  it.each([
    ['', 'not-json'],
    ['{', 'not-json'],
    ['[]', 'wrong-value'],
    ['{}', 'no-format'],
    ['{"format": "1"}', 'no-format'],
    ['{"format": 0}', 'no-format'],
    ['{"format": 1.5}', 'no-format'],
    ['{"format": 2}', 'newer-format'],
    ['{"format": 1}'.padEnd(1_000_001), 'too-large'],
  ])('refuses what is no crib', (text, code) => {
    const reading = parseCrib(text);
    expect(reading.ok ? [] : reading.problems.map((problem) => problem.code)).toEqual([code]);
  });

  it('takes the longest text that it promises to', () => {
    expect(parseCrib('{"format": 1}'.padEnd(1_000_000))).toEqual({ ok: true, crib: emptyCrib });
  });

  it('brings old formats up step by step', () => {
    const renameTools = (old: Readonly<Record<string, unknown>>) => ({ name: old['title'], others: old['tools'] });
    const nameNewFormat = (old: Readonly<Record<string, unknown>>) => ({ ...old, format: 1 });
    const oldest = { format: 1, title: 'Old', tools: [{ id: 'drift', name: 'Soft drift' }] };
    const crib = { ...emptyCrib, name: 'Old', others: [{ id: 'drift', name: 'Soft drift' }] };
    expect(readCrib(oldest, [renameTools, nameNewFormat])).toEqual({ ok: true, crib });
    expect(readCrib({ format: 2, name: 'Old', others: oldest.tools }, [renameTools, nameNewFormat])).toEqual({ ok: true, crib });
    expect(readCrib({ format: 4 }, [renameTools, nameNewFormat])).toMatchObject({ problems: [{ code: 'newer-format' }] });
  });

  it('answers any JSON without throwing', () => {
    fc.assert(fc.property(fc.jsonValue(), (value) => typeof readCrib(value).ok === 'boolean'));
    fc.assert(fc.property(fc.jsonValue(), (value) => typeof readCrib({ format: 1, wrenches: [value], rules: value }).ok === 'boolean'));
  });
});

describe('keeping count', () => {
  it('adds clicks to one wrench and forgets them at calibration', () => {
    const used = countOperations(countOperations(whole, 'wrench-20-100', 30), 'wrench-20-100', 4);
    expect(used.wrenches.map(({ operations }) => operations)).toEqual([34, 0]);
    const suspect = { ...used, wrenches: used.wrenches.map((wrench) => ({ ...wrench, suspect: true })) };
    expect(recordCalibration(suspect, 'wrench-20-100', '2026-06-01').wrenches[0]).toMatchObject({
      operations: 0,
      calibrated: '2026-06-01',
      suspect: false,
    });
  });
});

describe('dates', () => {
  it('go on by months, to the last day of a shorter one', () => {
    expect(addMonths('2025-06-15', 12)).toBe('2026-06-15');
    expect(addMonths('2024-02-29', 12)).toBe('2025-02-28');
    expect(addMonths('2025-12-31', 2)).toBe('2026-02-28');
    expect(addMonths('2025-11-30', 3)).toBe('2026-02-28');
  });

  it('are days of the calendar', () => {
    const days = ['2026-02-28', '2024-02-29', '2000-02-29', '1900-01-01', '2026-12-31', '2026-04-30'];
    expect(days.filter((day) => !isIsoDate(day))).toEqual([]);
    const none = ['2026-02-29', '1900-02-29', '2026-04-31', '2026-12-32', '2026-13-01', '2026-00-10', '2026-05-00', '1899-12-31'];
    expect(none.filter(isIsoDate)).toEqual([]);
  });

  it('have nothing before or after them', () => {
    const none = ['today', '2026-1-1', '12026-01-01', '2026-01-011', '2026-01-01T08:00', 'due 2026-01-01'];
    expect(none.filter(isIsoDate)).toEqual([]);
  });
});
