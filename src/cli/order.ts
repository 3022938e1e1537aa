import { parseArgs } from 'node:util';
import { drawUpTurn } from '../torque/passes.ts';
import {
  circlePlaces,
  circularOrder,
  clockOnCircle,
  drawUpOrder,
  gridPlaces,
  placeNames,
  spiralOrder,
  starOrder,
} from '../torque/sequences.ts';
import type { ExitCode, Terminal, Verb } from './verb.ts';

const usage = 'order star|circular|draw-up COUNT [--rounds N] [--json], or order spiral ROWSxCOLUMNS [--json]';

/** More than any joint has, and few enough to print. */
const mostFasteners = 500;
const mostRounds = 50;

export const order: Verb = {
  name: 'order',
  summary: 'Give the order in which to tighten so many fasteners.',
  help: [
    usage,
    '',
    'Positions are numbered clockwise from twelve o’clock, or row by row from the top left for a spiral.',
    '',
    '  star      crosswise, each next one as far from the load as can be',
    '  circular  one after the other, for a last check at full torque',
    '  draw-up   opposite pairs in small even turns, to draw a part on; --rounds prints several rounds',
    '  spiral    from the middle outward',
    '  --json    one JSON object',
    '',
    'These are common orders, not a maker’s: where the manual gives one, that one holds.',
    'Ends with 0, or 2 on bad usage.',
  ].join('\n'),
  run(args, terminal): Promise<ExitCode> {
    return Promise.resolve(print(args, terminal));
  },
};

interface Listing {
  readonly pattern: string;
  readonly rounds: readonly (readonly number[])[];
  readonly positions: readonly { readonly number: number; readonly clock: number | null; readonly name: string }[];
  readonly source: string;
}

function print(args: readonly string[], terminal: Terminal): ExitCode {
  const asked = readOptions(args);
  const listing = 'complaint' in asked ? asked : listingFor(asked);
  if ('complaint' in asked || 'complaint' in listing) {
    if ('complaint' in listing) terminal.err(listing.complaint);
    terminal.err(usage);
    return 2;
  }
  const rounds = listing.rounds.map((round) => round.map((index) => index + 1));
  if (asked.json) {
    terminal.out(
      JSON.stringify({ pattern: listing.pattern, order: rounds[0], rounds, positions: listing.positions, source: listing.source }, null, 2),
    );
    return 0;
  }
  for (const [index, round] of rounds.entries())
    terminal.out(rounds.length === 1 ? round.join(' ') : `round ${index + 1}: ${round.join(' ')}`);
  terminal.out('');
  for (const number of rounds[0] ?? []) {
    const position = listing.positions[number - 1];
    if (position) terminal.out(`${String(number).padStart(4)}  ${placeText(position)}`);
  }
  terminal.out('');
  terminal.out(listing.source);
  terminal.out('Where the maker’s manual gives an order, that one holds.');
  return 0;
}

interface Asked {
  readonly pattern: string;
  readonly size: string;
  readonly rounds: number;
  readonly json: boolean;
}

/** What was found, and what was expected. */
interface Complaint {
  readonly complaint: string;
}

const patterns = 'star, circular, draw-up or spiral';

function readOptions(args: readonly string[]): Asked | Complaint {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { rounds: { type: 'string' }, json: { type: 'boolean' } },
    });
    const [pattern, size, ...more] = positionals;
    const rounds = wholeNumber(values.rounds ?? '1', mostRounds);
    if (pattern === undefined) return { complaint: `found no order, expected ${patterns}` };
    if (size === undefined) return { complaint: `found no count after "${pattern}", expected ${sizeExpected(pattern)}` };
    if (more.length > 0) return { complaint: `found "${more.join(' ')}" after the count, expected nothing` };
    if (rounds === null) return { complaint: `--rounds: found "${values.rounds ?? ''}", expected a whole number from 1 to ${mostRounds}` };
    if (values.rounds !== undefined && pattern !== 'draw-up')
      return { complaint: `found --rounds with "${pattern}", expected it with draw-up alone` };
    return { pattern, size, rounds, json: values.json ?? false };
  } catch (error) {
    // parseArgs throws on options that it does not know.
    return { complaint: error instanceof Error ? error.message : String(error) };
  }
}

function sizeExpected(pattern: string): string {
  return pattern === 'spiral'
    ? `rows and columns such as 2x5, at most ${mostFasteners} fasteners`
    : `a whole number from 1 to ${mostFasteners}`;
}

function listingFor({ pattern, size, rounds }: Asked): Listing | Complaint {
  if (pattern === 'spiral') return spiralListing(size) ?? { complaint: `found "${size}", expected ${sizeExpected(pattern)}` };
  const count = wholeNumber(size, mostFasteners);
  if (count === null) return { complaint: `found "${size}", expected ${sizeExpected(pattern)}` };
  const names = placeNames(circlePlaces(count));
  const positions = names.map((name, index) => ({ number: index + 1, clock: count === 1 ? null : clockOnCircle(index, count), name }));
  switch (pattern) {
    case 'star':
    case 'cross':
      return {
        pattern: 'star',
        rounds: [starOrder(count)],
        positions,
        source: 'Star order: opposite pairs, as in the legacy orders of ASME PCC-1; odd counts by the evenest spread of load.',
      };
    case 'circular':
      return {
        pattern,
        rounds: [circularOrder(count)],
        positions,
        source: 'Once round, for a last check at full torque (ASME PCC-1 practice).',
      };
    case 'draw-up':
      return {
        pattern,
        rounds: Array.from({ length: rounds }, (_, round) => drawUpOrder(count, round)),
        positions,
        source: `Opposite fasteners, about ${drawUpTurn}° at a time, never past snug before it is flush; stop if it resists (common practice).`,
      };
    default:
      return { complaint: `found the order "${pattern}", expected ${patterns}` };
  }
}

function spiralListing(size: string): Listing | null {
  const match = /^(\d+)\s*[x×]\s*(\d+)$/iu.exec(size);
  const [rows, columns] = [Number(match?.[1] ?? 0), Number(match?.[2] ?? 0)];
  if (rows < 1 || columns < 1 || rows * columns > mostFasteners) return null;
  const names = placeNames(gridPlaces(rows, columns));
  const positions = names.map((name, index) => ({
    number: index + 1,
    clock: null,
    name: name.startsWith('number') ? `row ${Math.floor(index / columns) + 1}, column ${(index % columns) + 1}` : name,
  }));
  return {
    pattern: 'spiral',
    rounds: [spiralOrder(rows, columns)],
    positions,
    source: 'From the middle outward, ring after ring (common practice).',
  };
}

function placeText({ clock, name, number }: Listing['positions'][number]): string {
  const hour = clock === null ? '' : `${Math.floor(clock) || 12}${Number.isInteger(clock) ? '' : ':30'} o’clock`;
  const named = name === `number ${number}` ? '' : name;
  return [hour, named].filter((text) => text !== '').join(', ');
}

function wholeNumber(text: string, most: number): number | null {
  const value = /^\d{1,6}$/u.test(text) ? Number(text) : 0;
  return value >= 1 && value <= most ? value : null;
}
