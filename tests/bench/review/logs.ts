import { closeSync, existsSync, mkdirSync, openSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { logLines } from '../../../demo-data/log-lines.ts';
import { plansIn } from '../../../demo-data/plans.ts';
import { workshopRuns } from '../../../src/review/demonstration/workshop.ts';

export interface BenchLogs {
  readonly files: readonly string[];
  readonly bytes: number;
}

const halfYear = 26 * 7 * 86_400_000;
const runsEach = 6;

/**
 * The logs of a training centre over many half-years, one file each, at least so many events in all: the invented workshop, grown once and then
 * written again with other people, other job ids and later days. (The copies' hashes are those of the first, so they link but do not fit the
 * changed lines; an import of this size compares links only.) Kept in `directory`, since making them takes a minute or two.
 */
export function benchLogs(directory: string, events: number): BenchLogs {
  const done = join(directory, `${events}-events`);
  if (!existsSync(done)) {
    const making = `${done}.making`;
    rmSync(making, { recursive: true, force: true });
    mkdirSync(making, { recursive: true });
    write(making, events);
    renameSync(making, done);
  }
  const files = namesIn(done);
  return { files, bytes: files.reduce((sum, file) => sum + statSync(file).size, 0) };
}

function namesIn(directory: string): readonly string[] {
  const names: string[] = [];
  for (let copy = 0; existsSync(nameOf(directory, copy)); copy++) names.push(nameOf(directory, copy));
  return names;
}

const nameOf = (directory: string, copy: number): string => join(directory, `half-year-${String(copy + 1).padStart(2, '0')}.jsonl`);

function write(directory: string, events: number): void {
  const runs = [...workshopRuns(plansIn('procedures'), { seed: 7, runs: runsEach })].map((run) => {
    const [header = '', ...lines] = logLines(run);
    return { job: run.job, person: run.person, header, events: lines.length, text: lines.join('\n') };
  });
  let written = 0;
  for (let copy = 0; written < events; copy++) {
    const file = openSync(nameOf(directory, copy), 'w');
    for (const run of runs) {
      const job = `${run.job}-${copy}`;
      const text = run.text
        .replaceAll(run.job, job)
        .replaceAll(`"${run.person}"`, `"${run.person} ${copy + 1}"`)
        .replace(/"wall":(\d+)/gu, (_, wall: string) => `"wall":${Number(wall) + copy * halfYear}`);
      writeSync(file, `${run.header.replaceAll(run.job, job)}\n${text}\n`);
      written += run.events;
    }
    closeSync(file);
  }
}
