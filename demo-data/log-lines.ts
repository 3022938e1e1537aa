import { sha256Hex } from '../src/journal/chain.ts';
import { headerLine, jobHeader } from '../src/journal/header.ts';
import { chainedLines } from '../src/review/demonstration/lines.ts';
import type { WorkshopRun } from '../src/review/demonstration/workshop.ts';

/** The lines of a run as the app exports them: the plan it was started with, then its events, chained. */
export function logLines(run: WorkshopRun): readonly string[] {
  const lines = chainedLines(run, sha256Hex);
  const last = lines.at(-1);
  const hash = last === undefined ? null : (JSON.parse(last) as { readonly hash: string }).hash;
  return [headerLine(jobHeader(run.job, run.plan, { events: lines.length, last: hash })), ...lines];
}
