import { createReadStream } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { createGunzip } from 'node:zlib';
import { makeIntake } from '../review/intake/intake.ts';
import { settle } from '../review/intake/settle.ts';
import { everyRun } from '../review/questions/selection.ts';
import type { Facts, Review, Terms } from '../review/review.ts';
import { faultSentences, makeReview } from '../review/review.ts';
import { reviewWords } from '../review/words/words.ts';
import { feedbackText, overviewText, stepText } from './report-text.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

export const report: Verb = {
  name: 'report',
  summary: 'Look at the logs of many runs: where time goes, who is stuck where, whether it gets better.',
  help: [
    'report DIR [--json] [--person CODE|NAME] [--step ID] [--procedure ID] [--codes]',
    '',
    'Reads every log (JSON Lines: .jsonl, or .jsonl.gz packed with gzip) in a directory and the directories in it, or one file.',
    '',
    '  --person A07     one page of feedback for one person, by code or by name',
    '  --step ID        one step: its times, what happens at it, its fasteners; with --person, in the runs of that person',
    '  --procedure ID   only the runs of one procedure',
    '  --codes          people by their codes instead of their names',
    '  --json           the figures instead of the sentences',
    '',
    'Times are active time: pauses, waits and time away from the app are apart. Broken, repeated and foreign lines are',
    'counted and left out; the rest is used.',
    '',
    'Ends with 0; with 1 when there is no run in it, or nobody and no step of that name; with 2 when it cannot be read.',
  ].join('\n'),
  async run(args, terminal): Promise<ExitCode> {
    const options = readOptions(args, terminal);
    if (options === null) return 2;
    const files = await logsIn(options.directory, terminal);
    if (files === null) return 2;
    const review = await readAll(files, terminal);
    if (review === null) return 2;
    const facts = review.facts();
    for (const fault of faultSentences(facts.faults, reviewWords('en'))) terminal.err(fault);
    if (facts.runs === 0) {
      terminal.err(`${options.directory}: no run in it.`);
      return 1;
    }
    const filter = { ...everyRun, procedures: options.procedure === null ? [] : [options.procedure] };
    return answer(review, facts, options, { filter, codes: options.codes, language: 'en' }, terminal);
  },
};

interface Options {
  readonly directory: string;
  readonly json: boolean;
  readonly person: string | null;
  readonly step: string | null;
  readonly procedure: string | null;
  readonly codes: boolean;
}

function answer(review: Review, facts: Facts, options: Options, terms: Terms, terminal: Terminal): ExitCode {
  if (options.procedure !== null && !facts.procedures.some(({ id }) => id === options.procedure)) {
    terminal.err(`No run of "${options.procedure}". There are: ${facts.procedures.map(({ id }) => id).join(', ')}.`);
    return 1;
  }
  if (options.person !== null) return ofPerson(review, facts, { ...options, person: options.person }, terms, terminal);
  if (options.step !== null) return step(review, facts, options.step, options.json, terms, terminal);
  const overview = review.ask({ view: 'overview' }, terms);
  const { people, holds } = review.ask({ view: 'people' }, terms);
  const procedures = facts.procedures.filter(({ id }) => options.procedure === null || id === options.procedure);
  const steps = procedures.map(({ id }) => review.ask({ view: 'steps', procedure: id, reference: null }, terms));
  if (options.json) printJson({ facts, overview, people, holds, steps }, terminal);
  else for (const line of overviewText(facts, overview, people, steps)) terminal.out(plain(line));
  return 0;
}

function ofPerson(
  review: Review,
  facts: Facts,
  options: Options & { readonly person: string },
  terms: Terms,
  terminal: Terminal,
): ExitCode {
  const asked = options.person.toLowerCase();
  const found = facts.people.find(({ code, name }) => code.toLowerCase() === asked || name?.toLowerCase() === asked);
  const sheet = found === undefined ? null : review.ask({ view: 'sheet', person: found.person }, terms);
  if (found === undefined || sheet === null) {
    terminal.err(`Nobody called "${options.person}". There are: ${facts.people.map(({ code }) => code).join(', ')}.`);
    return 1;
  }
  if (options.step !== null) {
    const own = { ...terms, filter: { ...terms.filter, people: [found.name] } };
    return step(review, facts, options.step, options.json, own, terminal);
  }
  if (options.json) printJson(sheet, terminal);
  else for (const line of feedbackText(sheet)) terminal.out(plain(line));
  return 0;
}

