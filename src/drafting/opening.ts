import { fastenerHead } from './fastener-words.ts';
import type { Mention } from './mention.ts';
import type { QuantitySpan } from './quantities.ts';
import { bare, marked, phrase, quantityAt, type Sentence } from './sentence-view.ts';
import { mayName, tellingApart } from './word-classes.ts';

export interface Opening {
  readonly next: number;
  readonly article: Mention['article'];
  readonly count: number | null;
  readonly vague: boolean;
  readonly share: Mention['share'];
  readonly another: boolean;
  readonly places: readonly string[];
}

const definite = new Set(['the', 'these', 'those', 'this', 'that', 'my', 'your', 'our', 'its', 'their']);

interface Counted {
  readonly value: number;
  readonly next: number;
  readonly vague: boolean;
}

/** "a seventeen nut", "track rod end seventeen nut": one by its size. */
export function isOneOfSize({ tokens }: Sentence, { value, to }: QuantitySpan & { kind: 'number' }): boolean {
  const head = marked(tokens, to - 1) ? null : fastenerHead(tokens, to);
  return head !== null && !head.plural && value >= 6 && fastenerHead(tokens, to + 1) === null;
}

export function countAt(sentence: Sentence, at: number): Counted | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  const quantity = quantityAt(sentence, at);
  if (
    quantity?.kind === 'number' &&
    !quantity.plural &&
    quantity.high === null &&
    Number.isInteger(quantity.value) &&
    quantity.value >= 1 &&
    quantity.value <= 120 &&
    !isOneOfSize(sentence, quantity)
  )
    return { value: quantity.value, next: quantity.to, vague: false };
  const next = bare(tokens, at + 1);
  const skip = (from: number) => (bare(tokens, from) === 'of' ? from + 1 : from);
  if (/^(?:a|the|this|that)$/.test(word) && /^(?:couple|pair|dozen)$/.test(next) && !marked(tokens, at + 1))
    return { value: next === 'dozen' ? 12 : 2, next: skip(at + 2), vague: next === 'couple' };
  const [halfDozen] = /^(?:a half|half a|half) dozen\b/.exec(phrase(tokens, at, 3)) ?? [];
  if (halfDozen !== undefined) return { value: 6, next: skip(at + halfDozen.split(' ').length), vague: false };
  if (/^(?:couple|pair|dozen)$/.test(word)) return { value: word === 'dozen' ? 12 : 2, next: skip(at + 1), vague: word === 'couple' };
  return null;
}

/** "them" in place of "those": fasteners are named right after it, with something to call them by. */
function isThose({ tokens }: Sentence, at: number): boolean {
  if (marked(tokens, at) || !(at === 0 || marked(tokens, at - 1) || /^(?:and|on|of|then|so|do)$/.test(bare(tokens, at - 1)))) return false;
  for (let index = at + 1; index < at + 5; index++) {
    const head = fastenerHead(tokens, index);
    if (head !== null) return head.plural && index > at + 1;
    if (marked(tokens, index) || !(mayName(bare(tokens, index)) || tellingApart.has(bare(tokens, index)))) return false;
  }
  return false;
}

/** "another four" counts, "another fourteen" is one of that size. */
const isSmall = (sentence: Sentence, at: number) => {
  const quantity = quantityAt(sentence, at);
  return quantity?.kind === 'number' && (quantity.value < 7 || fastenerHead(sentence.tokens, quantity.to) !== null);
};

/** Articles, counts and shares before the name: "all four of the", "the other two", "another pair of". */
export function readOpening(sentence: Sentence, at: number): Opening {
  const { tokens } = sentence;
  let next = at;
  let article = 'none' as Mention['article'];
  let count: number | null = null;
  let vague = false;
  let share: Mention['share'] = null;
  let another = false;
  const places: string[] = [];
  for (let guard = 0; guard < 10; guard++) {
    if (next > at && marked(tokens, next - 1)) break;
    const word = bare(tokens, next);
    // "a 17 nut" is one by its size, and "the one in the case" is no count either.
    const counted: Counted | null =
      count === null &&
      (article !== 'indefinite' || (another && (quantityAt(sentence, next)?.kind !== 'number' || isSmall(sentence, next)))) &&
      !(word === 'one' && (article === 'definite' || places.length > 0))
        ? countAt(sentence, next)
        : null;
    if (counted !== null && !(counted.value === 1 && /^(?:a|an|this|that)$/.test(bare(tokens, next - 1)))) {
      // "front two" and "two front" both count; a size before its unit is another quantity and never gets here.
      count = counted.value;
      vague = counted.vague;
      next = counted.next;
      continue;
    }
    // "two of the three": so many of them.
    if (
      share === 'some' &&
      word !== 'one' &&
      bare(tokens, next - 1) === 'the' &&
      countAt(sentence, next) !== null &&
      quantityAt(sentence, next)?.kind === 'number'
    ) {
      next = countAt(sentence, next)?.next ?? next + 1;
      continue;
    }
    // "25 each, 13s"
    if (/^(?:each|every)$/.test(word) && count !== null) break;
    // "18, the 15s" are two things: a count runs on over "of" only.
    // "them rear flange bolts are five-eighths"
    if (word === 'them' && next === at && isThose(sentence, at)) {
      article = 'definite';
      next++;
      continue;
    }
    if (definite.has(word) && count !== null && bare(tokens, next - 1) !== 'of') break;
    if (definite.has(word)) article = article === 'all' || article === 'each' ? article : 'definite';
    else if (word === 'a' || word === 'an') article = 'indefinite';
    else if (word === 'all' && (count !== null || /^(?:told|together|up|in)$/.test(bare(tokens, next + 1)))) break;
    else if (word === 'all' || word === 'both') {
      article = 'all';
      if (word === 'both') count = 2;
    } else if (word === 'each' || word === 'every') article = 'each';
    else if (word === 'another') {
      another = true;
      article = 'indefinite';
    } else if (word === 'same' && article === 'definite') {
      // "these same four bolts"
    } else if (/^(?:other|remaining)$/.test(word) && (count !== null || article !== 'none')) share = 'others';
    else if (/^(?:rest|others)$/.test(word) && article === 'definite') share = 'others';
    else if (word === 'most') share = 'most';
    else if (word === 'more' && count !== null) another = true;
    else if (
      word === 'of' &&
      (count !== null || share !== null || article === 'all' || article === 'each') &&
      /^(?:the|these|those|them|this|that|your|my)$/.test(bare(tokens, next + 1))
    ) {
      if (article !== 'all' && article !== 'each') share ??= 'some';
    } else if (
      tellingApart.has(word) &&
      !(article === 'none' && /^(?:the|at|on)$/.test(bare(tokens, next - 1))) &&
      (countAt(sentence, next + 1) !== null || bare(tokens, next + 1) === 'pair') &&
      !marked(tokens, next)
    )
      places.push(word);
    else break;
    next++;
  }
  return { next, article, count, vague, share, another, places };
}
