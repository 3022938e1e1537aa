import type { Millimetres, SquareMillimetres } from './quantities.ts';
import { parseNumber, tidy } from './numbers.ts';
import { read, unread } from './reading.ts';
import type { Reading } from './reading.ts';

/** A 60° fastening thread: ISO metric (ISO 68-1) or unified inch (ASME B1.1). */
export interface Thread {
  /** As it is usually written: "M10x1.25", "3/4-16 UNF". */
  readonly designation: string;
  readonly system: 'metric' | 'inch';
  readonly diameter: Millimetres;
  readonly pitch: Millimetres;
  readonly coarse: boolean;
}

const inch = 25.4;

/** ISO 261 coarse pitches in mm, by nominal diameter; memory beyond M3 to M24, which the stress areas of ISO 898-1 confirm. */
const coarsePitches: readonly (readonly [diameter: number, pitch: number])[] = [
  [1.6, 0.35],
  [2, 0.4],
  [2.5, 0.45],
  [3, 0.5],
  [3.5, 0.6],
  [4, 0.7],
  [5, 0.8],
  [6, 1],
  [7, 1],
  [8, 1.25],
  [10, 1.5],
  [12, 1.75],
  [14, 2],
  [16, 2],
  [18, 2.5],
  [20, 2.5],
  [22, 2.5],
  [24, 3],
  [27, 3],
  [30, 3.5],
  [33, 3.5],
  [36, 4],
  [39, 4],
];

/** Threads to the inch, coarse (UNC) and fine (UNF), by nominal size; memory of ASME B1.1. Number sizes are 0.060 + 0.013 n inch. */
const unifiedThreads: readonly (readonly [size: string, coarse: number, fine: number])[] = [
  ['#4', 40, 48],
  ['#5', 40, 44],
  ['#6', 32, 40],
  ['#8', 32, 36],
  ['#10', 24, 32],
  ['#12', 24, 28],
  ['1/4', 20, 28],
  ['5/16', 18, 24],
  ['3/8', 16, 24],
  ['7/16', 14, 20],
  ['1/2', 13, 20],
  ['9/16', 12, 18],
  ['5/8', 11, 18],
  ['3/4', 10, 16],
  ['7/8', 9, 14],
  ['1', 8, 12],
];

export type ThreadCode = 'unknown-thread' | 'no-coarse-pitch' | 'unlikely-pitch';

/**
 * Reads a thread as written on drawings and boxes: "M10", "M10x1.25", "M 10 × 1,25", "M10x1.25-6g", "3/4-16 UNF", "3/4 UNF", "1/4-20", "#10-32".
 * A metric size alone means its coarse pitch.
 */
