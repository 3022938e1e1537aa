import type { MedianInterval } from '../statistics/quantiles.ts';
import { medianInterval, quantileOfSorted } from '../statistics/quantiles.ts';
import type { SharedRate } from '../statistics/learning-curve.ts';
import type { Asking } from './asking.ts';
import { eachRun, isSigned } from './asking.ts';
import { ratesOfPeople } from './learning.ts';
import { paceOfRuns } from './pace.ts';

/** What the selected runs say of one person. */
export interface PersonMeasures {
  readonly person: number;
  readonly called: string;
  readonly group: string | null;
  readonly runs: number;
  readonly signed: number;
  /** Median of their runs' pace, 1 being everybody's median; null without a signed run. */
  readonly pace: number | null;
  readonly paceInterval: MedianInterval | null;
  /** Pace of the first and the latest quarter of their signed runs, at least two each; null with fewer than four. */
  readonly firstPace: number | null;
  readonly latestPace: number | null;
  readonly rate: SharedRate | null;
  /** See `RateOfPerson`. */
  readonly rateDistance: number | null;
  /** Seconds of active time over all runs. */
  readonly active: number;
  readonly questionsPerRun: number;
  readonly repeatsPerRun: number;
  readonly misheardPerRun: number;
  readonly stepBacks: number;
  readonly undos: number;
  readonly skips: number;
  readonly holdsFailed: number;
}

export function peopleMeasures(asking: Asking): readonly PersonMeasures[] {
  const { logbook, selection } = asking;
  const { runs, cells } = logbook;
  const pace = paceOfRuns(asking);
  const rates = new Map(ratesOfPeople(asking).map((rate) => [rate.person, rate]));
  const sums = logbook.people.map(() => ({
    runs: [] as number[],
    active: 0,
    questions: 0,
    repeats: 0,
    misheard: 0,
    stepBacks: 0,
    undos: 0,
    skips: 0,
    holdsFailed: 0,
  }));
  eachRun({ logbook, selection }, (run) => {
    const sum = sums[runs.person[run] ?? 0];
    if (sum === undefined) return;
    sum.runs.push(run);
    sum.active += (runs.active[run] ?? 0) / 1000;
  });
  for (let cell = 0; cell < cells.count; cell++) {
    const run = cells.run[cell] ?? 0;
    if (selection.mask[run] !== 1) continue;
    const sum = sums[runs.person[run] ?? 0];
    if (sum === undefined) continue;
    sum.questions += cells.questions[cell] ?? 0;
    sum.repeats += cells.repeats[cell] ?? 0;
    sum.misheard += cells.misheard[cell] ?? 0;
    sum.stepBacks += cells.stepBacks[cell] ?? 0;
    sum.undos += cells.undos[cell] ?? 0;
    sum.skips += cells.ended[cell] === 2 ? 1 : 0;
    sum.holdsFailed += cells.holdsFailed[cell] ?? 0;
  }
  return sums
    .flatMap((sum, person): PersonMeasures[] => {
      if (sum.runs.length === 0) return [];
      const signed = sum.runs.filter((run) => isSigned(logbook, run)).sort((a, b) => (runs.begun[a] ?? 0) - (runs.begun[b] ?? 0));
      const paces = signed.map((run) => pace[run] ?? NaN).filter((value) => !Number.isNaN(value));
      const sorted = Float64Array.from(paces).sort();
      const quarter = Math.max(2, Math.floor(paces.length / 4));
      const rate = rates.get(person);
      return [
        {
          person,
          called: asking.nameOf(person),
          group: groupOf(logbook, sum.runs),
          runs: sum.runs.length,
          signed: signed.length,
          pace: paces.length === 0 ? null : quantileOfSorted(sorted, 0.5),
          paceInterval: medianInterval(sorted),
          firstPace: paces.length < 4 ? null : middleOf(paces.slice(0, quarter)),
          latestPace: paces.length < 4 ? null : middleOf(paces.slice(-quarter)),
          rate: rate?.shared ?? null,
          rateDistance: rate?.distance ?? null,
          active: sum.active,
          questionsPerRun: sum.questions / sum.runs.length,
          repeatsPerRun: sum.repeats / sum.runs.length,
          misheardPerRun: sum.misheard / sum.runs.length,
          stepBacks: sum.stepBacks,
          undos: sum.undos,
          skips: sum.skips,
          holdsFailed: sum.holdsFailed,
        },
      ];
    })
    .sort((one, other) => (one.called < other.called ? -1 : 1));
}

/** The group of most of these runs. */
export function groupOf({ runs, groups }: Asking['logbook'], own: readonly number[]): string | null {
  const counts = new Map<number, number>();
  for (const run of own) counts.set(runs.group[run] ?? 0, (counts.get(runs.group[run] ?? 0) ?? 0) + 1);
  const [most] = [...counts].sort(([, one], [, other]) => other - one);
  return groups[most?.[0] ?? 0] ?? null;
}

function middleOf(values: readonly number[]): number {
  return quantileOfSorted(Float64Array.from(values).sort(), 0.5);
}
