import type { CellColumns, CellsByStep, Logbook, ProcedureSeen, RunColumns, StepSeen } from '../logbook.ts';
import { breaks, runFaults } from '../logbook.ts';
import type { Written } from '../written.ts';
import type { CellMaker, EventRows } from './cells.ts';
import { makeCells, mostCells } from './cells.ts';
import { digestOf } from './digest.ts';
import type { Staged, StagedRun } from './intake.ts';
import type { Names } from './names.ts';
import { inOrder, rowsInOrder } from './runs-in-order.ts';
import type { OrderedRows } from './runs-in-order.ts';
import type { Block, StagedColumn, Staging } from './staging.ts';

/** What settling found beside the logbook: it belongs in the import's report. */
export interface Settled {
  readonly logbook: Logbook;
  readonly duplicates: number;
  readonly forked: number;
  readonly missing: number;
}

const longestGap = 0xffffffff;

/** Puts what was read in order and works out the times: once, after the last file. */
export function settle({ names, stepNames, rows, runs, written }: Staged): Settled {
  const ordered = rowsInOrder(runs, rows);
  rows.dropMarks();
  const clock = gapsOf(rows, ordered);
  const events: EventRows = {
    kind: orderedColumn(rows, 'kind', ordered),
    step: orderedColumn(rows, 'step', ordered),
    detail: orderedColumn(rows, 'detail', ordered),
    extra: orderedColumn(rows, 'extra', ordered),
    gap: clock.gap,
    breaks: clock.breaks,
  };
  const maker = makeCells(events, stepNames.size(), mostCells(events, stepNames.size(), ordered));
  const columns = runColumns(runs, ordered);
  const who = people(runs, names, columns);
  runs.forEach((run, index) => {
    const first = ordered.first[index] ?? 0;
    const end = first + (ordered.length[index] ?? 0);
    columns.firstCell[index] = maker.count();
    const times = maker.run({ run: index, first, end, firstSeq: run.firstSeq, isWhole: run.inTurn });
    columns.active[index] = times.active;
    columns.around[index] = times.around;
    columns.paused[index] = times.paused;
    columns.waited[index] = times.waited;
    columns.ending[index] = times.ending;
    columns.faults[index] = faultsOf(run, ordered.missing[index] ?? 0, clock.backward[index] ?? 0);
  });
  for (const index of ordered.forked) columns.faults[index] = (columns.faults[index] ?? 0) | runFaults.forked;
  columns.firstCell[runs.length] = maker.count();
  const oldestFirst = runsByBeginning(columns);
  numberRuns(columns, oldestFirst);
  const cells = maker.cells();
  const { steps, procedures } = stepsSeen(cells.run, cells.step, columns, who.procedures, { names, stepNames, written, maker });
  const byStep = cellsByStep(cells, steps.length);
  return {
    logbook: {
      names,
      stepNames,
      procedures,
      builds: who.builds,
      people: who.people,
      groups: who.groups,
      steps,
      runs: { ...columns, job: runs.map(({ job }) => names.text(job)) },
      events: {
        count: ordered.count,
        kind: events.kind,
        gap: events.gap,
        step: events.step,
        detail: events.detail,
        extra: events.extra,
        breaks: events.breaks,
      },
      cells,
      byStep,
      digest: digestOf({ runs: columns, cells, events, steps, stepNames, oldestFirst }),
    },
    duplicates: ordered.duplicates,
    forked: ordered.forked.length,
    missing: ordered.missing.reduce((sum, count) => sum + count, 0),
  };
}

/**
 * Milliseconds from each event to the next: monotonic within a session of the app, by the wall from one to another. Every column goes as soon as
 * it has been read, and the gaps take the place of the times, since this is where an import needs the most memory.
 */
function gapsOf(rows: Staging, ordered: OrderedRows): { gap: Uint32Array; breaks: Uint8Array; backward: Uint32Array } {
  const broken = breaksOf(rows, ordered);
  const mono = orderedColumn(rows, 'mono', ordered);
  const wall = orderedColumn(rows, 'wall', ordered);
  const gap = new Uint32Array(mono.buffer, mono.byteOffset, mono.length);
  const backward = new Uint32Array(ordered.first.length);
  for (let run = 0; run < ordered.first.length; run++) {
    const first = ordered.first[run] ?? 0;
    const length = ordered.length[run] ?? 0;
    // A run of which no line could be used has no row of its own.
    if (length === 0) continue;
    // From the last to the first: the time before is still there when its gap is written.
    for (let row = first + length - 1; row > first; row--) {
      const isSame = ((broken[row] ?? 0) & breaks.away) === 0;
      const passed = isSame ? (mono[row] ?? 0) - (mono[row - 1] ?? 0) : ((wall[row] ?? 0) - (wall[row - 1] ?? 0)) * 100;
      if (passed < 0) backward[run] = (backward[run] ?? 0) + 1;
      gap[row] = Math.max(0, Math.min(longestGap, passed));
    }
    gap[first] = 0;
  }
  rows.release(wall);
  return { gap, breaks: broken, backward };
}

