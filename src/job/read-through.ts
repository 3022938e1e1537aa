import type { Line } from '../phrasing/lines.ts';
import type { Plan, PlannedStep } from '../procedure/plan-types.ts';
import { mainSteps } from './dialogue.ts';
import { mustAcknowledge } from './progress.ts';

/** What is said of one step, or (null) before the first and after the last. */
export interface Reading {
  readonly step: PlannedStep | null;
  readonly lines: readonly Line[];
}

/** The whole job as a person would hear it who does everything right: each group and each pass once, not each fastener. */
export function readThrough(plan: Plan): readonly Reading[] {
  const { title, source } = plan.procedure;
  const opening: readonly Line[] = [
    { kind: 'welcome', title, build: plan.build.name, source, steps: mainSteps(plan).length },
    ...plan.cautions.map((caution): Line => ({ kind: 'caution', caution, acknowledge: true })),
    ...plan.befores.map((before, index): Line => ({ kind: 'before', before, number: index + 1, of: plan.befores.length })),
    ...(plan.kit.length === 0 ? [] : [{ kind: 'kit-begins', items: plan.kit.length } as const]),
    ...plan.kit.map((item, index): Line => ({ kind: 'kit-item', item, number: index + 1, of: plan.kit.length })),
  ];
  const ending = plan.followUps.map((followUp): Line => ({ kind: 'follow-up', followUp }));
  return [
    { step: null, lines: opening },
    ...plan.steps.map((step) => ({ step, lines: readStep(plan, step) })),
    ...(ending.length === 0 ? [] : [{ step: null, lines: ending }]),
  ];
}

/** One step with everything in it, in the order in which it is worked. */
export function readStep(plan: Plan, step: PlannedStep): readonly Line[] {
  const caution = (acknowledge: boolean) =>
    step.cautions
      .filter(({ signal }) => mustAcknowledge(signal) === acknowledge)
      .map((one): Line => ({ kind: 'caution', caution: one, acknowledge }));
  return [
    ...caution(true),
    ...caution(false),
    { kind: 'step', step, mainSteps: mainSteps(plan).length },
    ...step.groups.flatMap((group) =>
      group.passes.map((pass, index): Line => {
        const place = { group, pass: index, position: pass.order[0] ?? 0, left: group.positions.length };
        return { kind: index === 0 ? 'group' : 'pass', place, unit: plan.spokenUnit };
      }),
    ),
    ...step.measures.map((measure): Line => ({ kind: 'measure', measure })),
    ...step.holds.map((hold): Line => ({ kind: 'hold', hold })),
    ...(step.wait === null ? [] : [{ kind: 'wait-started', ...step.wait } as const]),
  ];
}
