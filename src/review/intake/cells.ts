import { intentNames } from '../../phrasing/intents.ts';
import { eventKinds } from '../event-kinds.ts';
import type { CellColumns } from '../logbook.ts';
import { breaks } from '../logbook.ts';

const numberColumns = {
  run: Uint32Array,
  step: Uint16Array,
  active: Uint32Array,
  paused: Uint32Array,
  waited: Uint32Array,
  ended: Uint8Array,
  visits: Uint8Array,
  work: Uint16Array,
  questions: Uint16Array,
  repeats: Uint16Array,
  misheard: Uint16Array,
  refused: Uint16Array,
  stepBacks: Uint8Array,
  undos: Uint8Array,
  stops: Uint8Array,
  holdsPassed: Uint8Array,
  holdsFailed: Uint8Array,
  leftOut: Uint8Array,
} as const;

type Column = keyof typeof numberColumns;
type Cells = { -readonly [Name in Column]: CellColumns[Name] } & { count: number };

/** A run's events, as places in the columns, and what may be counted of them. */
interface RunRows {
  readonly run: number;
  readonly first: number;
  readonly end: number;
  /** The number of the first event; later ones follow on without gaps when `isWhole`. */
  readonly firstSeq: number;
  readonly isWhole: boolean;
}

export interface EventRows {
  readonly kind: Uint8Array;
  readonly step: Uint16Array;
  readonly detail: Uint32Array;
  readonly extra: Uint16Array;
  readonly gap: Uint32Array;
  /** Bits: see `breaks`. */
  readonly breaks: Uint8Array;
}

interface RunTimes {
  readonly active: number;
  readonly around: number;
  readonly paused: number;
  readonly waited: number;
  /** Place in `endings`. */
  readonly ending: number;
}

export interface CellMaker {
  /** Adds the cells of one run. */
  run(rows: RunRows): RunTimes;
  /** How many cells there are so far. */
  count(): number;
  /** All of them; no run may be added afterwards. */
  cells(): CellColumns;
  /** For each step number: the sum of its places in the order begun, and in how many runs. */
  readonly placeSums: Float64Array;
  readonly placeCounts: Uint32Array;
}

const kinds = Object.fromEntries(eventKinds.map((kind, index) => [kind, index])) as Record<(typeof eventKinds)[number], number>;
const repeat = intentNames.indexOf('repeat');
const most16 = 0xffff;
const most8 = 0xff;

/**
 * Turns a run's events into one entry a step. The time before an event belongs to the step that was at hand until then, as the markers
 * tell it (`step-begun`, `step-finished`). Pauses, time after the job was left open and time between two runs of the app are apart.
 * So is a wait: from the last piece of work in a step to the end of that step's own timer, while the step is still at hand.
 * Stopping to find out what a hand felt is work. There may be at most so many cells: see `mostCells`.
 */