function step(review: Review, facts: Facts, wanted: string, json: boolean, terms: Terms, terminal: Terminal): ExitCode {
  const found = facts.procedures.flatMap(({ id, title, steps }) => {
    if (terms.filter.procedures.length > 0 && !terms.filter.procedures.includes(id)) return [];
    if (!steps.some((one) => one.id === wanted)) return [];
    const measures = review.ask({ view: 'steps', procedure: id, reference: null }, terms).steps.find(({ name }) => name.id === wanted);
    const fasteners = review.ask({ view: 'fasteners', procedure: id, step: wanted }, terms);
    return measures === undefined ? [] : [{ procedure: id, title, measures, fasteners }];
  });
  if (found.length === 0) {
    terminal.err(`No run came by a step "${wanted}". Steps go by their ids, such as "${facts.procedures[0]?.steps[0]?.id ?? ''}".`);
    return 1;
  }
  if (json) printJson(found, terminal);
  else for (const one of found) for (const line of stepText(one)) terminal.out(plain(line));
  return 0;
}

/** JSON with what no JSON can hold (NaN: cannot be said) as null. */
/** With plain spaces only: what keeps a number and its unit together on a page keeps a search in a terminal from finding them. */
const plain = (line: string): string => line.replaceAll('\u00a0', ' ');

function printJson(value: unknown, terminal: Terminal): void {
  for (const line of JSON.stringify(value, null, 2).split('\n')) terminal.out(line);
}

/** Every log below a directory, or the one file, sorted; null after saying why it cannot be read. */
async function logsIn(path: string, terminal: Terminal): Promise<readonly string[] | null> {
  try {
    if ((await stat(path)).isFile()) return [path];
    const entries = await readdir(path, { recursive: true });
    return entries
      .filter((name) => /\.jsonl(\.gz)?$/u.test(name))
      .sort()
      .map((name) => join(path, name));
  } catch (error) {
    terminal.err(`${path}: cannot be read: ${messageOf(error)}`);
    return null;
  }
}

async function readAll(files: readonly string[], terminal: Terminal): Promise<Review | null> {
  const intake = makeIntake();
  for (const file of files) {
    intake.open(file);
    try {
      for await (const bytes of bytesOf(file)) intake.feed(bytes);
    } catch (error) {
      terminal.err(`${file}: cannot be read: ${messageOf(error)}`);
      return null;
    }
    intake.close();
  }
  return makeReview(settle(intake.staged()), intake.report());
}

function bytesOf(file: string): AsyncIterable<Uint8Array> {
  const stream = createReadStream(file, { highWaterMark: 1 << 20 });
  if (!file.endsWith('.gz')) return stream;
  const unpacked = createGunzip({ chunkSize: 1 << 20 });
  // A pipe does not hand an error on.
  stream.on('error', (error) => unpacked.destroy(error));
  return stream.pipe(unpacked);
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function readOptions(args: readonly string[], terminal: Terminal): Options | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        json: { type: 'boolean', default: false },
        codes: { type: 'boolean', default: false },
        person: { type: 'string' },
        step: { type: 'string' },
        procedure: { type: 'string' },
      },
    });
    const [directory, ...more] = positionals;
    if (directory === undefined || more.length > 0) {
      terminal.err('Which logs? report DIR. See report --help.');
      return null;
    }
    const { json, codes, person: asked, step: named, procedure } = values;
    return { directory, json, codes, person: asked ?? null, step: named ?? null, procedure: procedure ?? null };
  } catch (error) {
    terminal.err(`${messageOf(error)}. See report --help.`);
    return null;
  }
}
