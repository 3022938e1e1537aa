import { logChoose } from '../statistics/distributions.ts';
import type { RankComparison, Shift } from '../statistics/rank-sum.ts';
import { compareByRanks, shiftBetween } from '../statistics/rank-sum.ts';
import { medianOf } from '../statistics/quantiles.ts';
import type { PersonMeasures } from './people.ts';

/** Two groups by one figure a person, since runs of one person are not independent of each other. */
export interface GroupComparison {
  readonly first: GroupSide;
  readonly second: GroupSide;
  readonly ranks: RankComparison;
  /** How much longer the first group takes, as a ratio (1.2 is a fifth longer), with where it may lie; null with too few people to say. */
  readonly ratio: { readonly ratio: number; readonly low: number; readonly high: number } | null;
}

export interface GroupSide {
  readonly group: string | null;
  readonly median: number;
  readonly people: readonly { readonly called: string; readonly pace: number; readonly runs: number }[];
}

/** Every two groups that have somebody with a signed run, the slower one first. */
export function compareGroups(everybody: readonly PersonMeasures[]): readonly GroupComparison[] {
  const sides = new Map<string | null, { called: string; pace: number; runs: number }[]>();
  for (const { called, group, pace, signed } of everybody) {
    if (pace === null) continue;
    const side = sides.get(group) ?? [];
    sides.set(group, side);
    side.push({ called, pace, runs: signed });
  }
  const groups = [...sides].map(([group, people]): GroupSide => ({ group, people, median: medianOf(people.map(({ pace }) => pace)) }));
  groups.sort((one, other) => other.median - one.median);
  return groups.flatMap((first, index) => groups.slice(index + 1).flatMap((second) => comparison(first, second)));
}

function comparison(first: GroupSide, second: GroupSide): GroupComparison[] {
  const ones = first.people.map(({ pace }) => Math.log(pace));
  const others = second.people.map(({ pace }) => Math.log(pace));
  const ranks = compareByRanks(ones, others);
  if (ranks === null) return [];
  return [{ first, second, ranks, ratio: canBound(ones.length, others.length) ? asRatio(shiftBetween(ones, others)) : null }];
}

/** Ranks of so few people give no interval of 95 % when even the farthest outcome is no rarer than one in twenty. */
function canBound(one: number, other: number): boolean {
  return Math.exp(-logChoose(one + other, one)) * 2 <= 0.05;
}

function asRatio(shift: Shift | null): GroupComparison['ratio'] {
  return shift === null ? null : { ratio: Math.exp(shift.shift), low: Math.exp(shift.low), high: Math.exp(shift.high) };
}
