import { readFile } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { parseArgs } from 'node:util';
import { draftFrom } from '../drafting/draft.ts';
import { draftFile } from '../drafting/draft-file.ts';
import { readTranscript } from '../drafting/transcripts.ts';
import { talkReader } from './talk-reader.ts';
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
    const bytes = await readFile(options.file).catch((error: unknown) => {
      terminal.err(`${options.file}: cannot be read: ${error instanceof Error ? error.message : String(error)}`);
      return null;
    });
    if (bytes === null) return 2;
    const text = textOf(bytes);
    if (text === null) {
      terminal.err(`${options.file}: is no text. Expected WebVTT, SRT or plain text in UTF-8 or UTF-16.`);
      return 2;
    }
    const transcript = readTranscript(text);
    if (transcript.words.length === 0) {
      terminal.err(`${options.file}: nothing is said in it. Expected WebVTT, SRT or plain text, found no words.`);
      return 1;
    }
    const drafted = draftFrom(transcript, { name: basename(options.file, extname(options.file)), read: talkReader() });
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

/** The text of a file by its byte order mark, UTF-8 without one; null where it is none. */
function textOf(bytes: Uint8Array): string | null {
  const [first, second] = bytes;
  const encoding = first === 0xff && second === 0xfe ? 'utf-16le' : first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
  const text = new TextDecoder(encoding).decode(bytes);
  // A few bytes in an old encoding spoil a few words; a recording or a picture is full of them.
  const foreign = text.match(/[\0\uFFFD]/g)?.length ?? 0;
  return text.includes('\0') || foreign * 50 > text.length ? null : text;
}

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
