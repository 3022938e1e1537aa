import type { Plan } from '../procedure/plan-types.ts';

/** Where things are in a plan, looked up once: a search through thousands of steps for every fastener adds up. */
interface PlanIndex {
  readonly byId: ReadonlyMap<string, number>;
  /** The indexes of the steps of the main line (null) and of each side procedure, in order. */
  readonly lines: ReadonlyMap<string | null, readonly number[]>;
}

const known = new WeakMap<Plan, PlanIndex>();

/** The index of a step in `plan.steps`, or −1. */
export const stepIndex = (plan: Plan, id: string): number => indexOf(plan).byId.get(id) ?? -1;

/** The steps of the main line (null) or of a side procedure, as indexes into `plan.steps`. */
export const lineOf = (plan: Plan, side: string | null): readonly number[] => indexOf(plan).lines.get(side) ?? [];

function indexOf(plan: Plan): PlanIndex {
  const found = known.get(plan);
  if (found !== undefined) return found;
  const byId = new Map<string, number>();
  const lines = new Map<string | null, number[]>();
  for (const [index, { id, side }] of plan.steps.entries()) {
    if (!byId.has(id)) byId.set(id, index);
    const line = lines.get(side);
    if (line === undefined) lines.set(side, [index]);
    else line.push(index);
  }
  const made = { byId, lines };
  known.set(plan, made);
  return made;
}
