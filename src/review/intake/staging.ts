/** How many rows a block holds: columns grow block by block, so that growing never copies and never doubles the memory. */
const blockRows = 1 << 17;

export interface Block {
  kind: Uint8Array;
  step: Uint16Array;
  detail: Uint32Array;
  extra: Uint16Array;
  seq: Uint32Array;
  mark: Uint32Array;
  wall: Int32Array;
  mono: Int32Array;
  session: Uint16Array;
}

export type StagedColumn = keyof Block;

/** Rows as they come in, before their runs are put in order. */
export interface Staging {
  append(
    kind: number,
    step: number,
    detail: number,
    extra: number,
    seq: number,
    mark: number,
    wall: number,
    mono: number,
    session: number,
  ): void;
  count(): number;
  markAt(row: number): number;
  seqAt(row: number): number;
  /** The whole column in one array. The blocks give it up: it can be taken once. */
  take<Column extends StagedColumn>(column: Column): Block[Column];
  /** Gives up the marks, once nobody needs to tell lines apart any more. */
  dropMarks(): void;
  readonly release: Release;
}

/**
 * Gives the memory behind columns back at once. Left to the garbage collection, hundreds of megabytes lie about while the next ones
 * are asked for. Nothing may be read from the column afterwards.
 */
export type Release = (column: Uint8Array | Uint16Array | Uint32Array | Int32Array) => void;

function makeBlock(): Block {
  return {
    kind: new Uint8Array(blockRows),
    step: new Uint16Array(blockRows),
    detail: new Uint32Array(blockRows),
    extra: new Uint16Array(blockRows),
    seq: new Uint32Array(blockRows),
    mark: new Uint32Array(blockRows),
    wall: new Int32Array(blockRows),
    mono: new Int32Array(blockRows),
    session: new Uint16Array(blockRows),
  };
}

const empty: { readonly [Column in StagedColumn]: (length: number) => Block[Column] } = {
  kind: (length) => new Uint8Array(length),
  step: (length) => new Uint16Array(length),
  detail: (length) => new Uint32Array(length),
  extra: (length) => new Uint16Array(length),
  seq: (length) => new Uint32Array(length),
  mark: (length) => new Uint32Array(length),
  wall: (length) => new Int32Array(length),
  mono: (length) => new Int32Array(length),
  session: (length) => new Uint16Array(length),
};

export function makeStaging(release: Release): Staging {
  const blocks: Block[] = [];
  let block = makeBlock();
  let inBlock = blockRows;
  let count = 0;
  return {
    append(kind, step, detail, extra, seq, mark, wall, mono, session) {
      if (inBlock === blockRows) {
        block = makeBlock();
        blocks.push(block);
        inBlock = 0;
      }
      block.kind[inBlock] = kind;
      block.step[inBlock] = step;
      block.detail[inBlock] = detail;
      block.extra[inBlock] = extra;
      block.seq[inBlock] = seq;
      block.mark[inBlock] = mark;
      block.wall[inBlock] = wall;
      block.mono[inBlock] = mono;
      block.session[inBlock] = session;
      inBlock += 1;
      count += 1;
    },
    count: () => count,
    markAt: (row) => blocks[Math.floor(row / blockRows)]?.mark[row % blockRows] ?? 0,
    seqAt: (row) => blocks[Math.floor(row / blockRows)]?.seq[row % blockRows] ?? 0,
    take<Column extends StagedColumn>(column: Column): Block[Column] {
      const whole = empty[column](count);
      for (const [index, from] of blocks.entries()) {
        const start = index * blockRows;
        whole.set(from[column].subarray(0, Math.min(blockRows, count - start)), start);
        release(from[column]);
        from[column] = empty[column](0);
      }
      return whole;
    },
    dropMarks() {
      for (const from of blocks) {
        release(from.mark);
        from.mark = empty.mark(0);
      }
    },
    release,
  };
}
