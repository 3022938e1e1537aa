import type { Torque } from '../torque/quantities.ts';
import type { Plan, PlannedStep, WrenchAdvice, WrenchMisfit, WrenchNote } from './plan-types.ts';

/** Something about the person's wrenches that must be known before the job starts, not under the vehicle. */
export type WrenchRemark =
  | { readonly kind: 'mind'; readonly wrench: string; readonly note: WrenchNote; readonly steps: readonly string[] }
  | {
      readonly kind: 'none-fits';
      readonly torque: Torque;
      readonly fastener: string;
      readonly reasons: readonly WrenchMisfit[];
      readonly steps: readonly string[];
    };

/** Everything to mind, each thing once, with the numbers of the steps it is about. What no wrench fits comes first. */
export function wrenchRemarks(plan: Plan): readonly WrenchRemark[] {
  const remarks = new Map<string, WrenchRemark & { readonly steps: string[] }>();
  for (const step of plan.steps) {
    for (const remark of remarksOfStep(step)) {
      const key = keyOf(remark);
      const known = remarks.get(key);
      if (known === undefined) remarks.set(key, { ...remark, steps: [step.number] });
      else if (known.steps.at(-1) !== step.number) known.steps.push(step.number);
    }
  }
  return [...remarks.values()].sort((a, b) => Number(a.kind === 'mind') - Number(b.kind === 'mind'));
}

function remarksOfStep({ groups }: PlannedStep): readonly WrenchRemark[] {
  return groups.flatMap((group) =>
    group.passes.flatMap(({ torque, setting }): readonly WrenchRemark[] => {
      if (torque === null || setting === null) return [];
      if (!setting.fits) return [{ kind: 'none-fits', torque, fastener: group.name, reasons: setting.reasons, steps: [] }];
      return doubtsOf(setting).map((note) => ({ kind: 'mind', wrench: setting.wrench, note, steps: [] }));
    }),
  );
}

function doubtsOf(setting: WrenchAdvice & { readonly fits: true }): readonly WrenchNote[] {
  return setting.warnings.filter((note) => !belongsToTheHand(note));
}

/** How to hold the crowfoot is said at each fastener: it is no doubt about the wrench, which is told once, before the job. */
export function belongsToTheHand(note: WrenchNote): boolean {
  return typeof note !== 'string' && note.code === 'keep-square';
}

/** Without any wrench every torque has the same reason, which is told once. */
function keyOf(remark: WrenchRemark): string {
  if (remark.kind === 'mind') return JSON.stringify([remark.wrench, remark.note]);
  const [first] = remark.reasons;
  if (typeof first === 'object' && first.code === 'no-wrench') return first.code;
  return JSON.stringify([remark.torque, remark.fastener, remark.reasons]);
}
