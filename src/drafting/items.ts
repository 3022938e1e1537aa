import { readComponent } from './components.ts';
import { readFeature } from './features.ts';
import { readAside, readCounterhold, readMarker } from './markers.ts';
import type { Mention } from './mention.ts';
import { readMention } from './mentions.ts';
import { readPlace, type Each } from './places.ts';
import { isPart } from './parts.ts';
import { bare, marked, phrase, type Sentence } from './sentence-view.ts';
import type { QuantitySpan } from './quantities.ts';
import type { Token } from './tokens.ts';
import { isVerb, mayName, tellingApart } from './word-classes.ts';

interface Span {
  readonly from: number;
  readonly to: number;
}

/** A thing that is no fastener: "the crossmember", "two straps". */
export interface Component extends Span {
  readonly kind: 'component';
  readonly words: readonly string[];
  /** The word that says what it is, stemmed: the arm of "lower control arms to the subframe". */
  readonly noun: string;
  /** After a preposition, so that the sentence is not about it. */
  readonly inPlace: boolean;
  readonly count: number | null;
  readonly each: boolean;
  /** At the head of its sentence or clause. */
  readonly leads: boolean;
  /** Its last word is a part of a vehicle. */
  readonly isPart: boolean;
  /** "new", "a bit of": used up or put in between, so no topic. */
  readonly isUsedUp: boolean;
}

export type Item =
  | (Span & { readonly kind: 'mention'; readonly mention: Mention })
  | Component
  | (Span & { readonly kind: 'quantity'; readonly quantity: QuantitySpan })
  | (Span & { readonly kind: 'each'; readonly count: number; readonly each: Each })
  /** "one of each per side", "two of each" */
  | (Span & { readonly kind: 'oneOfEach'; readonly count: number })
  | (Span & { readonly kind: 'pronoun'; readonly word: string })
  | (Span & { readonly kind: 'all' })
  | (Span & { readonly kind: 'eachOne' })
  | (Span & {
      readonly kind: 'same';
      readonly what: 'torque' | 'size' | 'everything';
      readonly side: boolean;
      readonly as: boolean;
      readonly wholeSide: boolean;
    })
  | (Span & { readonly kind: 'correction' })
  /** "other way round": what was told of one is the other's. */
  | (Span & { readonly kind: 'swap' })
  | (Span & { readonly kind: 'not' })
  | (Span & { readonly kind: 'build'; readonly builds: readonly string[] })
  | (Span & { readonly kind: 'reach'; readonly text: string })
  | (Span & { readonly kind: 'drive'; readonly text: string })
  | (Span & { readonly kind: 'counterhold' })
  /** "one long, one short": said in passing. */
  | (Span & { readonly kind: 'aside' })
  | (Span & { readonly kind: 'feature'; readonly feature: 'single' | 'snug' | 'cross' | 'circular' | 'loose' | 'untouched' })
  | (Span & { readonly kind: 'condition'; readonly text: string });

export type FindBuild = (tokens: readonly Token[], at: number) => { readonly builds: readonly string[]; readonly to: number } | null;

/** What a sentence is made of, from left to right. */
export function itemsOf(sentence: Sentence, findBuild: FindBuild): readonly Item[] {
  const items: Item[] = [];
  const { tokens } = sentence;
  for (let at = 0; at < tokens.length;) {
    const item = readItem(sentence, at, items, findBuild);
    const last = items.at(-1);
    const counted = item === null || last === undefined ? null : (countedBefore(last, item) ?? countedThrough(tokens, last, item));
    if (item === null) at++;
    else {
      if (counted !== null) items.pop();
      items.push(counted ?? item);
      at = Math.max(item.to, at + 1);
    }
  }
  return items;
}

/** "one each side, M8 bolts": what was counted is named after it. */
function countedBefore(last: Item, item: Item): Item | null {
  if (last.kind !== 'each' || item.kind !== 'mention' || last.to !== item.from) return null;
  const { mention } = item;
  if (mention.count !== null || mention.each !== null || !mention.plural || mention.article !== 'none' || mention.head === null)
    return null;
  // "one per side | pinch bolts at the ball joint"
  if (mention.names.length + mention.place.length > 0) return null;
  return { ...item, from: last.from, mention: { ...mention, from: last.from, count: last.count, each: last.each } };
}

/** "four cradle to case bolts": there are no four cradle, so the bolts are counted. */
function countedThrough(tokens: readonly Token[], last: Item, item: Item): Item | null {
  if (last.kind !== 'component' || last.count === null || last.count < 2 || last.to + 1 !== item.from || bare(tokens, last.to) !== 'to')
    return null;
  if (item.kind !== 'mention' || item.mention.count !== null || !item.mention.plural || item.mention.head === null) return null;
  if (last.words.at(-1)?.endsWith('s') !== false || item.mention.article !== 'none') return null;
  const { mention } = item;
  return {
    ...item,
    from: last.from,
    mention: { ...mention, from: last.from, count: last.count, names: [...last.words, ...mention.names] },
  };
}

