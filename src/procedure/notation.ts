import { parseTorqueAndBand } from '../torque/bands.ts';
import { parseAngle, parseStage, type Stage } from '../torque/passes.ts';
import type { Degrees, Torque, TorqueBand } from '../torque/quantities.ts';
import type { FastenerDrive } from '../torque/sockets.ts';
import type { OrderPattern, PlannedFollowUp, PlannedReach, PlannedTool } from './plan-types.ts';
import { tableOf } from '../torque/table.ts';

/**
 * The small written forms inside a procedure file, such as "90 N·m ±5" or "extension 150".
 * Each reader gives the meaning, or null when the text is not of that form; `forms` says what would have been.
 */
export const forms = {
  torque: 'a torque with its unit, such as "90 N·m", "90 N·m ±5", "90 N·m ±5%" or "90 N·m +5 -0"',
  drive:
    'a drive and size, such as "hex 17", "hex 3/4 in", "socket-head hex 8", "internal serration T50", "bihex 12", "square 10", "slotted", "cross-head 2" or "hand"',
  square: 'a square drive: 1/4, 3/8, 1/2, 3/4 or 1',
  reach:
    '"extension", "extension 150", "universal joint", "deep socket", "crowfoot", "crowfoot 50", "crowfoot 50 at 45", "extension 300 at 45" for one that leads aside, lengths in millimetres, or "with …" for anything else',
  layout:
    '"circle from 12", "circle from 1:30", "clock 1 3 5 7 9 11", "grid 2 x 4" (rows x columns), "line" or "line down", or a list of [x, y] points between 0 and 1',
  pass: '"snug", "draw", a share such as "30%", a torque such as "40 N·m", an angle such as "90°", or "check"',
  angle: 'an angle in degrees above 0, up to 720, such as 90 or "90°"',
  duration: 'a time such as "90 s", "10 min", "1 h" or "1 h 30 min"',
  after: 'a distance, time or count such as "50 km", "30 mi", "24 h", "2 days" or "5 heat cycles"',
  order: '"cross", "circular", "spiral", "draw-up" or "listed"',
} as const;

export interface WrittenTorque {
  readonly torque: Torque;
  readonly band: TorqueBand | null;
}

const decimal = String.raw`\d{1,6}(?:\.\d{1,6})?`;

/** Reads "90 N·m ±5". The tolerance comes out in the torque's own unit. */
export function readTorque(text: string): WrittenTorque | null {
  const reading = parseTorqueAndBand(text);
  return reading.ok && reading.value.torque.value > 0 ? reading.value : null;
}

export type WrittenDrive = Pick<PlannedTool, 'size' | 'sizeUnit'> & { readonly kind: FastenerDrive };

const driveForms: readonly {
  readonly kind: FastenerDrive;
  readonly words: string;
  readonly size: RegExp | null;
  readonly needsSize: boolean;
}[] = [
  { kind: 'socket-head hex', words: 'socket-head hex', size: /^\d{1,2}(\.\d)?$/, needsSize: true },
  { kind: 'hex', words: 'hex', size: /^\d{1,3}(\.\d)?$/, needsSize: true },
  { kind: 'bihex', words: 'bihex', size: /^\d{1,3}(\.\d)?$/, needsSize: true },
  { kind: 'internal serration', words: 'internal serration', size: /^T\d{1,3}$/, needsSize: true },
  { kind: 'square', words: 'square', size: /^\d{1,2}(\.\d)?$/, needsSize: true },
  { kind: 'cross-head', words: 'cross-head', size: /^[0-4]$/, needsSize: false },
  { kind: 'slotted', words: 'slotted', size: /^\d{1,2}(\.\d)?$/, needsSize: false },
  { kind: 'hand', words: 'hand', size: null, needsSize: false },
];
const inchSize = /^(?:\d{1,2}|\d{1,2}\/\d{1,2}|\d{1,2} \d{1,2}\/\d{1,2}) ?in$/;

/** Reads "hex 17". A size without a unit is in millimetres; serrations and cross-heads are numbered, not measured. */
export function readDrive(text: string): WrittenDrive | null {
  const written = text.trim().replace(/\s+/g, ' ');
  const form = driveForms.find(({ words }) => written === words || written.startsWith(`${words} `));
  if (form === undefined) return null;
  const size = written.slice(form.words.length).trim();
  if (size === '') return form.needsSize ? null : { kind: form.kind, size: null, sizeUnit: null };
  if (form.size === null) return null;
  const numbered = form.kind === 'internal serration' || form.kind === 'cross-head';
  if (!numbered && inchSize.test(size)) return { kind: form.kind, size: size.replace(/ ?in$/, ''), sizeUnit: 'in' };
  const plain = numbered ? size : size.replace(/ ?mm$/, '');
  if (!form.size.test(plain)) return null;
  return { kind: form.kind, size: plain, sizeUnit: numbered ? null : 'mm' };
}

