import type { Happening } from '../job/events.ts';
import { compareRecords, readBook, refusalOf, storedJob, tailOf } from './book.ts';
import type { Row } from './book.ts';
import { chainAfter } from './chain.ts';
import { headerLine, jobHeader } from './header.ts';
import type { Plan } from '../procedure/plan-types.ts';
import type { Appended, Journal, NotStored, ReadJob } from './port.ts';
import { recordedLine } from './record.ts';
import { emptySummary, newestFirst, summaryAfter } from './summary.ts';

/** What the memory journal keeps of a job. */
export interface Kept {
  readonly header: string;
  readonly plan: Plan;
  readonly rows: readonly Row[];
}

const notOpen: NotStored = { ok: false, code: 'not-stored-other-tab', detail: 'the job is not open here' };

export interface MemoryJournalDeps {
  readonly session: string;
  /** What is remembered; handed to a second journal it plays a restart. */
  readonly storage?: Map<string, Kept>;
}

/** A journal that forgets when the program ends: for tests, rehearsals, and a browser that lets nothing be stored. */
export function memoryJournal({ session, storage: kept = new Map<string, Kept>() }: MemoryJournalDeps): Journal {
  const open = new Set<string>();

  function read(job: string): Exclude<ReadJob, NotStored> {
    const found = kept.get(job);
    return readBook(job, found?.header, found?.rows ?? []);
  }

  function append(job: string, happenings: readonly Happening[]): Appended {
    const found = kept.get(job);
    if (found === undefined || !open.has(job)) return notOpen;
    const refusal = refusalOf(happenings);
    if (refusal !== null) return refusal;
    const recorded = chainAfter(tailOf(found.rows, found.plan), happenings, { job, session });
    kept.set(job, { ...found, rows: [...found.rows, ...recorded.map((entry) => ({ seq: entry.seq, text: recordedLine(entry) }))] });
    return { ok: true, recorded, notice: null };
  }

  return {
    begin: (job, plan, happenings) => {
      if (kept.has(job)) return Promise.resolve(notOpen);
      const refusal = refusalOf(happenings);
      if (refusal !== null) return Promise.resolve(refusal);
      kept.set(job, { header: headerLine(jobHeader(job, plan, null)), plan, rows: [] });
      open.add(job);
      return Promise.resolve(append(job, happenings));
    },
    open: (job) => {
      const found = read(job);
      if (!found.ok) return Promise.resolve(found);
      open.add(job);
      return Promise.resolve({ ...found, writing: 'this-tab' });
    },
    append: (job, happenings) => Promise.resolve(append(job, happenings)),
    whenFree: () => Promise.resolve(true),
    release: (job) => {
      open.delete(job);
      return Promise.resolve();
    },
    read: (job) => Promise.resolve(read(job)),
    jobs: () => {
      const found = [...kept.keys()].map(read).flatMap((entry) => (entry.ok ? [entry.stored] : []));
      const summaries = found.map(({ job, plan, events }) => summaryAfter(emptySummary(job, plan), events));
      return Promise.resolve({ ok: true, jobs: newestFirst(summaries), damaged: [] });
    },
    adopt: (job, plan, lines) => {
      const incoming = storedJob(job, plan, lines);
      if (incoming.faults.length > 0) return Promise.resolve({ ok: false, code: 'record-corrupt', faults: incoming.faults });
      const here = kept.get(job);
      const rows = lines.map((text, seq) => ({ seq, text }));
      if (here === undefined) {
        kept.set(job, { header: headerLine(jobHeader(job, plan, null)), plan, rows });
        return Promise.resolve({ ok: true, outcome: 'new', added: lines.length });
      }
      const answer = compareRecords(
        here.rows.map(({ text }) => text),
        lines,
      );
      if (answer.ok && answer.outcome === 'extended') kept.set(job, { ...here, rows });
      return Promise.resolve(answer);
    },
    remove: (job) => {
      kept.delete(job);
      open.delete(job);
      return Promise.resolve({ ok: true });
    },
  };
}
