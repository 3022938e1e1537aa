export interface Moments {
  readonly count: number;
  readonly mean: number;
  /** Sample standard deviation (divisor n − 1); 0 for a single value. */
  readonly deviation: number;
}

/**
 * Mean and sample standard deviation, or null of nothing. The mean is corrected by the mean residual and the squares by the
 * residuals' sum (Chan, Golub and LeVeque 1983), so that values far from zero keep their digits; see the NIST StRD rows in the tests.
 */
export function moments(values: ArrayLike<number>): Moments | null {
  const count = values.length;
  if (count === 0) return null;
  const rough = total(values, (value) => value) / count;
  const mean = rough + total(values, (value) => value - rough) / count;
  if (count === 1) return { count, mean, deviation: 0 };
  const residual = total(values, (value) => value - mean);
  const squares = total(values, (value) => (value - mean) ** 2);
  return { count, mean, deviation: Math.sqrt(Math.max(0, squares - residual ** 2 / count) / (count - 1)) };
}

/** A sum that carries its rounding error along (Neumaier 1974). */
export function total(values: ArrayLike<number>, of: (value: number) => number): number {
  let sum = 0;
  let lost = 0;
  for (let index = 0; index < values.length; index++) {
    const value = of(values[index] ?? 0);
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}
