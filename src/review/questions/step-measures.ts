import { intentNames } from '../../phrasing/intents.ts';
import { kindOf } from '../event-kinds.ts';
import { outlierFences } from '../statistics/outliers.ts';
import type { Spread } from '../statistics/quantiles.ts';
import { quantileOfSorted, spreadOfSorted } from '../statistics/quantiles.ts';
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
  const steps = stepsSelected(asking);
  const kinds = questionsByKind(asking);
  const shares = sharesOfSpread(asking, steps);
  const counted = steps.map((step) => measuresOf(asking, step, kinds.get(step) ?? {}, shares.get(step) ?? null));
  const all = counted.reduce((sum, { activeTotal }) => sum + activeTotal, 0);
  return counted.map(({ activeTotal, ...rest }) => ({ ...rest, timeShare: all === 0 ? 0 : activeTotal / all }));
}

type Counted = Omit<StepMeasures, 'timeShare'> & { readonly activeTotal: number };

function measuresOf(
  { logbook, selection }: Asking,
  step: number,
  kinds: Readonly<Record<string, number>>,
  spreadShare: number | null,
): Counted {
  const { cells, byStep } = logbook;
  const start = byStep.starts[step] ?? 0;
  const end = byStep.starts[step + 1] ?? 0;
  const times = new Float64Array(end - start);
  const waits: number[] = [];
  const sums = {
    visits: 0,
    work: 0,
    questions: 0,
    repeats: 0,
    misheard: 0,
    refused: 0,
    stepBacks: 0,
    undos: 0,
    stops: 0,
    skips: 0,
    passedOver: 0,
    holdsFailed: 0,
    leftOut: 0,
  };
  let runs = 0;
  let timed = 0;
  let paused = 0;
  let activeTotal = 0;
  for (let place = start; place < end; place++) {
    const cell = byStep.order[place] ?? 0;
    if (selection.mask[cells.run[cell] ?? 0] !== 1) continue;
    const ended = cells.ended[cell] ?? 0;
    if (ended === 3) {
      sums.passedOver += 1;
      continue;
    }
    runs += 1;
    const active = (cells.active[cell] ?? 0) / 1000;
    activeTotal += active;
    if (ended === 1) times[timed++] = active;
    if (ended === 2) sums.skips += 1;
    paused += (cells.paused[cell] ?? 0) / 1000;
    const waited = cells.waited[cell] ?? 0;
    if (waited > 0) waits.push(waited / 1000);
    sums.visits += cells.visits[cell] ?? 0;
    sums.work += cells.work[cell] ?? 0;
    sums.questions += cells.questions[cell] ?? 0;
    sums.repeats += cells.repeats[cell] ?? 0;
    sums.misheard += cells.misheard[cell] ?? 0;
    sums.refused += cells.refused[cell] ?? 0;
    sums.stepBacks += cells.stepBacks[cell] ?? 0;
    sums.undos += cells.undos[cell] ?? 0;
    sums.stops += cells.stops[cell] ?? 0;
    sums.holdsFailed += cells.holdsFailed[cell] ?? 0;
    sums.leftOut += cells.leftOut[cell] ?? 0;
  }
  const sorted = times.subarray(0, timed);
  const fences = outlierFences(sorted);
  const inside = fences === null ? sorted : sorted.filter((time) => time >= fences.low && time <= fences.high);
  const outside = fences === null ? [] : [...sorted.filter((time) => time < fences.low || time > fences.high)];
  const troubles = sums.questions + sums.repeats + sums.stepBacks + sums.undos + sums.stops + sums.holdsFailed;
  return {
    name: stepName(logbook, step),
    runs,
    active: spreadOfSorted(sorted),
    outliers: outside.length,
    fences,
    outlying:
      outside.length <= mostOutliersShown
        ? outside
        : [...outside.slice(0, mostOutliersShown / 2), ...outside.slice(-mostOutliersShown / 2)],
    whiskers: timed === 0 ? null : { low: inside[0] ?? NaN, high: inside.at(-1) ?? NaN },
    pausedMean: runs === 0 ? 0 : paused / runs,
    waitedMedian: waits.length === 0 ? 0 : quantileOfSorted(Float64Array.from(waits).sort(), 0.5),
    ...sums,
    questionsByKind: kinds,
    trouble: runs === 0 ? 0 : troubles / runs,
    activeTotal,
    spreadShare,
  };
}

/** What was asked at each step, by intent. One pass over the selected runs' events. */
function questionsByKind({ logbook, selection }: Asking): ReadonlyMap<number, Readonly<Record<string, number>>> {
  const { events, runs, steps } = logbook;
  const intents = intentNames.length;
  const asked = kindOf.asked;
  const counts = new Uint32Array(logbook.procedures.length * logbook.stepNames.size() * intents);
  eachRun({ logbook, selection }, (run) => {
    const first = runs.firstEvent[run] ?? 0;
    const end = first + (runs.events[run] ?? 0);
    const offset = (runs.procedure[run] ?? 0) * logbook.stepNames.size();
    for (let row = first; row < end; row++) {
      if (events.kind[row] !== asked) continue;
      const place = (offset + (events.step[row] ?? 0)) * intents + (events.detail[row] ?? 0);
      counts[place] = (counts[place] ?? 0) + 1;
    }
  });
  const result = new Map<number, Record<string, number>>();
  for (const [step, { procedure, id }] of steps.entries()) {
    const offset = (procedure * logbook.stepNames.size() + logbook.stepNames.numberOfText(id)) * intents;
    const kinds: Record<string, number> = {};
    for (const [intent, name] of intentNames.entries()) {
      const count = counts[offset + intent] ?? 0;
      if (count > 0) kinds[name] = count;
    }
    result.set(step, kinds);
  }
  return result;
}

/** For each step, its share of the spread of its procedure's totals, from signed runs only. A step not worked counts as no time. */
function sharesOfSpread({ logbook, selection }: Asking, steps: readonly number[]): ReadonlyMap<number, number> {
  const { cells, runs, byStep } = logbook;
  const shares = new Map<number, number>();
  const place = new Int32Array(runs.count).fill(-1);
  const counts = logbook.procedures.map(() => 0);
  eachRun({ logbook, selection }, (run) => {
    if (!isSigned(logbook, run)) return;
    const procedure = runs.procedure[run] ?? 0;
    place[run] = counts[procedure] ?? 0;
    counts[procedure] = (counts[procedure] ?? 0) + 1;
  });
  for (const [procedure, count] of counts.entries()) {
    const own = steps.filter((step) => logbook.steps[step]?.procedure === procedure);
    const parts = own.map((step) => {
      const part = new Float64Array(count);
      for (let at = byStep.starts[step] ?? 0; at < (byStep.starts[step + 1] ?? 0); at++) {
        const cell = byStep.order[at] ?? 0;
        const column = place[cells.run[cell] ?? 0] ?? -1;
        if (column >= 0) part[column] = (cells.active[cell] ?? 0) / 1000;
      }
      return part;
    });
    const found = spreadShares(parts, count);
    if (found !== null) for (const [index, step] of own.entries()) shares.set(step, found[index] ?? 0);
  }
  return shares;
}
