import type { Plan } from '../procedure/plan-types.ts';
import type { Moment } from './events.ts';
import { stepIndex } from './plan-index.ts';
import type { Folded } from './state.ts';

/** How often a job has made each of the person's wrenches click. */
export interface Clicks {
  /** By the wrench's id in the crib. */
  readonly byWrench: Readonly<Record<string, number>>;
  /** ISO date, where the work was, of the newest click; null where there is none. */
  readonly newest: string | null;
}

/**
 * Counts the fasteners tightened to a torque, pass by pass, with the wrench that the plan named. What was taken back does not count.
 * Whoever took another wrench than the one named has its clicks to add by hand.
 */
export function clicksOf(plan: Plan, events: Iterable<Folded>): Clicks {
  const clicks = new Map<number, { readonly wrench: string; readonly moment: Moment }>();
  for (const { seq, moment, event } of events) {
    if (event.type === 'undone') clicks.delete(event.seq);
    if (event.type !== 'fastener-tightened') continue;
    const group = plan.steps[stepIndex(plan, event.step)]?.groups.find(({ id }) => id === event.group);
    const setting = group?.passes[event.pass]?.setting;
    if (setting?.fits === true && setting.wrenchId !== undefined) clicks.set(seq, { wrench: setting.wrenchId, moment });
  }
  const byWrench: Record<string, number> = {};
  for (const { wrench } of clicks.values()) byWrench[wrench] = (byWrench[wrench] ?? 0) + 1;
  const newest = [...clicks.values()].at(-1)?.moment;
  return { byWrench, newest: newest === undefined ? null : localDate(newest) };
}

function localDate({ wall, offset }: Moment): string {
  return new Date(wall + offset * 60_000).toISOString().slice(0, 10);
}
