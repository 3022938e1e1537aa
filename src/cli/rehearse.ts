import { randomUUID } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import type { Now } from '../job/dialogue.ts';
import { legalNow, stateOf, stepAtHand } from '../job/dialogue.ts';
import type { Session } from '../job/session.ts';
import { startSession } from '../job/session.ts';
import type { Journal } from '../journal/port.ts';
import { memoryJournal } from '../journal/memory.ts';
import { interpret } from '../phrasing/interpret.ts';
import type { Language } from '../phrasing/language.ts';
import { languages } from '../phrasing/language.ts';
import { packFor } from '../phrasing/packs.ts';
import { readDuration } from '../procedure/notation.ts';
import { parseProcedure } from '../procedure/parse.ts';
import { planJob } from '../procedure/plan.ts';
import type { Plan } from '../procedure/plan-types.ts';
import { problemText } from '../procedure/problem.ts';
import { fileJournal } from './file-journal.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

export const rehearse: Verb = {
  name: 'rehearse',
  summary: 'Work a job in text: it prints what it would say, and takes what you would say.',
  help: [
    'rehearse FILE --build K [--say "…" …] [--script FILE] [--journal OUT.jsonl] [--person NAME] [--language en|fr]',
    '',
    'Works the procedure in FILE with the same core as the app. Without --say or --script it reads what you say from standard input.',
    '',
    '  --build K        which build of the vehicle; may be left out when there is only one',
    '  --say "…"        something to say; may be given often',
    '  --script FILE    a text file of things to say, one a line; "# …" is a comment, and "(10 min)" lets that much time pass',
    '  --journal FILE   write the record as JSON Lines; if it holds an open job of this procedure, the rehearsal goes on with it',
    '  --person NAME    who works, for the record and the signature',
    '  --language en    the language spoken; the procedure keeps its own',
    '',
    'With --say or --script, time passes only by "(…)" lines, one second for each thing said.',
    'Ends with 0; with 1 when something said was not understood or not possible, or when a script ends before the job is closed;',
    'with 2 when the file, the build or the script cannot be used.',
  ].join('\n'),
  run: async (args, terminal) => {
    const options = readOptions(args, terminal);
    if (options === null) return 2;
    const plan = await readPlan(options, terminal);
    if (plan === null) return 2;
    const script = await readScript(options, terminal);
    if (script === null) return 2;
    return work(plan, options, script, terminal);
  },
};

interface Options {
  readonly file: string;
  readonly build: string | null;
  readonly says: readonly string[];
  readonly script: string | null;
  readonly journal: string | null;
  readonly person: string | null;
  readonly language: Language;
}

function readOptions(args: readonly string[], terminal: Terminal): Options | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        build: { type: 'string' },
        say: { type: 'string', multiple: true },
        script: { type: 'string' },
        journal: { type: 'string' },
        person: { type: 'string' },
        language: { type: 'string', default: 'en' },
      },
    });
    const [file, ...more] = positionals;
    const language = languages.find((one) => one === values.language);
    if (file === undefined || more.length > 0) terminal.err('Which procedure? rehearse FILE --build K. See rehearse --help.');
    else if (language === undefined) terminal.err(`--language takes ${languages.join(' or ')}, not "${values.language}".`);
    else {
      const { build = null, say: says = [], script = null, journal = null, person = null } = values;
      return { file, build, says, script, journal, person, language };
    }
  } catch (error) {
    terminal.err(`${error instanceof Error ? error.message : String(error)}. See rehearse --help.`);
  }
  return null;
}

async function readPlan({ file, build }: Options, terminal: Terminal): Promise<Plan | null> {
  const text = await readText(file, terminal);
  if (text === null) return null;
  const parsed = parseProcedure(text, file);
  if (!parsed.ok) {
    for (const problem of parsed.problems) terminal.err(problemText(problem));
    return null;
  }
  const builds = [...parsed.file.builds.keys()];
  const chosen = build ?? (builds.length === 1 ? builds[0] : undefined);
  if (chosen === undefined) {
    terminal.err(`Which build? --build ${builds.join(' or --build ')}.`);
    return null;
  }
  const planned = planJob(parsed.file, { build: chosen, spokenUnit: null, crib: null, today: '' });
  if (planned.ok) return planned.plan;
  for (const problem of planned.problems) terminal.err(problemText(problem));
  return null;
}

