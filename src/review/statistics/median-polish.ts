import { medianInPlace } from './quantiles.ts';

/** A table taken apart into an overall level, one effect a row, one a column, and what is left over in each cell. */
interface Polished {
  readonly level: number;
  readonly rows: Float64Array;
  readonly columns: Float64Array;
  /** Row by row; NaN where the table has no value. */
  readonly left: Float64Array;
}

/** What an effect may still move by, on average, when the rounds end: far below anything that is shown. */
const enough = 1e-5;

/**
 * Tukey's median polish (Exploratory Data Analysis, 1977, chapter 11): a few odd cells do not bend the effects.
 * The table stands row by row, `width` values each, with NaN where there is none.
 */
export function medianPolish(table: Float64Array, width: number, rounds = 10): Polished {
  const height = width === 0 ? 0 : table.length / width;
  const left = table.slice();
  const rows = new Float64Array(height);
  const columns = new Float64Array(width);
  const scratch = new Float64Array(Math.max(width, height));
  let level = 0;

  /** Takes the median of every `step`-th value out of them; 0 when there is none. */
  function takeMiddle(start: number, end: number, step: number): number {
    let count = 0;
    for (let at = start; at < end; at += step) {
      const value = left[at] ?? NaN;
      if (!Number.isNaN(value)) scratch[count++] = value;
    }
    const middle = count === 0 ? 0 : medianInPlace(scratch, 0, count);
    if (middle !== 0) for (let at = start; at < end; at += step) left[at] = (left[at] ?? NaN) - middle;
    return middle;
  }

  function recentre(effects: Float64Array): void {
    scratch.set(effects);
    const middle = effects.length === 0 ? 0 : medianInPlace(scratch, 0, effects.length);
    for (let index = 0; index < effects.length; index++) effects[index] = (effects[index] ?? 0) - middle;
    level += middle;
  }

  for (let round = 0; round < rounds; round++) {
    let moved = 0;
    for (let row = 0; row < height; row++) {
      const middle = takeMiddle(row * width, (row + 1) * width, 1);
      rows[row] = (rows[row] ?? 0) + middle;
      moved += Math.abs(middle);
    }
    recentre(rows);
    for (let column = 0; column < width; column++) {
      const middle = takeMiddle(column, left.length, width);
      columns[column] = (columns[column] ?? 0) + middle;
      moved += Math.abs(middle);
    }
    recentre(columns);
    if (moved < enough * (height + width)) break;
  }
  return { level, rows, columns, left };
}
