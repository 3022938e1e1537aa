import { open, readFile, rename, rm, stat, truncate } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { Recorded } from '../job/events.ts';
import { compareRecords, isFromNewerBuild, refusalOf, storedJob, tailOf } from '../journal/book.ts';
import type { Row, Tail } from '../journal/book.ts';
import { chainAfter, startOf } from '../journal/chain.ts';
import { headerLine, jobHeader } from '../journal/header.ts';
import { readLog } from '../journal/log-file.ts';
import type { Appended, Journal, NotStored, ReadJob } from '../journal/port.ts';
import { recordedLine } from '../journal/record.ts';
import { emptySummary, newestFirst, summaryAfter } from '../journal/summary.ts';
import type { Plan } from '../procedure/plan-types.ts';

export interface FileJournalDeps {
  readonly path: string;
  readonly session: string;
}

/** What is known of a job in the file. */
interface Kept {
  readonly plan: Plan | null;
  readonly rows: readonly Row[];
  /** Null where the plan cannot be read: nothing can be chained then. */
  readonly tail: Tail | null;
  readonly isNewer: boolean;
}

interface Known {
  readonly jobs: ReadonlyMap<string, Kept>;
  /** Bytes up to the end of the last whole line; what a crash left behind it was never acknowledged. */
  readonly size: number;
  /** Bytes of the file, that end included. */
  readonly fileSize: number;
}

const notOpen: NotStored = { ok: false, code: 'not-stored-other-tab', detail: 'the job is not open here' };

/**
 * A journal in one log file (see `journal/log-file.ts`): appended to and flushed to disk before it answers.
 * A batch that cannot be written whole is taken back. A file that something else has written to is not added to.
 */
export function fileJournal({ path, session }: FileJournalDeps): Journal {
  const opened = new Set<string>();
  let cached: Known | null = null;
  let turn: Promise<unknown> = Promise.resolve();

  /** The file is one, so everything is done in turn, whichever the job. */
  function inTurn<Result>(act: () => Promise<Result>): Promise<Result | NotStored> {
    const result = turn.then(act).catch((error: unknown) => {
      if (isSystemError(error)) return notStoredInFile(error);
      throw error;
    });
    turn = result.catch(() => undefined);
    return result;
  }

  async function load(): Promise<Known> {
    const fileSize = await sizeOf(path);
    if (cached?.fileSize !== fileSize) cached = await readKnown(path);
    return cached;
  }

  /** Writes the job's lines behind all others; `kept` is what the job is then. */
  async function write(job: string, lines: readonly string[], kept: Kept): Promise<NotStored | null> {
    const before = cached ?? (await load());
    if ((await sizeOf(path)) !== before.fileSize) {
      return { ok: false, code: 'not-stored-other-tab', detail: `something else has written to ${path}` };
    }
    const text = lines.map((line) => `${line}\n`).join('');
    await appendDurably(path, before.size, text);
    const size = before.size + Buffer.byteLength(text, 'utf8');
    cached = { jobs: new Map([...before.jobs, [job, kept]]), size, fileSize: size };
    return null;
  }

  async function read(job: string): Promise<Exclude<ReadJob, NotStored>> {
    const found = (await load()).jobs.get(job);
    if (found === undefined) return { ok: false, code: 'no-such-job' };
    const lines = found.rows.map(({ text }) => text);
    if (found.plan === null) return { ok: false, code: 'record-corrupt', header: '', lines };
    return { ok: true, stored: storedJob(job, found.plan, lines) };
  }

  return {
    begin: (job, plan, happenings) =>
      inTurn(async (): Promise<Appended> => {
        if ((await load()).jobs.has(job)) return notOpen;
        const refusal = refusalOf(happenings);
        if (refusal !== null) return refusal;
        const start = startOf(plan);
        const recorded = chainAfter(start, happenings, { job, session });
        const kept = advanced({ plan, rows: [], tail: start, isNewer: false }, recorded);
        const failed = await write(job, [headerLine(jobHeader(job, plan, null)), ...kept.rows.map(({ text }) => text)], kept);
        if (failed !== null) return failed;
        opened.add(job);
        return { ok: true, recorded, notice: null };
      }),
    open: (job) =>
      inTurn(async () => {
        const found = await read(job);
        if (!found.ok) return found;
        opened.add(job);
        return { ...found, writing: isFromNewerBuild(found.stored) ? 'newer-version' : 'this-tab' };
      }),
    append: (job, happenings) =>
      inTurn(async (): Promise<Appended> => {
        const current = cached?.jobs.get(job);
        if (current === undefined || current.tail === null || !opened.has(job)) return notOpen;
        if (current.isNewer) return { ok: false, code: 'not-stored-newer-version', detail: 'the job holds events of a newer version' };
        const refusal = refusalOf(happenings);
        if (refusal !== null) return refusal;
        const recorded = chainAfter(current.tail, happenings, { job, session });
        const failed = await write(job, recorded.map(recordedLine), advanced(current, recorded));
        return failed ?? { ok: true, recorded, notice: null };
      }),
    whenFree: () => Promise.resolve(true),
    release: (job) => {
      opened.delete(job);
      return Promise.resolve();
    },
    read: (job) => inTurn(() => read(job)),
    jobs: () =>
      inTurn(async () => {
        const found = await Promise.all([...(await load()).jobs.keys()].map(async (job) => ({ job, answer: await read(job) })));
        const summaries = found.flatMap(({ job, answer }) =>
          answer.ok ? [summaryAfter(emptySummary(job, answer.stored.plan), answer.stored.events)] : [],
        );
        return { ok: true, jobs: newestFirst(summaries), damaged: found.flatMap(({ job, answer }) => (answer.ok ? [] : [job])) };
      }),
    adopt: (job, plan, lines) =>
      inTurn(async () => {
        const incoming = storedJob(job, plan, lines);
        if (incoming.faults.length > 0) return { ok: false, code: 'record-corrupt', faults: incoming.faults };
        const here = (await load()).jobs.get(job);
        const rows = lines.map((text, seq) => ({ seq, text }));
        const kept = { plan, rows, tail: tailOf(rows, plan), isNewer: false };
        if (here === undefined) {
          const failed = await write(job, [headerLine(jobHeader(job, plan, null)), ...lines], kept);
          return failed ?? { ok: true, outcome: 'new', added: lines.length };
        }
        const answer = compareRecords(
          here.rows.map(({ text }) => text),
          lines,
        );
        if (!answer.ok || answer.outcome !== 'extended') return answer;
        return (await write(job, lines.slice(here.rows.length), kept)) ?? answer;
      }),
    remove: (job) =>
      inTurn(async () => {
        const kept = [...(await load()).jobs].filter(([other]) => other !== job);
        opened.delete(job);
        if (kept.length === 0) await rm(path, { force: true });
        else await replaceDurably(path, kept.map(([other, entry]) => textOf(other, entry)).join(''));
        cached = null;
        return { ok: true };
      }),
  };
}

