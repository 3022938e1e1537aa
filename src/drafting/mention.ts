import type { Each } from './places.ts';
import type { QuantitySpan } from './quantities.ts';

/** A place in a sentence where fasteners are named: "the two front ones", "six little 10 millimeter bolts on each side". */
export interface Mention {
  readonly from: number;
  /** After the words that name it, and after those that say where it is. */
  readonly to: number;
  readonly end: number;
  /** "bolt"; null for "the front ones", "the other six". */
  readonly head: string | null;
  /** Bolts, nuts and screws are always fasteners; plugs and studs only where more is told. */
  readonly sure: boolean;
  readonly plural: boolean;
  readonly article: 'definite' | 'indefinite' | 'all' | 'each' | 'none';
  readonly count: number | null;
  /** "a couple" may be two or three. */
  readonly vague: boolean;
  /** "six of them", "the other two", "the rest": some of those named before. */
  readonly share: 'some' | 'others' | 'most' | null;
  /** "another two": never those named before. */
  readonly another: boolean;
  /** Name words, as said, without sizes and fillers. */
  readonly names: readonly string[];
  /** Words that say where it is or what it holds. */
  readonly place: readonly string[];
  /** "each side", "a wheel": how many times over. */
  readonly each: Each | null;
  /** Quantities inside the name: "four 17 millimeter bolts". */
  readonly inside: readonly QuantitySpan[];
  /** "the 12", "three 13s": named by its size alone. */
  readonly bySize: number | null;
  /** "the M8", "two M6 to the frame". */
  readonly byText: string | null;
  /** "one is a 12": only where a lot was named that it can be one of. */
  readonly needsLot: boolean;
  readonly isNew: boolean;
}
