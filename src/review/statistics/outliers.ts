import { quantileOfSorted } from './quantiles.ts';

/** Fewer times than this have no outliers: the quartiles themselves are too unsure. */
const fewestForOutliers = 8;

interface Fences {
  readonly low: number;
  readonly high: number;
}

/** Tukey's inner fences on the logarithms: times are skewed to the right, and plain fences would flag every slow one. Null with too few. */
export function outlierFences(sorted: ArrayLike<number>): Fences | null {
  if (sorted.length < fewestForOutliers) return null;
  const lower = Math.log(Math.max(quantileOfSorted(sorted, 0.25), Number.MIN_VALUE));
  const upper = Math.log(Math.max(quantileOfSorted(sorted, 0.75), Number.MIN_VALUE));
  const reach = 1.5 * (upper - lower);
  return { low: Math.exp(lower - reach), high: Math.exp(upper + reach) };
}
