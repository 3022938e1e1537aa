import type { MedianInterval } from '../statistics/quantiles.ts';
import { medianInterval, medianOf, quantileOfSorted } from '../statistics/quantiles.ts';
import type { SharedRate } from '../statistics/learning-curve.ts';
import type { RunSum } from '../logbook.ts';
import type { Asking } from './asking.ts';
import { isSigned } from './asking.ts';
import { ratesOfPeople } from './learning.ts';
import { paceOfRuns } from './pace.ts';
import { remembered } from './remembered.ts';

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

export const peopleMeasures = remembered((asking: Asking): readonly PersonMeasures[] => {
  const pace = paceOfRuns(asking);
  const { logbook, selection } = asking;
  const { runs } = logbook;
  const { oldestFirst, sums } = logbook.digest;
  const rates = new Map(ratesOfPeople(asking).map((rate) => [rate.person, rate]));
  const runsOf = logbook.people.map((): number[] => []);
  for (const run of oldestFirst) if (selection.mask[run] === 1) runsOf[runs.person[run] ?? 0]?.push(run);
  return runsOf
    .flatMap((own, person): PersonMeasures[] => {
      if (own.length === 0) return [];
      const all = (of: RunSum): number => own.reduce((sum, run) => sum + (sums[of][run] ?? 0), 0);
      const signed = own.filter((run) => isSigned(logbook, run));
      const paces = signed.map((run) => pace[run] ?? NaN).filter((value) => !Number.isNaN(value));
      const sorted = Float64Array.from(paces).sort();
      const quarter = Math.max(2, Math.floor(paces.length / 4));
      const rate = rates.get(person);
      return [
        {
          person,
          called: asking.nameOf(person),
          group: groupOf(logbook, own),
          runs: own.length,
          signed: signed.length,
          pace: paces.length === 0 ? null : quantileOfSorted(sorted, 0.5),
          paceInterval: medianInterval(sorted),
          firstPace: paces.length < 4 ? null : medianOf(paces.slice(0, quarter)),
          latestPace: paces.length < 4 ? null : medianOf(paces.slice(-quarter)),
          rate: rate?.shared ?? null,
          rateDistance: rate?.distance ?? null,
          active: own.reduce((sum, run) => sum + (runs.active[run] ?? 0), 0) / 1000,
          questionsPerRun: all('questions') / own.length,
          repeatsPerRun: all('repeats') / own.length,
          misheardPerRun: all('misheard') / own.length,
          stepBacks: all('stepBacks'),
          undos: all('undos'),
          skips: all('skips'),
          holdsFailed: all('holdsFailed'),
        },
      ];
    })
    .sort((one, other) => (one.called < other.called ? -1 : 1));
});

/** The group of most of these runs. */
export function groupOf({ runs, groups }: Asking['logbook'], own: readonly number[]): string | null {
  const counts = new Map<number, number>();
  for (const run of own) counts.set(runs.group[run] ?? 0, (counts.get(runs.group[run] ?? 0) ?? 0) + 1);
  const [most] = [...counts].sort(([, one], [, other]) => other - one);
  return groups[most?.[0] ?? 0] ?? null;
}
