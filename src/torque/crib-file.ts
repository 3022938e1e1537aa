import { once } from './once.ts';
import { z } from './zod.ts';
import { isIsoDate } from './calendar.ts';
import { emptyCrib, usualRules, wrenchClasses } from './crib.ts';
import type { Crib, WrenchClass } from './crib.ts';
import type { Degrees, Millimetres, NewtonMetres, TorqueUnit } from './quantities.ts';
import { torqueUnits } from './quantities.ts';
import type { Problem } from './reading.ts';
import { parseSquareDrive, squareDrives } from './sockets.ts';
import { parseTorqueUnit } from './units.ts';

export type CribCode =
  'not-json' | 'too-large' | 'no-format' | 'newer-format' | 'wrong-value' | 'unknown-field' | 'missing' | 'duplicate-id';
export type CribReading =
  { readonly ok: true; readonly crib: Crib } | { readonly ok: false; readonly problems: readonly Problem<CribCode>[] };

/** Turns a crib file of one format into the next. The first in the list leads from format 1 to 2, and so on without gaps. */
export type Migration = (old: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>;
const migrations: readonly Migration[] = [];

/** Characters: thousands of tools. */
const largestText = 1_000_000;

/** Reads a crib from the text of its file: JSON, any format up to the present one, every problem with its path. */
export function parseCrib(text: string): CribReading {
  if (text.length > largestText) {
    return refused('too-large', '', `${text.length} characters`, `at most ${largestText}`);
  }
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return refused('not-json', '', text.trim() === '' ? 'nothing' : `"${text.trim().slice(0, 20)}…"`, 'a tool crib as JSON');
  }
  return readCrib(raw);
}

/** The text of a crib file, which `parseCrib` reads back whole. */
export function formatCrib(crib: Crib): string {
  return `${JSON.stringify(crib, null, 2)}\n`;
}

/** Reads a crib from a value of unknown make, such as one from storage. */
export function readCrib(raw: unknown, steps: readonly Migration[] = migrations): CribReading {
  const migrated = migrate(raw, steps);
  if (!migrated.ok) return migrated;
  const parsed = cribSchema().safeParse(migrated.raw);
  if (!parsed.success) return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, migrated.raw)) };
  const problems = duplicateIds(parsed.data);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, crib: parsed.data };
}

function migrate(
  raw: unknown,
  steps: readonly Migration[],
): { readonly ok: true; readonly raw: unknown } | { readonly ok: false; readonly problems: readonly Problem<CribCode>[] } {
  const present = steps.length + 1;
  if (!isRecord(raw)) return refused('wrong-value', '', show(raw), 'a tool crib');
  const format = raw['format'];
  if (typeof format !== 'number' || !Number.isInteger(format) || format < 1)
    return refused('no-format', 'format', show(format), `a format from 1 to ${present}`);
  if (format > present) return refused('newer-format', 'format', show(format), `at most ${present}; this file comes from a later version`);
  return { ok: true, raw: steps.slice(format - 1).reduce<Readonly<Record<string, unknown>>>((old, step) => step(old), raw) };
}

function refused(code: CribCode, path: string, found: string, expected: string) {
  return { ok: false, problems: [{ code, path, found, expected }] } as const;
}

