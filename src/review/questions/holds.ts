import { findingsAmong } from '../statistics/false-discovery.ts';
import { atLeastSoManyByChance } from '../statistics/two-by-two.ts';
import type { Asking, StepName } from './asking.ts';
import { stepName, stepsSelected } from './asking.ts';

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
export function holdsLeftOut(asking: Asking): readonly HoldLeftOut[] {
  const { logbook, selection } = asking;
  const { cells, byStep, runs } = logbook;
  const found: Omit<HoldLeftOut, 'standsOut'>[] = [];
  for (const step of stepsSelected(asking)) {
    const start = byStep.starts[step] ?? 0;
    const end = byStep.starts[step + 1] ?? 0;
    const byPerson = new Map<number, { left: number; of: number }>();
    let hasHolds = false;
    const all = { left: 0, of: 0 };
    for (let place = start; place < end; place++) {
      const cell = byStep.order[place] ?? 0;
      const run = cells.run[cell] ?? 0;
      const ended = cells.ended[cell] ?? 0;
      const passed = (cells.holdsPassed[cell] ?? 0) > 0;
      if (passed || (cells.holdsFailed[cell] ?? 0) > 0) hasHolds = true;
      if (selection.mask[run] !== 1 || (ended !== 1 && ended !== 2)) continue;
      const person = runs.person[run] ?? 0;
      const own = byPerson.get(person) ?? { left: 0, of: 0 };
      byPerson.set(person, own);
      own.of += 1;
      all.of += 1;
      if (passed) continue;
      own.left += 1;
      all.left += 1;
    }
    if (!hasHolds) continue;
    for (const [person, { left, of }] of byPerson) {
      const others = { left: all.left - left, of: all.of - of };
      const chance = atLeastSoManyByChance(left, of, others.left, others.of);
      found.push({
        person,
        called: asking.nameOf(person),
        name: stepName(logbook, step),
        left,
        of,
        othersLeft: others.left,
        othersOf: others.of,
        chance,
      });
    }
  }
  const kept = findingsAmong(
    found.map(({ chance }) => chance),
    0.05,
  );
  return found
    .map((one, index) => ({ ...one, standsOut: kept[index] === true }))
    .filter(({ left }) => left > 0)
    .sort((one, other) => Number(other.standsOut) - Number(one.standsOut) || one.chance - other.chance || other.left - one.left);
}
