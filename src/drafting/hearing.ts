import type { Evidence } from './groups.ts';
import type { Component, Item } from './items.ts';
import type { QuantitySpan } from './quantities.ts';
import type { SaidSentence } from './sentences.ts';
import type { Talk } from './talk.ts';

/** What one sentence says, while it is being heard: what was named so far, and what the next value would be about. */
export class Hearing {
  readonly talk: Talk;
  readonly sentence: SaidSentence;
  readonly items: readonly Item[];
  builds: readonly string[] = [];
  components: Component[] = [];
  /** "each bracket has …": what is counted next is there so many times. */
  times: { readonly by: number | null; readonly of: string } | null = null;
  sideCount: number | null = null;
  correcting = false;
  negated = false;
  holding = false;
  onMate = false;
  freshAt = -1;
  readonly pending: QuantitySpan[] = [];
  /** Where the last torque or name ended: what was named before it belongs to that. */
  valueEnd = -1;
  timesAt = -1;
  lastTelling: { readonly to: number; readonly undo: (builds: readonly string[]) => void } | null = null;

  readonly skipped = new Set<Item>();
  /** Mentions that turned out to stand for a thing, not for fasteners. */
  readonly things = new Set<Item>();

  constructor(talk: Talk, sentence: SaidSentence, items: readonly Item[]) {
    this.talk = talk;
    this.sentence = sentence;
    this.items = items;
  }

  word(at: number): string {
    return this.sentence.tokens[at]?.bare ?? '';
  }

  open(at: number): boolean {
    return (this.sentence.tokens[at]?.mark ?? '') === '';
  }

  evidence(from: number, to: number, confidence: number): Evidence {
    const words = this.sentence.tokens
      .slice(from, to)
      .map(({ bare }) => bare)
      .join(' ');
    return { sentence: this.sentence.index, confidence, words };
  }

  textBefore(at: number): string {
    return this.sentence.tokens
      .slice(0, at)
      .map(({ bare }) => bare)
      .join(' ');
  }

  countBefore(from: number, to: number): number | null {
    const quantity = this.sentence.quantities.find((one) => one.from >= from && one.to <= to);
    return quantity?.kind === 'number' ? quantity.value : this.word(from) === 'both' ? 2 : null;
  }

  skip(item: Item): void {
    this.skipped.add(item);
  }
}
