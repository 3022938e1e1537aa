import type { Evidence } from './groups.ts';
import type { Component, Item } from './items.ts';
import { readPlace, type Place } from './places.ts';
import type { QuantitySpan } from './quantities.ts';
import type { SaidSentence } from './sentences.ts';
import type { Talk } from './talk.ts';
import type { Thing } from './things.ts';

/** What one sentence says, while it is being heard: what was named so far, and what the next value would be about. */
export class Hearing {
  readonly talk: Talk;
  readonly sentence: SaidSentence;
  readonly items: readonly Item[];
  builds: readonly string[] = [];
  readonly components: Component[] = [];
  /** The last thing named that the sentence speaks of, and where. */
  thing: Thing | null = null;
  thingItem: Component | null = null;
  thingAt = -1;
  /** The thing that the sentence begins with. */
  leading: Thing | null = null;
  /** Up to there what is told belongs to the tool that only holds. */
  heldUntil = -1;
  /** Where fasteners were last named or meant; -1 where the sentence has named none yet. */
  freshAt = -1;
  /** "each bracket has …": what is counted next is there so many times. */
  times: { readonly by: number | null; readonly of: string } | null = null;
  /** The thing whose number was just told. */
  counted: Thing | null = null;
  correcting = false;
  /** Where the sentence puts something right; before its start where the last one ended so. */
  correctedAt: number | null = null;
  /** A second size was told of what had one: whose the torque after it is nobody can say. */
  contradicted = false;
  negated = false;
  holding = false;
  /** The nut of a bolt, or the bolt of a nut, was named last: a size is then that one's. */
  onMate = false;
  /** "the same on the other side" was said: "two more" after it are those. */
  doubled = false;
  readonly pending: QuantitySpan[] = [];
  /** Where the last value ended. */
  valueEnd = -1;
  lastTelling: { readonly to: number; readonly undo: (builds: readonly string[]) => void } | null = null;
  readonly skipped = new Set<Item>();

  readonly following: SaidSentence | null;

  constructor(talk: Talk, sentence: SaidSentence, items: readonly Item[], following: SaidSentence | null) {
    this.talk = talk;
    this.sentence = sentence;
    this.items = items;
    this.following = following;
  }

  /** A place in the talk that grows from word to word, so that two things can be put in order. */
  now(at: number): number {
    return this.sentence.index * 10_000 + at;
  }

  word(at: number): string {
    return this.sentence.tokens[at]?.bare ?? '';
  }

  open(at: number): boolean {
    return (this.sentence.tokens[at]?.mark ?? '') === '';
  }

  words(from: number, to: number): string {
    return this.sentence.tokens
      .slice(Math.max(0, from), to)
      .map(({ bare }) => bare)
      .join(' ');
  }

  placeAt(at: number): Place | null {
    return readPlace(this.sentence, at);
  }

  evidence(from: number, to: number, confidence: number): Evidence {
    return { sentence: this.sentence.index, confidence, words: this.words(from, to), from: Math.max(0, from) };
  }

  /** "all four", "both": the number in it. */
  countAt(from: number, to: number): number | null {
    const quantity = this.sentence.quantities.find((one) => one.from >= from && one.to <= to);
    return quantity?.kind === 'number' ? quantity.value : this.word(from) === 'both' ? 2 : null;
  }

  /** "the fill plug and the drain plug, they're both 22": the two things named just before. */
  pairOfThings(at: number): readonly Component[] {
    const [second, first] = this.items.filter(({ kind, to }) => kind !== 'pronoun' && to <= at).reverse();
    if (first?.kind !== 'component' || second?.kind !== 'component' || first.inPlace || second.inPlace) return [];
    return this.words(first.to, second.from) === 'and' ? [first, second] : [];
  }

  skip(item: Item): void {
    this.skipped.add(item);
  }
}
