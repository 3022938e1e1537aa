import type { NewtonMetres, Torque } from './quantities.ts';
import { parseNumber } from './numbers.ts';
import type { Thread } from './threads.ts';
import { toNewtonMetres } from './units.ts';

/** How a fastener is turned. */
export type FastenerDrive = 'hex' | 'socket-head hex' | 'internal serration' | 'bihex' | 'square' | 'slotted' | 'cross-head' | 'hand';

/** A family of fasteners whose standard ties the size of the tool to the thread. */
export const toolStandards = [
  'ISO 272 hexagon',
  'older DIN hexagon',
  'small hexagon (JIS)',
  'small hexagon flange',
  'socket-head cap screw (ISO 4762)',
  'button or countersunk socket head',
  'internal serration (ISO 10664)',
  'internal serration, pan head',
  'inch hexagon (ASME B18.2.1)',
] as const;
export type ToolStandard = (typeof toolStandards)[number];

export interface ToolSize {
  readonly standard: ToolStandard;
  readonly drive: 'hex' | 'socket-head hex' | 'internal serration';
  /** "13" for 13 mm, "3/4" for an inch size, "T50" for a serration. */
  readonly size: string;
  readonly sizeUnit: 'mm' | 'in' | null;
  /** Whether the value was seen in a reprint of the standard, or only remembered. */
  readonly provenance: 'second-hand' | 'memory';
}

const columns: readonly (readonly [ToolStandard, ToolSize['drive']])[] = [
  ['ISO 272 hexagon', 'hex'],
  ['older DIN hexagon', 'hex'],
  ['small hexagon (JIS)', 'hex'],
  ['small hexagon flange', 'hex'],
  ['socket-head cap screw (ISO 4762)', 'socket-head hex'],
  ['button or countersunk socket head', 'socket-head hex'],
  ['internal serration (ISO 10664)', 'internal serration'],
  ['internal serration, pan head', 'internal serration'],
];

/**
 * Sizes in mm and serration numbers by metric thread diameter, in the order of `columns`. Second-hand: ISO 272, JIS B 1189 and small-hexagon tables,
 * ISO 4762, ISO 10664, reprints. The small hexagon for M16 is memory.
 */
const metricRows: Readonly<Record<number, readonly (string | null)[]>> = {
  3: ['5.5', '5.5', null, null, '2.5', '2', 'T10', null],
  4: ['7', '7', null, null, '3', '2.5', 'T20', null],
  5: ['8', '8', null, '7', '4', '3', 'T25', null],
  6: ['10', '10', '10', '8', '5', '4', 'T30', null],
  8: ['13', '13', '12', '10', '6', '5', 'T45', 'T40'],
  10: ['16', '17', '14', '13', '8', '6', 'T50', null],
  12: ['18', '19', '17', '15', '10', '8', 'T55', null],
  14: ['21', '22', '19', '18', '12', null, 'T60', null],
  16: ['24', '24', '22', '21', '14', '10', 'T70', null],
  20: ['30', '30', null, null, '17', '12', 'T90', null],
  24: ['36', '36', null, null, '19', '14', null, null],
};

/** Across flats in inches by nominal thread size in inches (ASME B18.2.1, second-hand). */
const inchRows: readonly (readonly [thread: number, size: string])[] = [
  [1 / 4, '7/16'],
  [5 / 16, '1/2'],
  [3 / 8, '9/16'],
  [7 / 16, '5/8'],
  [1 / 2, '3/4'],
  [9 / 16, '13/16'],
  [5 / 8, '15/16'],
  [3 / 4, '1-1/8'],
];

/** The sizes that the standards give for a thread, whatever its pitch. Empty when none of them lists the diameter. */
export function toolSizes(thread: Thread): readonly ToolSize[] {
  if (thread.system === 'inch') {
    const row = inchRows.find(([nominal]) => Math.abs(nominal * 25.4 - thread.diameter) < 1e-6);
    return row ? [{ standard: 'inch hexagon (ASME B18.2.1)', drive: 'hex', size: row[1], sizeUnit: 'in', provenance: 'second-hand' }] : [];
  }
  const row = metricRows[thread.diameter] ?? [];
  return columns.flatMap(([standard, drive], column) => {
    const size = row[column] ?? null;
    if (size === null) return [];
    const remembered = standard === 'small hexagon (JIS)' && thread.diameter === 16;
    return [
      {
        standard,
        drive,
        size,
        sizeUnit: drive === 'internal serration' ? null : ('mm' as const),
        provenance: remembered ? 'memory' : 'second-hand',
      },
    ];
  });
}

/** Which threads a size goes with: "M8 (older DIN hexagon)" and so on for a 13 mm socket. */
export function threadsForTool(
  drive: FastenerDrive,
  size: string,
  sizeUnit: 'mm' | 'in' | null,
): readonly { readonly diameter: string; readonly standard: ToolStandard }[] {
  const metric = Object.entries(metricRows).flatMap(([diameter, row]) =>
    columns.flatMap(([standard, columnDrive], column) => {
      const found = row[column] ?? null;
      const unit = columnDrive === 'internal serration' ? null : 'mm';
      return found !== null && isSame(columnDrive, found, unit, drive, size, sizeUnit) ? [{ diameter: `M${diameter}`, standard }] : [];
    }),
  );
  const inches = inchRows.flatMap(([thread, found]) =>
    isSame('hex', found, 'in', drive, size, sizeUnit)
      ? [{ diameter: `${asFraction(thread)} in`, standard: 'inch hexagon (ASME B18.2.1)' as const }]
      : [],
  );
  return [...metric, ...inches];
}

