import { intentNames } from '../../phrasing/intents.ts';
import type { Tallies } from '../logbook.ts';
import { rareColumns } from '../logbook.ts';
import { outlierFences } from '../statistics/outliers.ts';
import type { Spread } from '../statistics/quantiles.ts';
import { medianOf, spreadOfSorted } from '../statistics/quantiles.ts';
import { spreadShares } from '../statistics/spread-shares.ts';
import type { Asking, StepName } from './asking.ts';
import { eachRun, isSigned, stepName, stepsSelected } from './asking.ts';

/** What the selected runs say of one step. Times in seconds. */
export interface StepMeasures {
  readonly name: StepName;
  /** Runs that came by it. */
  readonly runs: number;
  /** Active time of the runs that carried it out; null when none did. */
  readonly active: Spread | null;
  readonly outliers: number;
  /** Where outliers begin, or null with too few times. */
  readonly fences: { readonly low: number; readonly high: number } | null;
  /** The outlying times themselves, the farthest forty of them. */
  readonly outlying: readonly number[];
  /** The least and the most that is no outlier. */
  readonly whiskers: { readonly low: number; readonly high: number } | null;
  readonly pausedMean: number;
  readonly waitedMedian: number;
  readonly visits: number;
  /** Pieces of work in all runs together: fasteners, values, holds, the step itself. */
  readonly work: number;
  readonly questions: number;
  readonly questionsByKind: Readonly<Record<string, number>>;
  readonly repeats: number;
  readonly misheard: number;
  readonly refused: number;
  readonly stepBacks: number;
  readonly undos: number;
  readonly stops: number;
  readonly skips: number;
  readonly passedOver: number;
  readonly holdsFailed: number;
  readonly leftOut: number;
  /** Questions, repeats, step-backs, undos, stops and failed holds for each run that came by. */
  readonly trouble: number;
  /** Share of all active time on steps in the selected runs. */
  readonly timeShare: number;
  /** How much it explains of the spread of its procedure's totals; null when that cannot be said. */
  readonly spreadShare: number | null;
}

const mostOutliersShown = 40;

/** Measures of every step of the selected procedures, in written order. */
export function stepMeasures(asking: Asking): readonly StepMeasures[] {
  return withTimes(asking, stepCounts(asking));
}

/** All but the times, which take the longest to work out: most questions need them of few steps. */
export type StepCounts = Omit<StepMeasures, keyof Times>;

export function withTimes(asking: Asking, steps: readonly StepCounts[]): readonly StepMeasures[] {
  return steps.map((step) => ({ ...step, ...timesOf(asking, step.name.step) }));
}

export function stepCounts(asking: Asking): readonly StepCounts[] {
  const { logbook } = asking;
  const steps = stepsSelected(asking);
  const counted = countCells(asking);
  const asked = addUp(logbook.digest.asked, asking, logbook.steps.length * intentNames.length);
  const shares = sharesOfSpread(asking);
  let all = 0;
  for (const step of steps) all += counted.active[step] ?? 0;
  return steps.map((step) => ({
    name: stepName(logbook, step),
    ...countsOf(counted, step),
    questionsByKind: kindsAt(asked, step),
    timeShare: all === 0 ? 0 : (counted.active[step] ?? 0) / all,
    spreadShare: shares.get(step) ?? null,
  }));
}

type Times = Pick<StepMeasures, 'active' | 'outliers' | 'fences' | 'outlying' | 'whiskers'>;

/** The times of the runs that carried a step out; they stand in the logbook from the least to the most. */
function timesOf({ logbook: { byStep }, selection: { mask } }: Asking, step: number): Times {
  const start = byStep.starts[step] ?? 0;
  const end = byStep.starts[step + 1] ?? 0;
  const times = new Float64Array(end - start);
  let timed = 0;
  for (let place = start; place < end; place++)
    if (mask[byStep.run[place] ?? 0] === 1 && byStep.ended[place] === 1) times[timed++] = (byStep.active[place] ?? 0) / 1000;
  const sorted = times.subarray(0, timed);
  const fences = outlierFences(sorted);
  let low = 0;
  let high = timed;
  if (fences !== null) {
    while (low < timed && (sorted[low] ?? 0) < fences.low) low++;
    while (high > low && (sorted[high - 1] ?? 0) > fences.high) high--;
  }
  const outliers = low + timed - high;
  const half = outliers <= mostOutliersShown ? Infinity : mostOutliersShown / 2;
  const outside = [...sorted.subarray(0, low), ...sorted.subarray(high)];
  return {
    active: spreadOfSorted(sorted),
    outliers,
    fences,
    outlying: half === Infinity ? outside : [...outside.slice(0, half), ...outside.slice(-half)],
    whiskers: timed === 0 ? null : { low: sorted[low] ?? NaN, high: sorted[high - 1] ?? NaN },
  };
}

