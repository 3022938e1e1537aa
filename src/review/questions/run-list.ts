import { endings, runFaults } from '../logbook.ts';
import { outlierFences } from '../statistics/outliers.ts';
import type { Asking } from './asking.ts';
import { eachRun, isSigned } from './asking.ts';
import { paceOfRuns } from './pace.ts';
import { remembered } from './remembered.ts';
import type { Selection } from './selection.ts';

/** One run among the others. Times in seconds. */
export interface RunLine {
  readonly job: string;
  readonly procedure: string;
  readonly title: string;
  readonly build: string;
  readonly person: number;
  readonly called: string;
  readonly group: string | null;
  readonly number: number;
  readonly begun: number;
  readonly offset: number;
  readonly ending: (typeof endings)[number];
  readonly active: number;
  readonly paused: number;
  readonly waited: number;
  /** Against all selected signed runs of the same procedure and build; null when it does not count. */
  readonly pace: number | null;
  readonly isOutlier: boolean;
  readonly faults: readonly RunFault[];
}

type RunFault = keyof typeof runFaults;

export function faultsOfRun(bits: number): readonly RunFault[] {
  return (Object.keys(runFaults) as RunFault[]).filter((fault) => (bits & runFaults[fault]) !== 0);
}

/**
 * The runs of `listed`, newest first, from the `first` up to before the `last` of them. Those that the asking does not count, because a trainer has
 * excluded them, stand among them without a pace.
 */
export function runList(
  asking: Asking,
  listed: Selection,
  first = 0,
  last = Infinity,
): { readonly lines: readonly RunLine[]; readonly of: number } {
  const { logbook, selection } = asking;
  const { oldestFirst } = logbook.digest;
  const pace = paceOfRuns(asking);
  const outlying = outlyingRuns(asking);
  const lines: RunLine[] = [];
  let of = 0;
  for (let at = oldestFirst.length - 1; at >= 0; at--) {
    const run = oldestFirst[at] ?? 0;
    if (listed.mask[run] !== 1) continue;
    if (of >= first && of < last)
      lines.push(selection.mask[run] === 1 ? lineOf(asking, run, pace[run] ?? NaN, outlying.has(run)) : lineOf(asking, run, NaN, false));
    of += 1;
  }
  return { lines, of };
}

function lineOf({ logbook, nameOf }: Asking, run: number, pace: number, isOutlier: boolean): RunLine {
  const { runs, procedures, builds, groups } = logbook;
  const procedure = procedures[runs.procedure[run] ?? 0];
  const person = runs.person[run] ?? 0;
  return {
    job: runs.job[run] ?? '',
    procedure: procedure?.id ?? '',
    title: procedure?.title ?? '',
    build: builds[runs.build[run] ?? 0] ?? '',
    person,
    called: nameOf(person),
    group: groups[runs.group[run] ?? 0] ?? null,
    number: runs.number[run] ?? 0,
    begun: runs.begun[run] ?? 0,
    offset: runs.offset[run] ?? 0,
    ending: endings[runs.ending[run] ?? 2] ?? 'not finished',
    active: (runs.active[run] ?? 0) / 1000,
    paused: (runs.paused[run] ?? 0) / 1000,
    waited: (runs.waited[run] ?? 0) / 1000,
    pace: Number.isNaN(pace) ? null : pace,
    isOutlier,
    faults: faultsOfRun(runs.faults[run] ?? 0),
  };
}

/** Runs whose pace is an outlier among the runs of the same procedure. */
const outlyingRuns = remembered((asking: Asking): ReadonlySet<number> => {
  const { logbook } = asking;
  const pace = paceOfRuns(asking);
  const byProcedure = new Map<number, number[]>();
  eachRun(asking, (run) => {
    if (!isSigned(logbook, run)) return;
    const list = byProcedure.get(logbook.runs.procedure[run] ?? 0) ?? [];
    byProcedure.set(logbook.runs.procedure[run] ?? 0, list);
    list.push(run);
  });
  const outlying = new Set<number>();
  for (const list of byProcedure.values()) {
    const fences = outlierFences(Float64Array.from(list, (run) => pace[run] ?? 0).sort());
    if (fences !== null) for (const run of list) if ((pace[run] ?? 0) < fences.low || (pace[run] ?? 0) > fences.high) outlying.add(run);
  }
  return outlying;
});
