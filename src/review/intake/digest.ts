import { intentNames } from '../../phrasing/intents.ts';
import { kindOf } from '../event-kinds.ts';
import type { CellColumns, Digest, EventColumns, Logbook, RunColumns, RunSum, Tallies } from '../logbook.ts';
import { rareColumns, runSums } from '../logbook.ts';

type Sources = Pick<Logbook, 'steps' | 'stepNames'> & {
  readonly runs: Pick<RunColumns, 'count' | 'procedure' | 'firstEvent' | 'events' | 'firstCell'>;
  readonly cells: CellColumns;
  readonly events: Pick<EventColumns, 'kind' | 'step' | 'detail'>;
  readonly oldestFirst: Uint32Array;
};

export function digestOf({ runs, cells, events, steps, stepNames, oldestFirst }: Sources): Digest {
  return {
    oldestFirst,
    sums: sumsOfRuns(runs, cells),
    asked: askedInRuns({ runs, events, steps, stepNames }),
    rare: rareInRuns(runs, cells),
    hasHold: stepsWithHold(steps.length, cells),
  };
}

function sumsOfRuns(runs: Sources['runs'], cells: CellColumns): Digest['sums'] {
  const sums = Object.fromEntries(runSums.map((name) => [name, new Uint32Array(runs.count)])) as Record<RunSum, Uint32Array>;
  for (const name of runSums) {
    const sum = sums[name];
    if (name === 'skips') continue;
    const column = cells[name];
    for (let cell = 0; cell < cells.count; cell++) {
      const run = cells.run[cell] ?? 0;
      sum[run] = (sum[run] ?? 0) + (column[cell] ?? 0);
    }
  }
  for (let cell = 0; cell < cells.count; cell++) {
    const run = cells.run[cell] ?? 0;
    if (cells.ended[cell] === 2) sums.skips[run] = (sums.skips[run] ?? 0) + 1;
  }
  return sums;
}

/** Questions at steps that nobody ever worked at are left out: there is no row that could show them. */
function askedInRuns({ runs, events, steps, stepNames }: Pick<Sources, 'runs' | 'events' | 'steps' | 'stepNames'>): Tallies {
  const names = stepNames.size();
  const stepOf = new Map(steps.map(({ procedure, id }, step) => [procedure * names + stepNames.numberOfText(id), step]));
  const asked = kindOf.asked;
  const tallies = makeTallies(
    runs.count,
    events.kind.reduce((count, kind) => count + (kind === asked ? 1 : 0), 0),
  );
  for (let run = 0; run < runs.count; run++) {
    const offset = (runs.procedure[run] ?? 0) * names;
    const first = runs.firstEvent[run] ?? 0;
    for (let row = first; row < first + (runs.events[run] ?? 0); row++) {
      if (events.kind[row] !== asked) continue;
      const step = stepOf.get(offset + (events.step[row] ?? 0));
      if (step !== undefined) tallies.add(step * intentNames.length + (events.detail[row] ?? 0), 1);
    }
    tallies.endRun();
  }
  return tallies.all();
}

function rareInRuns(runs: Sources['runs'], cells: CellColumns): Tallies {
  const tallies = makeTallies(
    runs.count,
    rareColumns.reduce((sum, name) => sum + countOthers(cells[name]), 0),
  );
  for (let run = 0; run < runs.count; run++) {
    for (let cell = runs.firstCell[run] ?? 0; cell < (runs.firstCell[run + 1] ?? 0); cell++) {
      // What a run only passed over was not come by: see `StepMeasures.runs`.
      if (cells.ended[cell] === 3) continue;
      for (let column = 0; column < rareColumns.length; column++) {
        const value = cells[rareColumns[column] ?? 'paused'][cell] ?? 0;
        if (value !== 0) tallies.add((cells.step[cell] ?? 0) * rareColumns.length + column, value);
      }
    }
    tallies.endRun();
  }
  return tallies.all();
}

/** How many values are not 0. By place, here and wherever there is a value a cell: what a loop over the values themselves makes on its way fills the memory. */
function countOthers(column: ArrayLike<number>): number {
  let count = 0;
  for (let place = 0; place < column.length; place++) if (column[place] !== 0) count += 1;
  return count;
}

function makeTallies(runs: number, most: number): { add(key: number, value: number): void; endRun(): void; all(): Tallies } {
  const starts = new Uint32Array(runs + 1);
  const keys = new Uint32Array(most);
  const values = new Uint32Array(most);
  let run = 0;
  let count = 0;
  return {
    add(key, value) {
      keys[count] = key;
      values[count] = value;
      count += 1;
    },
    endRun() {
      run += 1;
      starts[run] = count;
    },
    all: () => ({ starts, key: keys.slice(0, count), value: values.slice(0, count) }),
  };
}

function stepsWithHold(steps: number, cells: CellColumns): Uint8Array {
  const hasHold = new Uint8Array(steps);
  for (let cell = 0; cell < cells.count; cell++)
    if ((cells.holdsPassed[cell] ?? 0) > 0 || (cells.holdsFailed[cell] ?? 0) > 0) hasHold[cells.step[cell] ?? 0] = 1;
  return hasHold;
}
