import { entry } from './entry.ts';

/** Products of matrices that are used once. */
export interface Products {
  /** The matrix, row by row, times each column. Its width is a multiple of four. */
  product(rows: number, width: number, matrix: Float32Array, columns: readonly Float32Array[]): Float32Array[];
}

/** So many columns look at their neighbours at once. */
const stretch = 64;

/**
 * Each column looks at those within reach, by likeness and by what `speak` puts down for each head. A column has three parts of the same
 * width: what it looks for, what it is found by, and what it gives. Most of a draft's time goes here, so a stretch of columns is worked out
 * as two products, with everything that any of them reaches.
 */
export function attend(
  products: Products,
  qkv: readonly Float32Array[],
  reach: number,
  heads: number,
  speak: (at: number, other: number, bias: Float32Array) => void,
): Float32Array[] {
  const width = (qkv[0]?.length ?? 0) / 3;
  const size = width / heads;
  const scale = 1 / Math.sqrt(size);
  const bias = new Float32Array(heads);
  const out = qkv.map(() => new Float32Array(width));
  for (let begin = 0; begin < qkv.length; begin += stretch) {
    const own = qkv.slice(begin, begin + stretch);
    const near = own.map((_, at) => ({ from: Math.max(0, begin + at - reach), to: Math.min(qkv.length, begin + at + reach + 1) }));
    const first = entry(near, 0).from;
    const others = qkv.slice(first, entry(near, near.length - 1).to);
    const many = upToFours(others.length);
    const spoken = near.map(({ from, to }, at) => {
      const row = new Float32Array(heads * many);
      for (let other = from; other < to; other++) {
        speak(begin + at, other, bias);
        for (let head = 0; head < heads; head++) row[head * many + other - first] = bias[head] ?? 0;
      }
      return row;
    });
    for (let head = 0; head < heads; head++) {
      const part = (of: number) => (column: Float32Array) => column.subarray(of * width + head * size, of * width + (head + 1) * size);
      const alike = products.product(others.length, size, inRows(others.map(part(1)), size), own.map(part(0)));
      const seen = near.map(({ from, to }, at) => {
        const [scores, said] = [entry(alike, at), entry(spoken, at)];
        for (let other = from - first; other < to - first; other++)
          scores[other] = (scores[other] ?? 0) * scale + (said[head * many + other] ?? 0);
        const row = new Float32Array(many);
        row.set(shares(scores.subarray(from - first, to - first)), from - first);
        return row;
      });
      const given = products.product(size, many, inColumns(others.map(part(2)), many), seen);
      given.forEach((values, at) => entry(out, begin + at).set(values, head * size));
    }
  }
  return out;
}

const upToFours = (length: number) => Math.ceil(length / 4) * 4;

/** A matrix with these rows. */
function inRows(rows: readonly Float32Array[], width: number): Float32Array {
  const matrix = new Float32Array(rows.length * width);
  rows.forEach((row, at) => matrix.set(row, at * width));
  return matrix;
}

/** A matrix with these columns, filled up to that width. */
function inColumns(columns: readonly Float32Array[], width: number): Float32Array {
  const matrix = new Float32Array((columns[0]?.length ?? 0) * width);
  columns.forEach((column, at) => {
    for (let row = 0; row < column.length; row++) matrix[row * width + at] = column[row] ?? 0;
  });
  return matrix;
}

/** What speaks for each, as shares of one. Loops, since it runs for every number, token and head. */
export function shares(values: Float32Array): Float32Array {
  const out = new Float32Array(values.length);
  let top = -Infinity;
  for (const value of values) if (value > top) top = value;
  let total = 0;
  for (let index = 0; index < values.length; index++) {
    const share = Math.exp((values[index] ?? 0) - top);
    out[index] = share;
    total += share;
  }
  for (let index = 0; index < values.length; index++) out[index] = (out[index] ?? 0) / total;
  return out;
}
