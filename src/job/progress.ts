import type { Plan, PlannedGroup, PlannedStep } from '../procedure/plan-types.ts';
import type { GroupProgress, Part, StepProgress, Work } from './state.ts';
import { stepAt } from './state.ts';

const freshGroup = (group: PlannedGroup): GroupProgress => ({
  passesDone: group.positions.map(() => 0),
  leftOut: group.positions.map(() => null),
});

/** A step as nobody has touched it yet. What failed in an earlier visit stays on record. */
export function freshStep(step: PlannedStep, earlier: StepProgress | null = null): StepProgress {
  return {
    status: 'open',
    sideDone: false,
    carriedOut: false,
    groups: step.groups.map(freshGroup),
    measures: step.measures.map((_, index) => ({ value: null, outside: earlier?.measures[index]?.outside ?? [] })),
    holds: step.holds.map((_, index) => ({ passed: false, failures: earlier?.holds[index]?.failures ?? 0 })),
    wait: 'not begun',
    left: null,
    reopened: earlier === null ? 0 : earlier.reopened + 1,
  };
}

/** A side procedure is worked anew each time it is called, and waits anew. */
export function reopenSide(plan: Plan, work: Work, stepIds: readonly string[]): Work {
  const steps = work.steps.map((progress, index) =>
    stepIds.includes(plan.steps[index]?.id ?? '') ? freshStep(stepAt(plan, index), progress) : progress,
  );
  return { ...work, steps, timers: work.timers.filter((timer) => !stepIds.includes(timer.step)) };
}

/** The next fastener of a group: pass by pass, in the order of the pass. Null when all are through. */
export function nextFastener(group: PlannedGroup, progress: GroupProgress): { pass: number; position: number } | null {
  for (const [pass, planned] of group.passes.entries()) {
    for (const position of planned.order) {
      if (progress.passesDone[position] === pass && progress.leftOut[position] === null) return { pass, position };
    }
  }
  return null;
}

/** How many fasteners of a group are still to do in a pass. */
export const leftInPass = (progress: GroupProgress, pass: number): number =>
  progress.passesDone.filter((done, position) => done <= pass && progress.leftOut[position] === null).length;

/** The next piece of a step, or null when all of it is done. A side procedure that comes first is not a piece. */
export function nextPart(step: PlannedStep, progress: StepProgress, acknowledged: readonly string[]): Part | null {
  const caution = step.cautions.findIndex((one) => mustAcknowledge(one.signal) && !acknowledged.includes(one.id));
  if (caution >= 0) return { kind: 'caution', index: caution };
  const isPlain = step.groups.length === 0 && step.measures.length === 0 && step.holds.length === 0;
  if (isPlain && !progress.carriedOut) return { kind: 'act' };
  for (const [index, group] of step.groups.entries()) {
    const groupProgress = progress.groups[index];
    const next = groupProgress === undefined ? null : nextFastener(group, groupProgress);
    if (next !== null) return { kind: 'fastener', group: index, ...next };
  }
  const measure = progress.measures.findIndex((one) => one.value === null);
  if (measure >= 0) return { kind: 'measure', index: measure };
  const hold = progress.holds.findIndex((one) => !one.passed);
  if (hold >= 0) return { kind: 'hold', index: hold };
  if (step.wait !== null && (progress.wait === 'not begun' || (step.wait.blocks && progress.wait === 'running'))) return { kind: 'wait' };
  return null;
}

/** DANGER and WARNING want an answer; CAUTION and NOTICE are read out (ANSI Z535.4: death or serious injury against less). */
export const mustAcknowledge = (signal: string): boolean => signal === 'DANGER' || signal === 'WARNING';
