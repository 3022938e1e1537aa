import { balancedOrder } from './balance.ts';

/** How the fasteners of one group are taken in turn. */
export type SequencePattern = 'cross' | 'circular' | 'spiral' | 'draw-up' | 'listed';

/** A place in the picture: x and y from 0 to 1, y downward, seen by the person who tightens. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/**
 * Star order for fasteners evenly spaced on a circle, as zero-based indexes clockwise: each next one lies as far as can be from the load
 * that is already there. An even count goes by diametrically opposite pairs, and the pairs themselves in star order of half the count;
 * this yields the legacy orders of ASME PCC-1 (checked for 4, 8, 12, 16, 20, 24) and the five-stud wheel's 1, 3, 5, 2, 4.
 */
export function starOrder(count: number): readonly number[] {
  const known = starOrders.get(count);
  if (known) return known;
  const order = count < 1 ? [] : count % 2 === 1 ? balancedOrder(evenAngles(count)) : byOppositePairs(count / 2);
  if (count <= mostRemembered) starOrders.set(count, order);
  return order;
}

function byOppositePairs(half: number): readonly number[] {
  return starOrder(half).flatMap((index) => [index, index + half]);
}

/** Orders once worked out; a long procedure asks for the same few thousands of times. */
const starOrders = new Map<number, readonly number[]>();
const mostRemembered = 200;

/** Round the circle from the first: for the last check, when every one has its torque already. */
export function circularOrder(count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => index);
}

/**
 * One round of drawing a part on evenly: opposite pairs, each turned a little. The next round starts one pair further on,
 * so that no fastener always leads. Common practice; no published rule was found.
 */
export function drawUpOrder(count: number, round = 0): readonly number[] {
  const star = starOrder(count);
  const start = (round * (count % 2 === 0 ? 2 : 1)) % count;
  return [...star.slice(start), ...star.slice(0, start)];
}

/**
 * From the middle outward for a grid numbered row by row: ring after ring, clockwise, each ring beginning beside the end of the last.
 * Common practice for covers, heads and plates, so that what is trapped in the middle can move out.
 */
export function spiralOrder(rows: number, columns: number): readonly number[] {
  const middle = { x: (columns - 1) / 2, y: (rows - 1) / 2 };
  const cells = Array.from({ length: rows * columns }, (_, index) => {
    const x = (index % columns) - middle.x;
    const y = Math.floor(index / columns) - middle.y;
    return { index, ring: Math.max(Math.abs(x), Math.abs(y)), angle: clockwiseAngle(x, y) };
  });
  return windOutward(cells);
}

/**
 * The order for fasteners at any places. A ring whose fasteners face each other gets the star order; any other the order that keeps the load
 * most nearly balanced about the middle at every moment. Places go by their own numbering in 'listed'.
 */
export function orderPlaces(pattern: SequencePattern, places: readonly Place[]): readonly number[] {
  switch (pattern) {
    case 'listed':
      return circularOrder(places.length);
    case 'circular':
      return clockwiseFromFirst(polar(places)).map(({ index }) => index);
    case 'spiral':
      return spiralPlaces(places);
    case 'cross':
    case 'draw-up':
      return crossPlaces(places);
  }
}

/** Places for fasteners evenly spaced on a circle, the first at the top, then clockwise. */
export function circlePlaces(count: number): readonly Place[] {
  if (count === 1) return [{ x: 0.5, y: 0.5 }];
  return evenAngles(count).map((angle) => ({ x: rounded(0.5 + 0.45 * Math.sin(angle)), y: rounded(0.5 - 0.45 * Math.cos(angle)) }));
}

/** Places for fasteners in rows and columns, numbered row by row from the top left. */
export function gridPlaces(rows: number, columns: number): readonly Place[] {
  const along = (index: number, count: number) => (count === 1 ? 0.5 : rounded(0.05 + (0.9 * index) / (count - 1)));
  return Array.from({ length: rows * columns }, (_, index) => ({
    x: along(index % columns, columns),
    y: along(Math.floor(index / columns), rows),
  }));
}

