import { moments } from './moments.ts';

/** What was measured in runs: those of run r stand from `starts[r]` up to before `starts[r + 1]`, each `value` for a `part`. */
interface PartsOfRuns {
  readonly starts: ArrayLike<number>;
  readonly part: ArrayLike<number>;
  readonly value: ArrayLike<number>;
}

/**
 * How much each part explains of the spread of the total over the given runs: the covariance of the part with the total over the total's variance.
 * The shares add up to 1; one can be negative, when a part is short where the whole is long. A part that a run has nothing of took nothing.
 * Null with fewer than three runs or no totals that differ.
 */
export function spreadShares({ starts, part, value }: PartsOfRuns, parts: number, runs: readonly number[]): Float64Array | null {
  if (runs.length < 3) return null;
  const totals = new Float64Array(runs.length);
  for (let place = 0; place < runs.length; place++) {
    const run = runs[place] ?? 0;
    let sum = 0;
    for (let at = starts[run] ?? 0; at < (starts[run + 1] ?? 0); at++) sum += value[at] ?? 0;
    totals[place] = sum;
  }
  const summed = moments(totals);
  if (summed === null || summed.deviation === 0) return null;
  const variance = summed.deviation ** 2 * (runs.length - 1);
  const shares = new Float64Array(parts);
  const sums = new Float64Array(parts);
  let distances = 0;
  for (let place = 0; place < runs.length; place++) {
    const run = runs[place] ?? 0;
    const distance = (totals[place] ?? 0) - summed.mean;
    for (let at = starts[run] ?? 0; at < (starts[run + 1] ?? 0); at++) {
      const own = part[at] ?? 0;
      shares[own] = (shares[own] ?? 0) + (value[at] ?? 0) * distance;
      sums[own] = (sums[own] ?? 0) + (value[at] ?? 0);
    }
    distances += distance;
  }
  // The parts' own means fall out, because the totals' distances from their mean add up to nothing, but for what the mean was rounded by:
  // where the totals hardly differ that would show.
  const rounded = distances / runs.length;
  for (let own = 0; own < parts; own++) shares[own] = ((shares[own] ?? 0) - (sums[own] ?? 0) * rounded) / variance;
  return shares;
}
