import type { Moments } from './moments.ts';

/** What the allowance is a share of: the work itself, or the whole working day. */
export type AllowanceBasis = 'job' | 'day';

/** Observed time at a person's pace, brought to the normal pace. A rating of 1 is normal, 1.1 is a tenth quicker than normal. */
export function normalTime(observed: number, rating: number): number {
  return observed * rating;
}

/** Normal time with the allowance for rest, talk and small delays: NT·(1 + A) on the job, NT/(1 − A) on the working day. */
export function standardTime(normal: number, allowance: number, basis: AllowanceBasis): number {
  return basis === 'job' ? normal * (1 + allowance) : normal / (1 - allowance);
}

/** How closely the mean is wanted: within ± `share` of itself, with the confidence that belongs to `z`. */
export interface Precision {
  readonly share: number;
  readonly z: number;
}

/** n = (z·s / (h·x̄))², not rounded. Textbook tables round early; the caller takes the ceiling. NaN when the mean is not positive. */
export function observationsNeeded({ mean, deviation }: Pick<Moments, 'mean' | 'deviation'>, { share, z }: Precision): number {
  return mean > 0 ? ((z * deviation) / (share * mean)) ** 2 : NaN;
}
