import { matrixCode } from './matrix-code.ts';

interface MatrixExports {
  readonly memory: WebAssembly.Memory;
  multiply(weights: number, bias: number, input: number, output: number, rows: number, width: number, columns: number, cut: number): void;
}

/** A matrix laid down in WebAssembly memory. */
export interface Matrix {
  readonly rows: number;
  readonly width: number;
  readonly weights: number;
  readonly bias: number;
}

const most = 64;
const page = 65536;

/** Matrices and the arithmetic on them, in one WebAssembly memory of their own. */
export class Matrices {
  private readonly code: MatrixExports;
  private used = 16;
  private input = 0;
  private output = 0;
  private widest = 0;
  private laidOutFor = 0;
  private once = { at: 0, floats: 0, none: 0, rows: 0 };

  constructor() {
    // Small enough (under 4 kB) to be compiled at once on any thread.
    const bytes = Uint8Array.from(atob(matrixCode), (letter) => letter.charCodeAt(0));
    this.code = new WebAssembly.Instance(new WebAssembly.Module(bytes)).exports as unknown as MatrixExports;
  }

  /** Lays a matrix down, row by row. Its width must be a multiple of four. */
  add(rows: number, width: number, weights: Float32Array, bias: Float32Array): Matrix {
    this.fit(rows, width);
    return { rows, width, weights: this.place(weights), bias: this.place(bias) };
  }

  /** The matrix times each column, plus the bias, cut off below zero where asked. */
  multiply(matrix: Matrix, columns: readonly Float32Array[], cut: boolean): Float32Array[] {
    const outputs: Float32Array[] = [];
    for (let first = 0; first < columns.length; first += most) outputs.push(...this.some(matrix, columns.slice(first, first + most), cut));
    return outputs;
  }

  /** A matrix that is used once, row by row, times each column. Its width must be a multiple of four. */
  product(rows: number, width: number, matrix: Float32Array, columns: readonly Float32Array[]): Float32Array[] {
    this.fit(rows, width);
    const { once } = this;
    // Room is kept for the next, and doubled when it is too small, so that little is left lying about.
    if (matrix.length > once.floats) {
      once.floats = 2 * matrix.length;
      once.at = this.reserve(once.floats);
    }
    if (rows > once.rows) {
      once.rows = 2 * rows;
      once.none = this.reserve(once.rows);
    }
    new Float32Array(this.code.memory.buffer).set(matrix, once.at / 4);
    return this.multiply({ rows, width, weights: once.at, bias: once.none }, columns, false);
  }

  private fit(rows: number, width: number): void {
    if (width % 4 !== 0) throw new Error(`A matrix ${width} wide does not fit four at a time.`);
    this.widest = Math.max(this.widest, rows, width);
  }

  private some(matrix: Matrix, columns: readonly Float32Array[], cut: boolean): Float32Array[] {
    if (this.laidOutFor < this.widest) {
      this.laidOutFor = this.widest;
      this.input = this.reserve(most * this.widest);
      this.output = this.reserve(most * this.widest);
    }
    const heap = new Float32Array(this.code.memory.buffer);
    columns.forEach((column, index) => heap.set(column, this.input / 4 + index * matrix.width));
    const rounded = Math.ceil(columns.length / 4) * 4;
    this.code.multiply(matrix.weights, matrix.bias, this.input, this.output, matrix.rows, matrix.width, rounded, cut ? 1 : 0);
    return columns.map((_, index) => {
      const at = this.output / 4 + index * matrix.rows;
      return heap.slice(at, at + matrix.rows);
    });
  }

  private place(values: Float32Array): number {
    const at = this.reserve(values.length);
    new Float32Array(this.code.memory.buffer).set(values, at / 4);
    return at;
  }

  private reserve(floats: number): number {
    const at = this.used;
    this.used += Math.ceil((floats * 4) / 16) * 16;
    const missing = this.used - this.code.memory.buffer.byteLength;
    if (missing > 0) this.code.memory.grow(Math.ceil(missing / page));
    return at;
  }
}