function readItem(sentence: Sentence, at: number, before: readonly Item[], findBuild: FindBuild): Item | null {
  const { tokens } = sentence;
  const build = findBuild(tokens, at);
  if (build !== null) return { kind: 'build', builds: build.builds, from: at, to: build.to };
  const serration = sentence.quantities.find(({ from, kind }) => from === at && kind === 'serration');
  return (
    readAside(tokens, at) ??
    (serration === undefined ? null : (fastenersAt(sentence, at, before, findBuild) ?? readValue(sentence, at))) ??
    readCounterhold(sentence, at) ??
    readFeature(tokens, at) ??
    readMarker(tokens, at) ??
    readEachCount(sentence, at) ??
    fastenersAt(sentence, at, before, findBuild) ??
    readValue(sentence, at) ??
    readPronoun(tokens, at) ??
    readComponent(sentence, at, before.findLast(({ kind }) => kind === 'mention')?.to ?? 0)
  );
}

/** "four on the F20", "four bolts on the early ones": a build is no place. */
function fastenersAt(sentence: Sentence, at: number, before: readonly Item[], findBuild: FindBuild): Item | null {
  const item = readFasteners(sentence, at, before);
  if (item?.kind !== 'mention') return item;
  let build = at + 1;
  while (build < item.to && !/^(?:on|for|with)$/.test(bare(sentence.tokens, build))) build++;
  while (build < item.to && findBuild(sentence.tokens, build) === null) build++;
  if (build >= item.to) return item;
  const { mention } = item;
  if (mention.head === null) return null;
  const own = sentence.tokens.slice(at, build).map((token) => token.bare);
  return { ...item, to: build, mention: { ...mention, to: build, end: build, place: mention.place.filter((word) => own.includes(word)) } };
}

/** "two a side", "one on each side", "five each": a count that is not yet the whole. */
function readEachCount(sentence: Sentence, at: number): Item | null {
  const both = /^one of each (?:(?:on|per|for|at) )?(?:each |every )?side\b/.exec(phrase(sentence.tokens, at, 7));
  if (both !== null) return { kind: 'oneOfEach', count: 2, from: at, to: at + both[0].split(' ').length };
  // "drain plug and fill plug, one of each"
  if (/^one of each\b(?! (?:per|for|on|at|to|in|a|of)\b)/.test(phrase(sentence.tokens, at, 4)))
    return { kind: 'oneOfEach', count: 1, from: at, to: at + 3 };
  const quantity = sentence.quantities.find(({ from }) => from === at);
  const { tokens } = sentence;
  const many = quantity?.kind === 'number' && quantity.value > 1 && quantity.value <= 12 ? quantity : null;
  if (many !== null && phrase(tokens, many.to, 2) === 'of each' && !mayName(bare(tokens, many.to + 2)))
    return { kind: 'oneOfEach', count: many.value, from: at, to: many.to + 2 };
  const pair = quantity === undefined && /^(?:a|the) pair$/.test(phrase(tokens, at, 2));
  if (
    !pair &&
    (quantity?.kind !== 'number' || quantity.value > 24 || quantity.plural || quantity.high !== null || marked(tokens, quantity.to - 1))
  )
    return null;
  // "there's a ten on each end": its size.
  if (!pair && /^(?:a|an)$/.test(bare(tokens, at - 1)) && at > 0) return null;
  const next = pair ? at + 2 : (quantity?.to ?? at);
  const place = readPlace(sentence, next);
  if (place?.each == null) return null;
  const before = at === 0 || marked(tokens, at - 1) ? '' : bare(tokens, at - 1);
  // "47 on each" is a torque.
  if (
    !pair &&
    quantity?.kind === 'number' &&
    (quantity.value > 12 || (/^(?:to|at|get|gets|about|torque|'re|are|is|'s)$/.test(before) && quantity.value > 8))
  )
    return null;
  return { kind: 'each', count: pair ? 2 : quantity?.kind === 'number' ? quantity.value : 0, each: place.each, from: at, to: place.end };
}