interface Counted {
  /** One entry a step. Times in milliseconds, so that sums are exact. */
  readonly runs: Float64Array;
  readonly active: Float64Array;
  readonly visits: Float64Array;
  readonly work: Float64Array;
  readonly skips: Float64Array;
  readonly passedOver: Float64Array;
  /** Step by step, one entry a rare column. */
  readonly rare: Float64Array;
  /** Waits within steps, in seconds, by step. */
  readonly waits: ReadonlyMap<number, readonly number[]>;
}

/** One pass over the selected runs' cells. */
function countCells(asking: Asking): Counted {
  const { runs, cells, digest, steps } = asking.logbook;
  const { step: stepOf, ended, waited } = cells;
  const perStep = (): Float64Array => new Float64Array(steps.length);
  const [counted, active, visits, work, skips, passedOver] = [perStep(), perStep(), perStep(), perStep(), perStep(), perStep()];
  const waits = new Map<number, number[]>();
  for (let run = 0; run < runs.count; run++) {
    if (asking.selection.mask[run] !== 1) continue;
    const end = runs.firstCell[run + 1] ?? 0;
    for (let cell = runs.firstCell[run] ?? 0; cell < end; cell++) {
      const step = stepOf[cell] ?? 0;
      const how = ended[cell] ?? 0;
      if (how === 3) {
        passedOver[step] = (passedOver[step] ?? 0) + 1;
        continue;
      }
      counted[step] = (counted[step] ?? 0) + 1;
      active[step] = (active[step] ?? 0) + (cells.active[cell] ?? 0);
      visits[step] = (visits[step] ?? 0) + (cells.visits[cell] ?? 0);
      work[step] = (work[step] ?? 0) + (cells.work[cell] ?? 0);
      if (how === 2) skips[step] = (skips[step] ?? 0) + 1;
      if (waited[cell] !== 0) keepWait(waits, step, (waited[cell] ?? 0) / 1000);
    }
  }
  const rare = addUp(digest.rare, asking, steps.length * rareColumns.length);
  return { runs: counted, active, visits, work, skips, passedOver, rare, waits };
}

function addUp({ starts, key, value }: Tallies, { selection }: Asking, keys: number): Float64Array {
  const sums = new Float64Array(keys);
  for (let run = 0; run < selection.mask.length; run++) {
    if (selection.mask[run] !== 1) continue;
    const end = starts[run + 1] ?? 0;
    for (let at = starts[run] ?? 0; at < end; at++) {
      const place = key[at] ?? 0;
      sums[place] = (sums[place] ?? 0) + (value[at] ?? 0);
    }
  }
  return sums;
}

function keepWait(waits: Map<number, number[]>, step: number, seconds: number): void {
  const own = waits.get(step);
  if (own === undefined) waits.set(step, [seconds]);
  else own.push(seconds);
}

type Counts = Omit<StepCounts, 'name' | 'questionsByKind' | 'timeShare' | 'spreadShare'>;

function countsOf(counted: Counted, step: number): Counts {
  const at = (name: (typeof rareColumns)[number]): number => counted.rare[step * rareColumns.length + rareColumns.indexOf(name)] ?? 0;
  const own = counted.waits.get(step);
  const runs = counted.runs[step] ?? 0;
  const troubles = at('questions') + at('repeats') + at('stepBacks') + at('undos') + at('stops') + at('holdsFailed');
  return {
    runs,
    pausedMean: runs === 0 ? 0 : at('paused') / 1000 / runs,
    waitedMedian: own === undefined ? 0 : medianOf(own),
    visits: counted.visits[step] ?? 0,
    work: counted.work[step] ?? 0,
    questions: at('questions'),
    repeats: at('repeats'),
    misheard: at('misheard'),
    refused: at('refused'),
    stepBacks: at('stepBacks'),
    undos: at('undos'),
    stops: at('stops'),
    skips: counted.skips[step] ?? 0,
    passedOver: counted.passedOver[step] ?? 0,
    holdsFailed: at('holdsFailed'),
    leftOut: at('leftOut'),
    trouble: runs === 0 ? 0 : troubles / runs,
  };
}

function kindsAt(counts: Float64Array, step: number): Readonly<Record<string, number>> {
  const kinds: Record<string, number> = {};
  for (const [intent, name] of intentNames.entries()) {
    const count = counts[step * intentNames.length + intent] ?? 0;
    if (count > 0) kinds[name] = count;
  }
  return kinds;
}

/** For each step, its share of the spread of its procedure's totals, from signed runs only. A step not worked counts as no time. */
function sharesOfSpread({ logbook, selection }: Asking): ReadonlyMap<number, number> {
  const { cells, runs, steps } = logbook;
  const signed = logbook.procedures.map((): number[] => []);
  eachRun({ logbook, selection }, (run) => {
    if (isSigned(logbook, run)) signed[runs.procedure[run] ?? 0]?.push(run);
  });
  const measured = { starts: runs.firstCell, part: cells.step, value: cells.active };
  const shares = new Map<number, number>();
  for (const [procedure, list] of signed.entries()) {
    const found = spreadShares(measured, steps.length, list);
    if (found !== null) for (const step of logbook.procedures[procedure]?.steps ?? []) shares.set(step, found[step] ?? 0);
  }
  return shares;
}
