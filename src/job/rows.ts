/** Entries in one block: small enough to copy for every event, large enough that few blocks are listed. */
const blockSize = 64;

/**
 * A list that never changes. A changed copy shares every block but one with the list it was made from, so that keeping hundreds of
 * them for undo, and making one for every fastener of a very long job, costs little.
 */
export class Rows<Entry> implements Iterable<Entry> {
  readonly length: number;
  private readonly blocks: readonly (readonly Entry[])[];

  private constructor(blocks: readonly (readonly Entry[])[], length: number) {
    this.blocks = blocks;
    this.length = length;
  }

  static of<Entry>(entries: readonly Entry[]): Rows<Entry> {
    const count = Math.ceil(entries.length / blockSize);
    const blocks = Array.from({ length: count }, (_, block) => entries.slice(block * blockSize, (block + 1) * blockSize));
    return new Rows(blocks, entries.length);
  }

  /** The entry at that index, or undefined outside the list. */
  get(index: number): Entry | undefined {
    return this.blocks[Math.floor(index / blockSize)]?.[index % blockSize];
  }

  /** The list with one entry replaced. The index must be inside the list. */
  with(index: number, entry: Entry): Rows<Entry> {
    const which = Math.floor(index / blockSize);
    const block = this.blocks[which];
    if (block === undefined) throw new RangeError(`index ${index} of ${this.length}`);
    return new Rows(this.blocks.with(which, block.with(index % blockSize, entry)), this.length);
  }

  map(change: (entry: Entry, index: number) => Entry): Rows<Entry> {
    return Rows.of([...this].map(change));
  }

  *[Symbol.iterator](): Iterator<Entry> {
    for (const block of this.blocks) yield* block;
  }
}
