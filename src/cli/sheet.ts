import { parseArgs } from 'node:util';
import type { LoggedJob } from '../journal/log-file.ts';
import { sheetHtml } from '../journal/sheet/sheet.ts';
import type { Language } from '../phrasing/language.ts';
import { languages } from '../phrasing/language.ts';
import { madeAsData, readLogFile, warnOfFaults, writeText } from './log-input.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

export const sheet: Verb = {
  name: 'sheet',
  summary: 'Make the printable sheet of a job from its log.',
  help: [
    'sheet LOG [--job ID] [--language en|fr] [-o FILE.html [--json]]',
    '',
    'Makes one HTML page that prints to one or two sheets of A4 or Letter: the job, its fasteners with their torques, wrench settings and times,',
    'exceptions, measures with their limits, checks, notes, what is to be done afterwards, and the signatures.',
    '',
    '  --job ID       which job, where the log holds several',
    '  --language en  of the sheet, en or fr; the procedure keeps its own',
    '  -o FILE        write to a file instead of standard output',
    '  --json         with -o: say what was written as one JSON object: {"file", "format", "jobs": [{"job", "events", "faults"}]}',
    '',
    'Ends with 0; with 1 when the log is damaged (the sheet says so on its face); with 2 when no sheet can be made.',
  ].join('\n'),
  async run(args, terminal): Promise<ExitCode> {
    const options = readOptions(args, terminal);
    if (options === null) return 2;
    const jobs = await readLogFile(options.log, terminal);
    if (jobs === null) return 2;
    const chosen = choose(jobs, options, terminal);
    if (chosen === null) return 2;
    const { job, plan, events, faults } = chosen;
    if (job === null || plan === null) {
      terminal.err(`${options.log}: the job's plan cannot be read, so there is nothing to tell its events by.`);
      return 2;
    }
    const isDamaged = warnOfFaults(options.log, [chosen], terminal);
    if (!(await writeText([sheetHtml({ job, plan, events, faults }, options.language)], options.output, terminal))) return 2;
    if (options.asJson && options.output !== null) terminal.out(madeAsData(options.output, 'html', [chosen]));
    return isDamaged ? 1 : 0;
  },
};

interface Options {
  readonly log: string;
  readonly job: string | null;
  readonly language: Language;
  readonly output: string | null;
  readonly asJson: boolean;
}

function choose(jobs: readonly LoggedJob[], { log, job }: Options, terminal: Terminal): LoggedJob | null {
  const chosen = job === null ? jobs : jobs.filter((one) => one.job === job);
  const [only] = chosen;
  if (only !== undefined && chosen.length === 1) return only;
  const names = jobs.map((one) => one.job ?? '(unknown)').join(', ');
  terminal.err(job === null ? `${log} holds several jobs: --job ${names}` : `${log} holds no job ${job}, or it twice. It holds: ${names}`);
  return null;
}

function readOptions(args: readonly string[], terminal: Terminal): Options | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        job: { type: 'string' },
        language: { type: 'string', default: 'en' },
        output: { type: 'string', short: 'o' },
        json: { type: 'boolean', default: false },
      },
    });
    const [log, ...more] = positionals;
    const language = languages.find((one) => one === values.language);
    if (log === undefined || more.length > 0) terminal.err('Which log? sheet LOG -o FILE.html');
    else if (language === undefined) terminal.err(`--language takes ${languages.join(' or ')}, not "${values.language}".`);
    else if (values.json && values.output === undefined)
      terminal.err('--json goes with -o FILE: without it standard output is the sheet itself.');
    else return { log, job: values.job ?? null, language, output: values.output ?? null, asJson: values.json };
  } catch (error) {
    terminal.err(`${error instanceof Error ? error.message : String(error)}. See sheet --help.`);
  }
  return null;
}
