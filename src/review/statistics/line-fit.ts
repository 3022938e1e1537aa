import { studentQuantile } from './distributions.ts';
import { total, totalAbout } from './moments.ts';

/** A straight line through points, by ordinary least squares. */
export interface LineFit {
  readonly count: number;
  readonly intercept: number;
  readonly slope: number;
  readonly slopeError: number;
  readonly interceptError: number;
  /** Standard deviation of the residuals, with n − 2 degrees of freedom. */
  readonly residual: number;
  /** Share of the variance that the line explains. */
  readonly rSquared: number;
  readonly freedom: number;
  readonly meanX: number;
  /** Sum of squares of x about its mean. */
  readonly squaresX: number;
}

/** Null with fewer than three points or when all x are alike. Sums about the means, so that large values keep their digits. */
export function fitLine(xs: readonly number[], ys: readonly number[]): LineFit | null {
  const count = xs.length;
  if (count < 3) return null;
  const meanX = total(xs) / count;
  const meanY = total(ys) / count;
  const squaresX = totalAbout(xs, meanX, true);
  if (squaresX === 0) return null;
  const squaresY = totalAbout(ys, meanY, true);
  const slope = total(xs.map((x, index) => (x - meanX) * ((ys[index] ?? 0) - meanY))) / squaresX;
  const intercept = meanY - slope * meanX;
  const squaresLeft = total(xs.map((x, index) => ((ys[index] ?? 0) - meanY - slope * (x - meanX)) ** 2));
  const freedom = count - 2;
  const residual = Math.sqrt(squaresLeft / freedom);
  return {
    count,
    intercept,
    slope,
    slopeError: residual / Math.sqrt(squaresX),
    interceptError: residual * Math.sqrt(1 / count + meanX ** 2 / squaresX),
    residual,
    rSquared: squaresY === 0 ? 1 : 1 - squaresLeft / squaresY,
    freedom,
    meanX,
    squaresX,
  };
}

export interface Interval {
  readonly low: number;
  readonly high: number;
}

export function slopeInterval(fit: LineFit, confidence = 0.95): Interval {
  const reach = studentQuantile((1 + confidence) / 2, fit.freedom) * fit.slopeError;
  return { low: fit.slope - reach, high: fit.slope + reach };
}

/** How far from the fitted line the true one may lie at each x. What is the same for all x is worked out once. */
export function lineReach(fit: LineFit, confidence = 0.95): (x: number) => number {
  const scale = studentQuantile((1 + confidence) / 2, fit.freedom) * fit.residual;
  return (x) => scale * Math.sqrt(1 / fit.count + (x - fit.meanX) ** 2 / fit.squaresX);
}
