import { medianOf, quantileOfSorted } from './quantiles.ts';

/** A table taken apart into an overall level, one effect a row, one a column, and what is left over in each cell. */
export interface Polished {
  readonly level: number;
  readonly rows: readonly number[];
  readonly columns: readonly number[];
  /** Null where the table has no value. */
  readonly left: readonly (readonly (number | null)[])[];
}

/** What an effect may still move by, on average, when the rounds end: far below anything that is shown. */
const enough = 1e-5;

/** Tukey's median polish (Exploratory Data Analysis, 1977, chapter 11): a few odd cells do not bend the effects. */
export function medianPolish(table: readonly (readonly (number | null)[])[], rounds = 10): Polished {
  const width = Math.max(0, ...table.map((row) => row.length));
  const scratch = new Float64Array(Math.max(width, table.length));
  const left = table.map((row) => Array.from({ length: width }, (_, column) => row[column] ?? null));
  const rows = left.map(() => 0);
  const columns = Array.from({ length: width }, () => 0);
  let level = 0;

  /** Median of the values that are there, 0 of none. */
  function present(length: number, valueAt: (index: number) => number | null): number {
    let count = 0;
    for (let index = 0; index < length; index++) {
      const value = valueAt(index);
      if (value !== null) scratch[count++] = value;
    }
    return count === 0 ? 0 : quantileOfSorted(scratch.subarray(0, count).sort(), 0.5);
  }

  for (let round = 0; round < rounds; round++) {
    let moved = 0;
    for (const [index, row] of left.entries()) {
      const middle = present(row.length, (column) => row[column] ?? null);
      if (middle === 0) continue;
      moved += Math.abs(middle);
      rows[index] = (rows[index] ?? 0) + middle;
      for (const [column, value] of row.entries()) row[column] = value === null ? null : value - middle;
    }
    level += recentre(rows);
    for (let column = 0; column < width; column++) {
      const middle = present(left.length, (row) => left[row]?.[column] ?? null);
      if (middle === 0) continue;
      moved += Math.abs(middle);
      columns[column] = (columns[column] ?? 0) + middle;
      for (const row of left) {
        const value = row[column] ?? null;
        row[column] = value === null ? null : value - middle;
      }
    }
    level += recentre(columns);
    if (moved < enough * (rows.length + width)) break;
  }
  return { level, rows, columns, left };
}

function recentre(effects: number[]): number {
  const middle = effects.length === 0 ? 0 : medianOf(effects);
  for (const [index, effect] of effects.entries()) effects[index] = effect - middle;
  return middle;
}