export function parseThread(text: string): Reading<Thread, ThreadCode> {
  const plain = text.length > 40 ? '' : text.trim().replaceAll(/\s+/gu, ' ');
  const metric = /^M ?(\d+(?:[.,]\d+)?)(?: ?[x×*-] ?(\d+(?:[.,]\d+)?))?(?: ?- ?\d[A-Za-z]\w*)?$/iu.exec(plain);
  if (metric) return metricThread(text, metric[1] ?? '', metric[2] ?? null);
  const unified =
    /^(?:(?:#|no\.? ?)(\d+)|(\d+\/\d+|1))(?:"| ?in(?:ch)?)?(?: ?[-x×] ?(\d+))?(?: ?(UNC|UNF|UNEF|UN|UNS))?(?: ?- ?\d[AB])?$/iu.exec(plain);
  if (unified && (unified[3] || unified[4])) {
    const size = unified[1] ? `#${unified[1]}` : (unified[2] ?? '');
    return unifiedThread(text, size, unified[3] ? Number(unified[3]) : null, unified[4]?.toUpperCase() ?? null);
  }
  return unread('unknown-thread', text, 'a thread such as M10, M10x1.25 or 3/4-16 UNF');
}

function metricThread(text: string, diameterText: string, pitchText: string | null): Reading<Thread, ThreadCode> {
  const diameter = Number(diameterText.replace(',', '.'));
  const coarsePitch = coarsePitches.find(([nominal]) => nominal === diameter)?.[1] ?? null;
  if (pitchText === null && coarsePitch === null) return unread('no-coarse-pitch', text, 'a pitch after the diameter, such as M15x1.5');
  const pitch = pitchText === null ? (coarsePitch ?? 0) : Number(pitchText.replace(',', '.'));
  // The steepest coarse thread, M1.6, has a pitch of 0.22 d; the finest in use are near 0.03 d.
  if (!(pitch > diameter * 0.02 && pitch <= diameter * 0.25)) {
    return unread(
      'unlikely-pitch',
      text,
      coarsePitch === null ? 'a pitch under a quarter of the diameter' : `a pitch of ${coarsePitch} mm or finer`,
    );
  }
  return read({
    designation: `M${diameter}x${pitch}`,
    system: 'metric',
    diameter: diameter as Millimetres,
    pitch: pitch as Millimetres,
    coarse: pitch === coarsePitch,
  });
}

function unifiedThread(text: string, size: string, threads: number | null, series: string | null): Reading<Thread, ThreadCode> {
  const row = unifiedThreads.find(([nominal]) => nominal === size);
  const perInch = threads ?? (series === 'UNC' ? row?.[1] : series === 'UNF' ? row?.[2] : undefined);
  const diameter = inchDiameter(size);
  if (perInch === undefined || diameter === null)
    return unread('unknown-thread', text, 'a size with its threads to the inch, such as 3/4-16 UNF');
  if (!(inch / perInch <= diameter * 0.3 && perInch <= 80))
    return unread('unlikely-pitch', text, `${row?.[1] ?? 'more'} threads to the inch or finer`);
  const standard = row?.[1] === perInch ? ' UNC' : row?.[2] === perInch ? ' UNF' : ' UN';
  return read({
    designation: `${size}-${perInch}${standard}`,
    system: 'inch',
    diameter: tidy(diameter) as Millimetres,
    pitch: (inch / perInch) as Millimetres,
    coarse: row?.[1] === perInch,
  });
}

function inchDiameter(size: string): number | null {
  if (size.startsWith('#')) return (0.06 + 0.013 * Number(size.slice(1))) * inch;
  const value = parseNumber(size);
  return value.ok ? value.value * inch : null;
}

/** d2 = d − 0.649519 P, in mm (ISO 724; the same profile in ASME B1.1). */
export function pitchDiameter({ diameter, pitch }: Thread): Millimetres {
  return (diameter - 0.649519 * pitch) as Millimetres;
}

/** d1 = d − 1.082532 P, in mm (ISO 724): the basic minor diameter. */
export function minorDiameter({ diameter, pitch }: Thread): Millimetres {
  return (diameter - 1.082532 * pitch) as Millimetres;
}

/** The root of the screw in mm: d3 = d − 1.226869 P (ISO 898-1); for unified threads d − 1.299038 P (ASME B1.1). */
export function rootDiameter({ system, diameter, pitch }: Thread): Millimetres {
  return (diameter - (system === 'metric' ? 1.226869 : 1.299038) * pitch) as Millimetres;
}

/** d0 = (d2 + d3)/2 in mm, for unified threads d − 0.9743 P (ASME B1.1): the diameter of the stress area. */
export function stressDiameter(thread: Thread): Millimetres {
  if (thread.system === 'inch') return (thread.diameter - 0.9743 * thread.pitch) as Millimetres;
  return ((pitchDiameter(thread) + rootDiameter(thread)) / 2) as Millimetres;
}

/** As = π/4·d0², in mm² (ISO 898-1). */
export function stressArea(thread: Thread): SquareMillimetres {
  return ((Math.PI / 4) * stressDiameter(thread) ** 2) as SquareMillimetres;
}

/** The coarse metric threads from M1.6 to M39, in order of size. */
export const coarseMetricThreads: readonly Thread[] = coarsePitches.flatMap(([diameter]) => {
  const thread = parseThread(`M${diameter}`);
  return thread.ok ? [thread.value] : [];
});
