import { parseArgs } from 'node:util';
import { faultText } from '../journal/fault-text.ts';
import type { LoggedJob } from '../journal/log-file.ts';
import { emptySummary, summaryAfter } from '../journal/summary.ts';
import { readLogFile } from './log-input.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

export const verify: Verb = {
  name: 'verify',
  summary: 'Check the hash chain of a log: what was changed, is missing or was moved.',
  help: [
    'verify LOG [--json]',
    '',
    'Checks each job of a log line by line: every changed, missing, moved, doubled or foreign line is named with its number.',
    'An exported log says where its end is; in one that still grows, lines cut off the end do not show, and verify says so.',
    'The chain shows damage and careless changes. It is no signature: whoever makes all of it anew can make it whole.',
    '',
    '  --json  one JSON object a job: {"job", "events", "status", "sealed", "whole", "last", "faults"}',
    '',
    'Ends with 0 when all is whole, 1 when something is wrong, 2 when the log cannot be read.',
  ].join('\n'),
  async run(args, terminal): Promise<ExitCode> {
    const options = readOptions(args, terminal);
    if (options === null) return 2;
    const jobs = await readLogFile(options.log, terminal);
    if (jobs === null) return 2;
    for (const job of jobs) {
      if (options.asJson) terminal.out(JSON.stringify(asData(job)));
      else tell(job, (line) => terminal.out(line));
    }
    return jobs.some(({ faults }) => faults.length > 0) ? 1 : 0;
  },
};

function asData(job: LoggedJob): unknown {
  const { events, faults, isSealed } = job;
  return {
    job: job.job,
    events: events.length,
    status: statusOf(job),
    sealed: isSealed,
    whole: faults.length === 0,
    last: events.at(-1)?.hash ?? null,
    faults: faults.map((fault) => ({ ...fault, text: faultText(fault) })),
  };
}

function tell(job: LoggedJob, out: (line: string) => void): void {
  const { events, faults, isSealed } = job;
  const count = `${events.length} ${events.length === 1 ? 'event' : 'events'}`;
  const verdict = faults.length === 0 ? 'whole' : `${faults.length} ${faults.length === 1 ? 'fault' : 'faults'}`;
  const end = isSealed ? '' : '; the log has no end mark, so lines cut off its end would not show';
  out(`job ${job.job ?? '(unknown)'}: ${count}, ${statusOf(job) ?? 'unknown'}, ${verdict}${end}`);
  for (const fault of faults) out(`  ${faultText(fault)}`);
}

function statusOf({ job, plan, events }: LoggedJob): string | null {
  return job === null || plan === null ? null : summaryAfter(emptySummary(job, plan), events).status;
}

function readOptions(args: readonly string[], terminal: Terminal): { readonly log: string; readonly asJson: boolean } | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { json: { type: 'boolean', default: false } },
    });
    const [log, ...more] = positionals;
    if (log !== undefined && more.length === 0) return { log, asJson: values.json };
    terminal.err('Which log? verify LOG [--json]');
  } catch (error) {
    terminal.err(`${error instanceof Error ? error.message : String(error)}. See verify --help.`);
  }
  return null;
}
