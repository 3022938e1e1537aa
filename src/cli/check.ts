import { readFile } from 'node:fs/promises';
import { findingText, type Finding } from '../procedure/finding.ts';
import { procedureJsonSchema } from '../procedure/json-schema.ts';
import { lintProcedure } from '../procedure/lint.ts';
import { parseProcedure } from '../procedure/parse.ts';
import { problemText, type Problem } from '../procedure/problem.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

interface Checked {
  readonly file: string;
  readonly problems: readonly Problem[];
  readonly findings: readonly Finding[];
}

export const check: Verb = {
  name: 'check',
  summary: 'Read procedure files and say what is wrong with them, or doubtful.',
  help: [
    'check FILE… [--json]',
    'check --schema',
    '',
    'Reads each procedure file and prints every problem as FILE:LINE:COLUMN with what to do about it.',
    'Errors must be put right before a job can run; warnings and hints are for the author to judge.',
    '',
    '  --json    one JSON array for all files',
    '  --schema  print the JSON Schema that editors check and complete procedure files by',
    '',
    'Ends with 0 when no file has an error, 1 when one has, 2 when a file cannot be read.',
  ].join('\n'),
  async run(args, terminal): Promise<ExitCode> {
    if (args.length === 1 && args[0] === '--schema') {
      terminal.out(JSON.stringify(procedureJsonSchema(), null, 2));
      return 0;
    }
    const files = args.filter((argument) => !argument.startsWith('--'));
    const strange = args.find((argument) => argument.startsWith('--') && argument !== '--json');
    if (files.length === 0 || strange !== undefined) {
      terminal.err(strange === undefined ? 'Which file? check FILE… [--json]' : `Unknown option ${strange}. See check --help.`);
      return 2;
    }
    const asJson = args.includes('--json');
    const checked: Checked[] = [];
    for (const file of files) {
      const text = await readText(file, terminal);
      if (text === null) continue;
      const one = checkText(text, file);
      checked.push(one);
      if (!asJson) tell(one, (line) => terminal.out(line));
    }
    if (asJson) terminal.out(JSON.stringify(checked, null, 2));
    if (checked.length < files.length) return 2;
    return checked.some(isWrong) ? 1 : 0;
  },
};

async function readText(file: string, terminal: Terminal): Promise<string | null> {
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    terminal.err(`${file}: cannot be read: ${error instanceof Error ? error.message : String(error)}`);
    return null;
  }
}

function checkText(text: string, file: string): Checked {
  const parsed = parseProcedure(text, file);
  if (!parsed.ok) return { file, problems: parsed.problems, findings: [] };
  return { file, problems: [], findings: lintProcedure(parsed.file) };
}

function isWrong({ problems, findings }: Checked): boolean {
  return problems.length > 0 || findings.some(({ severity }) => severity === 'error');
}

function tell({ file, problems, findings }: Checked, out: (line: string) => void): void {
  for (const problem of problems) out(problemText(problem));
  for (const finding of findings) out(findingText(finding));
  const count = (severity: Finding['severity']) => findings.filter((finding) => finding.severity === severity).length;
  const errors = problems.length + count('error');
  out(`${file}: ${counted(errors, 'error')}, ${counted(count('warning'), 'warning')}, ${counted(count('hint'), 'hint')}`);
}

function counted(count: number, what: string): string {
  return `${count === 0 ? 'no' : count} ${what}${count === 1 ? '' : 's'}`;
}