/** Before which events the app had been away, or others are missing. */
function breaksOf(rows: Staging, ordered: OrderedRows): Uint8Array {
  const session = orderedColumn(rows, 'session', ordered);
  const seq = orderedColumn(rows, 'seq', ordered);
  const broken = new Uint8Array(ordered.count);
  for (let run = 0; run < ordered.first.length; run++) {
    const first = ordered.first[run] ?? 0;
    const end = first + (ordered.length[run] ?? 0);
    broken[first] = (seq[first] ?? 0) > 0 ? breaks.torn : 0;
    for (let row = first + 1; row < end; row++) {
      const isTorn = (seq[row] ?? 0) !== (seq[row - 1] ?? 0) + 1;
      broken[row] = (session[row] === session[row - 1] ? 0 : breaks.away) | (isTorn ? breaks.torn : 0);
    }
  }
  rows.release(session);
  rows.release(seq);
  return broken;
}

function orderedColumn<Column extends StagedColumn>(rows: Staging, column: Column, ordered: OrderedRows): Block[Column] {
  const taken = rows.take(column);
  const placed = inOrder(taken, ordered);
  if (placed !== taken) rows.release(taken);
  return placed;
}

type Columns = Omit<RunColumns, 'job'>;

function runColumns(runs: readonly StagedRun[], ordered: OrderedRows): Columns {
  const count = runs.length;
  return {
    count,
    procedure: new Uint16Array(count),
    build: new Uint16Array(count),
    person: new Uint16Array(count),
    group: new Uint16Array(count),
    revision: Int32Array.from(runs, (run) => run.opened?.revision ?? 0),
    begun: Float64Array.from(runs, (run) => run.wallBase),
    offset: Int16Array.from(runs, (run) => run.offset),
    ending: new Uint8Array(count),
    number: new Uint16Array(count),
    firstEvent: ordered.first,
    events: ordered.length,
    firstCell: new Uint32Array(count + 1),
    active: new Float64Array(count),
    around: new Float64Array(count),
    paused: new Float64Array(count),
    waited: new Float64Array(count),
    faults: new Uint8Array(count),
  };
}

interface Seen {
  readonly procedures: readonly { readonly id: string; readonly title: string }[];
  readonly builds: readonly string[];
  readonly people: readonly (string | null)[];
  readonly groups: readonly (string | null)[];
}

/** Gives procedures, builds, people and groups small numbers, and fills the runs' columns with them. */
function people(runs: readonly StagedRun[], names: Names, columns: Columns): Seen {
  const [procedures, builds] = [makeNumbers(), makeNumbers()];
  // The first person and the first group are nobody and none.
  const [persons, groups] = [makeNumbers([0]), makeNumbers([0])];
  const titles: string[] = [];
  runs.forEach(({ opened }, index) => {
    const procedure = procedures.of(opened?.procedure ?? 0);
    titles[procedure] ??= opened === null ? '' : names.text(opened.title);
    columns.procedure[index] = procedure;
    columns.build[index] = builds.of(opened?.build ?? 0);
    columns.person[index] = persons.of(opened?.person ?? 0);
    columns.group[index] = groups.of(opened?.group ?? 0);
  });
  const textOrNull = (name: number): string | null => (name === 0 ? null : names.text(name));
  return {
    procedures: procedures.list.map((name, procedure) => ({ id: names.text(name), title: titles[procedure] ?? '' })),
    builds: builds.list.map((name) => names.text(name)),
    people: persons.list.map(textOrNull),
    groups: groups.list.map(textOrNull),
  };
}

/** Small numbers for names, in the order in which they come. */
function makeNumbers(first: readonly number[] = []): { readonly list: readonly number[]; of(name: number): number } {
  const list = [...first];
  const numbers = new Map(list.map((name, number) => [name, number]));
  return {
    list,
    of(name) {
      const known = numbers.get(name);
      if (known !== undefined) return known;
      numbers.set(name, list.length);
      return list.push(name) - 1;
    },
  };
}

function faultsOf(run: StagedRun, missing: number, backward: number): number {
  return (
    (missing > 0 || run.opened === null ? runFaults.missing : 0) |
    (run.unlinked ? runFaults.unlinked : 0) |
    (run.forked ? runFaults.forked : 0) |
    (run.changed ? runFaults.changed : 0) |
    (backward > 0 ? runFaults.clock : 0)
  );
}

function runsByBeginning({ count, begun }: Columns): Uint32Array {
  return Uint32Array.from({ length: count }, (_, run) => run).sort((a, b) => (begun[a] ?? 0) - (begun[b] ?? 0) || a - b);
}

/** Each person's runs of a procedure, by the time they were begun. */
function numberRuns(columns: Columns, oldestFirst: Uint32Array): void {
  const done = new Map<number, number>();
  for (const run of oldestFirst) {
    const key = (columns.procedure[run] ?? 0) * 65_536 + (columns.person[run] ?? 0);
    const before = done.get(key) ?? 0;
    columns.number[run] = Math.min(before + 1, 0xffff);
    if (columns.ending[run] === 0) done.set(key, before + 1);
  }
}

