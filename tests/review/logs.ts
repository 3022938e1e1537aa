import type { Happening, JobEvent, Recorded } from '../../src/job/events.ts';
import { chainAfter } from '../../src/journal/chain.ts';
import { recordedLine } from '../../src/journal/record.ts';
import type { IntakeOptions } from '../../src/review/intake/intake.ts';
import { makeIntake } from '../../src/review/intake/intake.ts';
import type { IntakeReport } from '../../src/review/intake/intake-report.ts';
import type { Settled } from '../../src/review/intake/settle.ts';
import { settle } from '../../src/review/intake/settle.ts';
import { encodeUtf8 } from '../../src/review/intake/utf8.ts';

/** A line of a made-up run: seconds after the line before, the step at hand, what happened. */
export type Beat = readonly [seconds: number, step: string | null, event: JobEvent];

export interface RunOptions {
  readonly job?: string;
  readonly procedure?: string;
  readonly build?: string;
  readonly person?: string | null;
  readonly group?: string | null;
  readonly wall?: number;
}

export const start = Date.UTC(2025, 2, 3, 8);

/** A run of one sitting, chained as the app chains it. */
export function runOf(beats: readonly Beat[], options: RunOptions = {}): readonly Recorded[] {
  const { job = 'job-1', procedure = 'bench', build = 'K', person = 'Ada Quern', group = 'North', wall = start } = options;
  const opened: Beat = [0, null, { type: 'opened', procedure, title: `The ${procedure}`, revision: 1, build, person, group }];
  let passed = 0;
  const happenings = [opened, ...beats].map(([seconds, step, event]): Happening => {
    passed += seconds * 1000;
    return { moment: { wall: wall + passed, offset: 60, mono: 500 + passed }, step, event };
  });
  return chainAfter(null, happenings, { job, session: `${job}-sitting` });
}

/** The beats of a step that is simply carried out. */
export function carriedOut(step: string, seconds: number): readonly Beat[] {
  return [
    [0, null, { type: 'step-begun', step, visit: 0 }],
    [seconds, step, { type: 'step-carried-out', step }],
    [0, step, { type: 'step-finished', step, how: 'done' }],
  ];
}

export const signedOff: readonly Beat[] = [[3, null, { type: 'signed', name: 'Ada Quern' }]];

export function textOf(records: readonly Recorded[]): string {
  return records.map((record) => `${recordedLine(record)}\n`).join('');
}

/** Reads files as the worker does, in pieces of `piece` bytes. */
export function readLogs(
  files: Readonly<Record<string, string>>,
  options: IntakeOptions & { readonly piece?: number } = {},
): Settled & { readonly report: IntakeReport } {
  const intake = makeIntake(options);
  for (const [name, text] of Object.entries(files)) {
    const bytes = encodeUtf8(text);
    intake.open(name);
    for (let at = 0; at < bytes.length; at += options.piece ?? bytes.length)
      intake.feed(bytes.subarray(at, at + (options.piece ?? bytes.length)));
    intake.close();
  }
  return { ...settle(intake.staged()), report: intake.report() };
}

/** The cells of one run as plain objects, by step id. */
export function cellsOf({ logbook }: Pick<Settled, 'logbook'>, run = 0): Readonly<Record<string, Readonly<Record<string, number>>>> {
  const { cells, steps } = logbook;
  const found: Record<string, Record<string, number>> = {};
  for (let cell = 0; cell < cells.count; cell++) {
    if (cells.run[cell] !== run) continue;
    const { count: _, ...columns } = cells;
    found[steps[cells.step[cell]!]!.id] = Object.fromEntries(Object.entries(columns).map(([name, column]) => [name, column[cell]!]));
  }
  return found;
}
