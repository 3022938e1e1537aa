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
  const rough = total(values) / count;
  const mean = rough + totalAbout(values, rough, false) / count;
  if (count === 1) return { count, mean, deviation: 0 };
  const residual = totalAbout(values, mean, false);
  const squares = totalAbout(values, mean, true);
  return { count, mean, deviation: Math.sqrt(Math.max(0, squares - residual ** 2 / count) / (count - 1)) };
}

/** A sum that carries its rounding error along (Neumaier 1974). */
export function total(values: ArrayLike<number>): number {
  return totalAbout(values, 0, false);
}

/** The sum of all differences from `middle`, or of their squares. */
export function totalAbout(values: ArrayLike<number>, middle: number, isSquared: boolean): number {
  let sum = 0;
  let lost = 0;
  for (let index = 0; index < values.length; index++) {
    const difference = (values[index] ?? 0) - middle;
    const value = isSquared ? difference * difference : difference;
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}
