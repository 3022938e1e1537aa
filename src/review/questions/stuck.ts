import { findingsAmong } from '../statistics/false-discovery.ts';
import { medianPolish } from '../statistics/median-polish.ts';
import { medianInPlace } from '../statistics/quantiles.ts';
import { chancesAmong } from '../statistics/rank-sum.ts';
import type { Asking, StepName } from './asking.ts';
import { isDone, stepName } from './asking.ts';
import { remembered } from './remembered.ts';

/** Of each person, only so many of their latest runs of a procedure: what they were like at first is not what they are like now. */
export const latestRuns = 5;
const fewestRuns = 3;
/** A step has to take a person this much longer than their own pace and the step's own length would have it. */
const notably = 1.4;
/** The same as a logarithm, a little less, so that the exponential is taken only where it may matter. */
const notableLevel = Math.log(notably) - 1e-9;
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

/** The heat map of one procedure as numbers. Row by row: the cell of the i-th person at the j-th step stands at i × steps + j. */
export interface Heat {
  readonly procedure: number;
  readonly people: readonly number[];
  readonly steps: readonly number[];
  /** Logarithm of how far each cell lies from what is expected; NaN with fewer than three runs: one says too little of a person. */
  readonly left: Float64Array;
  /** Each person's logarithmic pace. */
  readonly pace: Float64Array;
  readonly times: Times;
}

/** Everybody's latest times, in seconds: those of a cell stand from cell × latestRuns. */
interface Times {
  readonly seconds: Float64Array;
  readonly counts: Uint8Array;
  readonly questions: Uint32Array;
}

const heatsOf = remembered((_: Asking) => new Map<number, Heat>());

export function heatOf(asking: Asking, procedure: number): Heat {
  const heats = heatsOf(asking);
  const heat = heats.get(procedure) ?? heatWorkedOut(asking, procedure);
  heats.set(procedure, heat);
  return heat;
}

function heatWorkedOut(asking: Asking, procedure: number): Heat {
  const { latest, people } = latestOf(asking, procedure);
  const steps = asking.logbook.procedures[procedure]?.steps ?? [];
  const times = timesOf(asking, latest, people, steps);
  const table = new Float64Array(people.length * steps.length).fill(NaN);
  for (let cell = 0; cell < table.length; cell++)
    if ((times.counts[cell] ?? 0) >= fewestRuns) table[cell] = Math.log(medianAt(times, cell));
  const { left, rows } = medianPolish(table, steps.length);
  return { procedure, people, steps, left, pace: rows, times };
}

/** With `most`, only so many people: those with the cells farthest from what is expected. */
export function heatMap(asking: Asking, heat: Heat, most = 0): HeatMap {
  const { logbook } = asking;
  const { procedure, people, steps, pace, left } = heat;
  const seen = steps.filter((_, column) => people.some((_person, row) => !Number.isNaN(left[row * steps.length + column])));
  const rows = most === 0 ? [...people.keys()] : farthestRows(heat, most);
  return {
    procedure: logbook.procedures[procedure]?.id ?? '',
    steps: seen.map((step) => stepName(logbook, step)),
    people: rows.map((row) => {
      const person = people[row] ?? 0;
      return { person, called: asking.nameOf(person), pace: Math.exp(pace[row] ?? 0) };
    }),
    cells: rows.flatMap((row) => cellsOfRow(heat, row)),
  };
}

function farthestRows({ people, steps, left }: Heat, most: number): readonly number[] {
  const farthest = people.map((_, row) =>
    left.subarray(row * steps.length, (row + 1) * steps.length).reduce((far, level) => (Math.abs(level) > far ? Math.abs(level) : far), 0),
  );
  const kept = [...people.keys()].sort((one, other) => (farthest[other] ?? 0) - (farthest[one] ?? 0)).slice(0, most);
  return kept.sort((one, other) => one - other);
}

/** The cells of one row that have enough runs. */
export function cellsOfRow(heat: Heat, row: number): readonly HeatCell[] {
  return heat.steps.flatMap((_, column) => {
    const place = row * heat.steps.length + column;
    return Number.isNaN(heat.left[place]) ? [] : [heatCell(heat, place)];
  });
}

function heatCell({ people, steps, left, times }: Heat, place: number): HeatCell {
  const median = medianAt(times, place);
  const ratio = Math.exp(left[place] ?? 0);
  return {
    person: people[Math.floor(place / steps.length)] ?? 0,
    step: steps[place % steps.length] ?? 0,
    runs: times.counts[place] ?? 0,
    median,
    ratio,
    expected: median / ratio,
    questions: times.questions[place] ?? 0,
  };
}

/**
 * Who is stuck where: cells of the heat map that stand out by at least two fifths and twenty seconds, and more clearly than so many comparisons
 * would throw up by chance (rank-sum of their times against everybody else's, each by their own pace;
 * false discoveries held to 5 %). Most time lost first.
 */
