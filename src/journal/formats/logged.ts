import type { Recorded } from '../../job/events.ts';
import type { Plan, PlannedGroup, PlannedStep } from '../../procedure/plan-types.ts';

/** What an export is made of. Without a plan, as for a log that lost its header, things go by their ids. */
export interface Logged {
  readonly job: string;
  readonly plan: Plan | null;
  readonly events: readonly Recorded[];
}

export function stepOf({ plan }: Pick<Logged, 'plan'>, id: string | null): PlannedStep | null {
  return plan?.steps.find((step) => step.id === id) ?? null;
}

export function groupOf(logged: Pick<Logged, 'plan'>, step: string, group: string): PlannedGroup | null {
  return stepOf(logged, step)?.groups.find(({ id }) => id === group) ?? null;
}

/** Who worked and in which group, as the job was opened. */
export function personOf({ events }: Pick<Logged, 'events'>): { readonly person: string | null; readonly group: string | null } {
  const opened = events.find(({ event }) => event.type === 'opened')?.event;
  return opened?.type === 'opened' ? opened : { person: null, group: null };
}
