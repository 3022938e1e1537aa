import { fairCoinSums } from './distributions.ts';
import { moments } from './moments.ts';

/**
 * The value below which a share `p` of the sorted values lies, by linear interpolation between order statistics
 * (definition 7 of Hyndman and Fan 1996, as most spreadsheets do). NaN of nothing.
 */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  const low = sorted[below] ?? NaN;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] ?? NaN;
  return low + (high - low) * (place - below);
}

/** Where the true median is likely to lie, between two of the observed values. */
export interface MedianInterval {
  readonly low: number;
  readonly high: number;
  /** Which order statistics they are, counted from 1: the k-th smallest and the k-th largest. */
  readonly k: number;
  /** The confidence that they really give, at least the one asked for. */
  readonly confidence: number;
}

/**
 * The narrowest pair of order statistics that holds the true median with at least `confidence`, whatever the distribution
 * (Conover, Practical Nonparametric Statistics, 3.2). Null when there are too few: at 95 % that is fewer than six.
 */
export function medianInterval(sorted: ArrayLike<number>, confidence = 0.95): MedianInterval | null {
  const n = sorted.length;
  const sums = coinSums(n);
  let k = 0;
  while (k + 1 <= n / 2 && 1 - 2 * (sums[k] ?? 1) >= confidence) k++;
  if (k === 0) return null;
  return { low: sorted[k - 1] ?? NaN, high: sorted[n - k] ?? NaN, k, confidence: 1 - 2 * (sums[k - 1] ?? 1) };
}

/** Sums found before: the same few counts come up for step after step. */
const sumsFound = new Map<number, Float64Array>();
const mostSums = 4096;

function coinSums(n: number): Float64Array {
  const found = sumsFound.get(n) ?? fairCoinSums(n);
  if (sumsFound.size < mostSums && n < 10_000) sumsFound.set(n, found);
  return found;
}

/** What a set of times looks like. All in the unit of the values. */
export interface Spread {
  readonly count: number;
  readonly least: number;
  readonly lowerQuartile: number;
  readonly median: number;
  readonly upperQuartile: number;
  readonly ninetieth: number;
  readonly most: number;
  readonly mean: number;
  readonly deviation: number;
  /** Null when there are too few values to say. */
  readonly interval: MedianInterval | null;
}

/** Null of nothing. */
export function spreadOfSorted(sorted: ArrayLike<number>): Spread | null {
  const summed = moments(sorted);
  if (summed === null) return null;
  return {
    count: summed.count,
    least: sorted[0] ?? NaN,
    lowerQuartile: quantileOfSorted(sorted, 0.25),
    median: quantileOfSorted(sorted, 0.5),
    upperQuartile: quantileOfSorted(sorted, 0.75),
    ninetieth: quantileOfSorted(sorted, 0.9),
    most: sorted[sorted.length - 1] ?? NaN,
    mean: summed.mean,
    deviation: summed.deviation,
    interval: medianInterval(sorted),
  };
}

export function sorted(values: readonly number[]): Float64Array {
  return new Float64Array(values).sort();
}

export function medianOf(values: readonly number[]): number {
  return quantileOfSorted(sorted(values), 0.5);
}
