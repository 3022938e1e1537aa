import { logChoose, normalAbove } from './distributions.ts';
import type { Interval } from './line-fit.ts';
import { quantileOfSorted } from './quantiles.ts';

/** Two independent groups compared by ranks (Wilcoxon 1945, Mann and Whitney 1947). */
export interface RankComparison {
  readonly first: number;
  readonly second: number;
  /** Pairs in which the first group's value is the larger; a tie counts one half. */
  readonly u: number;
  /** The same for the second group; the two add up to all pairs. */
  readonly uOther: number;
  /** Chance of a difference at least this large either way, were the groups alike. */
  readonly twoSided: number;
  /** Chance that the first group comes out this much larger or more, were the groups alike. */
  readonly oneSided: number;
  /** `exact`: over all ways to deal the values out, ties included. `normal`: too many for that; with correction for ties and continuity. */
  readonly method: 'exact' | 'normal';
  /** The effect: how often a value of the first group is larger than one of the second (0.5 is no difference). */
  readonly superiority: number;
}

/** Additions that the exact count may take unless told otherwise; beyond it the normal approximation is as good. */
const exactEffort = 40_000_000;

/** Null when a group is empty. `effort` bounds the additions of the exact count. */
export function compareByRanks(first: readonly number[], second: readonly number[], effort = exactEffort): RankComparison | null {
  const m = first.length;
  const n = second.length;
  if (m === 0 || n === 0) return null;
  const { doubled, ties } = doubledRanks([...first, ...second]);
  const sum = doubled.slice(0, m).reduce((running, rank) => running + rank, 0);
  const u = (sum - m * (m + 1)) / 2;
  const size = m + n;
  const isExact = (m * size ** 3) / 2 <= effort;
  const { twoSided, oneSided } = isExact ? exactTails(doubled, m, sum) : normalTails(m, n, u, ties);
  return {
    first: m,
    second: n,
    u,
    uOther: m * n - u,
    twoSided,
    oneSided,
    method: isExact ? 'exact' : 'normal',
    superiority: u / (m * n),
  };
}

interface Ranks {
  /** Ranks with ties shared, doubled so that halves stay whole numbers. */
  readonly doubled: Float64Array;
  /** The sum of t³ − t over ties of t. */
  readonly ties: number;
}

function doubledRanks(values: ArrayLike<number>): Ranks {
  const order = Array.from(values, (_, index) => index).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  const { doubled: inOrder, ties } = ranksInOrder(Float64Array.from(order, (index) => values[index] ?? 0));
  const doubled = new Float64Array(values.length);
  for (const [place, index] of order.entries()) doubled[index] = inOrder[place] ?? 0;
  return { doubled, ties };
}

function ranksInOrder(sorted: Float64Array): Ranks {
  const doubled = new Float64Array(sorted.length);
  let ties = 0;
  for (let start = 0; start < sorted.length;) {
    let end = start;
    while (end + 1 < sorted.length && sorted[end + 1] === sorted[start]) end++;
    doubled.fill(start + end + 2, start, end + 1);
    const tied = end - start + 1;
    ties += tied ** 3 - tied;
    start = end + 1;
  }
  return { doubled, ties };
}

/** Counts, for every rank sum, the ways to choose the first group: the permutation distribution itself. */
function exactTails(doubled: Float64Array, m: number, sum: number): { twoSided: number; oneSided: number } {
  const all = doubled.reduce((running, rank) => running + rank, 0);
  const width = all + 1;
  const ways = new Float64Array((m + 1) * width);
  ways[0] = 1;
  let reach = 0;
  for (const [taken, rank] of doubled.entries()) {
    reach += rank;
    for (let size = Math.min(m, taken + 1); size >= 1; size--) {
      const row = size * width;
      const below = row - width;
      for (let total = reach; total >= rank; total--) ways[row + total] = (ways[row + total] ?? 0) + (ways[below + total - rank] ?? 0);
    }
  }
  const expected = (m * all) / doubled.length;
  const distance = Math.abs(sum - expected) - 1e-9;
  let every = 0;
  let far = 0;
  let above = 0;
  for (let total = 0; total < width; total++) {
    const count = ways[m * width + total] ?? 0;
    every += count;
    if (Math.abs(total - expected) >= distance) far += count;
    if (total >= sum) above += count;
  }
  return { twoSided: far / every, oneSided: above / every };
}

/** Additions that the exact counts of `chancesAmong` may take for each group; where it is more, the chance is not small. */
const effortEach = 2_000_000;