async function sizeOf(path: string): Promise<number> {
  try {
    return (await stat(path)).size;
  } catch (error) {
    if (isSystemError(error) && error.code === 'ENOENT') return 0;
    throw error;
  }
}

async function readKnown(path: string): Promise<Known> {
  const bytes = await readFile(path).catch((error: unknown) => {
    if (isSystemError(error) && error.code === 'ENOENT') return Buffer.alloc(0);
    throw error;
  });
  const size = bytes.lastIndexOf(0x0a) + 1;
  const jobs = new Map<string, Kept>();
  for (const { job, plan, lines } of readLog(bytes.subarray(0, size).toString('utf8'))) {
    if (job === null) continue;
    const rows = lines.map((text, seq) => ({ seq, text }));
    jobs.set(job, {
      plan,
      rows,
      tail: plan === null ? null : tailOf(rows, plan),
      isNewer: plan !== null && isFromNewerBuild(storedJob(job, plan, lines)),
    });
  }
  return { jobs, size, fileSize: bytes.length };
}

function advanced(current: Kept, recorded: readonly Recorded[]): Kept {
  const newest = recorded.at(-1);
  return {
    ...current,
    rows: [...current.rows, ...recorded.map((entry) => ({ seq: entry.seq, text: recordedLine(entry) }))],
    tail: newest === undefined ? current.tail : { seq: newest.seq, hash: newest.hash },
  };
}

function textOf(job: string, { plan, rows }: Kept): string {
  const header = plan === null ? [] : [headerLine(jobHeader(job, plan, null))];
  return [...header, ...rows.map(({ text }) => text)].map((line) => `${line}\n`).join('');
}

/** Writes behind the first `size` bytes and waits for the disk; on any error the file is as it was. */
async function appendDurably(path: string, size: number, text: string): Promise<void> {
  const isNew = (await stat(path).catch(() => null)) === null;
  const file = await open(path, isNew ? 'wx' : 'r+');
  try {
    const found = (await file.stat()).size;
    if (found > size) await file.truncate(size);
    const bytes = Buffer.from(text, 'utf8');
    for (let written = 0; written < bytes.length;) {
      const { bytesWritten } = await file.write(bytes, written, bytes.length - written, size + written);
      written += bytesWritten;
    }
    await file.datasync();
  } catch (error) {
    await truncate(path, size).catch(() => undefined);
    throw error;
  } finally {
    await file.close();
  }
  if (isNew) await syncFolder(path);
}

async function replaceDurably(path: string, text: string): Promise<void> {
  const beside = `${path}.new`;
  await rm(beside, { force: true });
  await appendDurably(beside, 0, text);
  await rename(beside, path);
  await syncFolder(path);
}

/** A new name is on disk only when its folder is. */
async function syncFolder(path: string): Promise<void> {
  const folder = await open(dirname(path), 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && typeof (error as NodeJS.ErrnoException).code === 'string' && 'syscall' in error;
}

function notStoredInFile({ code, message }: NodeJS.ErrnoException): NotStored {
  const isFull = code === 'ENOSPC' || code === 'EDQUOT' || code === 'EFBIG';
  return { ok: false, code: isFull ? 'not-stored-disk-full' : 'not-stored-blocked', detail: message };
}