export function stuckPeople(asking: Asking, heat: Heat): readonly Stuck[] {
  const { left, people, steps } = heat;
  const width = steps.length;
  const candidates: HeatCell[] = [];
  const chances: number[] = [];
  let compared = 0;
  const paces = heat.pace.map(Math.exp);
  for (let column = 0; column < width; column++) {
    const times: (readonly number[])[] = [];
    for (let row = 0; row < people.length; row++) {
      const level = left[row * width + column] ?? NaN;
      if (Number.isNaN(level)) continue;
      compared += 1;
      if (level < notableLevel) continue;
      const cell = heatCell(heat, row * width + column);
      if (cell.ratio < notably || cell.median - cell.expected < notableSeconds) continue;
      candidates.push(cell);
      times.push([...timesAt(heat.times, row * width + column)].map((time) => time / (paces[row] ?? 1)));
    }
    if (times.length > 0) chances.push(...chancesAmong(pacedTimes(heat, column, paces), times));
  }
  const kept = findingsAmong(chances, 0.05, compared);
  return candidates
    .filter((_, index) => kept[index] === true)
    .map((cell) => ({ person: cell.person, called: asking.nameOf(cell.person), name: stepName(asking.logbook, cell.step), cell }))
    .sort((one, other) => other.cell.median - other.cell.expected - (one.cell.median - one.cell.expected));
}

/** Everybody's times of one step, each by their own pace. */
function pacedTimes({ people, steps, times }: Heat, column: number, paces: Float64Array): Float64Array {
  const paced = new Float64Array(people.length * latestRuns);
  let count = 0;
  for (let row = 0; row < people.length; row++) {
    const place = row * steps.length + column;
    const first = place * latestRuns;
    for (let at = first; at < first + (times.counts[place] ?? 0); at++) paced[count++] = (times.seconds[at] ?? NaN) / (paces[row] ?? 1);
  }
  return paced.subarray(0, count);
}

/** For each run the row of its person, if it is one of their latest selected ones of the procedure, and −1 otherwise. */
function latestOf(asking: Asking, procedure: number): { readonly latest: Int32Array; readonly people: readonly number[] } {
  const { runs, people, digest } = asking.logbook;
  const { mask } = asking.selection;
  const counts = new Uint8Array(people.length);
  const latest = new Int32Array(runs.count).fill(-1);
  for (let at = runs.count - 1; at >= 0; at--) {
    const run = digest.oldestFirst[at] ?? 0;
    if (mask[run] !== 1 || runs.procedure[run] !== procedure) continue;
    const person = runs.person[run] ?? 0;
    const count = counts[person] ?? 0;
    if (count === latestRuns) continue;
    counts[person] = count + 1;
    latest[run] = person;
  }
  const named = [...counts.entries()].flatMap(([person, count]) => (count === 0 ? [] : [{ person, called: asking.nameOf(person) }]));
  named.sort((one, other) => (one.called < other.called ? -1 : 1));
  const rowOf = new Int32Array(people.length).fill(-1);
  for (const [row, { person }] of named.entries()) rowOf[person] = row;
  for (let run = 0; run < runs.count; run++) if ((latest[run] ?? -1) >= 0) latest[run] = rowOf[latest[run] ?? 0] ?? -1;
  return { latest, people: named.map(({ person }) => person) };
}

function timesOf({ logbook }: Asking, latest: Int32Array, people: readonly number[], steps: readonly number[]): Times {
  const { cells, runs } = logbook;
  const size = people.length * steps.length;
  const times = { seconds: new Float64Array(size * latestRuns), counts: new Uint8Array(size), questions: new Uint32Array(size) };
  const columnOf = new Int32Array(logbook.steps.length).fill(-1);
  for (const [column, step] of steps.entries()) columnOf[step] = column;
  for (let run = 0; run < runs.count; run++) {
    const row = latest[run] ?? -1;
    if (row < 0) continue;
    for (let cell = runs.firstCell[run] ?? 0; cell < (runs.firstCell[run + 1] ?? 0); cell++) {
      const active = cells.active[cell] ?? 0;
      const column = columnOf[cells.step[cell] ?? 0] ?? -1;
      if (column < 0 || active === 0 || !isDone(logbook, cell)) continue;
      const place = row * steps.length + column;
      const count = times.counts[place] ?? 0;
      times.seconds[place * latestRuns + count] = active / 1000;
      times.counts[place] = count + 1;
      times.questions[place] = (times.questions[place] ?? 0) + (cells.questions[cell] ?? 0) + (cells.repeats[cell] ?? 0);
    }
  }
  return times;
}

function timesAt({ seconds, counts }: Times, place: number): Float64Array {
  return seconds.subarray(place * latestRuns, place * latestRuns + (counts[place] ?? 0));
}

/** Moves the times of the cell about among themselves. */
function medianAt(times: Times, place: number): number {
  return medianInPlace(times.seconds, place * latestRuns, times.counts[place] ?? 0);
}