/**
 * For each of many small groups among the values: the chance that so few of the values come out this much larger than all the others or more,
 * were they alike. Exact also where the others are too many for `compareByRanks`: only the rank sums beyond the observed one are counted, and of
 * a small group that stands out there are few; all groups share one count. The normal approximation where even they are too many, which
 * happens only where the chance is not small.
 */
export function chancesAmong(values: ArrayLike<number>, groups: readonly (readonly number[])[], effort = effortEach): readonly number[] {
  const ordered = Float64Array.from(values).sort();
  const { doubled, ties } = ranksInOrder(ordered);
  const size = ordered.length;
  const asked = groups.map((few) => {
    const m = few.length;
    const sum = few.reduce((running, value) => running + (doubled[placeOf(value, ordered)] ?? 0), 0);
    // Counted from the top, a sum as high as this one is a small sum.
    const limit = 2 * m * (size + 1) - sum;
    return { m, sum, limit, isExact: m * size * limit <= effort };
  });
  const exact = asked.filter(({ isExact }) => isExact);
  const widest = Math.max(0, ...exact.map(({ limit }) => limit));
  const ways = waysFromTheTop(doubled, Math.max(0, ...exact.map(({ m }) => m)), widest);
  return asked.map(({ m, sum, limit, isExact }) => {
    if (m === 0 || m === size) return 1;
    if (!isExact) return normalTails(m, size - m, (sum - m * (m + 1)) / 2, ties).oneSided;
    let found = 0;
    const row = m * (widest + 1);
    for (let total = 0; total <= limit; total++) found += ways[row + total] ?? 0;
    return Math.min(1, Math.exp(Math.log(found) - logChoose(size, m)));
  });
}

/** The first place of the value among those in order. */
function placeOf(value: number, ordered: Float64Array): number {
  let low = 0;
  let high = ordered.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ordered[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How many ways there are to choose m of the ranks, counted from the top, with a doubled sum of t ≤ limit: at m × (limit + 1) + t. */
function waysFromTheTop(doubled: Float64Array, most: number, limit: number): Float64Array {
  const size = doubled.length;
  const width = limit + 1;
  const ways = new Float64Array((most + 1) * width);
  ways[0] = 1;
  for (let taken = 0; taken < size; taken++) {
    // From the highest value on, so that the loop can end with the first rank that is too large.
    const rank = 2 * (size + 1) - (doubled[size - 1 - taken] ?? 0);
    if (rank > limit) break;
    for (let chosen = Math.min(most, taken + 1); chosen >= 1; chosen--) {
      const row = chosen * width;
      for (let total = limit; total >= rank; total--)
        ways[row + total] = (ways[row + total] ?? 0) + (ways[row - width + total - rank] ?? 0);
    }
  }
  return ways;
}

function normalTails(m: number, n: number, u: number, ties: number): { twoSided: number; oneSided: number } {
  const size = m + n;
  const variance = ((m * n) / 12) * (size + 1 - ties / (size * (size - 1)));
  if (variance <= 0) return { twoSided: 1, oneSided: 1 };
  const off = u - (m * n) / 2;
  const deviation = Math.sqrt(variance);
  return {
    twoSided: Math.min(1, 2 * normalAbove(Math.max(0, Math.abs(off) - 0.5) / deviation)),
    oneSided: normalAbove((off - 0.5) / deviation),
  };
}

/** By how much the first group's values exceed the second's: the median of all differences (Hodges and Lehmann 1963). */
export interface Shift extends Interval {
  readonly shift: number;
}

/** Beyond this many pairs the interval costs more than it tells. */
const mostPairs = 1_000_000;

/**
 * The shift with an interval of about 95 % from the ranks' normal approximation, which is close from about five a group;
 * the interval is as wide as all differences with fewer. Null when a group is empty or the pairs are too many.
 */
export function shiftBetween(first: readonly number[], second: readonly number[]): Shift | null {
  const pairs = first.length * second.length;
  if (pairs === 0 || pairs > mostPairs) return null;
  const differences = new Float64Array(pairs);
  for (let row = 0, place = 0; row < first.length; row++)
    for (let column = 0; column < second.length; column++) differences[place++] = (first[row] ?? NaN) - (second[column] ?? NaN);
  differences.sort();
  const spread = 1.959964 * Math.sqrt((pairs * (first.length + second.length + 1)) / 12);
  const k = Math.max(1, Math.floor(pairs / 2 - spread));
  return { shift: quantileOfSorted(differences, 0.5), low: differences[k - 1] ?? NaN, high: differences[pairs - k] ?? NaN };
}
