import { once } from '../../torque/once.ts';
import { z } from '../../torque/zod.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import { canonicalJson } from '../canonical.ts';
import { chainStart, sha256Hex, startOf } from '../chain.ts';
import { journalLimits } from '../limits.ts';
import { planSchema } from '../plan-schema.ts';
import type { StoredJob } from '../port.ts';
import { parseObject, parseRecorded } from '../record.ts';

/** Bytes that a packed job may unfold to. A few hundred kilobytes are usual; more is a mistake or an attack. */
const longestUnfolded = 32_000_000;

const packedSchema = once(() =>
  z.strictObject({
    v: z.literal(2),
    job: z.string().min(1).max(journalLimits.id),
    plan: planSchema,
    /** [version, moment, session, step, event] each; what is not an event is found out below. */
    events: z.array(z.tuple([z.number(), z.unknown(), z.unknown(), z.unknown(), z.unknown()])).max(journalLimits.events),
    last: z.string().nullable(),
  }),
);

export type Unpacked =
  | { readonly ok: true; readonly job: string; readonly plan: Plan; readonly lines: readonly string[] }
  /** `newer-version`: packed by a newer build. `damaged`: not what was packed, or never a job. */
  | { readonly ok: false; readonly code: 'newer-version' | 'damaged' };

/**
 * A whole job in as few bytes as it takes: its numbers and hashes are left out, since the other side works them out again and finds
 * the same last hash, or knows that something is wrong. Made from the lines as they stand, so that a line of an older version
 * arrives as what it was. Only for a record without faults.
 */
export async function pack({ job, plan, events, lines }: Pick<StoredJob, 'job' | 'plan' | 'events' | 'lines'>): Promise<Uint8Array> {
  const packed = {
    v: 2,
    job,
    plan,
    events: lines.map((line) => {
      const { v, moment, session, step, event } = JSON.parse(line) as Readonly<Record<string, unknown>>;
      return [v, moment, session, step, event];
    }),
    last: events.at(-1)?.hash ?? null,
  };
  return through(new CompressionStream('deflate-raw'), new TextEncoder().encode(canonicalJson(packed)), longestUnfolded);
}

export async function unpack(bytes: Uint8Array): Promise<Unpacked> {
  const damaged: Unpacked = { ok: false, code: 'damaged' };
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(await through(new DecompressionStream('deflate-raw'), bytes, longestUnfolded));
  } catch {
    return damaged;
  }
  const read = parseObject(text, longestUnfolded);
  if (!read.ok) return damaged;
  if (typeof read.value['v'] === 'number' && read.value['v'] > 2) return { ok: false, code: 'newer-version' };
  const parsed = packedSchema().safeParse(read.value);
  if (!parsed.success) return damaged;
  const { job, plan, events, last } = parsed.data;
  const lines: string[] = [];
  let previous: string | null = null;
  for (const [seq, [v, moment, session, step, event]] of events.entries()) {
    const unhashed = { v, job, seq, moment, session, step, event, previous: previous ?? (v === 1 ? chainStart : startOf(plan).hash) };
    const hash = sha256Hex(canonicalJson(unhashed));
    const line = canonicalJson({ ...unhashed, hash });
    if (!parseRecorded(line).ok) return damaged;
    lines.push(line);
    previous = hash;
  }
  return previous === last ? { ok: true, job, plan, lines } : damaged;
}

async function through(transform: GenericTransformStream, bytes: Uint8Array, longest: number): Promise<Uint8Array> {
  const blob = new Blob([bytes as Uint8Array<ArrayBuffer>]);
  const parts: Uint8Array[] = [];
  let length = 0;
  const reader = (blob.stream().pipeThrough(transform) as ReadableStream<Uint8Array>).getReader();
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    length += next.value.length;
    if (length > longest) {
      await reader.cancel();
      throw new RangeError(`more than ${longest} bytes`);
    }
    parts.push(next.value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
