import { once } from '../torque/once.ts';
import { z } from '../torque/zod.ts';
import type { Moment, Recorded } from '../job/events.ts';
import type { Plan, PlannedFollowUp } from '../procedure/plan-types.ts';
import { dueAt } from './follow-ups.ts';
import { followUpSchema } from './plan-schema.ts';

export interface SummedFollowUp {
  readonly followUp: PlannedFollowUp;
  /** As in `FollowUpDue`; null before the signature as well. */
  readonly due: number | null;
  readonly isDone: boolean;
}

export type JobStatus = 'open' | 'left-open' | 'handed-over' | 'signed';

/** What a list of jobs shows of each, without reading its events. Kept beside them and made anew from them whenever it is in doubt. */
export interface JobSummary {
  readonly job: string;
  readonly procedure: string;
  readonly title: string;
  readonly vehicle: string;
  readonly revision: number;
  readonly build: string;
  readonly person: string | null;
  readonly group: string | null;
  readonly status: JobStatus;
  readonly events: number;
  readonly begun: Moment | null;
  readonly newest: Moment | null;
  /** What is to be done after the signature, and counts only once that is there. */
  readonly followUps: readonly SummedFollowUp[];
}

const summarySchema = once(() => {
  const moment = z.strictObject({ wall: z.number(), offset: z.number(), mono: z.number() });
  return z.strictObject({
    job: z.string(),
    procedure: z.string(),
    title: z.string(),
    vehicle: z.string(),
    revision: z.number(),
    build: z.string(),
    person: z.string().nullable(),
    group: z.string().nullable(),
    status: z.enum(['open', 'left-open', 'handed-over', 'signed']),
    events: z.number(),
    begun: moment.nullable(),
    newest: moment.nullable(),
    followUps: z.array(z.strictObject({ followUp: followUpSchema, due: z.number().nullable(), isDone: z.boolean() })),
  });
});

export function emptySummary(job: string, plan: Plan): JobSummary {
  const { id, title, vehicle, revision } = plan.procedure;
  const build = plan.build.id;
  return {
    job,
    procedure: id,
    title,
    vehicle,
    revision,
    build,
    person: null,
    group: null,
    status: 'open',
    events: 0,
    begun: null,
    newest: null,
    followUps: plan.followUps.map((followUp) => ({ followUp, due: null, isDone: false })),
  };
}

export function summaryAfter(summary: JobSummary, recorded: readonly Recorded[]): JobSummary {
  return recorded.reduce((current, { event, moment }) => {
    const { person, group } = event.type === 'opened' ? event : current;
    return {
      ...current,
      person,
      group,
      status: statusAfter(current.status, event.type),
      events: current.events + 1,
      begun: current.begun ?? moment,
      newest: moment,
      followUps: followUpsAfter(current.followUps, event, moment),
    };
  }, summary);
}

function followUpsAfter(followUps: JobSummary['followUps'], event: Recorded['event'], signed: Moment): JobSummary['followUps'] {
  if (event.type === 'signed') return followUps.map((one) => ({ ...one, due: dueAt(one.followUp, signed) }));
  if (event.type !== 'follow-up-done') return followUps;
  return followUps.map((one) => (one.followUp.id === event.followUp ? { ...one, isDone: true } : one));
}

function statusAfter(status: JobSummary['status'], type: Recorded['event']['type']): JobSummary['status'] {
  if (type === 'signed') return 'signed';
  if (status === 'signed') return status;
  if (type === 'left-open' || type === 'handed-over') return type;
  // Such a job is at work again with the first thing that is more than a question.
  if (status !== 'open' && type !== 'asked' && type !== 'misheard' && type !== 'refused') return 'open';
  return status;
}

/** A summary from storage, or null when it is not one. */
export function parseSummary(value: unknown): JobSummary | null {
  const parsed = summarySchema().safeParse(value);
  return parsed.success ? parsed.data : null;
}

/** The order of a list of jobs. */
export function newestFirst(summaries: readonly JobSummary[]): readonly JobSummary[] {
  return summaries.toSorted((one, other) => (other.newest?.wall ?? 0) - (one.newest?.wall ?? 0));
}
