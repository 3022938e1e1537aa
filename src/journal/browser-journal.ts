import { promisifyRequest } from 'idb-keyval';
import type { Happening, Recorded } from '../job/events.ts';
import type { Plan } from '../procedure/plan-types.ts';
import { compareRecords, isFromNewerBuild, readBook, refusalOf, storedJob, tailOf } from './book.ts';
import type { Row, Tail } from './book.ts';
import { chainAfter, startOf } from './chain.ts';
import { durableStore, notStored } from './database.ts';
import type { DatabaseDeps } from './database.ts';
import { headerLine, jobHeader } from './header.ts';
import type { Appended, Journal, NotStored, OpenedJob, ReadJob, Stored, Summaries } from './port.ts';
import { recordedLine } from './record.ts';
import { emptySummary, newestFirst, parseSummary, summaryAfter } from './summary.ts';
import type { JobSummary } from './summary.ts';
import { tabLocks } from './tab-lock.ts';
import type { Locks } from './tab-lock.ts';

export interface BrowserJournalDeps extends DatabaseDeps {
  /** One run of the app, an id of its own: the monotonic clock starts anew with it. */
  readonly session: string;
  /** `navigator.locks`, or null where there is none. */
  readonly locks: Locks | null;
  /** Name of the database; another one only for tests. */
  readonly database?: string;
}

/** Raised by one when the layout of the store changes; an older build then refuses to open it. */
const databaseVersion = 1;

/** A job that this tab writes, as it knows it to be on disk. It is what an evicted job is written again from. */
interface Writing {
  readonly header: string;
  readonly rows: readonly Row[];
  readonly tail: Tail;
  readonly summary: JobSummary;
  /** It holds lines of a newer build, which must not be added to by this one. */
  readonly isNewer: boolean;
}

/*
 * Three kinds of keys: ['job', job] the header line with the plan, ['event', job, seq] a line each, ['summary', job] what the list
 * of jobs shows. An event's key is its number, and `add` refuses a key that is taken: two writers cannot both store event 57.
 */
const headerKey = (job: string): IDBValidKey => ['job', job];
const eventKey = (job: string, seq: number): IDBValidKey => ['event', job, seq];
const summaryKey = (job: string): IDBValidKey => ['summary', job];

