import { studentQuantile } from './distributions.ts';
import type { Interval, LineFit } from './line-fit.ts';
import { fitLine, lineReach, slopeInterval } from './line-fit.ts';
import { total, totalAbout } from './moments.ts';

/** One observed run: which run of the procedure it is for this person (1, 2, 3 …) and how long it took, in any unit of time. */
export interface Trial {
  readonly run: number;
  readonly time: number;
}

/**
 * The unit model (Crawford): the time of run x is a·x^b, so each doubling of the runs multiplies it by the rate 2^b.
 * Wright's own, the cumulative average form, is another model and gives other numbers.
 */
export interface LearningCurve {
  /** The fitted time of the first run. */
  readonly first: number;
  readonly exponent: number;
  /** What a doubling of the runs multiplies the time by: 0.8 is an "80 % curve". */
  readonly rate: number;
  readonly rateInterval: Interval;
  readonly runs: number;
  readonly rSquared: number;
  readonly line: LineFit;
}

export function exponentOfRate(rate: number): number {
  return Math.log2(rate);
}

export function timeOfRun(first: number, exponent: number, run: number): number {
  return first * run ** exponent;
}

/** Log-linear least squares. Null with fewer than three runs, or none that differ. It fits the typical (geometric mean) time. */
export function fitLearningCurve(trials: readonly Trial[]): LearningCurve | null {
  const usable = trials.filter(({ run, time }) => run >= 1 && time > 0);
  const line = fitLine(
    usable.map(({ run }) => Math.log(run)),
    usable.map(({ time }) => Math.log(time)),
  );
  if (line === null) return null;
  const slope = slopeInterval(line);
  return {
    first: Math.exp(line.intercept),
    exponent: line.slope,
    rate: 2 ** line.slope,
    rateInterval: { low: 2 ** slope.low, high: 2 ** slope.high },
    runs: usable.length,
    rSquared: line.rSquared,
    line,
  };
}

/** The curve at each run from the first to `last`, and where it may lie. */
export function curveUpTo(curve: LearningCurve, last: number): readonly (Interval & { readonly run: number; readonly time: number })[] {
  const reachAt = lineReach(curve.line);
  return Array.from({ length: last }, (_, index) => {
    const x = Math.log(index + 1);
    const at = curve.line.intercept + curve.line.slope * x;
    const reach = reachAt(x);
    return {
      run: index + 1,
      time: timeOfRun(curve.first, curve.exponent, index + 1),
      low: Math.exp(at - reach),
      high: Math.exp(at + reach),
    };
  });
}

/** A run further off than this is not worth naming. */
const horizon = 1000;

export type AimReached =
  | {
      readonly kind: 'run';
      /** The first run at which the curve is at the aim. */
      readonly run: number;
      /** The earliest and latest run that the curve's interval allows; null where it sets no bound within a thousand runs. */
      readonly earliest: number | null;
      readonly latest: number | null;
    }
  /** The curve does not fall, or falls too slowly to reach it within a thousand runs. */
  | { readonly kind: 'not in sight' };

/** The run at which the curve comes down to `aim`. */
export function runReachingAim(curve: LearningCurve, aim: number): AimReached {
  const isThere = (at: number): boolean => timeOfRun(curve.first, curve.exponent, at) <= aim * (1 + 1e-12);
  // The curve itself falls all the way or never: the first and the last run tell whether there is anything to look for.
  if (!isThere(1) && !isThere(horizon)) return { kind: 'not in sight' };
  const { line } = curve;
  const reachAt = lineReach(line);
  const aimed = Math.log(aim);
  return {
    kind: 'run',
    run: firstRun(isThere) ?? horizon,
    // Compared as logarithms, in which the curve is the line.
    earliest: firstRun((_, x) => line.intercept + line.slope * x - reachAt(x) <= aimed),
    latest: firstRun((_, x) => line.intercept + line.slope * x + reachAt(x) <= aimed),
  };
}

/** Logarithms of all runs that can be named: they are asked for over and over. */
const logarithms = Float64Array.from({ length: horizon + 1 }, (_, run) => Math.log(run));

function firstRun(isThere: (run: number, logarithm: number) => boolean): number | null {
  for (let run = 1; run <= horizon; run++) if (isThere(run, logarithms[run] ?? 0)) return run;
  return null;
}

/** The rate that several series share, each with its own level: one person's runs of several procedures, say. */
export interface SharedRate {
  readonly rate: number;
  readonly interval: Interval;
  readonly exponent: number;
  readonly error: number;
  readonly freedom: number;
  readonly runs: number;
}

/** Least squares on the logarithms with a level for each series and one slope for all. Null when nothing is left to judge by. */
export function fitSharedRate(series: readonly (readonly Trial[])[]): SharedRate | null {
  const xs: number[] = [];
  const ys: number[] = [];
  let levels = 0;
  for (const trials of series) {
    const usable = trials.filter(({ run, time }) => run >= 1 && time > 0);
    if (usable.length < 2) continue;
    levels += 1;
    const logRuns = usable.map(({ run }) => Math.log(run));
    const logTimes = usable.map(({ time }) => Math.log(time));
    const meanX = total(logRuns) / usable.length;
    const meanY = total(logTimes) / usable.length;
    for (const x of logRuns) xs.push(x - meanX);
    for (const y of logTimes) ys.push(y - meanY);
  }
  const freedom = xs.length - levels - 1;
  const squares = totalAbout(xs, 0, true);
  if (freedom < 1 || squares === 0) return null;
  const exponent = xs.reduce((sum, x, index) => sum + x * (ys[index] ?? 0), 0) / squares;
  const left = xs.reduce((sum, x, index) => sum + ((ys[index] ?? 0) - exponent * x) ** 2, 0);
  const error = Math.sqrt(left / freedom / squares);
  const reach = studentQuantile(0.975, freedom) * error;
  return {
    rate: 2 ** exponent,
    interval: { low: 2 ** (exponent - reach), high: 2 ** (exponent + reach) },
    exponent,
    error,
    freedom,
    runs: xs.length,
  };
}
