import { z } from 'zod';
import type { Moment, Recorded } from '../job/events.ts';
import type { Plan } from '../procedure/plan-types.ts';

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
  readonly status: 'open' | 'left-open' | 'signed';
  readonly events: number;
  readonly begun: Moment | null;
  readonly newest: Moment | null;
}

const momentSchema = z.strictObject({ wall: z.number(), offset: z.number(), mono: z.number() });

const summarySchema = z.strictObject({
  job: z.string(),
  procedure: z.string(),
  title: z.string(),
  vehicle: z.string(),
  revision: z.number(),
  build: z.string(),
  person: z.string().nullable(),
  group: z.string().nullable(),
  status: z.enum(['open', 'left-open', 'signed']),
  events: z.number(),
  begun: momentSchema.nullable(),
  newest: momentSchema.nullable(),
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
    };
  }, summary);
}

function statusAfter(status: JobSummary['status'], type: Recorded['event']['type']): JobSummary['status'] {
  if (type === 'signed') return 'signed';
  if (type === 'left-open' && status !== 'signed') return 'left-open';
  // A job that was left open is at work again with the first thing that is more than a question.
  if (status === 'left-open' && type !== 'asked' && type !== 'misheard' && type !== 'refused') return 'open';
  return status;
}

/** A summary from storage, or null when it is not one. */
export function parseSummary(value: unknown): JobSummary | null {
  const parsed = summarySchema.safeParse(value);
  return parsed.success ? parsed.data : null;
}

/** The order of a list of jobs. */
export function newestFirst(summaries: readonly JobSummary[]): readonly JobSummary[] {
  return summaries.toSorted((one, other) => (other.newest?.wall ?? 0) - (one.newest?.wall ?? 0));
}