/** What to say, line by line; an async source when a person types. */
async function readScript(options: Options, terminal: Terminal): Promise<AsyncIterable<string> | readonly string[] | null> {
  if (options.script === null && options.says.length === 0) return terminal.lines();
  const text = options.script === null ? '' : await readText(options.script, terminal);
  if (text === null) return null;
  const lines = text
    .split(/\r?\n/u)
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
  const badTime = lines.find((line) => line.startsWith('(') && passedIn(line) === null);
  if (badTime !== undefined) {
    terminal.err(`${options.script ?? ''}: found "${badTime}", expected a time such as "(10 min)".`);
    return null;
  }
  return [...lines, ...options.says];
}

async function readText(file: string, terminal: Terminal): Promise<string | null> {
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    terminal.err(`${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
    return null;
  }
}

const passedIn = (line: string): number | null => (line.startsWith('(') && line.endsWith(')') ? readDuration(line.slice(1, -1)) : null);

async function work(
  plan: Plan,
  options: Options,
  script: AsyncIterable<string> | readonly string[],
  terminal: Terminal,
): Promise<ExitCode> {
  const run = randomUUID();
  const journal = options.journal === null ? memoryJournal({ session: run }) : fileJournal({ path: options.journal, session: run });
  const resumed = await findOpenJob(journal, plan);
  const job = resumed?.job ?? randomUUID();
  const pack = packFor(options.language);
  const scripted = Array.isArray(script);
  const begun = Date.now();
  let passed = 0;
  const now = (): Now => {
    // Scripts run on a clock of their own, so that the same script always makes the same times.
    const elapsed = scripted ? passed * 1000 : Date.now() - begun;
    const wall = begun + elapsed;
    return { moment: { wall, offset: -new Date(wall).getTimezoneOffset(), mono: elapsed }, session: run };
  };
  let fellShort = false;
  const session: Session = startSession(resumed?.plan ?? plan, resumed?.events ?? [], {
    now,
    store: async (happenings) => {
      const opens = happenings[0]?.event.type === 'opened';
      const stored = opens ? await journal.begin(job, plan, happenings) : await journal.append(job, happenings);
      return stored.ok ? { ok: true, events: stored.recorded } : { ok: false, code: stored.code };
    },
    say: (lines) => {
      for (const line of lines) {
        const spoken = pack.say(line).say;
        if (spoken !== '') terminal.out(spoken);
        // A refusal is a line like any other; for a script it means that it asked for what could not be done.
        if (line.kind === 'not-now' || line.kind === 'too-many' || line.kind === 'failure') fellShort = true;
      }
    },
    set: () => undefined,
    wants: () => undefined,
    changed: () => undefined,
  });
  await session.begin({ person: options.person, group: null });
  for await (const line of script) {
    const seconds = passedIn(line.trim());
    if (seconds !== null) {
      passed += seconds;
      await session.clock();
      continue;
    }
    if (line.trim() === '') continue;
    passed += 1;
    if (scripted) terminal.out(`> ${line}`);
    fellShort = !(await hear(session, line, options)) || fellShort;
    await session.clock();
    if (!scripted && session.state() === 'closed') break;
  }
  const closed = session.state() === 'closed';
  if (options.script !== null && !closed) terminal.err(`The script ended before the job was closed, in state "${session.state()}".`);
  session.end();
  if (!scripted) return 0;
  return fellShort || (options.script !== null && !closed) ? 1 : 0;
}

/** False when it was not understood or could not be done. */
async function hear(session: Session, text: string, options: Options): Promise<boolean> {
  const dialogue = session.dialogue();
  const { cursor } = dialogue.job.work;
  const step = stepAtHand(dialogue.plan, dialogue.job);
  const measure = cursor?.part.kind === 'measure' ? step?.measures[cursor.part.index] : undefined;
  const understood = interpret([{ text, confidence: 1 }], {
    state: stateOf(dialogue),
    legal: legalNow(dialogue),
    language: options.language,
    names: options.person === null ? [] : [options.person],
    measureUnit: measure?.unit ?? null,
    nameFirst: false,
  });
  switch (understood.kind) {
    case 'intent':
      await session.intent(understood.intent);
      return true;
    case 'not-now':
      await session.notNow(understood.intent);
      return false;
    case 'not-understood':
      await session.misheard(text);
      return false;
  }
}

async function findOpenJob(journal: Journal, plan: Plan) {
  const known = await journal.jobs();
  if (!known.ok) return null;
  const open = known.jobs.find((one) => one.status !== 'signed' && one.procedure === plan.procedure.id && one.build === plan.build.id);
  if (open === undefined) return null;
  const opened = await journal.open(open.job);
  return opened.ok ? opened.stored : null;
}
