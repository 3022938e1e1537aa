import { readFile } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { parseArgs } from 'node:util';
import { draftFrom } from '../drafting/draft.ts';
import { draftFile } from '../drafting/draft-file.ts';
import { readTranscript } from '../drafting/transcripts.ts';
import { writeText } from './log-input.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

export const draft: Verb = {
  name: 'draft',
  summary: 'Draft a procedure from the transcript of a talk-through.',
  help: [
    'draft FILE [-o OUT.yaml] [--json]',
    '',
    'Reads WebVTT, SRT or plain text and drafts the groups of fasteners with count, drive and torque, each value with the sentence and the',
    'time that it came from. What is missing, doubtful or contradictory becomes a numbered open question. The file is refused until every',
    'question has an answer; "look it up in the maker\'s manual" is one. Every value is to be checked against the maker\'s manual.',
    '',
    '  -o OUT    write the draft to a file instead of standard output',
    '  --json    print the groups, their evidence and the questions as JSON',
    '',
    'Ends with 0; with 1 when the talk names no fasteners; with 2 when a file cannot be read or written.',
  ].join('\n'),
  async run(args, terminal): Promise<ExitCode> {
    const options = readOptions(args, terminal);
    if (options === null) return 2;
    const text = await readFile(options.file, 'utf8').catch((error: unknown) => {
      terminal.err(`${options.file}: cannot be read: ${error instanceof Error ? error.message : String(error)}`);
      return null;
    });
    if (text === null) return 2;
    const drafted = draftFrom(readTranscript(text), { name: basename(options.file, extname(options.file)) });
    const wantsYaml = options.output !== null || !options.json;
    if (wantsYaml && drafted.groups.length > 0 && !(await writeText([draftFile(drafted)], options.output, terminal))) return 2;
    if (options.json) terminal.out(JSON.stringify(drafted, null, 2));
    if (drafted.groups.length === 0) {
      terminal.err(`${options.file}: no fasteners are named in it.`);
      return 1;
    }
    for (const { number, ask } of drafted.questions) terminal.err(`${number}. ${ask}`);
    return 0;
  },
};

interface Options {
  readonly file: string;
  readonly output: string | null;
  readonly json: boolean;
}

function readOptions(args: readonly string[], terminal: Terminal): Options | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { output: { type: 'string', short: 'o' }, json: { type: 'boolean' } },
    });
    const [file, ...more] = positionals;
    if (file !== undefined && more.length === 0) return { file, output: values.output ?? null, json: values.json ?? false };
    terminal.err('Which transcript? draft FILE -o OUT.yaml');
  } catch (error) {
    terminal.err(`${error instanceof Error ? error.message : String(error)}. See draft --help.`);
  }
  return null;
}
