import { medianOf } from '../statistics/quantiles.ts';
import type { StepCounts } from './step-measures.ts';

/** A step that makes more trouble than its amount of work would. */
export interface HardStep {
  readonly measures: StepCounts;
  /** Trouble for each piece of work, against the middle of all steps: 4 is four times as much. */
  readonly ratio: number;
}

const fewestRuns = 6;
/** Trouble in fewer than every second run is nothing to call a step hard for. */
const notableTrouble = 0.5;
/** Robust standard deviations above the middle of all steps. */
const standsOut = 2.5;

/**
 * Steps whose trouble (questions, repeats, step-backs, undos, stops, failed holds) for each piece of work lies far above the
 * other steps', on a logarithmic scale and by the median and its absolute deviation, and would so even if chance had
 * been kind to the others. The hardest first.
 */
export function hardSteps(steps: readonly StepCounts[]): readonly HardStep[] {
  const judged = steps.filter(({ runs, work }) => runs >= fewestRuns && work > 0);
  const troubles = judged.map((step) => step.trouble * step.runs);
  const levels = judged.map((step, index) => Math.log(((troubles[index] ?? 0) + 0.5) / step.work));
  if (levels.length < 4) return [];
  const middle = medianOf(levels);
  const spread = 1.4826 * medianOf(levels.map((level) => Math.abs(level - middle)));
  return judged
    .map((measures, index) => ({ measures, level: levels[index] ?? middle, sure: surely(troubles[index] ?? 0, measures.work) }))
    .filter(({ sure, measures }) => sure - middle > standsOut * spread && sure > middle && measures.trouble >= notableTrouble)
    .map(({ measures, level }) => ({ measures, ratio: Math.exp(level - middle) }))
    .sort((one, other) => other.ratio - one.ratio);
}

/** The level that the count still has when chance has been kind to it: two standard deviations of a Poisson count less. */
function surely(trouble: number, work: number): number {
  const least = trouble - 2 * Math.sqrt(trouble);
  return least <= 0 ? -Infinity : Math.log(least / work);
}
