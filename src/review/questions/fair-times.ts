import type { AllowanceBasis, Precision } from '../statistics/fair-time.ts';
import { normalTime, observationsNeeded, standardTime } from '../statistics/fair-time.ts';
import { moments } from '../statistics/moments.ts';
import { outlierFences } from '../statistics/outliers.ts';
import type { Asking, StepName } from './asking.ts';
import { stepName } from './asking.ts';

export interface FairTimeTerms {
  readonly allowance: number;
  readonly basis: AllowanceBasis;
  readonly precision: Precision;
  readonly withoutOutliers: boolean;
}

/** A fair time for one step. Seconds. */
interface FairTime {
  readonly name: StepName;
  readonly observed: number;
  readonly mean: number;
  readonly deviation: number;
  readonly outliersLeftOut: number;
  /** Mean of each observed time × its run's rating. */
  readonly normal: number;
  readonly standard: number;
  /** Observations for the precision asked for, not rounded; NaN when that cannot be said. */
  readonly needed: number;
  /** How many are still missing; null when that cannot be said. */
  readonly missing: number | null;
  /** Runs among the observed that a trainer has rated; the others count as normal pace. */
  readonly rated: number;
}

export interface FairTimes {
  readonly procedure: string;
  readonly steps: readonly FairTime[];
  /** Sum of the steps' standard times. */
  readonly total: number;
  /** The most observations still missing at any step. */
  readonly missing: number | null;
}

/** Observed × rating × (1 + allowance), step by step; each run's own rating applies to its own time. */
export function fairTimes({ logbook, selection, ratings }: Asking, procedure: number, terms: FairTimeTerms): FairTimes {
  const { byStep, runs } = logbook;
  const ratingOfRun = ratings.size === 0 ? null : Float64Array.from(runs.job, (job) => ratings.get(job) ?? NaN);
  const steps = (logbook.procedures[procedure]?.steps ?? []).flatMap((step): FairTime[] => {
    const places = (byStep.starts[step + 1] ?? 0) - (byStep.starts[step] ?? 0);
    const all = new Float64Array(places);
    const ratingOf = new Float64Array(places);
    let count = 0;
    for (let place = byStep.starts[step] ?? 0; place < (byStep.starts[step + 1] ?? 0); place++) {
      const run = byStep.run[place] ?? 0;
      if (selection.mask[run] !== 1 || byStep.ended[place] !== 1) continue;
      all[count] = (byStep.active[place] ?? 0) / 1000;
      ratingOf[count] = ratingOfRun === null ? NaN : (ratingOfRun[run] ?? NaN);
      count += 1;
    }
    // From the least to the most, as they stand in the logbook: what the fences keep is one stretch of them.
    const fences = terms.withoutOutliers ? outlierFences(all.subarray(0, count)) : null;
    let first = 0;
    let end = count;
    if (fences !== null) {
      while (first < end && (all[first] ?? 0) < fences.low) first++;
      while (end > first && (all[end - 1] ?? 0) > fences.high) end--;
    }
    const times = all.subarray(first, end);
    const given = ratingOf.subarray(first, end);
    const summed = moments(times);
    const normal = moments(times.map((time, index) => normalTime(time, rated(given[index]))));
    if (summed === null || normal === null) return [];
    const needed = summed.count < 2 ? NaN : observationsNeeded(summed, terms.precision);
    return [
      {
        name: stepName(logbook, step),
        observed: summed.count,
        mean: summed.mean,
        deviation: summed.deviation,
        outliersLeftOut: count - times.length,
        normal: normal.mean,
        standard: standardTime(normal.mean, terms.allowance, terms.basis),
        needed,
        missing: Number.isNaN(needed) ? null : Math.max(0, Math.ceil(needed) - summed.count),
        rated: given.reduce((sum, rating) => sum + (Number.isNaN(rating) ? 0 : 1), 0),
      },
    ];
  });
  const missing = steps.map((step) => step.missing);
  return {
    procedure: logbook.procedures[procedure]?.id ?? '',
    steps,
    total: steps.reduce((sum, { standard }) => sum + standard, 0),
    missing: missing.includes(null) ? null : Math.max(0, ...missing.filter((count) => count !== null)),
  };
}

function rated(rating: number | undefined): number {
  return rating === undefined || Number.isNaN(rating) ? 1 : rating;
}