const crowfootForm = new RegExp(String.raw`^crowfoot(?: (${decimal})(?: ?mm)?(?: at (${decimal})°?)?)?$`);
const extensionForm = new RegExp(String.raw`^extension(?: (${decimal})(?: ?mm)?(?: at (${decimal})°?)?)?$`);

export function readReach(text: string): PlannedReach | null {
  const written = text.trim().replace(/\s+/g, ' ');
  if (written === 'universal joint' || written === 'deep socket') return { kind: written };
  const extension = extensionForm.exec(written);
  if (extension !== null) {
    const [, length, angle] = extension;
    if (angle === undefined) return { kind: 'extension', length: length === undefined ? null : Number(length) };
    return Number(angle) > 180 ? null : { kind: 'extension', length: Number(length), angle: Number(angle) as Degrees };
  }
  const crowfoot = crowfootForm.exec(written);
  if (crowfoot !== null) {
    const [, centre, angle] = crowfoot;
    if (angle !== undefined && Number(angle) > 180) return null;
    return {
      kind: 'crowfoot',
      centre: centre === undefined ? null : Number(centre),
      angle: angle === undefined ? null : (Number(angle) as Degrees),
    };
  }
  return written.startsWith('with ') && written.length > 5 ? { kind: 'other', text: written.slice(5) } : null;
}

/** Hours are on a clock face seen by the person who tightens, in half hours from 0.5 to 12. */
export type WrittenLayout =
  | { readonly kind: 'circle'; readonly from: number }
  | { readonly kind: 'clock'; readonly hours: readonly number[] }
  | { readonly kind: 'grid'; readonly rows: number; readonly columns: number }
  | { readonly kind: 'line'; readonly down: boolean }
  | { readonly kind: 'points'; readonly points: readonly (readonly [number, number])[] };

function readHour(text: string): number | null {
  const match = /^(\d{1,2})(:30|:00)?$/.exec(text);
  if (match === null) return null;
  const hour = Number(match[1]) + (match[2] === ':30' ? 0.5 : 0);
  if (hour === 0.5 || (hour >= 1 && hour <= 12)) return hour;
  return hour === 12.5 ? 0.5 : null;
}

export function readLayout(text: string): WrittenLayout | null {
  const words = text.trim().split(/\s+/);
  const [first, ...rest] = words;
  if (first === 'line')
    return rest.length === 0
      ? { kind: 'line', down: false }
      : rest.length === 1 && rest[0] === 'down'
        ? { kind: 'line', down: true }
        : null;
  if (first === 'circle' && rest.length === 2 && rest[0] === 'from') {
    const from = readHour(rest[1] ?? '');
    return from === null ? null : { kind: 'circle', from };
  }
  if (first === 'clock' && rest.length > 0) {
    const hours = rest.map(readHour);
    return hours.every((hour) => hour !== null) ? { kind: 'clock', hours } : null;
  }
  const grid = /^grid (\d{1,3}) ?[x×] ?(\d{1,3})$/.exec(words.join(' '));
  if (grid === null) return null;
  const rows = Number(grid[1]);
  const columns = Number(grid[2]);
  return rows > 0 && columns > 0 ? { kind: 'grid', rows, columns } : null;
}

export function readAngle(text: string): Degrees | null {
  const reading = parseAngle(text);
  return reading.ok ? reading.value : null;
}

export function readPass(text: string): Stage | null {
  const reading = parseStage(text);
  return reading.ok ? reading.value : null;
}

const secondsIn: Readonly<Record<string, number>> = tableOf<number>({ s: 1, min: 60, h: 3600 });

/** Whole seconds, from one second to a week. */
export function readDuration(text: string): number | null {
  const written = text.trim();
  if (!/^\d{1,6}(?:\.\d{1,3})? ?(?:s|min|h)(?: \d{1,4} ?(?:s|min))*$/.test(written)) return null;
  let seconds = 0;
  for (const [, amount, unit] of written.matchAll(/(\d+(?:\.\d+)?) ?(s|min|h)/g)) seconds += Number(amount) * (secondsIn[unit ?? ''] ?? 0);
  seconds = Math.round(seconds);
  return seconds >= 1 && seconds <= 7 * 24 * 3600 ? seconds : null;
}

const hoursIn: Readonly<Record<string, number>> = tableOf<number>({ h: 1, hour: 1, hours: 1, day: 24, days: 24, week: 168, weeks: 168 });

export function readAfter(text: string): PlannedFollowUp['after'] | null {
  const match = new RegExp(String.raw`^(${decimal}) ?([^\d\s][^\d]{0,39})$`).exec(text.trim());
  if (match === null) return null;
  const value = Number(match[1]);
  const of = (match[2] ?? '').trim();
  if (value <= 0) return null;
  if (of === 'km' || of === 'mi') return { kind: 'distance', value, unit: of };
  if (Object.hasOwn(hoursIn, of)) return { kind: 'time', hours: value * (hoursIn[of] ?? 1) };
  return Number.isInteger(value) ? { kind: 'count', count: value, of } : null;
}

export const orderPatterns = ['cross', 'circular', 'spiral', 'draw-up', 'listed'] as const satisfies readonly OrderPattern[];
