import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { faultText } from '../journal/fault-text.ts';
import { logReader } from '../journal/log-file.ts';
import type { LoggedJob } from '../journal/log-file.ts';
import type { Terminal } from './verb.ts';

/** The jobs of a log file, or null after saying why it cannot be read. */
export async function readLogFile(path: string, terminal: Terminal): Promise<readonly LoggedJob[] | null> {
  const reader = logReader();
  try {
    for await (const line of createInterface({ input: createReadStream(path, 'utf8'), crlfDelay: Infinity })) reader.take(line);
  } catch (error) {
    terminal.err(`${path}: cannot be read: ${error instanceof Error ? error.message : String(error)}`);
    return null;
  }
  const jobs = reader.jobs();
  if (jobs.length > 0) return jobs;
  terminal.err(`${path}: no job in it.`);
  return null;
}

/** Says what is wrong with a log that is used all the same. True when something is. */
export function warnOfFaults(path: string, jobs: readonly LoggedJob[], terminal: Terminal): boolean {
  const faults = jobs.flatMap((job) => job.faults);
  for (const fault of faults) terminal.err(`${path}: ${faultText(fault)}`);
  return faults.length > 0;
}

/** What `--json` prints of a file that was made of jobs: which, how many events of each, and what was wrong with them. */
export function madeAsData(file: string, format: string, jobs: readonly LoggedJob[]): string {
  const made = jobs.map(({ job, events, faults }) => ({
    job,
    events: events.length,
    faults: faults.map((fault) => ({ ...fault, text: faultText(fault) })),
  }));
  return JSON.stringify({ file, format, jobs: made });
}

/** Writes text that comes in pieces to a file, or line by line to the terminal. False after saying why it cannot be written. */
export async function writeText(pieces: Iterable<string>, path: string | null, terminal: Terminal): Promise<boolean> {
  if (path === null) {
    let rest = '';
    for (const piece of pieces) {
      const lines = (rest + piece).split('\n');
      rest = lines.pop() ?? '';
      for (const line of lines) terminal.out(line);
    }
    if (rest !== '') terminal.out(rest);
    return true;
  }
  try {
    const file = await open(path, 'w');
    try {
      for (const piece of pieces) await file.write(piece);
      await file.sync();
    } finally {
      await file.close();
    }
    return true;
  } catch (error) {
    terminal.err(`${path}: cannot be written: ${error instanceof Error ? error.message : String(error)}`);
    return false;
  }
}
