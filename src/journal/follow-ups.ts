import type { Moment, Recorded } from '../job/events.ts';
import type { Plan, PlannedFollowUp } from '../procedure/plan-types.ts';

/** Something to do again later, counted from the signature. */
export interface FollowUpDue {
  readonly followUp: PlannedFollowUp;
  readonly signed: Moment;
  /** Milliseconds since 1970 when it is due, or null where only a distance or a count says when. */
  readonly due: number | null;
  /** "after 50 km", "after 24 hours". */
  readonly after: string;
}

/** What follows a job once it is signed; nothing before. */
export function dueFollowUps({ plan, events }: { readonly plan: Plan; readonly events: readonly Recorded[] }): readonly FollowUpDue[] {
  const signed = events.findLast(({ event }) => event.type === 'signed')?.moment;
  if (signed === undefined) return [];
  return plan.followUps.map((followUp) => {
    const { after } = followUp;
    switch (after.kind) {
      case 'time':
        return {
          followUp,
          signed,
          due: signed.wall + after.hours * 3_600_000,
          after: `after ${after.hours} ${after.hours === 1 ? 'hour' : 'hours'}`,
        };
      case 'distance':
        return { followUp, signed, due: null, after: `after ${after.value} ${after.unit}` };
      case 'count':
        return { followUp, signed, due: null, after: `after ${after.count} ${after.of}` };
    }
  });
}
