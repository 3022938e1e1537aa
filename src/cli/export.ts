import { parseArgs } from 'node:util';
import { exported, exportFormats } from '../journal/formats/export.ts';
import type { ExportFormat } from '../journal/formats/export.ts';
import { madeAsData, readLogFile, warnOfFaults, writeText } from './log-input.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

export const exportLog: Verb = {
  name: 'export',
  summary: 'Turn a log into CSV, XES, xAPI statements, a calendar of follow-ups, or clean JSON Lines.',
  help: [
    'export LOG --to csv|xes|xapi|ics|jsonl [-o FILE [--json]]',
    '',
    'Reads a log (JSON Lines, as the app and `rehearse --journal` write it) and prints it in another form.',
    '',
    '  --to jsonl  everything, nothing lost; can be imported and gone on with elsewhere',
    '  --to csv    a row an event, for spreadsheets (RFC 4180); a text that a spreadsheet would take for a formula gets an apostrophe before it',
    '  --to xes    for process mining (IEEE 1849)',
    '  --to xapi   a JSON array of statements for a Learning Record Store (xAPI 1.0.3)',
    '  --to ics    the follow-ups of signed jobs as a calendar (RFC 5545)',
    '  -o FILE     write to a file instead of standard output',
    '  --json      with -o: say what was written as one JSON object: {"file", "format", "jobs": [{"job", "events", "faults"}]}',
    '',
    'Ends with 0; with 1 when the log is damaged (what can be read is exported) or there is nothing to export;',
    'with 2 when the log cannot be read or the file cannot be written.',
  ].join('\n'),
  async run(args, terminal): Promise<ExitCode> {
    const options = readOptions(args, terminal);
    if (options === null) return 2;
    const jobs = await readLogFile(options.log, terminal);
    if (jobs === null) return 2;
    const isDamaged = warnOfFaults(options.log, jobs, terminal);
    const file = exported(options.format, jobs);
    if (file === null) {
      terminal.err(`${options.log}: no signed job with follow-ups in it, so there is no calendar to write.`);
      return 1;
    }
    if (!(await writeText(file.pieces, options.output, terminal))) return 2;
    if (options.asJson && options.output !== null) terminal.out(madeAsData(options.output, options.format, jobs));
    return isDamaged ? 1 : 0;
  },
};

interface Options {
  readonly log: string;
  readonly format: ExportFormat;
  readonly output: string | null;
  readonly asJson: boolean;
}

function readOptions(args: readonly string[], terminal: Terminal): Options | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { to: { type: 'string' }, output: { type: 'string', short: 'o' }, json: { type: 'boolean', default: false } },
    });
    const [log, ...more] = positionals;
    const format = exportFormats.find((one) => one === values.to);
    if (log === undefined || more.length > 0) terminal.err('Which log? export LOG --to FORMAT. See export --help.');
    else if (format === undefined)
      terminal.err(`--to takes ${exportFormats.join(', ')}${values.to === undefined ? '' : `, not "${values.to}"`}.`);
    else if (values.json && values.output === undefined)
      terminal.err('--json goes with -o FILE: without it standard output is the export itself.');
    else return { log, format, output: values.output ?? null, asJson: values.json };
  } catch (error) {
    terminal.err(`${error instanceof Error ? error.message : String(error)}. See export --help.`);
  }
  return null;
}
