import { once } from '../torque/once.ts';
import { z } from '../torque/zod.ts';
import type { Plan } from '../procedure/plan-types.ts';
import { canonicalJson } from './canonical.ts';
import { sha256Hex } from './chain.ts';
import { journalLimits } from './limits.ts';
import { planSchema } from './plan-schema.ts';
import { parseObject, unreadable, upgraded, wrongShape } from './record.ts';
import type { Unreadable, Upgrades } from './record.ts';

/**
 * The line above a job's events: the plan that the job was started with, so that a file is enough to go on with the job elsewhere.
 * An exported file's header also says how many events follow and what the last one's hash is, so that an end cut off shows;
 * in a file that still grows both are null.
 */
export interface JobHeader {
  readonly v: 1;
  readonly kind: 'job';
  readonly job: string;
  readonly plan: Plan;
  readonly events: number | null;
  readonly last: string | null;
  /** SHA-256 of the other fields, canonically written. */
  readonly hash: string;
}

const headerSchema = once(() =>
  z.strictObject({
    v: z.literal(1),
    kind: z.literal('job'),
    job: z.string().min(1).max(journalLimits.id),
    plan: planSchema,
    events: z.int().min(0).max(journalLimits.events).nullable(),
    last: z.string().max(64).nullable(),
    hash: z.string().max(64),
  }),
);

const headerVersion = 1;
const upgrades: Upgrades = {};

export function jobHeader(job: string, plan: Plan, end: { readonly events: number; readonly last: string | null } | null): JobHeader {
  const unhashed = { v: 1, kind: 'job', job, plan, events: end?.events ?? null, last: end?.last ?? null } as const;
  return { ...unhashed, hash: sha256Hex(canonicalJson(unhashed)) };
}

export function headerLine(header: JobHeader): string {
  return canonicalJson(header);
}

export type ParsedHeader =
  { readonly ok: true; readonly header: JobHeader; readonly isChanged: boolean; readonly isCanonical: boolean } | Unreadable;

/** True when the line is meant as a header: cheap, and says nothing about its being a good one. */
export function looksLikeHeader(line: string): boolean {
  return line.length > journalLimits.eventLine || /"kind"\s*:\s*"job"/u.test(line);
}

/** A header from anywhere. Never throws, whatever the text. */
export function parseHeader(line: string): ParsedHeader {
  const read = parseObject(line, journalLimits.headerLine);
  if (!read.ok) return read;
  const newest = upgraded(read.value, upgrades, headerVersion);
  if (!newest.ok) return unreadable(newest.code, 'v', `a version up to ${headerVersion}`);
  const parsed = headerSchema().safeParse(newest.value);
  if (!parsed.success) return wrongShape(parsed.error);
  const { hash, ...rest } = read.value;
  return {
    ok: true,
    header: parsed.data,
    isChanged: sha256Hex(canonicalJson(rest)) !== hash,
    isCanonical: canonicalJson(read.value) === line,
  };
}
