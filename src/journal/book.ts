import type { Happening, Recorded } from '../job/events.ts';
import type { Plan } from '../procedure/plan-types.ts';
import { sha256Hex, startOf, verifyChain } from './chain.ts';
import { parseHeader } from './header.ts';
import type { Adopted, NotStored, ReadJob, StoredJob } from './port.ts';
import { isHappening, parseRecorded } from './record.ts';

/** Where the next event of a job goes: behind this one, or behind its plan. */
export type Tail = Pick<Recorded, 'seq' | 'hash'>;

/** A stored line with the number under which it is stored, which need not be the one it claims. */
export interface Row {
  readonly seq: number;
  readonly text: string;
}

/** A job from the two things that are stored of it. */
export function readBook(job: string, header: unknown, rows: readonly Row[]): Exclude<ReadJob, { code: `not-stored-${string}` }> {
  if (header === undefined && rows.length === 0) return { ok: false, code: 'no-such-job' };
  const lines = rows.map(({ text }) => text);
  const parsed = typeof header === 'string' ? parseHeader(header) : null;
  if (parsed === null || !parsed.ok || parsed.isChanged || parsed.header.job !== job) {
    return { ok: false, code: 'record-corrupt', header: typeof header === 'string' ? header : '', lines };
  }
  return { ok: true, stored: storedJob(job, parsed.header.plan, lines) };
}

export function storedJob(job: string, plan: Plan, lines: readonly string[]): StoredJob {
  const check = verifyChain(lines, plan);
  return { job, plan, events: check.events, lines, faults: check.ok ? [] : check.faults };
}

/**
 * The end of the chain. Where the newest line cannot be read, the next one is chained to a hash of its text as it stands:
 * a damaged record is gone on with and never renumbered.
 */
export function tailOf(rows: readonly Row[], plan: Plan): Tail {
  const newest = rows.at(-1);
  if (newest === undefined) return startOf(plan);
  const parsed = parseRecorded(newest.text);
  return { seq: newest.seq, hash: parsed.ok ? parsed.recorded.hash : sha256Hex(newest.text) };
}

/** Why a batch cannot be kept at all, or null: a note beyond all measure, a number that is none. Better an answer than a crash in mid-job. */
export function refusalOf(happenings: readonly Happening[]): NotStored | null {
  const bad = happenings.find((happening) => !isHappening(happening));
  return bad === undefined ? null : { ok: false, code: 'not-stored-refused', detail: `no record can carry this: ${bad.event.type}` };
}

/** True when a line was written by a newer build of the app, which might mean more than this one understands. */
export function isFromNewerBuild({ faults }: StoredJob): boolean {
  return faults.some((fault) => fault.code === 'unreadable' && fault.why === 'newer-version');
}

/** What taking in `incoming` beside the stored `here` comes to: the answer, and how many of the incoming lines are to be added at the end. */
export function compareRecords(here: readonly string[], incoming: readonly string[]): Extract<Adopted, { ok: true } | { code: 'parted' }> {
  const shorter = Math.min(here.length, incoming.length);
  for (let index = 0; index < shorter; index++) {
    if (here[index] !== incoming[index]) return { ok: false, code: 'parted', seq: index };
  }
  if (incoming.length > here.length) return { ok: true, outcome: 'extended', added: incoming.length - here.length };
  return { ok: true, outcome: incoming.length === here.length ? 'already-here' : 'longer-here', added: 0 };
}