interface StepSources {
  readonly names: Names;
  readonly stepNames: Names;
  readonly written: readonly Written[];
  readonly maker: CellMaker;
}

/** Turns the cells' step ids, which procedures share, into steps of their procedures; orders and names them. */
function stepsSeen(
  cellRun: Uint32Array,
  cellStep: Uint16Array,
  columns: Columns,
  procedures: Seen['procedures'],
  { stepNames, written, maker }: StepSources,
): { steps: readonly StepSeen[]; procedures: readonly ProcedureSeen[] } {
  const perProcedure = procedures.map(() => new Map<number, number>());
  const ids: { procedure: number; name: number }[] = [];
  for (let cell = 0; cell < cellRun.length; cell++) {
    const procedure = columns.procedure[cellRun[cell] ?? 0] ?? 0;
    const name = cellStep[cell] ?? 0;
    const known = perProcedure[procedure];
    let step = known?.get(name);
    if (step === undefined) {
      step = ids.length;
      known?.set(name, step);
      ids.push({ procedure, name });
    }
    cellStep[cell] = step;
  }
  const plans = procedures.map(({ id }) =>
    written
      .filter((one) => one.procedure === id)
      .sort((one, other) => other.revision - one.revision || other.steps.length - one.steps.length),
  );
  const steps = ids.map(({ procedure, name }): StepSeen => {
    const id = stepNames.text(name);
    const found = plans[procedure]?.flatMap((plan) => plan.steps.filter((step) => step.id === id))[0];
    return { procedure, id, number: found?.number ?? null, say: found?.say ?? id, side: found?.side ?? false };
  });
  const usualPlace = (step: number): number => {
    const name = ids[step]?.name ?? 0;
    const count = maker.placeCounts[name] ?? 0;
    return count === 0 ? Infinity : (maker.placeSums[name] ?? 0) / count;
  };
  return {
    steps,
    procedures: procedures.map(({ id, title }, procedure) => {
      const own = [...(perProcedure[procedure]?.values() ?? [])];
      const order = mergedOrder((plans[procedure] ?? []).map((plan) => plan.steps.map((step) => step.id)));
      const place = (step: number): number => {
        const at = order.indexOf(steps[step]?.id ?? '');
        return at < 0 ? order.length + usualPlace(step) : at;
      };
      const places = new Map(own.map((step) => [step, place(step)]));
      own.sort((one, other) => (places.get(one) ?? 0) - (places.get(other) ?? 0) || one - other);
      return { id, title, steps: own, written: plans[procedure] ?? [] };
    }),
  };
}

/** One order that keeps each list's own where they agree: the longest, with what it lacks put in behind its neighbour. */
function mergedOrder(lists: readonly (readonly string[])[]): readonly string[] {
  const [longest, ...others] = lists.toSorted((one, other) => other.length - one.length);
  const merged = [...(longest ?? [])];
  for (const list of others) {
    for (const [index, id] of list.entries()) {
      if (merged.includes(id)) continue;
      const before = list[index - 1];
      merged.splice(before === undefined ? 0 : merged.indexOf(before) + 1, 0, id);
    }
  }
  return merged;
}

/** Sorts numbers that carry time and place together, which is far quicker than comparing by a function. */
function cellsByStep({ count, step: stepOf, run, active, ended }: CellColumns, steps: number): CellsByStep {
  const starts = new Uint32Array(steps + 1);
  for (let cell = 0; cell < count; cell++) {
    const next = (stepOf[cell] ?? 0) + 1;
    starts[next] = (starts[next] ?? 0) + 1;
  }
  let longest = 0;
  for (let step = 0; step < steps; step++) {
    longest = Math.max(longest, starts[step + 1] ?? 0);
    starts[step + 1] = (starts[step + 1] ?? 0) + (starts[step] ?? 0);
  }
  const cells = new Uint32Array(count);
  const next = starts.slice();
  for (let cell = 0; cell < count; cell++) {
    const step = stepOf[cell] ?? 0;
    cells[next[step] ?? 0] = cell;
    next[step] = (next[step] ?? 0) + 1;
  }
  const byStep = { starts, run: new Uint32Array(count), active: new Uint32Array(count), ended: new Uint8Array(count) };
  const keys = new Float64Array(longest);
  for (let step = 0; step < steps; step++) {
    const start = starts[step] ?? 0;
    const length = (starts[step + 1] ?? 0) - start;
    // A time is under 2³² and a place under 2²¹ in all but the most absurd of logs: together they fit a double's 53 bits.
    const places = Math.max(2 ** 21, length);
    for (let place = 0; place < length; place++) keys[place] = (active[cells[start + place] ?? 0] ?? 0) * places + place;
    keys.subarray(0, length).sort();
    for (let place = 0; place < length; place++) {
      const cell = cells[start + ((keys[place] ?? 0) % places)] ?? 0;
      byStep.run[start + place] = run[cell] ?? 0;
      byStep.active[start + place] = active[cell] ?? 0;
      byStep.ended[start + place] = ended[cell] ?? 0;
    }
  }
  return byStep;
}
