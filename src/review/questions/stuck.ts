import { findingsAmong } from '../statistics/false-discovery.ts';
import { medianPolish } from '../statistics/median-polish.ts';
import { medianOf } from '../statistics/quantiles.ts';
import { ranksAmong } from '../statistics/rank-sum.ts';
import type { Asking, StepName } from './asking.ts';
import { eachRun, isDone, stepName } from './asking.ts';

/** Of each person, only so many of their latest runs of a procedure: what they were like at first is not what they are like now. */
export const latestRuns = 5;
const fewestRuns = 3;
/** A step has to take a person this much longer than their own pace and the step's own length would have it. */
const notably = 1.4;
/** And this many seconds: a few seconds more are nothing to trouble anybody with. */
const notableSeconds = 20;

/** People against steps for one procedure: where somebody is slow beyond their own pace and the step's. */
export interface HeatMap {
  readonly procedure: string;
  readonly steps: readonly StepName[];
  readonly people: readonly {
    readonly person: number;
    readonly called: string;
    /** Against everybody, 1 being the middle. */ readonly pace: number;
  }[];
  readonly cells: readonly HeatCell[];
}

export interface HeatCell {
  readonly person: number;
  readonly step: number;
  readonly runs: number;
  /** Median seconds of their latest runs. */
  readonly median: number;
  /** Against what this person's pace and this step's length lead one to expect: 1 is as expected. */
  readonly ratio: number;
  readonly expected: number;
  readonly questions: number;
}

export interface Stuck {
  readonly person: number;
  readonly called: string;
  readonly name: StepName;
  readonly cell: HeatCell;
}

/** The heat map of one procedure. Cells with fewer than three runs are left out: one run says too little of a person. */
export function heatMap(asking: Asking, procedure: number): HeatMap {
  return heatOf(asking, procedure).map;
}

interface Heat {
  readonly map: HeatMap;
  /** For each step of the map, everybody's latest times of it. */
  readonly timesOf: ReadonlyMap<number, ReadonlyMap<number, OwnTimes>>;
}

function heatOf(asking: Asking, procedure: number): Heat {
  const { logbook } = asking;
  const latest = latestOf(asking, procedure);
  const people = [...new Set(latest.filter((person) => person >= 0))].sort((one, other) =>
    asking.nameOf(one) < asking.nameOf(other) ? -1 : 1,
  );
  const steps = logbook.procedures[procedure]?.steps ?? [];
  const columns = steps.map((step) => timesByPerson(asking, step, latest));
  const table = people.map((person) => columns.map((column) => middle(column.get(person))));
  const polished = medianPolish(table);
  const cells = people.flatMap((person, row) =>
    steps.flatMap((step, column): HeatCell[] => {
      const own = columns[column]?.get(person);
      const left = polished.left[row]?.[column];
      if (own === undefined || left === null || left === undefined) return [];
      const median = medianOf(own.times);
      return [
        {
          person,
          step,
          runs: own.times.length,
          median,
          ratio: Math.exp(left),
          expected: median / Math.exp(left),
          questions: own.questions,
        },
      ];
    }),
  );
  const seen = new Set(cells.map(({ step }) => step));
  const map = {
    procedure: logbook.procedures[procedure]?.id ?? '',
    steps: steps.filter((step) => seen.has(step)).map((step) => stepName(logbook, step)),
    people: people.map((person, row) => ({ person, called: asking.nameOf(person), pace: Math.exp(polished.rows[row] ?? 0) })),
    cells,
  };
  return { map, timesOf: new Map(steps.map((step, column) => [step, columns[column] ?? new Map<number, OwnTimes>()])) };
}

/**
 * Who is stuck where: cells of the heat map that stand out by at least two fifths and twenty seconds, and more clearly than so many comparisons
 * would throw up by chance (rank-sum of their times against everybody else's, each by their own pace;
 * false discoveries held to 5 %). Most time lost first.
 */
export function stuckPeople(asking: Asking, procedure: number): readonly Stuck[] {
  const { map, timesOf } = heatOf(asking, procedure);
  const pace = new Map(map.people.map((person) => [person.person, person.pace]));
  const candidates = map.cells.filter(({ ratio, median, expected }) => ratio >= notably && median - expected >= notableSeconds);
  const chances = new Map<HeatCell, number>();
  for (const step of new Set(candidates.map((cell) => cell.step))) {
    const times = timesOf.get(step) ?? new Map<number, OwnTimes>();
    const paced = (person: number): readonly number[] => (times.get(person)?.times ?? []).map((time) => time / (pace.get(person) ?? 1));
    const chanceOf = ranksAmong([...times.keys()].flatMap(paced));
    for (const cell of candidates) if (cell.step === step) chances.set(cell, chanceOf(paced(cell.person)));
  }
  const unremarkable = map.cells.length - candidates.length;
  const kept = findingsAmong([...candidates.map((cell) => chances.get(cell) ?? 1), ...Array.from({ length: unremarkable }, () => 1)], 0.05);
  return candidates
    .filter((_, index) => kept[index] === true)
    .map((cell) => ({ person: cell.person, called: asking.nameOf(cell.person), name: stepName(asking.logbook, cell.step), cell }))
    .sort((one, other) => other.cell.median - other.cell.expected - (one.cell.median - one.cell.expected));
}

/** For each run the person, if it is one of their latest selected ones of the procedure, and −1 otherwise. */
function latestOf({ logbook, selection }: Asking, procedure: number): Int32Array {
  const { runs } = logbook;
  const own = new Map<number, number[]>();
  eachRun({ logbook, selection }, (run) => {
    if (runs.procedure[run] !== procedure) return;
    const list = own.get(runs.person[run] ?? 0) ?? [];
    own.set(runs.person[run] ?? 0, list);
    list.push(run);
  });
  const latest = new Int32Array(runs.count).fill(-1);
  for (const [person, list] of own) {
    list.sort((one, other) => (runs.begun[other] ?? 0) - (runs.begun[one] ?? 0));
    for (const run of list.slice(0, latestRuns)) latest[run] = person;
  }
  return latest;
}

interface OwnTimes {
  readonly times: number[];
  questions: number;
}

function timesByPerson({ logbook }: Asking, step: number, latest: Int32Array): ReadonlyMap<number, OwnTimes> {
  const { cells, byStep } = logbook;
  const byPerson = new Map<number, OwnTimes>();
  for (let place = byStep.starts[step] ?? 0; place < (byStep.starts[step + 1] ?? 0); place++) {
    const cell = byStep.order[place] ?? 0;
    if (!isDone(logbook, cell) || (cells.active[cell] ?? 0) === 0) continue;
    const person = latest[cells.run[cell] ?? 0] ?? -1;
    if (person < 0) continue;
    const own = byPerson.get(person) ?? { times: [], questions: 0 };
    byPerson.set(person, own);
    own.times.push((cells.active[cell] ?? 0) / 1000);
    own.questions += (cells.questions[cell] ?? 0) + (cells.repeats[cell] ?? 0);
  }
  return byPerson;
}

function middle(own: OwnTimes | undefined): number | null {
  return own === undefined || own.times.length < fewestRuns ? null : Math.log(medianOf(own.times));
}
