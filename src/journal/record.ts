import { z } from '../torque/zod.ts';
import type { Happening, JobEvent, JobEventType, Recorded } from '../job/events.ts';
import { handOverWays, noteMedia } from '../job/events.ts';
import { intentNames, reasons } from '../phrasing/intents.ts';
import { torqueUnits } from '../torque/quantities.ts';
import { canonicalJson } from './canonical.ts';
import { journalLimits } from './limits.ts';

const id = z.string().min(1).max(journalLimits.id);
const name = z.string().max(journalLimits.name);
const text = z.string().max(journalLimits.text);
const index = z.int().min(0).max(journalLimits.list);
const seq = z.int().min(0).max(journalLimits.events);
const flag = z.boolean();
const reason = z.enum(reasons);
const hash = z.string().regex(/^[0-9a-f]{64}$/u);

/** Every event as a record may carry it, and nothing else. */
const shapes = {
  opened: () => ({
    procedure: id,
    title: name,
    revision: z.int(),
    build: id,
    person: name.nullable(),
    group: name.nullable(),
  }),
  'caution-acknowledged': () => ({ caution: id }),
  'before-answered': () => ({ before: id, isTrue: flag }),
  'before-left': () => ({ before: id, reason, text: text.nullable() }),
  'kit-answered': () => ({ item: id, atHand: flag }),
  'kit-waved-through': () => ({}),
  'step-carried-out': () => ({ step: id }),
  'fastener-tightened': () => ({ step: id, group: id, pass: index, position: index }),
  'fastener-left-out': () => ({ step: id, group: id, position: index, reason, text: text.nullable() }),
  measured: () => ({ step: id, measure: id, value: z.number(), unit: name, within: flag }),
  'hold-answered': () => ({ step: id, hold: id, passed: flag }),
  'wait-cut-short': () => ({ step: id }),
  'step-skipped': () => ({ step: id, reason, text: text.nullable() }),
  'step-reopened': () => ({ step: id, fresh: flag }),
  'looked-back': () => ({ step: id.nullable() }),
  stopped: () => ({ step: id.nullable() }),
  'stop-sign-answered': () => ({ step: id, sign: id, felt: flag }),
  paused: () => ({}),
  resumed: () => ({}),
  'timer-started': () => ({ step: id }),
  'timer-ended': () => ({ step: id }),
  noted: () => ({ text, question: flag, recording: id.nullable(), media: z.enum(noteMedia).nullable() }),
  'finish-asked': () => ({}),
  'matter-accepted': () => ({ matter: name, reason, text: text.nullable() }),
  'left-open': () => ({}),
  'handed-over': () => ({ way: z.enum(handOverWays) }),
  signed: () => ({ name }),
  'follow-up-done': () => ({ followUp: id, name, text: text.nullable() }),
  undone: () => ({ seq }),
  'step-begun': () => ({ step: id, visit: index }),
  'step-finished': () => ({ step: id, how: z.enum(['done', 'skipped', 'passed-over']) }),
  asked: () => ({ intent: z.enum(intentNames) }),
  misheard: () => ({ text }),
  refused: () => ({ intent: z.enum(intentNames) }),
  'unit-chosen': () => ({ unit: z.enum(torqueUnits).nullable() }),
  'clock-jumped': () => ({ milliseconds: z.number() }),
} satisfies Readonly<Record<JobEventType, () => z.core.$ZodLooseShape>>;

/** What is read: for the type checker to compare with `JobEvent`. */
export type ReadEvent = {
  [Type in JobEventType]: z.infer<z.ZodObject<{ type: z.ZodLiteral<Type> } & ReturnType<(typeof shapes)[Type]>>>;
}[JobEventType];

const madeSchemas = new Map<JobEventType, z.ZodType<ReadEvent>>();

/** Made when the first event of its kind is read or written: all of them at once would hold up a slow phone before its first screen stands. */
function schemaOf(type: JobEventType): z.ZodType<ReadEvent> {
  // The type checker does not follow a name to the shape of that very name.
  const schema = madeSchemas.get(type) ?? (z.strictObject({ type: z.literal(type), ...shapes[type]() }) as unknown as z.ZodType<ReadEvent>);
  madeSchemas.set(type, schema);
  return schema;
}

const isEventType = (type: unknown): type is JobEventType => typeof type === 'string' && Object.hasOwn(shapes, type);

const eventSchema = z.unknown().transform((value, { issues }): JobEvent => {
  const type = typeof value === 'object' && value !== null && 'type' in value ? value.type : undefined;
  const parsed = isEventType(type) ? schemaOf(type).safeParse(value) : null;
  if (parsed === null) issues.push({ code: 'custom', path: ['type'], message: 'a kind of event', input: value });
  else if (parsed.success) return parsed.data;
  else for (const { path, message } of parsed.error.issues) issues.push({ code: 'custom', path: [...path], message, input: value });
  return z.NEVER;
});

/** A day before the end of the year 9999. */
const latestWall = Date.UTC(9999, 11, 31);

const momentSchema = z.strictObject({
  // Years of four digits, which is all that the formats of the exports can say.
  wall: z.number().min(0).max(latestWall),
  offset: z.number().min(-1440).max(1440),
  mono: z.number().min(-1e15).max(1e15),
});