function readFasteners(sentence: Sentence, at: number, before: readonly Item[]): Item | null {
  const { tokens } = sentence;
  if (/^(?:each|every) (?:one )?of (?:them|those|these)\b/.test(phrase(tokens, at, 4))) return null;
  const pair = readPair(sentence, at);
  if (pair !== null) return pair;
  const mention = readMention(sentence, at);
  if (mention === null) return null;
  const previous = at === 0 || marked(tokens, at - 1) ? '' : bare(tokens, at - 1);
  if (mention.head === null && mention.names.length === 0) {
    // "are all 18": a size after all, not eighteen of them.
    if (mention.article === 'all' && /^(?:are|'re)$/.test(previous) && (mention.count ?? 0) > 4) return null;
    if (mention.article === 'all' && mention.bySize === null && mention.share === null)
      return { kind: 'all', from: mention.from, to: mention.inside[0]?.from ?? mention.to };
    if (mention.article === 'each') return { kind: 'eachOne', from: mention.from, to: mention.to };
  }
  if (mention.article === 'each' && mention.head === null) return { kind: 'eachOne', from: mention.from, to: mention.to };
  // "transfer case to adapter nuts": a name that runs over "to".
  const last = before.at(-1);
  const joined =
    last?.kind === 'component' &&
    last.to === at - 1 &&
    /^(?:to|and|at)$/.test(previous) &&
    mention.article === 'none' &&
    mention.count === null &&
    mention.head !== null &&
    previous !== 'and' &&
    !marked(tokens, last.to - 1);
  const widened = joined ? { ...mention, names: [...last.words, ...mention.names] } : mention;
  return { kind: 'mention', mention: widened, from: widened.from, to: widened.end };
}

/** "the front and the back ones": each is a mention of its own. */
function readPair(sentence: Sentence, at: number): Item | null {
  const { tokens } = sentence;
  const first = bare(tokens, at) === 'the' ? at + 1 : at;
  if (!tellingApart.has(bare(tokens, first)) || bare(tokens, first + 1) !== 'and' || marked(tokens, first)) return null;
  const second = bare(tokens, first + 2) === 'the' ? first + 3 : first + 2;
  if (!tellingApart.has(bare(tokens, second)) || bare(tokens, first) === bare(tokens, second)) return null;
  const other = readMention(sentence, first + 2);
  if (other === null || other.names[0] !== bare(tokens, second)) return null;
  const mention: Mention = {
    ...other,
    from: at,
    to: first + 1,
    end: first + 1,
    count: null,
    article: 'definite',
    names: [bare(tokens, first), ...other.names.slice(1)],
    place: [],
    inside: [],
  };
  return { kind: 'mention', mention, from: at, to: first + 1 };
}

function readValue(sentence: Sentence, at: number): Item | null {
  const quantity = sentence.quantities.find(({ from }) => from === at);
  if (quantity === undefined) return null;
  // "13 millimetre head", "a 17 socket": the word after says only whose size it is.
  const { tokens } = sentence;
  const sized =
    (quantity.kind === 'width' || quantity.kind === 'number' || quantity.kind === 'serration') && !marked(tokens, quantity.to - 1);
  const named = sized && /^(?:heads?|headed|sockets?|spanner|wrench|wrenches)$/.test(bare(tokens, quantity.to));
  return { kind: 'quantity', quantity, from: quantity.from, to: quantity.to + (named ? 1 : 0) };
}

function readPronoun(tokens: readonly Token[], at: number): Item | null {
  const word = bare(tokens, at);
  if (/^(?:everybody|everyone|everything)$/.test(word)) return { kind: 'all', from: at, to: at + 1 };
  if (/^(?:each|every) (?:one )?of (?:them|those|these)\b/.test(phrase(tokens, at, 4)))
    return { kind: 'eachOne', from: at, to: at + (bare(tokens, at + 1) === 'one' ? 4 : 3) };
  if (/^(?:each|every|per)$/.test(word) && /^(?:side|end|corner)$/.test(bare(tokens, at + 1)))
    return { kind: 'eachOne', from: at, to: at + 2 };
  if (word === 'all' && /^(?:they|those|these|them|'re)$/.test(bare(tokens, at - 1))) return { kind: 'all', from: at, to: at + 1 };
  if (
    word === 'each' &&
    (marked(tokens, at) || at + 1 >= tokens.length || /^(?:one|gets?|takes?|has|have|'s|is|needs?|with|got)$/.test(bare(tokens, at + 1)))
  )
    return { kind: 'eachOne', from: at, to: at + (bare(tokens, at + 1) === 'one' ? 2 : 1) };
  const namesPair = word === 'both' && /[^s]s$/.test(bare(tokens, at + 1)) && isPart(bare(tokens, at + 1)) && !isVerb(tokens, at + 1);
  if (word === 'both' && !namesPair && !/^(?:sides?|ends?|builds?|of|the|your|my)$/.test(bare(tokens, at + 1)))
    return { kind: 'all', from: at, to: at + 1 };
  // "these little braces" names them.
  if (
    /^(?:these|those)$/.test(word) &&
    !marked(tokens, at) &&
    (mayName(bare(tokens, at + 1)) || tellingApart.has(bare(tokens, at + 1))) &&
    !isVerb(tokens, at + 1)
  )
    return null;
  // "the cover over that window"
  const isDeterminer =
    /^(?:this|that)$/.test(word) &&
    !marked(tokens, at) &&
    /^(?:over|under|underneath|behind|above|below|beneath|beside|near|between|inside)$/.test(bare(tokens, at - 1)) &&
    mayName(bare(tokens, at + 1)) &&
    !isVerb(tokens, at + 1);
  if (isDeterminer) return null;
  return /^(?:they|them|it|these|those|this|that)$/.test(word) ? { kind: 'pronoun', word, from: at, to: at + 1 } : null;
}
