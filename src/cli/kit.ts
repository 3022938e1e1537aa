import { readFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { parseProcedure } from '../procedure/parse.ts';
import { planJob } from '../procedure/plan.ts';
import type { KitItem, KitKind, Plan } from '../procedure/plan-types.ts';
import { problemText } from '../procedure/problem.ts';
import { freeSteps, toolChanges, type ToolChanges } from '../procedure/tool-changes.ts';
import { isIsoDate } from '../torque/calendar.ts';
import { parseCrib } from '../torque/crib-file.ts';
import type { Crib } from '../torque/crib.ts';
import { english } from '../phrasing/en/pack.ts';
import { wrenchRemarks, type WrenchRemark } from '../procedure/wrench-remarks.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

export const kit: Verb = {
  name: 'kit',
  summary: 'List everything to lay out for a job, and which of it is in a tool crib.',
  help: [
    'kit FILE --build BUILD [--crib FILE] [--today YYYY-MM-DD] [--json]',
    '',
    'Lists tools, parts, consumables and supports, each with the numbers of the steps that need it.',
    'With a crib it says which wrench to use and what to set it to, what is lacking, and what would serve instead.',
    'Then it counts the tool changes, and suggests an order of the free steps where that saves some.',
    '',
    '  --build  the build to plan for',
    '  --crib   a tool crib, as JSON',
    '  --today  the date that calibrations are judged by; today where left out',
    '  --json   one JSON object',
    '',
    'Ends with 0 when nothing is lacking, 1 when something is, 2 when the job cannot be planned.',
  ].join('\n'),
  async run(args, terminal): Promise<ExitCode> {
    const options = readOptions(args);
    if ('complaint' in options) {
      terminal.err(options.complaint);
      terminal.err('kit FILE --build BUILD [--crib FILE] [--today YYYY-MM-DD] [--json]');
      return 2;
    }
    const crib = options.crib === null ? null : await readCribFile(options.crib, terminal);
    const planned = await plan(options, crib ?? null, terminal);
    if (planned === null || crib === undefined) return 2;
    const lacking = planned.plan.kit.filter(({ owned }) => owned === false);
    const remarks = wrenchRemarks(planned.plan);
    if (options.json) {
      terminal.out(
        JSON.stringify(
          {
            kit: planned.plan.kit,
            lacking: lacking.map(({ id }) => id),
            wrenches: remarks.map((remark) => ({ ...remark, text: english.tools.remark(remark) })),
            toolChanges: planned.changes,
          },
          null,
          2,
        ),
      );
    } else {
      tell(planned.plan, planned.changes, remarks, crib !== null, terminal);
    }
    return lacking.length > 0 ? 1 : 0;
  },
};

interface Options {
  readonly file: string;
  readonly build: string;
  readonly crib: string | null;
  readonly today: string;
  readonly json: boolean;
}

function readOptions(args: readonly string[]): Options | { readonly complaint: string } {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { build: { type: 'string' }, crib: { type: 'string' }, today: { type: 'string' }, json: { type: 'boolean' } },
    });
    const [file, ...more] = positionals;
    const today = values.today ?? new Date().toISOString().slice(0, 10);
    if (file === undefined) return { complaint: 'found no file, expected a procedure file' };
    if (more.length > 0) return { complaint: `found "${more.join(' ')}" after the file, expected one procedure file` };
    if (values.build === undefined) return { complaint: 'found no --build, expected the build to plan for' };
    if (!isIsoDate(today)) return { complaint: `--today: found "${today}", expected a date such as 2026-02-28` };
    return { file, build: values.build, crib: values.crib ?? null, today, json: values.json ?? false };
  } catch (error) {
    // parseArgs throws on options that it does not know.
    return { complaint: error instanceof Error ? error.message : String(error) };
  }
}