export function makeCells(events: EventRows, steps: number, most: number): CellMaker {
  const cells = emptyCells(most);
  const cellOfStep = new Int32Array(steps).fill(-1);
  const placeSums = new Float64Array(steps);
  const placeCounts = new Uint32Array(steps);
  const touched: number[] = [];

  function cellOf(run: number, step: number): number {
    const known = cellOfStep[step] ?? -1;
    if (known >= 0) return known;
    const cell = cells.count;
    cells.count += 1;
    cells.run[cell] = run;
    cells.step[cell] = step;
    cellOfStep[step] = cell;
    touched.push(step);
    return cell;
  }

  function run({ run: number, first, end, firstSeq, isWhole }: RunRows): RunTimes {
    let active = 0;
    let around = 0;
    let paused = 0;
    let waited = 0;
    let ending = 2;
    let current = 0;
    let isHalted = false;
    let isClosed = false;
    /** Active milliseconds on the step at hand since its last piece of work. */
    let idle = 0;
    let begun = 0;
    for (let row = first; row < end; row++) {
      const kind = events.kind[row] ?? 0;
      const step = events.step[row] ?? 0;
      const gap = isClosed ? 0 : (events.gap[row] ?? 0);
      const broken = events.breaks[row] ?? 0;
      if ((broken & breaks.torn) !== 0) current = step;
      const isPause = isHalted || (broken & breaks.away) !== 0;
      if (isPause) {
        paused += gap;
        if (current !== 0) {
          const cell = cellOf(number, current);
          cells.paused[cell] = (cells.paused[cell] ?? 0) + gap;
        }
      } else if (current === 0) {
        around += gap;
      } else {
        const cell = cellOf(number, current);
        cells.active[cell] = (cells.active[cell] ?? 0) + gap;
        active += gap;
        idle += gap;
      }
      switch (kind) {
        case kinds['step-begun']: {
          current = step;
          idle = 0;
          if (step === 0) break;
          const cell = cellOf(number, step);
          if (cells.visits[cell] === 0) {
            begun += 1;
            placeSums[step] = (placeSums[step] ?? 0) + begun;
            placeCounts[step] = (placeCounts[step] ?? 0) + 1;
          }
          cells.ended[cell] = 0;
          add8(cells.visits, cell, 1);
          break;
        }
        case kinds['step-finished']:
          if (step !== 0) cells.ended[cellOf(number, step)] = 1 + (events.detail[row] ?? 0);
          if (step === current) current = 0;
          break;
        case kinds['finish-asked']:
          current = 0;
          break;
        case kinds.paused:
          isHalted = true;
          break;
        case kinds['left-open']:
        case kinds['handed-over']:
          isHalted = true;
          ending = 1;
          break;
        case kinds.resumed:
          isHalted = false;
          if (ending === 1) ending = 2;
          break;
        case kinds.signed:
          isClosed = true;
          ending = 0;
          break;
        case kinds['timer-ended']:
        case kinds['wait-cut-short']:
          if (step === current && step !== 0) {
            const cell = cellOf(number, step);
            cells.active[cell] = (cells.active[cell] ?? 0) - idle;
            cells.waited[cell] = (cells.waited[cell] ?? 0) + idle;
            active -= idle;
            waited += idle;
            idle = 0;
          }
          break;
        case kinds.asked:
          if (current !== 0) add16(events.detail[row] === repeat ? cells.repeats : cells.questions, cellOf(number, current), 1);
          break;
        case kinds.misheard:
          if (current !== 0) add16(cells.misheard, cellOf(number, current), 1);
          break;
        case kinds.refused:
          if (current !== 0) add16(cells.refused, cellOf(number, current), 1);
          break;
        case kinds['looked-back']:
          if (current !== 0 && events.detail[row] === 1) add8(cells.stepBacks, cellOf(number, current), 1);
          break;
        case kinds['step-reopened']:
          if (step !== 0) add8(cells.stepBacks, cellOf(number, step), 1);
          idle = 0;
          break;
        case kinds.undone: {
          if (current !== 0) add8(cells.undos, cellOf(number, current), 1);
          const undone = first + (events.detail[row] ?? 0) - firstSeq;
          const held = isWhole && undone >= first && undone < row && events.kind[undone] === kinds['hold-answered'];
          const holding = held ? (events.step[undone] ?? 0) : 0;
          if (holding !== 0) add8(events.extra[undone] === 1 ? cells.holdsPassed : cells.holdsFailed, cellOf(number, holding), -1);
          idle = 0;
          break;
        }
        case kinds.stopped:
          if (current !== 0) add8(cells.stops, cellOf(number, current), 1);
          break;
        case kinds['hold-answered']:
          if (step !== 0) add16(cells.work, cellOf(number, step), 1);
          if (step !== 0) add8(events.extra[row] === 1 ? cells.holdsPassed : cells.holdsFailed, cellOf(number, step), 1);
          idle = 0;
          break;
        case kinds['fastener-left-out']:
          if (step !== 0) add8(cells.leftOut, cellOf(number, step), 1);
          idle = 0;
          break;
        case kinds['fastener-tightened']:
        case kinds.measured:
        case kinds['step-carried-out']:
          if (step !== 0) add16(cells.work, cellOf(number, step), 1);
          idle = 0;
          break;
        case kinds['caution-acknowledged']:
        case kinds['timer-started']:
        case kinds['stop-sign-answered']:
          idle = 0;
          break;
      }
    }
    for (let place = 0; place < touched.length; place++) cellOfStep[touched[place] ?? 0] = -1;
    touched.length = 0;
    return { active, around, paused, waited, ending };
  }

  return { run, count: () => cells.count, cells: () => filledCells(cells), placeSums, placeCounts };
}

/**
 * How many cells these runs can have: one for each step that their events name. Counted beforehand, since columns that grow stand in the memory
 * twice each time they do.
 */
export function mostCells(
  { step: stepOf }: Pick<EventRows, 'step'>,
  steps: number,
  runs: { readonly first: Uint32Array; readonly length: Uint32Array },
): number {
  const lastRun = new Int32Array(steps).fill(-1);
  let count = 0;
  for (let run = 0; run < runs.first.length; run++) {
    const first = runs.first[run] ?? 0;
    const end = first + (runs.length[run] ?? 0);
    for (let row = first; row < end; row++) {
      const step = stepOf[row] ?? 0;
      if (step === 0 || lastRun[step] === run) continue;
      lastRun[step] = run;
      count += 1;
    }
  }
  return count;
}

function add8(column: Uint8Array, cell: number, by: number): void {
  column[cell] = Math.max(0, Math.min(most8, (column[cell] ?? 0) + by));
}

function add16(column: Uint16Array, cell: number, by: number): void {
  column[cell] = Math.min(most16, (column[cell] ?? 0) + by);
}

function emptyCells(length: number): Cells {
  const columns = Object.fromEntries(Object.entries(numberColumns).map(([name, Kind]) => [name, new Kind(length)]));
  return { ...(columns as unknown as Omit<Cells, 'count'>), count: 0 };
}

function filledCells(cells: Cells): CellColumns {
  const columns = Object.fromEntries((Object.keys(numberColumns) as Column[]).map((name) => [name, cells[name].subarray(0, cells.count)]));
  return { ...(columns as unknown as Omit<Cells, 'count'>), count: cells.count };
}
