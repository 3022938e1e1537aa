import { parseArgs } from 'node:util';
import { parseBand, parseTorqueAndBand } from '../torque/bands.ts';
import { wrenchClasses } from '../torque/crib.ts';
import type { TorqueWrench, WrenchClass } from '../torque/crib.ts';
import type { Arm } from '../torque/lever.ts';
import { parseNumber } from '../torque/numbers.ts';
import { parseAngle } from '../torque/passes.ts';
import { usualFriction } from '../torque/plausibility.ts';
import type { Degrees, Millimetres, Torque, TorqueBand, TorqueUnit } from '../torque/quantities.ts';
import type { Problem } from '../torque/reading.ts';
import { parsePropertyClass } from '../torque/strength.ts';
import type { PropertyClass } from '../torque/strength.ts';
import { parseThread } from '../torque/threads.ts';
import type { Thread } from '../torque/threads.ts';
import { parseTorqueUnit } from '../torque/units.ts';
import { ordinaryTolerance, parseWrenchRange } from '../torque/wrench.ts';

/** What was asked for on the command line, read and checked. */
export interface Asked {
  readonly torque: Torque | null;
  readonly band: TorqueBand | null;
  readonly to: readonly TorqueUnit[];
  readonly arm: Arm | null;
  readonly wrench: TorqueWrench | null;
  readonly thread: Thread | null;
  readonly strength: PropertyClass | null;
  readonly friction: number;
  readonly json: boolean;
}

/** Why nothing can be reckoned, as text for the terminal. */
export interface Complaint {
  readonly complaint: string;
}

type TextOption = 'to' | 'band' | 'lever' | 'adapter' | 'angle' | 'wrench' | 'tolerance' | 'thread' | 'class' | 'mu';
type OptionTexts = Partial<Record<TextOption, readonly string[]>>;

/** Reads the command line; everything wrong with it is complained of at once. */
export function readOptions(args: readonly string[]): Asked | Complaint {
  const raw = rawOptions(args);
  if ('complaint' in raw) return raw;
  const { texts, positionals, json } = raw;
  const one = (name: keyof OptionTexts) => texts[name]?.at(-1) ?? null;
  const complaints: string[] = [];
  /** Reads an option where it is given; what cannot be read is complained of. */
  const reading = <T>(
    name: string,
    text: string | null,
    parse: (text: string) => { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem },
  ): T | null => {
    if (text === null) return null;
    const result = parse(text);
    if (result.ok) return result.value;
    complaints.push(
      `${name}: found ${result.problem.found === '' ? 'nothing' : result.problem.found}, expected ${result.problem.expected}`,
    );
    return null;
  };
  if (positionals.length > 1) complaints.push(`one torque, not ${positionals.length}: put quotes round it`);
  const given = reading('torque', positionals[0] ?? null, parseTorqueAndBand);
  const torque = given?.torque ?? null;
  const ownBand = torque === null ? null : reading('--band', one('band'), (text) => parseBand(text, torque));
  const to = (texts.to ?? []).flatMap((text) => reading('--to', text, parseTorqueUnit) ?? []);
  const lever = reading('--lever', one('lever'), parseNumber);
  const centre = reading('--adapter', one('adapter'), parseNumber);
  const angle = reading('--angle', one('angle'), (text) => (/^0+°?$/u.test(text) ? { ok: true, value: 0 as Degrees } : parseAngle(text)));
  const range = reading('--wrench', one('wrench'), (text) => parseWrenchRange(text, torque?.unit ?? 'N·m'));
  const tolerance = reading('--tolerance', one('tolerance'), parseTolerance);
  const thread = reading('--thread', one('thread'), parseThread);
  const strength = thread === null ? null : reading('--class', one('class'), (text) => parsePropertyClass(text, thread));
  const friction = reading('--mu', one('mu'), parseNumber) ?? usualFriction.thread;
  if (torque === null && one('thread') === null && positionals.length === 0) complaints.push('a torque, a thread, or both are needed');
  for (const name of ['to', 'band', 'adapter', 'wrench'] as const) {
    if (positionals.length === 0 && texts[name]) complaints.push(`--${name} needs a torque`);
  }
  if ((lever === null) !== (centre === null) && complaints.length === 0) complaints.push('--lever and --adapter go together');
  if (texts.angle && !texts.adapter) complaints.push('--angle needs an adapter');
  if (texts.tolerance && !texts.wrench) complaints.push('--tolerance needs a wrench');
  for (const name of ['class', 'mu'] as const) if (texts[name] && !texts.thread) complaints.push(`--${name} needs a thread`);
  if (!(friction > 0 && friction < 1)) complaints.push('--mu: expected a friction between 0 and 1');
  if (complaints.length > 0) return { complaint: complaints.join('\n') };
  const arm: Arm | null =
    lever === null || centre === null
      ? null
      : { lever: lever as Millimetres, centre: centre as Millimetres, angle: angle ?? (0 as Degrees) };
  const wrench = range === null ? null : { ...plainWrench, ...range, tolerance: tolerance ?? ordinaryTolerance, lever: arm?.lever ?? null };
  return { torque, band: ownBand ?? given?.band ?? null, to, arm, wrench, thread, strength, friction, json };
}

function rawOptions(args: readonly string[]): { texts: OptionTexts; positionals: readonly string[]; json: boolean } | Complaint {
  try {
    const text = { type: 'string', multiple: true } as const;
    const { values, positionals } = parseArgs({
      args: joinBand(args),
      allowPositionals: true,
      options: {
        to: text,
        band: text,
        lever: text,
        adapter: text,
        angle: text,
        wrench: text,
        tolerance: text,
        thread: text,
        class: text,
        mu: text,
        json: { type: 'boolean' },
      },
    });
    const { json, ...texts } = values;
    return { texts, positionals, json: json ?? false };
  } catch (error) {
    // parseArgs throws on options that it does not know.
    return { complaint: error instanceof Error ? error.message : String(error) };
  }
}

/** parseArgs takes the value of `--band -0/+10` for an option, unless it is joined on with "=". */
function joinBand(args: readonly string[]): string[] {
  return args.flatMap((arg, index) => {
    if (arg === '--band' && /^-\d/u.test(args[index + 1] ?? '')) return [`--band=${args[index + 1] ?? ''}`];
    return args[index - 1] === '--band' && /^-\d/u.test(arg) ? [] : [arg];
  });
}

function parseTolerance(text: string): { ok: true; value: number | WrenchClass } | { ok: false; problem: Problem } {
  const className = Object.keys(wrenchClasses).find((name) => name === text.toUpperCase());
  if (className !== undefined) return { ok: true, value: className as WrenchClass };
  const number = parseNumber(text.replace(/^±/u, '').replace(/\s*%$/u, ''));
  if (number.ok && number.value > 0 && number.value < 50) return { ok: true, value: number.value };
  const expected = `a percentage, or a class: ${Object.keys(wrenchClasses).join(', ')}`;
  return { ok: false, problem: { code: 'not-a-tolerance', path: '', found: text, expected } };
}

/** Its calibration is nobody's question here, so it counts as fresh. */
const plainWrench: TorqueWrench = {
  id: 'wrench',
  name: 'The wrench',
  min: 0,
  max: 0,
  unit: 'N·m',
  graduation: null,
  square: '1/2',
  tolerance: ordinaryTolerance,
  calibrated: '2000-01-01',
  operations: 0,
  suspect: false,
  lever: null,
};
