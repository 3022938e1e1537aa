import type { Moment, Recorded } from '../job/events.ts';
import type { Plan, PlannedFollowUp } from '../procedure/plan-types.ts';

/** Something to do again later, counted from the signature. */
export interface FollowUpDue {
  readonly followUp: PlannedFollowUp;
  readonly signed: Moment;
  /** Milliseconds since 1970 when it is due, or null where only a distance or a count says when. */
  readonly due: number | null;
  /** Who has done it, and when; null while it is still to be done. */
  readonly done: { readonly name: string; readonly text: string | null; readonly moment: Moment } | null;
}

/** What follows a job once it is signed; nothing before. */
export function dueFollowUps({ plan, events }: { readonly plan: Plan; readonly events: readonly Recorded[] }): readonly FollowUpDue[] {
  const signed = events.findLast(({ event }) => event.type === 'signed')?.moment;
  if (signed === undefined) return [];
  return plan.followUps.map((followUp) => ({ followUp, signed, due: dueAt(followUp, signed), done: doneIn(events, followUp) }));
}

/** Milliseconds since 1970, or null where no clock can tell. */
export function dueAt({ after }: PlannedFollowUp, signed: Moment): number | null {
  return after.kind === 'time' ? signed.wall + after.hours * 3_600_000 : null;
}

function doneIn(events: readonly Recorded[], { id }: PlannedFollowUp): FollowUpDue['done'] {
  for (const { event, moment } of events) {
    if (event.type === 'follow-up-done' && event.followUp === id) return { name: event.name, text: event.text, moment };
  }
  return null;
}
