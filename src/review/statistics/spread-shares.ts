/** What was measured, entry by entry: part `part[i]` took `value[i]` in run `run[i]`. A part that a run has no entry for took nothing. */
export interface PartsOfRuns {
  readonly part: Uint16Array;
  readonly run: Uint32Array;
  readonly value: Float64Array;
}

/**
 * How much each part explains of the spread of the total: the covariance of the part with the total over the total's variance.
 * The shares add up to 1; one can be negative, when a part is short where the whole is long. Null with fewer than three runs
 * or no totals that differ.
 */
export function spreadShares({ part, run, value }: PartsOfRuns, parts: number, runs: number): Float64Array | null {
  if (runs < 3) return null;
  // How far each run's total lies from their mean.
  const off = new Float64Array(runs);
  for (let entry = 0; entry < value.length; entry++) off[run[entry] ?? 0] = (off[run[entry] ?? 0] ?? 0) + (value[entry] ?? 0);
  let mean = 0;
  for (let index = 0; index < runs; index++) mean += (off[index] ?? 0) / runs;
  let variance = 0;
  for (let index = 0; index < runs; index++) {
    const distance = (off[index] ?? 0) - mean;
    off[index] = distance;
    variance += distance ** 2;
  }
  if (variance === 0) return null;
  const shares = new Float64Array(parts);
  // The parts' own means fall out of the sum, because the distances add up to nothing.
  for (let entry = 0; entry < value.length; entry++) {
    const own = part[entry] ?? 0;
    shares[own] = (shares[own] ?? 0) + (value[entry] ?? 0) * (off[run[entry] ?? 0] ?? 0);
  }
  for (let own = 0; own < parts; own++) shares[own] = (shares[own] ?? 0) / variance;
  return shares;
}
