import type { Recorded } from '../src/job/events.ts';
import { chainAfter } from '../src/journal/chain.ts';
import { headerLine, jobHeader } from '../src/journal/header.ts';
import { recordedLine } from '../src/journal/record.ts';
import type { WorkshopRun } from '../src/review/demonstration/workshop.ts';

/** The lines of a run as the app exports them: the plan it was started with, then its events, chained. */
export function logLines({ job, plan, sittings }: WorkshopRun): readonly string[] {
  const recorded: Recorded[] = [];
  for (const { session, happenings } of sittings) recorded.push(...chainAfter(recorded.at(-1) ?? null, happenings, { job, session }));
  const header = jobHeader(job, plan, { events: recorded.length, last: recorded.at(-1)?.hash ?? null });
  return [headerLine(header), ...recorded.map(recordedLine)];
}
