import { fastenerHead } from './fastener-words.ts';
import { endsName, isPart, isUsedUp, nounOf } from './parts.ts';
import type { Mention } from './mention.ts';
import { readMention } from './mentions.ts';
import { readPlace, type Each } from './places.ts';
import { bare, marked, phrase, type Sentence } from './sentence-view.ts';
import type { QuantitySpan } from './quantities.ts';
import type { Token } from './tokens.ts';
import { conjunctions, determiners, isInCase, isVerb, mayName, prepositions, stemOf, tellingApart, toolWords } from './word-classes.ts';

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
  /** "one of each per side" */
  | (Span & { readonly kind: 'oneOfEach' })
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
    if (item === null) at++;
    else {
      items.push(item);
      at = Math.max(item.to, at + 1);
    }
  }
  return items;
}

function readItem(sentence: Sentence, at: number, before: readonly Item[], findBuild: FindBuild): Item | null {
  const { tokens } = sentence;
  const build = findBuild(tokens, at);
  if (build !== null) return { kind: 'build', builds: build.builds, from: at, to: build.to };
  const serration = sentence.quantities.find(({ from, kind }) => from === at && kind === 'serration');
  return (
    readAside(tokens, at) ??
    (serration === undefined ? null : (readFasteners(sentence, at, before) ?? readValue(sentence, at))) ??
    readFeature(tokens, at) ??
    readMarker(tokens, at) ??
    readCounterhold(sentence, at) ??
    readEachCount(sentence, at) ??
    readFasteners(sentence, at, before) ??
    readValue(sentence, at) ??
    readPronoun(tokens, at) ??
    readComponent(sentence, at, before.findLast(({ kind }) => kind === 'mention')?.to ?? 0)
  );
}

/** "one long one short", "one long one and one short one". */
function readAside(tokens: readonly Token[], at: number): Item | null {
  const text = phrase(tokens, at, 8);
  const found = /^one (\w+) (?:one )?(?:and )?one (\w+)(?: one)?\b/.exec(text);
  if (found === null || !tellingApart.has(found[1] ?? '') || !tellingApart.has(found[2] ?? '')) return null;
  return { kind: 'aside', from: at, to: at + found[0].split(' ').length };
}

/** Corrections, negations, sameness, and the spanner that only holds. */
function readMarker(tokens: readonly Token[], at: number): Item | null {
  const span = (length: number) => ({ from: at, to: at + length });
  const word = bare(tokens, at);
  if (/^(?:the )?other way (?:round|around)/.test(phrase(tokens, at, 4))) return { kind: 'swap', ...span(word === 'the' ? 4 : 3) };
  if (word === 'no') {
    const length = [4, 3, 2].find((one) => corrections.has(phrase(tokens, at + 1, one)));
    if (length !== undefined) return { kind: 'correction', ...span(1 + length) };
  }
  for (const length of [5, 4, 3, 2]) {
    if (corrections.has(phrase(tokens, at, length))) return { kind: 'correction', ...span(length) };
  }
  if (
    /^(?:sorry|correction|scratch|oops|whoops|nope)$/.test(word) ||
    (word === 'wait' && /^(?:no|[\d]|i|it)/.test(bare(tokens, at + 1))) ||
    (word === 'actually' && /^(?:no|it|they|make|that)$/.test(bare(tokens, at + 1)))
  )
    return { kind: 'correction', ...span(1) };
  if (word === 'no' && at === 0 && marked(tokens, at) && /^\d/.test(bare(tokens, at + 1))) return { kind: 'correction', ...span(1) };
  if (
    word === 'no' &&
    (marked(tokens, at) || numberWord.test(bare(tokens, at + 1)) || /^(?:it|they|that|those|sorry|wait)$/.test(bare(tokens, at + 1))) &&
    at > 0
  )
    return { kind: 'correction', ...span(1) };
  if (/^(?:not|never|n't|isn't|aren't|ain't|wasn't|don't)$/.test(word) && !/^(?:only|just|yet|sure)$/.test(bare(tokens, at + 1)))
    return { kind: 'not', ...span(1) };
  if ((word === 'instead' || word === 'rather') && /^(?:of|than)$/.test(bare(tokens, at + 1))) return { kind: 'not', ...span(2) };
  if (
    /^(?:used to be|supposed to be|used to say|no more than|not more than|less than|more than|not over|instead of)$/.test(
      phrase(tokens, at, 3),
    ) ||
    /^(?:more than|less than|instead of|up from|down from)$/.test(phrase(tokens, at, 2))
  )
    return {
      kind: 'not',
      ...span(
        phrase(tokens, at, 3) === 'used to be' || phrase(tokens, at, 3) === 'no more than' || phrase(tokens, at, 3) === 'used to say'
          ? 3
          : 2,
      ),
    };
  return readSame(tokens, at);
}