// Each schema's `error` is the "expected" of its problems; `problemsOf` adds what was found.
const cribSchema = once((): z.ZodType<Crib> => {
  const positive = (what: string) => z.number({ error: what }).positive({ error: what });
  const name = z.string({ error: 'a name' }).trim().min(1, { error: 'a name' }).max(200, { error: 'a name of at most 200 characters' });
  const id = z.string({ error: 'an id' }).regex(/^[\w.-]{1,80}$/u, { error: 'an id of letters, digits, dots and dashes' });
  const size = z
    .string({ error: 'a size, such as "13" or "T50"' })
    .trim()
    .min(1, { error: 'a size, such as "13" or "T50"' })
    .max(20, { error: 'a short size' });
  const lengthSchema = positive('a length above 0, in mm').transform((value) => value as Millimetres);
  const millimetresOrInches = z.enum(['mm', 'in'], { error: '"mm" or "in"' });

  const square = z.string({ error: `a square drive: ${squareDrives.join(', ')}` }).transform((text, context) => {
    const read = parseSquareDrive(text);
    if (read !== null) return read;
    context.addIssue({ code: 'custom', message: `a square drive: ${squareDrives.join(', ')}`, input: text });
    return z.NEVER;
  });

  const unit = z.string({ error: `a torque unit: ${torqueUnits.join(', ')}` }).transform((text, context): TorqueUnit => {
    const read = parseTorqueUnit(text);
    if (read.ok) return read.value;
    context.addIssue({ code: 'custom', message: read.problem.expected, input: text });
    return z.NEVER;
  });

  const isoDate = z.string({ error: 'a date such as 2026-02-28' }).refine(isIsoDate, { error: 'a date such as 2026-02-28' });

  const toleranceText = `a percentage above 0 and under 50, or a class of ISO 6789:2003: ${Object.keys(wrenchClasses).join(', ')}`;
  const percentage = z.number({ error: toleranceText }).gt(0, { error: toleranceText }).lt(50, { error: toleranceText });
  const tolerance = z.union([percentage, z.enum(Object.keys(wrenchClasses) as [WrenchClass, ...WrenchClass[]])], {
    error: toleranceText,
  });

  const count = z.number({ error: 'a whole number' }).int({ error: 'a whole number' }).min(0, { error: 'a number from 0' });

  const wrench = z
    .strictObject({
      id,
      name,
      min: positive('a torque above 0'),
      max: positive('a torque above 0'),
      unit,
      graduation: positive('a graduation above 0, or null for a display').nullable(),
      square,
      tolerance,
      calibrated: isoDate.nullable().default(null),
      operations: count.default(0),
      suspect: z.boolean({ error: 'true or false' }).default(false),
      lever: lengthSchema.nullable().default(null),
    })
    .refine(({ min, max }) => min < max, { path: ['max'], error: 'more than the lowest value' })
    .refine(({ min, max, graduation }) => graduation === null || graduation <= max - min, {
      path: ['graduation'],
      error: 'a graduation that fits into the range',
    });

  const adapter = z.strictObject({
    id,
    kind: z.enum(['crowfoot', 'extension'], { error: '"crowfoot" or "extension"' }),
    size: size.nullable().default(null),
    sizeUnit: millimetresOrInches.nullable().default(null),
    square,
    centre: lengthSchema,
    angle: z
      .number({ error: 'an angle from 0 to 180°' })
      .min(0, { error: 'an angle from 0 to 180°' })
      .max(180, { error: 'an angle from 0 to 180°' })
      .transform((value) => value as Degrees)
      .nullable()
      .default(null),
  });

  const socket = z.strictObject({
    id,
    kind: z.enum(['hex', 'bihex', 'square'], { error: '"hex", "bihex" or "square"' }),
    size,
    sizeUnit: millimetresOrInches,
    square,
    deep: z.boolean({ error: 'true or false' }).default(false),
  });

  const bit = z.strictObject({
    id,
    kind: z.enum(['socket-head hex', 'internal serration', 'slotted', 'cross-head'], {
      error: '"socket-head hex", "internal serration", "slotted" or "cross-head"',
    }),
    size,
    sizeUnit: millimetresOrInches.nullable().default(null),
    square: square.nullable().default(null),
  });

  const limit = positive('a torque above 0 in N·m, or null')
    .transform((value) => value as NewtonMetres)
    .nullable();

  const rules = z.strictObject({
    calibrationMonths: positive('a number of months').int({ error: 'a number of months' }).default(usualRules.calibrationMonths),
    calibrationOperations: positive('a number of operations')
      .int({ error: 'a number of operations' })
      .default(usualRules.calibrationOperations),
    usableFrom: z
      .number({ error: 'a percentage from 0 to 90' })
      .min(0, { error: 'a percentage from 0 to 90' })
      .max(90, { error: 'a percentage from 0 to 90' })
      .default(usualRules.usableFrom),
    squareLimits: z
      .strictObject({ '1/4': limit, '3/8': limit, '1/2': limit, '3/4': limit, '1': limit }, { error: 'a limit for each square drive' })
      .default(usualRules.squareLimits),
  });

  const some = <Item extends z.ZodType>(item: Item) => z.array(item, { error: 'a list' }).max(5000, { error: 'at most 5000' }).default([]);

  return z.strictObject({
    format: z.literal(1),
    name: name.default(emptyCrib.name),
    wrenches: some(wrench),
    adapters: some(adapter),
    sockets: some(socket),
    bits: some(bit),
    extensions: some(z.strictObject({ id, length: lengthSchema, square })),
    joints: some(z.strictObject({ id, square })),
    drives: some(z.strictObject({ id, kind: z.enum(['ratchet', 'bar'], { error: '"ratchet" or "bar"' }), square })),
    stepAdapters: some(z.strictObject({ id, from: square, to: square })),
    angleGauges: some(z.strictObject({ id, name, square: square.nullable().default(null) })),
    others: some(z.strictObject({ id, name })),
    rules: rules.default(usualRules),
  });
});

function problemsOf(issue: z.core.$ZodIssue, raw: unknown): readonly Problem<CribCode>[] {
  const path = writePath(issue.path);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      code: 'unknown-field',
      path: writePath([...issue.path, key]),
      found: `"${key}"`,
      expected: 'no such field',
    }));
  }
  const found = valueAt(raw, issue.path);
  return [{ code: found === undefined ? 'missing' : 'wrong-value', path, found: show(found), expected: issue.message }];
}

function duplicateIds(crib: Crib): readonly Problem<CribCode>[] {
  const lists = Object.entries(crib).filter((entry): entry is [string, readonly { readonly id: string }[]] => Array.isArray(entry[1]));
  const firstPlaces = new Map<string, string>();
  return lists.flatMap(([list, items]) =>
    items.flatMap((item, index) => {
      const place = `${list}[${index}]`;
      const first = firstPlaces.get(item.id);
      if (first === undefined) {
        firstPlaces.set(item.id, place);
        return [];
      }
      return [{ code: 'duplicate-id' as const, path: `${place}.id`, found: `"${item.id}", as in ${first}`, expected: 'an id of its own' }];
    }),
  );
}

function writePath(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, part) => (typeof part === 'number' ? `${text}[${part}]` : text === '' ? String(part) : `${text}.${String(part)}`),
    '',
  );
}

function valueAt(raw: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, part) => (typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[part] : undefined),
    raw,
  );
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (isRecord(value)) return 'an object';
  return typeof value === 'string' ? `"${value.slice(0, 40)}"` : JSON.stringify(value);
}
