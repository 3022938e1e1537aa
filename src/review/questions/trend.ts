import type { MedianInterval } from '../statistics/quantiles.ts';
import { medianInterval, quantileOfSorted } from '../statistics/quantiles.ts';
import { localDay } from '../wording.ts';
import type { Asking } from './asking.ts';
import { eachRun } from './asking.ts';
import { paceOfRuns } from './pace.ts';

/** One calendar month of signed runs: how they went against all selected ones. */
export interface MonthPace {
  /** "2025-03" */
  readonly month: string;
  readonly runs: number;
  readonly pace: number;
  readonly interval: MedianInterval | null;
  /** Questions and repeats for each run. */
  readonly questions: number;
}

export function paceByMonth(asking: Asking): readonly MonthPace[] {
  const pace = paceOfRuns(asking);
  const { logbook } = asking;
  const { runs } = logbook;
  const { questions, repeats } = logbook.digest.sums;
  const months = new Map<string, { paces: number[]; asked: number }>();
  const monthOf = new Map<number, string>();
  eachRun(asking, (run) => {
    const own = pace[run] ?? NaN;
    if (Number.isNaN(own)) return;
    const day = Math.floor(((runs.begun[run] ?? 0) + (runs.offset[run] ?? 0) * 60_000) / 86_400_000);
    const month = monthOf.get(day) ?? localDay(day * 86_400_000, 0).slice(0, 7);
    monthOf.set(day, month);
    const entry = months.get(month) ?? { paces: [], asked: 0 };
    months.set(month, entry);
    entry.paces.push(own);
    entry.asked += (questions[run] ?? 0) + (repeats[run] ?? 0);
  });
  return [...months]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([month, { paces, asked: sum }]) => {
      const sorted = Float64Array.from(paces).sort();
      return {
        month,
        runs: paces.length,
        pace: quantileOfSorted(sorted, 0.5),
        interval: medianInterval(sorted),
        questions: sum / paces.length,
      };
    });
}
