import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Happening, Recorded } from '../job/events.ts';
import type { Plan } from '../procedure/plan-types.ts';
import { canonicalJson } from './canonical.ts';
import { hashedText, isHappening, parseRecorded, recordVersion } from './record.ts';
import type { ParsedLine, UnreadableCode } from './record.ts';

/** What the first event names as the hash before it where no plan is known, and always in version 1. */
export const chainStart = '0'.repeat(64);

/** SHA-256 (FIPS 180-4) of the text's UTF-8, in lower-case hexadecimal. Pure script, so that it needs no secure context and no waiting. */
export function sha256Hex(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

/** Where a job's chain begins: at its plan, so that a plan that was changed afterwards shows as any changed line does. */
export function startOf(plan: Plan): Pick<Recorded, 'seq' | 'hash'> {
  return { seq: -1, hash: sha256Hex(canonicalJson(plan)) };
}

/**
 * What happened, numbered and chained behind `last`: an event, or `startOf` the plan; null only where no plan is known.
 * Throws when a happening is not one that a record can carry: a bug of the caller, and better found before it is on disk.
 */
export function chainAfter(
  last: Pick<Recorded, 'seq' | 'hash'> | null,
  happenings: readonly Happening[],
  { job, session }: { readonly job: string; readonly session: string },
): readonly Recorded[] {
  const chained: Recorded[] = [];
  let seq = last === null ? 0 : last.seq + 1;
  let previous = last === null ? chainStart : last.hash;
  for (const { moment, step, event } of happenings) {
    const unhashed = { v: recordVersion, job, seq, moment, session, step, event, previous } as const;
    if (!isHappening(unhashed)) throw new TypeError(`not a happening: ${JSON.stringify({ moment, step, event })}`);
    const hash = sha256Hex(hashedText(unhashed));
    chained.push({ ...unhashed, hash });
    previous = hash;
    seq += 1;
  }
  return chained;
}

/** What is wrong with a record, and on which line (the first is 1). Line 0 speaks of the record as a whole. */
export type ChainFault = { readonly line: number } & (
  | { readonly code: 'unreadable'; readonly why: UnreadableCode; readonly path: string; readonly expected: string }
  /** The fields do not give the line's hash. */
  | { readonly code: 'changed'; readonly seq: number }
  /** The same fields, written another way than this tool writes them. */
  | { readonly code: 'rewritten'; readonly seq: number }
  /** Events with these numbers are nowhere in the record. */
  | { readonly code: 'missing'; readonly from: number; readonly to: number }
  | { readonly code: 'out-of-order'; readonly seq: number }
  /** The same event once more. */
  | { readonly code: 'repeated'; readonly seq: number }
  /** Another event under a number that is taken. */
  | { readonly code: 'forked'; readonly seq: number }
  /** Whole in itself, but the event before it is not the one it was chained to. */
  | { readonly code: 'unlinked'; readonly seq: number }
  /** The chain begins at another plan than the one that the record comes with. */
  | { readonly code: 'other-plan' }
  | { readonly code: 'other-job'; readonly seq: number; readonly job: string }
);

export type ChainCheck =
  | { readonly ok: true; readonly events: readonly Recorded[] }
  /** `events` are those that could be read, in the order of their numbers, none twice. */
  | { readonly ok: false; readonly faults: readonly ChainFault[]; readonly events: readonly Recorded[] };

export interface NumberedLine {
  readonly line: number;
  readonly parsed: ParsedLine;
}

/**
 * Checks one job's lines, in the order in which they stand: finds each that was changed, is missing, was moved or put in.
 * What was cut off the end cannot be seen from the chain alone; the header of an exported file says how long it was.
 */
export function verifyChain(lines: readonly string[], plan: Plan | null = null): ChainCheck {
  return verifyParsed(
    lines.map((text, index) => ({ line: index + 1, parsed: parseRecorded(text) })),
    plan,
  );
}

/** The same for lines that are part of a longer file, keep its line numbers, and have been parsed already. */
export function verifyParsed(parsed: readonly NumberedLine[], plan: Plan | null): ChainCheck {
  const present = new Set(parsed.flatMap(({ parsed: entry }) => (entry.ok ? [entry.recorded.seq] : [])));
  const events = new Map<number, Recorded>();
  const faults: ChainFault[] = [];
  let next = 0;
  /** Unreadable lines that stand where numbered ones should: they are not missing as well. */
  let unread = 0;
  let job: string | null = null;
  for (const { line, parsed: entry } of parsed) {
    if (!entry.ok) {
      faults.push({ line, code: 'unreadable', why: entry.code, path: entry.path, expected: entry.expected });
      unread += 1;
      continue;
    }
    const { recorded } = entry;
    const { seq } = recorded;
    job ??= recorded.job;
    if (recorded.job !== job) {
      faults.push({ line, code: 'other-job', seq, job: recorded.job });
      continue;
    }
    const own = faultOfItself(entry);
    if (own !== null) faults.push({ line, code: own, seq });
    const taken = events.get(seq);
    if (taken !== undefined) {
      faults.push({ line, code: taken.hash === recorded.hash ? 'repeated' : 'forked', seq });
      continue;
    }
    events.set(seq, recorded);
    if (seq < next) {
      faults.push({ line, code: 'out-of-order', seq });
      continue;
    }
    if (seq > next) {
      const gap = gapsBetween(next, seq, present);
      const lost = gap.reduce((sum, { from, to }) => sum + to - from + 1, 0);
      if (lost > unread) faults.push(...gap.map(({ from, to }): ChainFault => ({ line, code: 'missing', from, to })));
      if (lost < seq - next) faults.push({ line, code: 'out-of-order', seq });
    }
    unread = 0;
    next = seq + 1;
  }
  faults.push(...unlinked(parsed, events, plan));
  const inOrder = [...events.values()].sort((one, other) => one.seq - other.seq);
  if (faults.length === 0) return { ok: true, events: inOrder };
  return { ok: false, faults: faults.sort((one, other) => one.line - other.line), events: inOrder };
}

function faultOfItself({ recorded, hashed, isCanonical }: Extract<ParsedLine, { ok: true }>): 'changed' | 'rewritten' | null {
  if (sha256Hex(hashed) !== recorded.hash) return 'changed';
  return isCanonical ? null : 'rewritten';
}

/** The runs of numbers from `start` up to before `end` that no line carries. */
function gapsBetween(start: number, end: number, present: ReadonlySet<number>): { readonly from: number; readonly to: number }[] {
  const gaps: { from: number; to: number }[] = [];
  for (let seq = start; seq < end; seq++) {
    if (present.has(seq)) continue;
    const last = gaps.at(-1);
    if (last !== undefined && last.to === seq - 1) last.to = seq;
    else gaps.push({ from: seq, to: seq });
  }
  return gaps;
}

function unlinked(parsed: readonly NumberedLine[], events: ReadonlyMap<number, Recorded>, plan: Plan | null): ChainFault[] {
  return parsed.flatMap(({ line, parsed: entry }): ChainFault[] => {
    if (!entry.ok || events.get(entry.recorded.seq) !== entry.recorded) return [];
    const { seq, previous } = entry.recorded;
    if (seq === 0 && entry.version > 1) {
      return plan === null || previous === startOf(plan).hash ? [] : [{ line, code: 'other-plan' }];
    }
    const before = seq === 0 ? chainStart : events.get(seq - 1)?.hash;
    return before === undefined || before === previous ? [] : [{ line, code: 'unlinked', seq }];
  });
}
