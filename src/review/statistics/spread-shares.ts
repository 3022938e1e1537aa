/**
 * How much each part explains of the spread of the total: the covariance of the part with the total over the total's variance.
 * The shares add up to 1; one can be negative, when a part is short where the whole is long. Null with fewer than three totals
 * or none that differ. `parts[i][j]` is part i in run j.
 */
export function spreadShares(parts: readonly ArrayLike<number>[], runs: number): readonly number[] | null {
  if (runs < 3) return null;
  const totals = new Float64Array(runs);
  for (const part of parts) for (let run = 0; run < runs; run++) totals[run] = (totals[run] ?? 0) + (part[run] ?? 0);
  let mean = 0;
  for (const total of totals) mean += total / runs;
  let variance = 0;
  for (const total of totals) variance += (total - mean) ** 2;
  if (variance === 0) return null;
  return parts.map((part) => {
    let average = 0;
    for (let run = 0; run < runs; run++) average += (part[run] ?? 0) / runs;
    let together = 0;
    for (let run = 0; run < runs; run++) together += ((part[run] ?? 0) - average) * ((totals[run] ?? 0) - mean);
    return together / variance;
  });
}