/** The journal in the browser: idb-keyval on a store that acknowledges late and truly, one writing tab a job. */
export function browserJournal({ session, locks, database = 'undertray', ...deps }: BrowserJournalDeps): Journal {
  const use = durableStore({ database, store: 'journal', version: databaseVersion }, deps);
  const own = tabLocks(locks);
  const writing = new Map<string, Writing>();
  const queues = new Map<string, Promise<unknown>>();

  /** One after the other for each job, so that no two batches reach for the same numbers. */
  function inTurn<Result>(job: string, act: () => Promise<Result>): Promise<Result> {
    const turn = (queues.get(job) ?? Promise.resolve()).then(act);
    queues.set(
      job,
      turn.catch(() => undefined),
    );
    return turn;
  }

  async function fetchBook(job: string): Promise<{ readonly header: unknown; readonly rows: readonly Row[] }> {
    return use('readonly', async (store) => {
      const range = IDBKeyRange.bound(['event', job], ['event', job, []]);
      const [header, keys, values] = await Promise.all([
        promisifyRequest<unknown>(store.get(headerKey(job))),
        promisifyRequest(store.getAllKeys(range)),
        promisifyRequest<unknown[]>(store.getAll(range)),
      ]);
      const rows = keys.flatMap((key, index): Row[] => {
        const seq = Array.isArray(key) ? key[2] : undefined;
        const value = values[index];
        return typeof seq === 'number' ? [{ seq, text: typeof value === 'string' ? value : `not a line: ${typeof value}` }] : [];
      });
      return { header, rows };
    });
  }

  async function read(job: string): Promise<{ readonly book: ReadJob; readonly rows: readonly Row[]; readonly header: unknown }> {
    const { header, rows } = await fetchBook(job);
    return { book: readBook(job, header, rows), rows, header };
  }

  async function open(job: string): Promise<OpenedJob> {
    const isOwn = await own.take(job);
    const { book, rows, header } = await read(job).catch((error: unknown) => {
      if (!writing.has(job)) own.release(job);
      throw error;
    });
    if (!book.ok) {
      giveBack(job);
      return book;
    }
    if (!isOwn) return { ...book, writing: 'other-tab' };
    const { plan, events } = book.stored;
    const isNewer = isFromNewerBuild(book.stored);
    const summary = summaryAfter(emptySummary(job, plan), events);
    writing.set(job, { header: String(header), rows, tail: tailOf(rows, plan), summary, isNewer });
    return { ...book, writing: isNewer ? 'newer-version' : 'this-tab' };
  }

  function giveBack(job: string): void {
    writing.delete(job);
    own.release(job);
  }

  async function begin(job: string, plan: Plan, happenings: readonly Happening[]): Promise<Appended> {
    const refusal = refusalOf(happenings);
    if (refusal !== null) return refusal;
    if (!(await own.take(job))) return otherTab;
    const start = startOf(plan);
    const recorded = chainAfter(start, happenings, { job, session });
    const header = headerLine(jobHeader(job, plan, null));
    const next = advanced({ header, rows: [], tail: start, summary: emptySummary(job, plan), isNewer: false }, recorded);
    try {
      await use('readwrite', (store) => {
        store.add(header, headerKey(job));
        addEvents(store, job, next.rows);
        store.put(next.summary, summaryKey(job));
      });
    } catch (error) {
      giveBack(job);
      throw error;
    }
    writing.set(job, next);
    return { ok: true, recorded, notice: null };
  }

  async function append(job: string, happenings: readonly Happening[]): Promise<Appended> {
    const current = writing.get(job);
    if (current === undefined || !own.holds(job)) return otherTab;
    if (current.isNewer) return { ok: false, code: 'not-stored-newer-version', detail: 'the job holds events of a newer version' };
    const refusal = refusalOf(happenings);
    if (refusal !== null) return refusal;
    const recorded = chainAfter(current.tail, happenings, { job, session });
    const next = advanced(current, recorded);
    const wasEvicted = await use('readwrite', async (store) => {
      const ends = [headerKey(job), ...(current.tail.seq < 0 ? [] : [eventKey(job, current.tail.seq)])];
      const found = await Promise.all(ends.map((key) => promisifyRequest(store.getKey(key))));
      const isEvicted = found.includes(undefined);
      if (isEvicted) {
        store.put(current.header, headerKey(job));
        for (const { seq, text } of current.rows) store.put(text, eventKey(job, seq));
      }
      addEvents(store, job, next.rows.slice(current.rows.length));
      store.put(next.summary, summaryKey(job));
      return isEvicted;
    });
    writing.set(job, next);
    return { ok: true, recorded, notice: wasEvicted ? 'storage-evicted' : null };
  }

  async function jobs(): Promise<Summaries> {
    const [names, summaries] = await use('readonly', (store) =>
      Promise.all([
        promisifyRequest(store.getAllKeys(IDBKeyRange.bound(['job'], ['job', []]))),
        promisifyRequest<unknown[]>(store.getAll(IDBKeyRange.bound(['summary'], ['summary', []]))),
      ]),
    );
    const known = new Map(summaries.flatMap((value) => parseSummary(value) ?? []).map((summary) => [summary.job, summary]));
    const damaged: string[] = [];
    const found = names.map(async (key): Promise<JobSummary[]> => {
      const job = Array.isArray(key) && typeof key[1] === 'string' ? key[1] : '';
      const summary = known.get(job);
      if (summary !== undefined) return [summary];
      const { book } = await read(job);
      if (book.ok) return [summaryAfter(emptySummary(job, book.stored.plan), book.stored.events)];
      damaged.push(job);
      return [];
    });
    return { ok: true, jobs: newestFirst((await Promise.all(found)).flat()), damaged };
  }

  async function adopt(job: string, plan: Plan, lines: readonly string[]): ReturnType<Journal['adopt']> {
    const incoming = storedJob(job, plan, lines);
    if (incoming.faults.length > 0) return { ok: false, code: 'record-corrupt', faults: incoming.faults };
    const wasOpen = writing.has(job);
    if (!(await own.take(job))) return otherTab;
    try {
      const { header, rows } = await fetchBook(job);
      const isNew = header === undefined && rows.length === 0;
      const answer = compareRecords(
        rows.map(({ text }) => text),
        lines,
      );
      if (!answer.ok || (!isNew && answer.outcome !== 'extended')) return answer;
      const added = lines.map((text, seq) => ({ seq, text })).slice(rows.length);
      const summary = summaryAfter(emptySummary(job, plan), incoming.events);
      await use('readwrite', (store) => {
        if (isNew) store.add(headerLine(jobHeader(job, plan, null)), headerKey(job));
        addEvents(store, job, added);
        store.put(summary, summaryKey(job));
      });
      if (wasOpen) await open(job);
      return { ok: true, outcome: isNew ? 'new' : 'extended', added: added.length };
    } finally {
      if (!wasOpen) own.release(job);
    }
  }

  async function remove(job: string): Promise<Stored> {
    if (!(await own.take(job))) return otherTab;
    try {
      await use('readwrite', (store) => {
        store.delete(headerKey(job));
        store.delete(summaryKey(job));
        store.delete(IDBKeyRange.bound(['event', job], ['event', job, []]));
      });
      return { ok: true };
    } finally {
      giveBack(job);
    }
  }

  return {
    begin: (job, plan, happenings) => inTurn(job, () => answered(() => begin(job, plan, happenings))),
    open: (job) => inTurn(job, () => answered(() => open(job))),
    append: (job, happenings) => inTurn(job, () => answered(() => append(job, happenings))),
    whenFree: (job, givenUp) => own.wait(job, givenUp),
    release: (job) =>
      inTurn(job, () => {
        giveBack(job);
        return Promise.resolve();
      }),
    read: (job) => answered(async () => (await read(job)).book),
    jobs: () => answered(jobs),
    adopt: (job, plan, lines) => inTurn(job, () => answered(() => adopt(job, plan, lines))),
    remove: (job) => inTurn(job, () => answered(() => remove(job))),
  };
}

const otherTab: NotStored = { ok: false, code: 'not-stored-other-tab', detail: 'another tab writes this job, or it was not opened here' };

function advanced(current: Writing, recorded: readonly Recorded[]): Writing {
  const newest = recorded.at(-1);
  return {
    ...current,
    rows: [...current.rows, ...recorded.map((entry) => ({ seq: entry.seq, text: recordedLine(entry) }))],
    tail: newest === undefined ? current.tail : { seq: newest.seq, hash: newest.hash },
    summary: summaryAfter(current.summary, recorded),
  };
}

function addEvents(store: IDBObjectStore, job: string, rows: readonly Row[]): void {
  for (const { seq, text } of rows) store.add(text, eventKey(job, seq));
}

/** Turns the errors of storage into answers; anything else is a bug and goes on as it is. */
async function answered<Result>(act: () => Promise<Result>): Promise<Result | NotStored> {
  try {
    return await act();
  } catch (error) {
    if (error instanceof TypeError || error instanceof RangeError) throw error;
    return notStored(error);
  }
}
