import { logChoose } from './distributions.ts';
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
  // Chances of at most k heads among n throws of a fair coin, added up from where they are no longer next to nothing (under 1e-22).
  let k = Math.max(0, Math.floor(n / 2 - 5 * Math.sqrt(n)));
  let term = Math.exp(logChoose(n, k) - n * Math.LN2);
  let below = 0;
  while (k + 1 <= n / 2 && 1 - 2 * (below + term) >= confidence) {
    below += term;
    term *= (n - k) / (k + 1);
    k += 1;
  }
  if (k === 0) return null;
  return { low: sorted[k - 1] ?? NaN, high: sorted[n - k] ?? NaN, k, confidence: 1 - 2 * below };
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

/**
 * The median of so many values from `start` on, which are moved about: it is selected and not sorted for. Small lists by insertion, larger ones by
 * parting around a value (Hoare 1961). NaN of nothing; the values themselves must not be NaN.
 */
export function medianInPlace(values: Float64Array, start: number, count: number): number {
  const end = start + count;
  const upper = start + (count >> 1);
  if (count <= 24) sortFew(values, start, end);
  else partAround(values, start, end, upper);
  const high = count === 0 ? NaN : (values[upper] ?? NaN);
  if (count % 2 === 1) return high;
  let low = values[start] ?? NaN;
  for (let index = start + 1; index < upper; index++) low = Math.max(low, values[index] ?? NaN);
  return low + (high - low) * 0.5;
}

function sortFew(values: Float64Array, start: number, end: number): void {
  for (let next = start + 1; next < end; next++) {
    const value = values[next] ?? NaN;
    let place = next;
    for (; place > start && (values[place - 1] ?? NaN) > value; place--) values[place] = values[place - 1] ?? NaN;
    values[place] = value;
  }
}

/** Moves values about until the one at `wanted` is where sorting would put it, with none larger before it and none smaller behind it. */
function partAround(values: Float64Array, start: number, end: number, wanted: number): void {
  let left = start;
  let right = end - 1;
  while (left < right) {
    const pivot = middleOfThree(values[left] ?? NaN, values[(left + right) >> 1] ?? NaN, values[right] ?? NaN);
    let up = left;
    let down = right;
    while (up <= down) {
      while ((values[up] ?? NaN) < pivot) up++;
      while ((values[down] ?? NaN) > pivot) down--;
      if (up > down) break;
      const kept = values[up] ?? NaN;
      values[up++] = values[down] ?? NaN;
      values[down--] = kept;
    }
    if (wanted <= down) right = down;
    else if (wanted >= up) left = up;
    else return;
  }
}

function middleOfThree(one: number, two: number, three: number): number {
  return Math.max(Math.min(one, two), Math.min(Math.max(one, two), three));
}

export function sorted(values: readonly number[]): Float64Array {
  return new Float64Array(values).sort();
}

export function medianOf(values: ArrayLike<number>): number {
  return medianInPlace(Float64Array.from(values), 0, values.length);
}