const corrections = new Set([
  'no sorry',
  'no wait',
  'wait no',
  'sorry no',
  'i mean',
  'make that',
  'scratch that',
  'strike that',
  'let me correct that',
  'my mistake',
  'my bad',
  "that's wrong",
  'that is wrong',
  "that 's wrong",
  "that 's not right",
  'not right',
  'i misspoke',
  'i take that back',
  'excuse me',
  'hang on',
  'hold on a second',
  'let me check',
  'or rather',
  'i meant',
  'i should say',
  'take that back',
  'i said that wrong',
  'correct that',
  'no no',
  'i lied',
  'i tell a lie',
  'tell a lie',
  'no i tell a lie',
  'wait wait',
  'oh wait',
  "no that 's",
  'actually i think',
  'actually i believe',
  'call it',
  'no actually',
  'what am i saying',
]);

const numberWord =
  /^(?:\d.*|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred)$/;

function readSame(tokens: readonly Token[], at: number): Item | null {
  const word = bare(tokens, at);
  const text = phrase(tokens, at, 9);
  const whole =
    /^(?:do )?(?:exactly |just )?(?:the )?(?:whole|entire) other side\b|^(?:exactly the same|all (?:of )?that|the whole thing|everything|all of this|all this)\b.*\b(?:other|opposite) side\b/.test(
      text,
    );
  const span = (length: number) => ({ from: at, to: Math.min(tokens.length, at + length) });
  if (whole) return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: true, ...span(1) };
  const wayOnly = /^(?:the )?(?:exact )?same way\b/.test(text) && /^(?:is|are|'s|'re)$/.test(bare(tokens, at - 1));
  const marker = /^(?:the )?(?:exact )?(?:same|identical)\b/.exec(text) ?? /^(?:exactly )?(?:the )?same\b/.exec(text);
  if (marker === null) {
    if (/^(?:ditto|likewise)$/.test(word))
      return { kind: 'same', what: 'everything', side: false, as: false, wholeSide: false, ...span(1) };
    if (/^(?:double that|double it|double those|times two|twice that|double everything)\b/.test(text))
      return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: false, ...span(2) };
    if (/^(?:repeat|do)\b.*\b(?:for|on) the (?:other|opposite) side\b/.test(text) && !/\b(?:first|then)\b/.test(text))
      return {
        kind: 'same',
        what: 'everything',
        side: true,
        as: false,
        wholeSide: /\b(?:that|this|it|all|everything)\b/.test(text),
        ...span(1),
      };
    if (/^(?:and )?do both sides\b/.test(text))
      return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: false, ...span(3) };
    if (/^(?:do )?the other side (?:is |'s )?(?:the )?(?:exact )?same\b/.test(text))
      return { kind: 'same', what: 'everything', side: true, as: false, wholeSide: false, ...span(6) };
    return null;
  }
  const length = marker[0].split(' ').length;
  const next = bare(tokens, at + length);
  if (/^(?:deal|story|idea)$/.test(next)) return null;
  const rest = phrase(tokens, at + length, 6);
  const side =
    /^(?:again |thing |deal |story |way |setup |on |for |over |again on |is )*(?:on |for )?(?:the )?(?:other|opposite|passenger|driver|driver 's|passenger 's|left|right) (?:hand )?side\b/.test(
      rest,
    ) ||
    /^(?:again |thing |deal )*(?:on|for|over on) (?:the )?(?:left|right|other|other one|offside|nearside)(?: now| then| too)?$/.test(
      phrase(tokens, at + length, 8),
    ) ||
    /\b(?:left|right|other|opposite|passenger|driver|driver 's) (?:hand )?(?:side|one) (?:is|'s|gets|goes)(?: in| on)?(?: exactly| just)?$/.test(
      phrase(tokens, at - 8, 8),
    );
  // "these same four bolts" names fasteners; "same" alone compares.
  if (/^(?:these|those|this|that)$/.test(word) || /^(?:these|those)$/.test(bare(tokens, at - 1))) return null;
  const what = /^(?:torques?|tightness|spec|figure|foot|newton|value|setting|pounds)$/.test(next)
    ? 'torque'
    : /^(?:sizes?|sockets?|heads?|hardware|wrench|spanner)$/.test(next)
      ? 'size'
      : 'everything';
  if (!wayOnly && /^(?:bolts?|nuts?|screws?|time|hole|holes|place|spot|side|way|kind|type|idea|principle|reason)$/.test(next)) return null;
  if (fastenerHead(tokens, at + length + 1) !== null && what === 'everything' && mayName(next)) return null;
  const asAt = what === 'everything' && !/^(?:again|thing|deal|for|story)$/.test(next) ? at + length : at + length + 1;
  return {
    kind: 'same',
    what,
    side,
    as: bare(tokens, asAt) === 'as',
    wholeSide: false,
    ...span(side ? length : asAt - at + (bare(tokens, asAt) === 'as' ? 1 : 0)),
  };
}