/** The hour on the clock face for the one at that index of so many evenly spaced on a circle: 0.5 to 12 in half hours. */
export function clockOnCircle(index: number, count: number): number {
  return clockOfAngle((2 * Math.PI * index) / count);
}

/** The hour on the clock face for each place, seen from the middle of them all; null for one that is in the middle. */
export function clockOfPlaces(places: readonly Place[]): readonly (number | null)[] {
  return polar(places).map(({ angle, distance }) => (distance < centreShare ? null : clockOfAngle(angle)));
}

/**
 * A name for each place that can be said and told apart: "top left", "middle right", or, where such names would not do,
 * "number 1", "number 2" … by the list.
 */
export function placeNames(places: readonly Place[]): readonly string[] {
  const columns = bands(
    places.map(({ x }) => x),
    ['left', 'middle', 'right'],
  );
  const rows = bands(
    places.map(({ y }) => y),
    ['top', 'middle', 'bottom'],
  );
  const numbered = places.map((_, index) => `number ${index + 1}`);
  if (!columns || !rows) return numbered;
  const names = places.map((_, index) => {
    const [row, column] = [rows[index] ?? '', columns[index] ?? ''];
    if (row === '' || column === '' || row === column) return row || column;
    if (column === 'middle' && isOnly(rows, row)) return row;
    if (row === 'middle' && isOnly(columns, column)) return column;
    return `${row} ${column}`;
  });
  return places.length > 1 && new Set(names).size === places.length ? names : numbered;
}

function isOnly(names: readonly string[], name: string): boolean {
  return names.filter((other) => other === name).length === 1;
}

/** The places of a numbered circle or grid are seldom exact; a middle one may be this far off, as a share of the largest distance. */
const centreShare = 0.1;

function evenAngles(count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => (2 * Math.PI * index) / count);
}

/** Clockwise from twelve o'clock, 0 to 2π, with y downward. */
function clockwiseAngle(x: number, y: number): number {
  const angle = Math.atan2(x, -y);
  return angle < 0 ? angle + 2 * Math.PI : angle;
}

function clockOfAngle(angle: number): number {
  const halfHours = Math.round((angle * 12) / Math.PI) % 24;
  return halfHours === 0 ? 12 : halfHours / 2;
}

