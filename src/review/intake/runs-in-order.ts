import type { StagedRun } from './intake.ts';
import type { Staging } from './staging.ts';

/** The rows of every run together and in turn. */
export interface OrderedRows {
  readonly count: number;
  /** Per run: its first row and how many it has. */
  readonly first: Uint32Array;
  readonly length: Uint32Array;
  /** Which staged row stands at each place; null when they stand as they came. */
  readonly order: Uint32Array | null;
  /** Per run: events that are nowhere in the logs. */
  readonly missing: Uint32Array;
  /** Staged lines that turned out to be read twice, and ones that claim a number already taken. */
  readonly duplicates: number;
  readonly forked: readonly number[];
}

/**
 * Logs that come file by file, each with whole runs, stand in order already. Otherwise (a run split over files that are read
 * in another order, or two runs mixed in one file) the rows are sorted by run and number, and what came twice is dropped.
 */
export function rowsInOrder(runs: readonly StagedRun[], rows: Staging): OrderedRows {
  const first = new Uint32Array(runs.length);
  const length = new Uint32Array(runs.length);
  const missing = new Uint32Array(runs.length);
  const isInOrder = runs.every((run) => run.inTurn && run.stretches.length <= 1);
  if (isInOrder) {
    for (const [index, run] of runs.entries()) {
      first[index] = run.stretches[0]?.first ?? 0;
      length[index] = run.stretches[0]?.length ?? 0;
      missing[index] = run.firstSeq;
    }
    return { count: rows.count(), first, length, order: null, missing, duplicates: 0, forked: [] };
  }
  const order = new Uint32Array(rows.count());
  const forked: number[] = [];
  let placed = 0;
  let duplicates = 0;
  for (const [index, run] of runs.entries()) {
    first[index] = placed;
    let own = run.stretches.flatMap((stretch) => Array.from({ length: stretch.length }, (_, at) => stretch.first + at));
    if (!run.inTurn) own = own.sort((one, other) => rows.seqAt(one) - rows.seqAt(other) || one - other);
    let last = -1;
    let lastRow = -1;
    for (const row of own) {
      const seq = rows.seqAt(row);
      if (seq === last) {
        if (rows.markAt(row) === rows.markAt(lastRow)) duplicates += 1;
        else forked.push(index);
        continue;
      }
      missing[index] = (missing[index] ?? 0) + seq - last - 1;
      order[placed] = row;
      placed += 1;
      last = seq;
      lastRow = row;
    }
    length[index] = placed - (first[index] ?? 0);
  }
  return { count: placed, first, length, order: order.subarray(0, placed), missing, duplicates, forked };
}

type Values = Uint8Array | Uint16Array | Uint32Array | Int32Array;

/** A column with its rows at their places. */
export function inOrder<Column extends Values>(column: Column, { order, count }: OrderedRows): Column {
  if (order === null) return column;
  const placed = column.slice(0, count) as Column;
  for (let place = 0; place < count; place++) placed[place] = column[order[place] ?? 0] ?? 0;
  return placed;
}