/**
 * Which standards give a thread that size. `known` is false where no table lists the thread for that kind of drive:
 * then nothing can be said for or against the size.
 */
export function socketFits(
  thread: Thread,
  drive: FastenerDrive,
  size: string,
  sizeUnit: 'mm' | 'in' | null,
): { readonly known: boolean; readonly standards: readonly ToolStandard[]; readonly expected: readonly ToolSize[] } {
  const expected = toolSizes(thread).filter((tool) => tool.drive === outlineOf(drive));
  const standards = expected
    .filter((tool) => isSame(tool.drive, tool.size, tool.sizeUnit, drive, size, sizeUnit))
    .map(({ standard }) => standard);
  return { known: expected.length > 0, standards, expected };
}

/** A bihex socket turns a hexagon of the same size. */
function outlineOf(drive: FastenerDrive): FastenerDrive {
  return drive === 'bihex' ? 'hex' : drive;
}

function isSame(
  drive: FastenerDrive,
  size: string,
  unit: 'mm' | 'in' | null,
  otherDrive: FastenerDrive,
  otherSize: string,
  otherUnit: 'mm' | 'in' | null,
): boolean {
  if (drive !== outlineOf(otherDrive)) return false;
  if (drive === 'internal serration') return size.toUpperCase() === otherSize.trim().toUpperCase();
  const [one, other] = [sizeInMillimetres(size, unit), sizeInMillimetres(otherSize, otherUnit)];
  return one !== null && other !== null && Math.abs(one - other) < 0.005;
}

/** Across flats in mm, or null when the size is not a length. A bare fraction is in inches, a bare number in mm. */
export function sizeInMillimetres(size: string, sizeUnit: 'mm' | 'in' | null): number | null {
  const number = parseNumber(size.trim().replace(/ ?(?:mm|in(?:ch)?|")$/iu, ''));
  if (!number.ok) return null;
  const unit = sizeUnit ?? (size.includes('/') ? 'in' : 'mm');
  return unit === 'in' ? number.value * 25.4 : number.value;
}

/**
 * Whether another tool turns the fastener as well: a bihex socket for a hexagon, or one of the other system that is
 * larger by at most 0.15 mm across flats, such as 3/4 inch for 19 mm (common practice). Never a smaller one, and never a hexagon for a bihex head.
 */
export function servesInstead(
  wanted: { readonly kind: FastenerDrive; readonly size: string; readonly sizeUnit: 'mm' | 'in' | null },
  offered: { readonly kind: FastenerDrive; readonly size: string; readonly sizeUnit: 'mm' | 'in' | null },
): boolean {
  if (wanted.kind !== offered.kind && !(wanted.kind === 'hex' && offered.kind === 'bihex')) return false;
  if (wanted.kind === 'internal serration') return wanted.size.toUpperCase() === offered.size.toUpperCase();
  const [needed, given] = [sizeInMillimetres(wanted.size, wanted.sizeUnit), sizeInMillimetres(offered.size, offered.sizeUnit)];
  if (needed === null || given === null) return wanted.size === offered.size;
  return given - needed > -0.005 && given - needed <= 0.15;
}

function asFraction(inches: number): string {
  const sixteenths = Math.round(inches * 16);
  const divisor = [8, 4, 2].find((candidate) => sixteenths % candidate === 0) ?? 1;
  return `${sixteenths / divisor}/${16 / divisor}`;
}

export const squareDrives = ['1/4', '3/8', '1/2', '3/4', '1'] as const;
export type SquareDrive = (typeof squareDrives)[number];
export type SquareLimits = Readonly<Record<SquareDrive, NewtonMetres | null>>;

/** What a square drive of ordinary tools bears, in N·m: memory, so the crib may say otherwise, and it is never spoken as fact. Null where nobody remembers one. */
export const rememberedSquareLimits: SquareLimits = {
  '1/4': 30 as NewtonMetres,
  '3/8': 135 as NewtonMetres,
  '1/2': 340 as NewtonMetres,
  '3/4': 1000 as NewtonMetres,
  '1': null,
};

/** Whether the square drive bears the torque; null where no limit is known for it. */
export function squareBears(square: SquareDrive, torque: Torque, limits: SquareLimits = rememberedSquareLimits): boolean | null {
  const limit = limits[square];
  return limit === null ? null : toNewtonMetres(torque) <= limit;
}

/** "1/2", '1/2"', "1/2 in", "12.5 mm" and so on, as one of the square drives; null for anything else. */
export function parseSquareDrive(text: string): SquareDrive | null {
  const plain = text.trim().toLowerCase();
  const metric: Readonly<Record<string, SquareDrive>> = { '6.3 mm': '1/4', '10 mm': '3/8', '12.5 mm': '1/2', '20 mm': '3/4', '25 mm': '1' };
  const bare = plain.replace(/ ?(?:"|in(?:ch(?:es)?)?)$/u, '');
  return squareDrives.find((square) => square === bare) ?? metric[plain.replace(/(?<=\d)mm$/u, ' mm')] ?? null;
}