/** Undefined when the file is no crib, which has then been said. */
async function readCribFile(file: string, terminal: Terminal): Promise<Crib | undefined> {
  const text = await readText(file, terminal);
  if (text === null) return undefined;
  const parsed = parseCrib(text);
  if (parsed.ok) return parsed.crib;
  for (const { path, found, expected } of parsed.problems)
    terminal.err(`${file}: ${path === '' ? '' : `${path}: `}found ${found}, expected ${expected}`);
  return undefined;
}

async function plan(
  options: Options,
  crib: Crib | null,
  terminal: Terminal,
): Promise<{ readonly plan: Plan; readonly changes: ToolChanges } | null> {
  const text = await readText(options.file, terminal);
  if (text === null) return null;
  const parsed = parseProcedure(text, options.file);
  const planned = parsed.ok ? planJob(parsed.file, { build: options.build, crib, today: options.today, spokenUnit: null }) : parsed;
  if (!planned.ok || !parsed.ok) {
    for (const problem of planned.ok ? [] : planned.problems) terminal.err(problemText(problem));
    return null;
  }
  const procedure = parsed.file.variants.get(options.build);
  return { plan: planned.plan, changes: toolChanges(planned.plan, procedure === undefined ? new Set() : freeSteps(procedure)) };
}

async function readText(file: string, terminal: Terminal): Promise<string | null> {
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    terminal.err(`${file}: cannot be read: ${error instanceof Error ? error.message : String(error)}`);
    return null;
  }
}

const headings: Readonly<Record<KitKind, string>> = {
  support: 'Supports',
  wrench: 'Torque wrenches',
  'angle gauge': 'Angle gauges',
  drive: 'Drives',
  socket: 'Sockets',
  bit: 'Bits',
  extension: 'Extensions',
  joint: 'Joints',
  adapter: 'Adapters',
  tool: 'Other tools',
  part: 'Parts',
  consumable: 'Consumables',
};

function tell(plan: Plan, changes: ToolChanges, remarks: readonly WrenchRemark[], withCrib: boolean, terminal: Terminal): void {
  const numbers = new Map(plan.steps.map(({ id, number }) => [id, number]));
  terminal.out(`${plan.procedure.title}, ${plan.procedure.vehicle}, build ${plan.build.id}`);
  terminal.out(plan.procedure.source);
  let heading: KitKind | null = null;
  for (const item of plan.kit) {
    if (item.kind !== heading) {
      heading = item.kind;
      terminal.out('');
      terminal.out(headings[heading]);
    }
    terminal.out(line(item, numbers, withCrib));
  }
  if (remarks.length > 0) {
    terminal.out('');
    terminal.out('Before you start');
    for (const remark of remarks) terminal.out(`  ${english.tools.remark(remark)}`);
  }
  terminal.out('');
  terminal.out(`Tool changes: ${changes.count}`);
  if (changes.suggestion !== null) {
    const moved = changes.suggestion.moved.map((id) => `${numbers.get(id) ?? '?'} (${id})`).join(', ');
    terminal.out(`${changes.count - changes.suggestion.count} fewer if these free steps are moved: ${moved}`);
    terminal.out(`  order: ${changes.suggestion.order.map((id) => numbers.get(id) ?? '?').join(' ')}`);
  }
}

function line(item: KitItem, numbers: ReadonlyMap<string, string>, withCrib: boolean): string {
  const mark = !withCrib ? '[ ]' : item.owned === null ? '[ ]' : item.owned ? '[x]' : '[!]';
  const steps =
    item.steps.length === 0
      ? 'whole job'
      : `step${item.steps.length === 1 ? '' : 's'} ${item.steps.map((id) => numbers.get(id) ?? '?').join(' ')}`;
  const lacking = item.owned !== false ? '' : item.instead === null ? ', lacking' : `, lacking; instead: ${item.instead}`;
  return `  ${mark} ${item.count} × ${item.name}${item.singleUse ? ' (single use)' : ''}: ${steps}${lacking}`;
}
