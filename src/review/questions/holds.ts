import { findingsAmong } from '../statistics/false-discovery.ts';
import { atLeastSoManyByChance } from '../statistics/two-by-two.ts';
import type { Asking, StepName } from './asking.ts';
import { eachRun, stepName, stepsSelected } from './asking.ts';
import { remembered } from './remembered.ts';

/** How often somebody went by a step's hold point without a yes to it. */
export interface HoldLeftOut {
  readonly person: number;
  readonly called: string;
  readonly name: StepName;
  readonly left: number;
  readonly of: number;
  readonly othersLeft: number;
  readonly othersOf: number;
  /** Chance of so many, were they like the others (Fisher, one-sided). */
  readonly chance: number;
  /** Stands out even though so many people and steps were looked at. */
  readonly standsOut: boolean;
}

/** Everybody who left a hold point out at least once; those that stand out first. */
export const holdsLeftOut = remembered((asking: Asking): readonly HoldLeftOut[] => {
  const { logbook } = asking;
  const people = logbook.people.length;
  const steps = stepsSelected(asking).filter((step) => logbook.digest.hasHold[step] === 1);
  const { left, of } = countHolds(asking, steps);
  const found: Omit<HoldLeftOut, 'standsOut'>[] = [];
  let compared = 0;
  for (const [index, step] of steps.entries()) {
    const from = index * people;
    const allLeft = sum(left.subarray(from, from + people));
    const all = sum(of.subarray(from, from + people));
    for (let person = 0; person < people; person++) {
      const own = of[from + person] ?? 0;
      if (own === 0) continue;
      compared += 1;
      const ownLeft = left[from + person] ?? 0;
      if (ownLeft === 0) continue;
      const othersLeft = allLeft - ownLeft;
      const othersOf = all - own;
      found.push({
        person,
        called: asking.nameOf(person),
        name: stepName(logbook, step),
        left: ownLeft,
        of: own,
        othersLeft,
        othersOf,
        chance: atLeastSoManyByChance(ownLeft, own, othersLeft, othersOf),
      });
    }
  }
  const chances = found.map(({ chance }) => chance);
  const kept = findingsAmong(chances, 0.05, compared);
  return found
    .map((one, index) => ({ ...one, standsOut: kept[index] === true }))
    .sort((one, other) => Number(other.standsOut) - Number(one.standsOut) || one.chance - other.chance || other.left - one.left);
});

/** For each of the steps and each person: how often they ended it, and how often without a yes. Person p at the i-th step stands at i × people + p. */
function countHolds(asking: Asking, steps: readonly number[]): { readonly left: Uint32Array; readonly of: Uint32Array } {
  const { cells, runs, people } = asking.logbook;
  const left = new Uint32Array(steps.length * people.length);
  const of = new Uint32Array(steps.length * people.length);
  const rowOf = new Int32Array(asking.logbook.steps.length).fill(-1);
  for (const [index, step] of steps.entries()) rowOf[step] = index;
  eachRun(asking, (run) => {
    const person = runs.person[run] ?? 0;
    for (let cell = runs.firstCell[run] ?? 0; cell < (runs.firstCell[run + 1] ?? 0); cell++) {
      const row = rowOf[cells.step[cell] ?? 0] ?? -1;
      const ended = cells.ended[cell];
      if (row < 0 || (ended !== 1 && ended !== 2)) continue;
      const place = row * people.length + person;
      of[place] = (of[place] ?? 0) + 1;
      if (cells.holdsPassed[cell] === 0) left[place] = (left[place] ?? 0) + 1;
    }
  });
  return { left, of };
}

function sum(counts: Uint32Array): number {
  return counts.reduce((running, count) => running + count, 0);
}