/** "hold the bolt with a 15": the size after it belongs to the tool that holds, not to what is turned. */
function readCounterhold(sentence: Sentence, at: number): Item | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  if (!/^(?:hold|holding|counterhold|lock|locking|turn|turning|rotate|stop|keep)$/.test(word)) return null;
  const clause = tokens.slice(at + 1, at + 10);
  const end = clause.findIndex(({ bare: next }) => /^(?:and|then|while|so)$/.test(next));
  const words = (end < 0 ? clause : clause.slice(0, end)).map((token) => token.bare);
  const using = words.findIndex((next) => /^(?:with|using)$/.test(next));
  if (using < 0) return null;
  if (
    /^(?:turn|turning|rotate|stop|keep)$/.test(word) &&
    words.slice(0, using).some((next) => /^(?:nuts?|bolts?|screws?|it|them|those)$/.test(next))
  )
    return null;
  const size = at + using + 2;
  const held = sentence.quantities.find(({ kind, from }) => /^(?:width|number|serration)$/.test(kind) && from >= size && from <= size + 2);
  if (held === undefined || (held.kind === 'number' && (held.value < 7 || fastenerHead(tokens, held.to) !== null))) return null;
  return { kind: 'counterhold', from: at, to: size };
}

function readFeature(tokens: readonly Token[], at: number): Item | null {
  const word = bare(tokens, at);
  const text = phrase(tokens, at, 6);
  const span = (length: number) => ({ from: at, to: at + length });
  const match = (pattern: RegExp) => pattern.exec(text)?.[0].split(' ').length ?? 0;
  const single = match(
    /^(?:one time use|single use|one time|never (?:be )?reused?|not (?:be )?reused?|don't reuse|torque to yield|stretch bolts?|tty|have to be new|has to be new|got to be new|must be new|new ones|throw (?:the|those|them|away|out)(?: old| ones)*)\b/,
  );
  if (single > 0) return { kind: 'feature', feature: 'single', ...span(single) };
  const cross = match(
    /^(?:criss ?cross|crisscross|cross wise|crosswise|star pattern|in a star|like a star|like an x|in an x|in a cross|cross pattern|across and across|diagonally|opposite corners|across the corners)\b/,
  );
  if (cross > 0) return { kind: 'feature', feature: 'cross', ...span(cross) };
  const round = match(/^(?:around in a circle|in a circle|clockwise in order|round and round)\b/);
  if (round > 0) return { kind: 'feature', feature: 'circular', ...span(round) };
  const snug = match(
    /^(?:just snug|snug|hand tight|finger tight|nipped up|nip (?:it|them) up|good and tight|good n tight|tight by hand)\b/,
  );
  if (snug > 0) return { kind: 'feature', feature: 'snug', ...span(snug) };
  const untouched = match(/^(?:don't touch|don't mess with|leave (?:it|that|them|those) alone)\b/);
  if (untouched > 0) return { kind: 'feature', feature: 'untouched', ...span(untouched) };
  const loose = match(/^(?:leave (?:it|them|those|that) loose|don't (?:torque|tighten) (?:it|them|those|these|this|that|anything)?)/);
  if (loose > 0) return { kind: 'feature', feature: 'loose', ...span(loose) };
  const condition = match(
    /^(?:(?:a )?(?:little |tiny )?(?:bit|dab|drop|dot) of )?(?:(?:blue|red|green|medium|high strength) )?(?:thread ?lock(?:er)?|thread sealant|thread sealer|locking compound|stud lock|anti seize|antiseize|copper grease|thread lock)\b/,
  );
  if (condition > 0 && !/^(?:on|a|of)$/.test(word))
    return { kind: 'condition', text: phrase(tokens, at, condition).replace(/^.* of /, ''), ...span(condition) };
  const deep = match(/^(?:deep (?:well )?(?:socket|impact|one)|deep well|deepwell)\b/);
  if (deep > 0) return { kind: 'reach', text: 'deep socket', ...span(deep) };
  const joint = match(
    /^(?:swivel(?: socket| joint| on it| end)?|universal(?: joint| socket)?|u joint socket|wobble (?:socket|extension|end|bar)|wobbly (?:socket|extension)|flex (?:socket|joint)|knuckle (?:joint|bar) on)\b/,
  );
  if (joint > 0 && !/^universal joint (?:strap|cap|on the|bolt|cross)/.test(text))
    return { kind: 'reach', text: 'universal joint', ...span(joint) };
  const crowfoot = match(/^(?:crow ?foot|crows? ?feet|crow's foot)\b/);
  if (crowfoot > 0) return { kind: 'reach', text: 'crowfoot', ...span(crowfoot) };
  if (/^extensions?$/.test(word)) return { kind: 'reach', text: 'extension', ...span(1) };
  const allen = match(
    /^(?:allen(?: key| bolt| head| bit| wrench| screw)?s?|allens|hex keys?|hex bits?|hexagon (?:bit|key|socket)|socket head(?: cap)?|socket cap|hexagon bits?|in hex|inhex|inner hex(?:agon)?|internal hex(?:agon)?)\b/,
  );
  // "Allen bolts" names fasteners, so only the adjective is taken.
  if (allen > 0)
    return { kind: 'drive', text: 'socket-head hex', ...span(/^(?:bolt|screw)s?$/.test(bare(tokens, at + allen - 1)) ? allen - 1 : allen) };
  const points = match(/^(?:twelve points?(?: heads?)?|12 points?(?: heads?)?|bi ?hex(?:agon)?|double hex(?:agon)?)\b/);
  if (points > 0) return { kind: 'drive', text: 'bihex', ...span(points) };
  if (/^(?:torx)$/.test(word)) return { kind: 'drive', text: 'internal serration', ...span(1) };
  return null;
}

/** "two a side", "one on each side", "five each": a count that is not yet the whole. */
function readEachCount(sentence: Sentence, at: number): Item | null {
  const both = /^one of each (?:(?:on|per|for|at) )?(?:each |every )?side\b/.exec(phrase(sentence.tokens, at, 7));
  if (both !== null) return { kind: 'oneOfEach', from: at, to: at + both[0].split(' ').length };
  const quantity = sentence.quantities.find(({ from }) => from === at);
  const { tokens } = sentence;
  const pair = quantity === undefined && /^(?:a|the) pair$/.test(phrase(tokens, at, 2));
  if (
    !pair &&
    (quantity?.kind !== 'number' || quantity.value > 24 || quantity.plural || quantity.high !== null || marked(tokens, quantity.to - 1))
  )
    return null;
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
      return { kind: 'all', from: mention.from, to: mention.to };
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
  if (/^(?:each|every)$/.test(word) && /^(?:side|end|corner)$/.test(bare(tokens, at + 1))) return { kind: 'eachOne', from: at, to: at + 2 };
  if (word === 'all' && /^(?:they|those|these|them|'re)$/.test(bare(tokens, at - 1))) return { kind: 'all', from: at, to: at + 1 };
  if (
    word === 'each' &&
    (marked(tokens, at) || at + 1 >= tokens.length || /^(?:one|gets?|takes?|has|have|'s|is|needs?|with|got)$/.test(bare(tokens, at + 1)))
  )
    return { kind: 'eachOne', from: at, to: at + (bare(tokens, at + 1) === 'one' ? 2 : 1) };
  if (word === 'both' && !/^(?:sides?|ends?|builds?|of|the|your|my)$/.test(bare(tokens, at + 1)))
    return { kind: 'all', from: at, to: at + 1 };
  // "these little braces" names them.
  if (
    /^(?:these|those)$/.test(word) &&
    !marked(tokens, at) &&
    (mayName(bare(tokens, at + 1)) || tellingApart.has(bare(tokens, at + 1))) &&
    !isVerb(tokens, at + 1)
  )
    return null;
  return /^(?:they|them|it|these|those|this|that)$/.test(word) ? { kind: 'pronoun', word, from: at, to: at + 1 } : null;
}

/** A thing named by the words that may name things, up to the first that may not. */
function readComponent(sentence: Sentence, at: number, heard = 0): Component | null {
  const { tokens } = sentence;
  let index = at;
  let count: number | null = null;
  let each = false;
  for (let guard = 0; guard < 5; guard++) {
    const word = bare(tokens, index);
    if (word === 'no') return null;
    if (word === 'both' && /^(?:of|the|your|my)$/.test(bare(tokens, index + 1)) && !marked(tokens, index)) {
      count = 2;
      index += bare(tokens, index + 1) === 'of' ? 2 : 1;
    } else if (determiners.has(word) && !marked(tokens, index)) {
      each ||= word === 'each' || word === 'every';
      index++;
    } else break;
  }
  const before = at === 0 || marked(tokens, at - 1) ? '' : bare(tokens, at - 1);
  // After "it", "they" or "don't" comes what is done, whatever the word.
  const object = /^(?:it|you)$/.test(before) && (isVerb(tokens, at - 2) || prepositions.has(bare(tokens, at - 2)));
  if (
    index === at &&
    !object &&
    /^(?:i|you|we|they|it|he|she|'ll|will|can|could|should|would|don't|doesn't|didn't|won't|can't|must|may|might|please|let's)$/.test(
      before,
    )
  )
    return null;
  if (/^(?:both|each|either)$/.test(bare(tokens, at)) && /^(?:sides?|ends?)$/.test(bare(tokens, index))) return null;
  const words: string[] = [];
  const start = index;
  for (; index < tokens.length && words.length < 6; index++) {
    if (index > start && marked(tokens, index - 1)) break;
    const word = bare(tokens, index);
    if (sentence.quantities.some(({ from }) => from === index) || isVerb(tokens, index)) break;
    if (/^(?:ones?)$/.test(word)) break;
    const head = fastenerHead(tokens, index);
    if (head !== null && !head.sure && head.plural && words.length > 0) break;
    if (head !== null && (head.sure || head.name === 'stud')) return null;
    // "the turbo bolts to the manifold": what it does, no part of its name.
    if (head === null && /^(?:bolts?|screws?|plugs?)$/.test(word) && prepositions.has(bare(tokens, index + 1))) break;
    if ((!mayName(word) && !tellingApart.has(word)) || isInCase(tokens, index)) break;
    if (word === 'half' && !mayName(bare(tokens, index + 1))) break;
    if (!tellingApart.has(word) || index + 1 < tokens.length) words.push(word);
    // "the axle end | shock absorbers"
    if (/^(?:end|side)$/.test(word) && words.length > 1 && fastenerHead(tokens, index + 1) === null && mayName(bare(tokens, index + 1))) {
      index++;
      break;
    }
    // "four push pins lug nuts": a thing in the plural ends its name.
    if (endsName(tokens, index)) {
      index++;
      break;
    }
  }
  while (words.length > 0 && (isFiller(words[0] ?? '') || words[0] === 'new')) words.shift();
  if (words.at(-1) === 'right' && /^(?:here|there|in|on|up|now)$/.test(bare(tokens, index))) words.pop();
  // "it's flush", "go easy": how it is, not what it is.
  const subject = bare(tokens, at - 2);
  if (
    words.length === 1 &&
    index === at + 1 &&
    /^(?:is|are|'s|'re|be|aren't|isn't|go|feels?|looks?)$/.test(before) &&
    !/^(?:next|this|that|first|last|up|here)$/.test(subject)
  )
    return null;
  // "the holding tool water pump": what stands before a tool is no part of the name after it.
  const tool = words.findLastIndex(
    (word, place) =>
      (toolWords.has(word) && !/^(?:torque|universal)$/.test(word) && !(word === 'driver' && words[place + 1] === 'side')) ||
      smeared.test(word),
  );
  if (tool >= 0 && tool < words.length - 1) words.splice(0, tool + 1);
  if (
    words.length === 1 &&
    /^(?:bar|bars)$/.test(words[0] ?? '') &&
    /^(?:breaker|pry|power|extension|strong)$/.test(bare(tokens, index - 2))
  )
    return null;
  if (words.length === 1 && /^heads?$/.test(words[0] ?? '')) return null;
  if (
    words.length === 0 ||
    words.every((word) => isFiller(word) || tellingApart.has(word)) ||
    toolWords.has(words.at(-1) ?? '') ||
    words.every((word) => toolWords.has(word))
  )
    return null;
  const counted = sentence.quantities.find(({ to }) => to === at);
  if (counted?.kind === 'number' && counted.value >= 1 && counted.value <= 12 && !marked(tokens, counted.to - 1) && counted.from >= heard)
    count = counted.value;
  // "we start with the lower arm", "on to the pan": what the talk turns to.
  const turning =
    /(?:start|starting|begin|beginning|moving|move|go|going|over|on|back|come|get|getting|jump|ahead) (?:with|to|onto|on to)$|(?:moving on|next up|up next|(?:last|first) of all)$/.test(
      phrase(tokens, Math.max(0, at - 3), Math.min(3, at)),
    );
  // "work out, alternator …": a particle, not a place.
  const afterPronoun =
    /^(?:out|off|up|down|back|in|on|over|away)$/.test(before) &&
    /^(?:it|that|them|this|those)$/.test(bare(tokens, at - 2)) &&
    !determiners.has(bare(tokens, at));
  const particle =
    afterPronoun ||
    (/^(?:up|down|out|off)$/.test(before) &&
      start === at &&
      isPart(nounOf(words)) &&
      [3, 4, 5, 6].some((back) => isVerb(tokens, at - back))) ||
    (/^(?:out|off|up|down|on|in|over)$/.test(before) && !determiners.has(bare(tokens, at)) && isVerb(tokens, at - 2));
  const inPlace = prepositions.has(before) && before !== 'like' && !turning && !particle;
  const noun = nounOf(words);
  // "the clamp on the hose", "the mount to the gearbox"
  for (
    let guard = 0;
    guard < 2 && !marked(tokens, index - 1) && /^(?:of|on|for|to|in|at|under|by|behind|from)$/.test(bare(tokens, index));
    guard++
  ) {
    const more = readComponent(sentence, index + 1);
    if (
      more === null ||
      (bare(tokens, index) === 'on' && !determiners.has(bare(tokens, index + 1))) ||
      more.count !== null ||
      more.each ||
      tokens.slice(more.from, more.to).some((_, offset) => fastenerHead(tokens, more.from + offset) !== null)
    )
      break;
    words.push(...more.words.filter((word) => !words.includes(word)));
    index = more.to;
  }
  const leads =
    before === '' ||
    conjunctions.has(before) ||
    /^(?:okay|now|then|next|alright|uh|um|right|well|also|and|is|'s|are)$/.test(before) ||
    // "now you've got these braces" turns to the braces.
    (counted !== undefined && /^(?:'s|is|are|got|have|has|'ve)$/.test(bare(tokens, counted.from - 1))) ||
    (/^(?:got|have|'ve)$/.test(before) && /^(?:'ve|we|you|i|then)$/.test(bare(tokens, at - 2)));
  const fresh = tokens.slice(at, start + 1).some(({ bare: word }) => word === 'new');
  return {
    kind: 'component',
    words,
    noun,
    inPlace,
    count,
    each,
    leads,
    isPart: isPart(noun),
    isUsedUp: isUsedUp(noun) || (fresh && !isPart(noun)),
    from: at,
    to: index,
  };
}

/** Stuff that is put on; what is named after it is another thing. */
const smeared = /^(?:locker|sealant|sealer|grease|paste|compound|cleaner|seize|loctite|tape)$/;

const fillers = new Set(
  'today tomorrow stuff thing video okay way bit lot pain bear idea side end ends sides hand part course same'.split(' '),
);
const isFiller = (word: string) => fillers.has(word) || fillers.has(stemOf(word));
