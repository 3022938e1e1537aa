import { parseArgs } from 'node:util';
import { earNames, type EarName } from './ears.ts';

/** What the bench was asked for. */
export interface BenchOptions {
  readonly quick: boolean;
  readonly json: boolean;
  readonly clips: string | null;
  readonly ear: EarName;
  readonly nameFirst: boolean;
  readonly parts: readonly Part[];
  readonly voices: readonly string[];
  /** Clips of each voice in each noise at each level; five times as many in the clean. */
  readonly each: number;
  /** Of talk, with open listening and again with the name first. */
  readonly hours: number;
  readonly unit: string;
  readonly names: readonly string[];
}

export const parts = ['commands', 'talk', 'prompts', 'numbers', 'own', 'endpoints', 'suppression', 'answers'] as const;
export type Part = (typeof parts)[number];

/** Something in the question itself is wrong; the message says what was found and what was expected. */
export class BadInput extends Error {}

/** Reads the command line, or null where help is asked for. Throws `BadInput`. */
export function readOptions(args: readonly string[]): BenchOptions | null {
  const values = parsed(args);
  if (values.help === true) return null;
  const only = values.only?.split(',').map((one) => oneOf(one, parts, '--only'));
  return {
    quick: values.quick === true,
    json: values.json === true,
    clips: values.clips ?? null,
    ear: values.ear === undefined ? 'app' : oneOf(values.ear, earNames, '--ear'),
    nameFirst: values['name-first'] === true,
    parts: only ?? parts,
    voices: values.voices?.split(',').map((name) => name.trim()) ?? [],
    each: positive(values.each, '--each') ?? (values.quick === true ? 3 : 14),
    hours: positive(values.hours, '--hours') ?? (values.quick === true ? 1 / 30 : 1),
    unit: values.unit ?? 'mm',
    names: values.names?.split(',').map((name) => name.trim().toLowerCase()) ?? ['robin marsh', 'kim ferrow'],
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      options: {
        help: { type: 'boolean', short: 'h' },
        quick: { type: 'boolean' },
        json: { type: 'boolean' },
        clips: { type: 'string' },
        ear: { type: 'string' },
        only: { type: 'string' },
        voices: { type: 'string' },
        each: { type: 'string' },
        hours: { type: 'string' },
        'name-first': { type: 'boolean' },
        unit: { type: 'string' },
        names: { type: 'string' },
      },
    }).values;
  } catch (error) {
    throw new BadInput(error instanceof Error ? error.message : String(error));
  }
}

function positive(found: string | undefined, option: string): number | undefined {
  if (found === undefined) return undefined;
  const value = Number(found);
  if (!(value > 0)) throw new BadInput(`${option}: found "${found}", expected a number above zero.`);
  return value;
}

function oneOf<T extends string>(found: string, wanted: readonly T[], option: string): T {
  const known = wanted.find((one) => one === found);
  if (known === undefined) throw new BadInput(`${option}: found "${found}", expected one of ${wanted.join(', ')}.`);
  return known;
}