function rounded(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

/** A place seen from the middle of them all. */
interface Arm {
  readonly index: number;
  readonly angle: number;
  /** As a share of the largest. */
  readonly distance: number;
}

function polar(places: readonly Place[]): readonly Arm[] {
  const middle = { x: middleOf(places.map(({ x }) => x)), y: middleOf(places.map(({ y }) => y)) };
  const arms = places.map(({ x, y }, index) => ({
    index,
    angle: clockwiseAngle(x - middle.x, y - middle.y),
    distance: Math.hypot(x - middle.x, y - middle.y),
  }));
  const longest = Math.max(0, ...arms.map(({ distance }) => distance));
  return arms.map((arm) => ({ ...arm, distance: longest === 0 ? 0 : arm.distance / longest }));
}

/** Midway between the outermost, so that a crowd on one side does not shift the middle of the joint. */
function middleOf(values: readonly number[]): number {
  return (Math.min(...values) + Math.max(...values)) / 2;
}

/** Round the clock from the one listed first; of those at one angle the innermost first. */
function clockwiseFromFirst(arms: readonly Arm[]): readonly Arm[] {
  const round = [...arms].sort((a, b) => a.angle - b.angle || a.distance - b.distance);
  const start = round.findIndex((arm) => arm === arms[0]);
  return [...round.slice(start), ...round.slice(0, start)];
}

function crossPlaces(places: readonly Place[]): readonly number[] {
  const arms = polar(places);
  const inner = arms.filter(({ distance }) => distance < centreShare);
  const outer = clockwiseFromFirst(arms.filter((arm) => !inner.includes(arm)));
  const angles = outer.map(({ angle }) => angle);
  const order = isStarRing(angles) ? starOrder(outer.length) : balancedOrder(angles);
  return [...inner, ...order.flatMap((position) => outer[position] ?? [])].map(({ index }) => index);
}

/**
 * Whether the star order by number holds for these angles (ascending from any start): for an even count when each has its
 * opposite within 30° of straight across, as on a circle, a rectangle or an oval; for an odd one when they are spaced evenly to within a quarter.
 */
function isStarRing(angles: readonly number[]): boolean {
  const even = angles.length % 2 === 0;
  const ahead = even ? angles.length / 2 : 1;
  const [wanted, slack] = even ? [Math.PI, Math.PI / 6] : [(2 * Math.PI) / angles.length, Math.PI / (2 * angles.length)];
  return angles.every((angle, index) => {
    const other = angles[(index + ahead) % angles.length] ?? 0;
    return Math.abs(positiveAngle(other - angle) - wanted) <= slack;
  });
}

function positiveAngle(angle: number): number {
  return ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
}

function spiralPlaces(places: readonly Place[]): readonly number[] {
  const step = gridStep(places);
  const middle = { x: middleOf(places.map(({ x }) => x)), y: middleOf(places.map(({ y }) => y)) };
  return windOutward(
    places.map(({ x, y }, index) => {
      const across = (x - middle.x) / step.x;
      const down = (y - middle.y) / step.y;
      return { index, ring: Math.round(Math.max(Math.abs(across), Math.abs(down)) * 2) / 2, angle: clockwiseAngle(across, down) };
    }),
  );
}

/** The usual distance between neighbouring columns and rows, so that rings are counted in fasteners and not in picture units. */
function gridStep(places: readonly Place[]): { readonly x: number; readonly y: number } {
  const typical = (values: readonly number[]) => {
    const levels = distinctLevels(values);
    const span = (levels.at(-1) ?? 0) - (levels[0] ?? 0);
    return levels.length < 2 ? 1 : span / (levels.length - 1);
  };
  return { x: typical(places.map(({ x }) => x)), y: typical(places.map(({ y }) => y)) };
}

/** The rows (or columns) that the values lie on: values within a tenth of the whole extent count as one. */
function distinctLevels(values: readonly number[]): readonly number[] {
  const sorted = [...values].sort((a, b) => a - b);
  const extent = (sorted.at(-1) ?? 0) - (sorted[0] ?? 0);
  return sorted.filter((value, index) => index === 0 || value - (sorted[index - 1] ?? 0) > extent * 0.1);
}

interface RingCell {
  readonly index: number;
  readonly ring: number;
  readonly angle: number;
}

function windOutward(cells: readonly RingCell[]): readonly number[] {
  const rings = [...new Set(cells.map(({ ring }) => ring))].sort((a, b) => a - b);
  const order: number[] = [];
  let end = 0;
  for (const ring of rings) {
    const inRing = cells.filter((cell) => cell.ring === ring);
    const turned = inRing.map((cell) => ({ index: cell.index, ahead: aheadOf(cell.angle, end), angle: cell.angle }));
    turned.sort((a, b) => a.ahead - b.ahead || a.index - b.index);
    order.push(...turned.map(({ index }) => index));
    end = turned.at(-1)?.angle ?? end;
  }
  return order;
}

/** How far clockwise from where the last ring ended; a hair's breadth behind counts as beside, not as once round. */
function aheadOf(angle: number, end: number): number {
  return positiveAngle(angle - end + 1e-9);
}

/** Which third each value falls in, or null when the values make more than three rows; '' when they all lie on one. */
function bands(values: readonly number[], [low, mid, high]: readonly [string, string, string]): readonly string[] | null {
  const levels = distinctLevels(values);
  if (levels.length > 3) return null;
  if (levels.length < 2) return values.map(() => '');
  const names = levels.length === 2 ? [low, high] : [low, mid, high];
  return values.map((value) => names[levels.filter((level) => value >= level).length - 1] ?? '');
}
