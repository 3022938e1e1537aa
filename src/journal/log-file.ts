import type { Recorded } from '../job/events.ts';
import type { Plan } from '../procedure/plan-types.ts';
import { verifyParsed } from './chain.ts';
import type { ChainFault, NumberedLine } from './chain.ts';
import { headerLine, jobHeader, looksLikeHeader, parseHeader } from './header.ts';
import type { JobHeader } from './header.ts';
import type { Adopted, Journal, StoredJob } from './port.ts';
import { parseRecorded } from './record.ts';
import type { UnreadableCode } from './record.ts';

/*
 * The log file, JSON Lines: for each job its header, then its events, a line each. Lines end in a line feed; a carriage return before it,
 * a byte order mark and empty lines are put up with, since mail and editors add them. Lines of several jobs may be mixed.
 */

export const logFileType = 'application/jsonl';

/** A job as a file, whole: enough to go on with it on another device, and exactly the lines that are stored. */
export function* jobFile({ job, plan, events, lines }: Pick<StoredJob, 'job' | 'plan' | 'events' | 'lines'>): Generator<string> {
  yield `${headerLine(jobHeader(job, plan, { events: lines.length, last: events.at(-1)?.hash ?? null }))}\n`;
  for (const line of lines) yield `${line}\n`;
}

export type LogFault =
  | ChainFault
  | ({ readonly line: number } & (
      | { readonly code: 'header-missing' }
      | { readonly code: 'header-unreadable'; readonly why: UnreadableCode; readonly path: string; readonly expected: string }
      | { readonly code: 'header-changed' }
      | { readonly code: 'header-rewritten' }
      /** The header promises more events, or another last one, than the file has. */
      | { readonly code: 'ends-early'; readonly promised: number; readonly found: number }
    ));

/** What a file holds of one job. */
export interface LoggedJob {
  /** Null only where not one line could be read. */
  readonly job: string | null;
  readonly plan: Plan | null;
  readonly events: readonly Recorded[];
  readonly lines: readonly string[];
  readonly faults: readonly LogFault[];
  /** True when the header says where the end is. Otherwise events cut off the end would not show. */
  readonly isSealed: boolean;
}

interface Section {
  readonly job: string | null;
  readonly header: JobHeader | null;
  readonly faults: LogFault[];
  readonly lines: (NumberedLine & { readonly text: string })[];
}

/** Takes a log file's lines one by one, from anywhere, and sorts them by job. Never throws, whatever they hold. */
export function logReader(): { readonly take: (line: string) => void; readonly jobs: () => readonly LoggedJob[] } {
  const sections: Section[] = [];
  const newest = new Map<string, Section>();
  let current: Section | null = null;
  let line = 0;

  function begin(job: string | null, header: JobHeader | null, faults: LogFault[]): Section {
    const section = { job, header, faults, lines: [] };
    sections.push(section);
    if (job !== null) newest.set(job, section);
    return section;
  }

  function take(raw: string): void {
    line += 1;
    const text = (line === 1 ? raw.replace(/^\uFEFF/u, '') : raw).replace(/\r$/u, '');
    if (text.trim() === '') return;
    if (looksLikeHeader(text)) {
      const parsed = parseHeader(text);
      if (!parsed.ok) {
        const { code: why, path, expected } = parsed;
        current = begin(null, null, [{ line, code: 'header-unreadable', why, path, expected }]);
      } else {
        const { header, isChanged, isCanonical } = parsed;
        const code = isChanged ? 'header-changed' : isCanonical ? null : 'header-rewritten';
        current = begin(header.job, header, code === null ? [] : [{ line, code }]);
      }
      return;
    }
    const parsed = parseRecorded(text);
    if (parsed.ok) current = newest.get(parsed.recorded.job) ?? begin(parsed.recorded.job, null, [{ line, code: 'header-missing' }]);
    else current ??= begin(null, null, [{ line, code: 'header-missing' }]);
    current.lines.push({ line, parsed, text });
  }

  return {
    take,
    jobs: () => sections.filter(({ lines, faults, header }) => lines.length + faults.length > 0 || header !== null).map(loggedJob),
  };
}

/** Reads a log file that is held in memory. */
export function readLog(text: string): readonly LoggedJob[] {
  const reader = logReader();
  for (const line of text.split('\n')) reader.take(line);
  return reader.jobs();
}

function loggedJob({ job, header, faults, lines }: Section): LoggedJob {
  const check = verifyParsed(lines, header?.plan ?? null);
  const { events } = check;
  const found = [...faults, ...(check.ok ? [] : check.faults)];
  if (header !== null && !found.some(({ code }) => code === 'other-plan')) found.push(...faultsOfPlan(header, events));
  if (header !== null) found.push(...faultsOfEnd(header, events));
  return {
    job,
    plan: header?.plan ?? null,
    events,
    lines: lines.map(({ text }) => text),
    faults: found.toSorted((one, other) => one.line - other.line),
    isSealed: header?.events != null,
  };
}

/** What version 1, whose chain does not begin at the plan, still tells about it. */
function faultsOfPlan(header: JobHeader, events: readonly Recorded[]): LogFault[] {
  const opened = events.find(({ event }) => event.type === 'opened')?.event;
  if (opened?.type !== 'opened') return [];
  const { procedure, build } = header.plan;
  const isSame = opened.procedure === procedure.id && opened.revision === procedure.revision && opened.build === build.id;
  return isSame ? [] : [{ line: 0, code: 'other-plan' }];
}

function faultsOfEnd(header: JobHeader, events: readonly Recorded[]): LogFault[] {
  if (header.events === null || header.events === 0) return [];
  const end = events.find(({ seq }) => seq === (header.events ?? 0) - 1);
  return end?.hash === header.last ? [] : [{ line: 0, code: 'ends-early', promised: header.events, found: events.length }];
}

export interface Imported {
  readonly job: string | null;
  readonly answer: Adopted | { readonly ok: false; readonly code: 'record-corrupt'; readonly faults: readonly LogFault[] };
}

/** Puts every whole job of a file into the journal; what is there already is recognised and left as it is. */
export async function importLog(journal: Pick<Journal, 'adopt'>, jobs: readonly LoggedJob[]): Promise<readonly Imported[]> {
  const imported: Imported[] = [];
  for (const { job, plan, lines, faults } of jobs) {
    if (job === null || plan === null || faults.length > 0) imported.push({ job, answer: { ok: false, code: 'record-corrupt', faults } });
    else imported.push({ job, answer: await journal.adopt(job, plan, lines) });
  }
  return imported;
}