const recordedSchema = z.strictObject({
  v: z.literal(2),
  job: id,
  seq,
  moment: momentSchema,
  session: id,
  step: id.nullable(),
  event: eventSchema,
  previous: hash,
  hash,
});

/** The version of the line format that this build writes. */
export const recordVersion = 2;

/** Turns a line of one version into a line of the next: `upgrades[1]` makes version 2 of version 1. */
export type Upgrades = Readonly<Partial<Record<number, (older: Readonly<Record<string, unknown>>) => Record<string, unknown>>>>;

/**
 * Version 2 begins the chain at the plan instead of at nought, says of a recording whether it is sound or a picture, and knows
 * hand-overs and follow-ups. In version 1 every recording was sound.
 */
const upgrades: Upgrades = {
  1: (older) => ({ ...older, v: 2, event: withMedia(older['event']) }),
};

function withMedia(event: unknown): unknown {
  if (typeof event !== 'object' || event === null || !('type' in event) || event.type !== 'noted') return event;
  return { ...event, media: 'recording' in event && event.recording !== null ? 'audio' : null };
}

export type Upgraded =
  | { readonly ok: true; readonly value: Record<string, unknown> }
  | { readonly ok: false; readonly code: 'newer-version' | 'unknown-version'; readonly found: unknown };

/** Brings a line of any older version up to the newest, one version at a time. */
export function upgraded(value: Record<string, unknown>, steps: Upgrades, newest: number): Upgraded {
  let current = value;
  let version = current['v'];
  if (typeof version === 'number' && version > newest) return { ok: false, code: 'newer-version', found: version };
  while (version !== newest) {
    const step = typeof version === 'number' && Object.hasOwn(steps, version) ? steps[version] : undefined;
    if (step === undefined) return { ok: false, code: 'unknown-version', found: version };
    current = step(current);
    version = current['v'];
  }
  return { ok: true, value: current };
}

export type UnreadableCode =
  | 'too-long'
  | 'not-json'
  | 'not-an-object'
  /** Written by a newer build of the app: to be kept and not understood. */
  | 'newer-version'
  | 'unknown-version'
  | 'wrong-shape';

export interface Unreadable {
  readonly ok: false;
  readonly code: UnreadableCode;
  /** Where in the line, such as "event.position"; empty for the line itself. */
  readonly path: string;
  /** What was expected there, in the schema's words. */
  readonly expected: string;
}

export type ParsedLine =
  | {
      readonly ok: true;
      readonly recorded: Recorded;
      /** The version that the line was written in; `recorded` is of the newest. */
      readonly version: number;
      /** The fields without `hash`, as the line has them, written canonically: what the hash must be of. */
      readonly hashed: string;
      /** False when the line says the same in another way: other spaces, other order of keys, a key twice. */
      readonly isCanonical: boolean;
    }
  | Unreadable;

/** One line of a record, from anywhere. Never throws, whatever the text. */
export function parseRecorded(line: string): ParsedLine {
  const read = parseObject(line, journalLimits.eventLine);
  if (!read.ok) return read;
  const newest = upgraded(read.value, upgrades, recordVersion);
  if (!newest.ok) return unreadable(newest.code, 'v', `a version up to ${recordVersion}`);
  const parsed = recordedSchema.safeParse(newest.value);
  if (!parsed.success) return wrongShape(parsed.error);
  // The hash is of the line as it was written, so an older line keeps its own hash when it is brought up to date.
  const { hash: _, ...rest } = read.value;
  return {
    ok: true,
    recorded: parsed.data,
    version: Number(read.value['v']),
    hashed: canonicalJson(rest),
    isCanonical: canonicalJson(read.value) === line,
  };
}

/** The line of an event that this build has just chained. What is stored already keeps the line it has. */
export function recordedLine(recorded: Recorded): string {
  return canonicalJson(recorded);
}

/** What the hash of an event is made over. */
export function hashedText(recorded: Omit<Recorded, 'hash'>): string {
  return canonicalJson(recorded);
}

/** True when a record can carry it: a check before anything is chained. */
export function isHappening({ moment, step, event: what }: Happening): boolean {
  return momentSchema.safeParse(moment).success && id.nullable().safeParse(step).success && eventSchema.safeParse(what).success;
}

/** A JSON object of limited size, or why not. */
export function parseObject(line: string, longest: number): { readonly ok: true; readonly value: Record<string, unknown> } | Unreadable {
  if (line.length > longest) return unreadable('too-long', '', `at most ${longest} characters`);
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return unreadable('not-json', '', 'one JSON object');
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return unreadable('not-an-object', '', 'one JSON object');
  return { ok: true, value: value as Record<string, unknown> };
}

export function wrongShape(error: z.ZodError): Unreadable {
  const issue = error.issues[0];
  return unreadable('wrong-shape', issue?.path.map(String).join('.') ?? '', issue?.message ?? 'another shape');
}

export function unreadable(code: UnreadableCode, path: string, expected: string): Unreadable {
  return { ok: false, code, path, expected };
}

/** The event types that a record can carry, for checks that none was forgotten. */
export const recordedTypes: readonly JobEventType[] = Object.keys(shapes).filter(isEventType);
