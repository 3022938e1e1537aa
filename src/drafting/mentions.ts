import { fastenerHead } from './fastener-words.ts';
import type { QuantitySpan } from './quantities.ts';
import type { Token } from './tokens.ts';
import { determiners, isVerb, mayName, placePrepositions, prepositions, stemOf, tellingApart, toolWords } from './word-classes.ts';
import { tableOf } from '../torque/table.ts';

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

/** For each of what; `times` where the words alone tell: a side is one of two. */
export interface Each {
  readonly of: readonly string[];
  readonly times: number | null;
}

export interface Sentence {
  readonly tokens: readonly Token[];
  readonly quantities: readonly QuantitySpan[];
}

const bare = (tokens: readonly Token[], at: number) => tokens[at]?.bare ?? '';
const marked = (tokens: readonly Token[], at: number) => (tokens[at]?.mark ?? '') !== '';

const definite = new Set(['the', 'these', 'those', 'this', 'that', 'my', 'your', 'our', 'its', 'their']);
const unspoken = new Set([
  'new',
  'old',
  'same',
  'good',
  'nice',
  'regular',
  'normal',
  'whole',
  'proper',
  'actual',
  'single',
  'individual',
  'own',
  'existing',
  'original',
  'fresh',
  'own',
  'only',
  'just',
  'of',
  'more',
  'extra',
  'separate',
  'identical',
  'different',
  'special',
  'standard',
  'plain',
  'ordinary',
  'obvious',
]);

const sides: Readonly<Record<string, number>> = tableOf<number>({ side: 2, sides: 2, end: 2, ends: 2, corner: 4, corners: 4 });

/** Reads what is named at that token, or null where nothing of the kind is. */
export function readMention(sentence: Sentence, at: number): Mention | null {
  // "that's a 10": the number after the article is a size, whatever follows.
  if (/^(?:a|an|grade|class)$/.test(bare(sentence.tokens, at - 1)) && quantityAt(sentence, at) !== null) return null;
  // "the through bolt is 74, front engine mount …"
  const large = quantityAt(sentence, at);
  if (
    large?.kind === 'number' &&
    large.digits &&
    large.value > 12 &&
    /^(?:is|are|'s|'re|to|get|gets|at|about)$/.test(bare(sentence.tokens, at - 1)) &&
    !/^(?:of)$/.test(bare(sentence.tokens, large.to)) &&
    fastenerHead(sentence.tokens, large.to) === null
  )
    return null;
  return readBySize(sentence, at) ?? readNamed(sentence, at) ?? readElliptic(sentence, at);
}

/** "the 12 goes to", "one 14 in the middle", "a 15 at the cradle end": one of a lot, told by its size. */
function readBySize(sentence: Sentence, at: number): Mention | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  const counted = /^(?:the|a|an)$/.test(word) ? null : countAt(sentence, at);
  const from = counted === null ? at + 1 : counted.next;
  if (counted === null && !/^(?:the|a|an)$/.test(word)) return null;
  if (marked(tokens, from - 1) || (counted !== null && counted.value > 40)) return null;
  const size = quantityAt(sentence, from);
  if (size?.kind !== 'number' || size.high !== null || size.plural || size.value < 4 || size.value > 60 || !Number.isInteger(size.value))
    return null;
  if (marked(tokens, size.to - 1)) return null;
  const opening: Opening = {
    next: from,
    article: word === 'the' ? 'definite' : 'indefinite',
    count: counted?.value ?? (word === 'the' ? null : 1),
    vague: false,
    share: null,
    another: false,
    places: [],
  };
  const base = {
    opening,
    at,
    to: size.to,
    names: [],
    inside: [size],
    bySize: size.value,
    byText: null,
    head: null,
    sure: true,
    plural: (counted?.value ?? 1) > 1,
    isNew: false,
  } as const;
  if (word === 'the')
    return /^(?:is|are|gets|get|goes|takes|'s)$/.test(bare(tokens, size.to)) && size.value >= 7 ? withPlace(sentence, base) : null;
  const next = bare(tokens, size.to);
  const each = readEach(sentence, size.to);
  if (each !== null && counted !== null) return withPlace(sentence, base);
  // "the line clamp is one ten"
  const alone =
    counted !== null &&
    size.value >= 7 &&
    size.value <= 36 &&
    /^(?:is|'s|just|got|has|with|and)$/.test(bare(tokens, at - 1)) &&
    !/^(?:foot|inch|newton|mil|mm|millimeter|millimetre|socket|degrees?|pounds?)$/.test(bare(tokens, size.to)) &&
    fastenerHead(tokens, size.to) === null;
  if (alone) return withPlace(sentence, base);
  const place =
    /^(?:at|in|by|down|up|near|under|behind)$/.test(next) || (next === 'on' && /^(?:top|each)$/.test(bare(tokens, size.to + 1)))
      ? readPlace(sentence, size.to)
      : null;
  const copula = at > 0 && !marked(tokens, at - 1) && /^(?:is|are|'s|'re|takes?|gets?|with|use|using|to)$/.test(bare(tokens, at - 1));
  return place !== null && place.words.length > 0 && !copula ? withPlace(sentence, base) : null;
}

interface Opening {
  readonly next: number;
  readonly article: Mention['article'];
  readonly count: number | null;
  readonly vague: boolean;
  readonly share: Mention['share'];
  readonly another: boolean;
  readonly places: readonly string[];
}

const quantityAt = (sentence: Sentence, at: number) => sentence.quantities.find(({ from }) => from === at) ?? null;

interface Counted {
  readonly value: number;
  readonly next: number;
  readonly vague: boolean;
}

function countAt(sentence: Sentence, at: number): Counted | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  const quantity = quantityAt(sentence, at);
  if (
    quantity?.kind === 'number' &&
    !quantity.plural &&
    quantity.high === null &&
    Number.isInteger(quantity.value) &&
    quantity.value >= 1 &&
    quantity.value <= 120
  )
    return { value: quantity.value, next: quantity.to, vague: false };
  const next = bare(tokens, at + 1);
  const skip = (from: number) => (bare(tokens, from) === 'of' ? from + 1 : from);
  if (/^(?:a|the|this|that)$/.test(word) && /^(?:couple|pair|dozen)$/.test(next) && !marked(tokens, at + 1))
    return { value: next === 'dozen' ? 12 : 2, next: skip(at + 2), vague: next === 'couple' };
  if (word === 'half' && next === 'a' && bare(tokens, at + 2) === 'dozen') return { value: 6, next: skip(at + 3), vague: false };
  if (/^(?:couple|pair|dozen)$/.test(word)) return { value: word === 'dozen' ? 12 : 2, next: skip(at + 1), vague: word === 'couple' };
  return null;
}

/** Articles, counts and shares before the name: "all four of the", "the other two", "another pair of". */
function readOpening(sentence: Sentence, at: number): Opening {
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
      count === null && (article !== 'indefinite' || another) && !(word === 'one' && article === 'definite')
        ? countAt(sentence, next)
        : null;
    if (counted !== null && !(counted.value === 1 && /^(?:a|an|this|that)$/.test(bare(tokens, next - 1)))) {
      // "front two" and "two front" both count; a size before its unit is another quantity and never gets here.
      count = counted.value;
      vague = counted.vague;
      next = counted.next;
      continue;
    }
    // "18, the 15s" are two things: a count runs on over "of" only.
    if (definite.has(word) && count !== null && bare(tokens, next - 1) !== 'of') break;
    if (definite.has(word)) article = article === 'all' || article === 'each' ? article : 'definite';
    else if (word === 'a' || word === 'an') article = 'indefinite';
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
    else if (word === 'rest' && article === 'definite') share = 'others';
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

/** "six little 10 millimeter bolts", "the rear driveshaft strap bolts". */
function readNamed(sentence: Sentence, at: number): Mention | null {
  const { tokens } = sentence;
  const opening = readOpening(sentence, at);
  const names: string[] = [...opening.places];
  const inside: QuantitySpan[] = [];
  let isNew = false;
  let index = opening.next;
  let bySize: number | null = null;
  let byText: string | null = null;
  let head: { name: string; sure: boolean; plural: boolean } | null = null;
  for (; index < tokens.length && index - opening.next < 10;) {
    if (
      index > at &&
      marked(tokens, index - 1) &&
      !(tokens[index - 1]?.mark === ',' && tellingApart.has(bare(tokens, index - 1)) && tellingApart.has(bare(tokens, index)))
    )
      break;
    const quantity = quantityAt(sentence, index);
    // "four 11 millimeter twelve points"
    if (/^(?:twelve|12)$/.test(bare(tokens, index)) && /^point(?:s|ers)?$/.test(bare(tokens, index + 1)) && !marked(tokens, index)) {
      index += 2;
      if (bare(tokens, index - 1) === 'point' || fastenerHead(tokens, index) !== null) continue;
      if (opening.count === null && inside.length === 0) return null;
      head = { name: 'bolt', sure: true, plural: true };
      break;
    }
    const found = fastenerHead(tokens, index);
    if (found !== null) {
      head = found;
      index++;
      // "J-bolt nut": the last fastener word says what is turned.
      if (!marked(tokens, index - 1) && fastenerHead(tokens, index) !== null) {
        names.push(bare(tokens, index - 1));
        continue;
      }
      break;
    }
    if (quantity !== null) {
      const namedBySize = isSizeName(sentence, quantity, opening, names.length + inside.length > 0);
      const subject =
        namedBySize !== null &&
        index === at &&
        /^(?:are|get|go|take|is)$/.test(bare(tokens, quantity.to)) &&
        !/^(?:are|is|'s|'re|all|also)$/.test(bare(tokens, at - 1));
      if (namedBySize !== null && (opening.count !== null || opening.article === 'definite' || subject)) {
        if (quantity.kind === 'number') bySize = namedBySize;
        else if (quantity.kind === 'serration' || quantity.kind === 'thread') byText = quantity.text;
        inside.push(quantity);
        index = quantity.to;
        head = { name: 'fastener', sure: true, plural: true };
        break;
      }
      if (!/^(?:width|serration|cross-head|thread)$/.test(quantity.kind)) {
        // "the 15 bolts" where 15 cannot be a count because a count was said.
        if (
          quantity.kind === 'number' &&
          (opening.count !== null || opening.article === 'indefinite') &&
          names.length === 0 &&
          inside.length === 0 &&
          quantity.value >= 4
        )
          inside.push(quantity);
        else return null;
      } else inside.push(quantity);
      index = quantity.to;
      continue;
    }
    const word = bare(tokens, index);
    if (word === 'through' && fastenerHead(tokens, index + 1) !== null) {
      names.push(word);
      index++;
      continue;
    }
    if (
      /^(?:torx|allens|allen|twelve|point|12|hex|headed|head|socket|splined|countersunk|button|flange|flanged|cap|captive|double|sided)$/.test(
        word,
      ) &&
      mayName(word)
    ) {
      if (!/^(?:torx|allens|allen|hex|head|headed|point|socket)$/.test(word)) names.push(word);
      if (
        /^(?:torx|allens)$/.test(word) &&
        opening.count !== null &&
        (marked(tokens, index) || (!isNamePart(tokens, index + 1) && fastenerHead(tokens, index + 1) === null))
      ) {
        head = { name: 'fastener', sure: true, plural: true };
        index++;
        break;
      }
      index++;
      continue;
    }
    if (word === 'new' || word === 'fresh') isNew = true;
    if (unspoken.has(word)) {
      index++;
      continue;
    }
    if (!mayName(word) && !tellingApart.has(word)) return null;
    if (isVerb(tokens, index)) return null;
    names.push(word);
    index++;
  }
  if (head === null) return null;
  // "head", "socket" and other tools in the name mean that it is no name.
  if (names.some((word) => toolWords.has(word) && !/^(?:universal|joint|drive|torque|adapter)$/.test(word))) return null;
  return withPlace(sentence, {
    opening,
    at,
    to: index,
    names,
    inside,
    bySize,
    byText,
    ...(at === opening.next && (bySize !== null || byText !== null) ? { opening: { ...opening, article: 'definite' as const } } : {}),
    head: head.name === 'fastener' && (bySize !== null || byText !== null) ? null : head.name,
    sure: head.sure,
    plural: head.plural || (opening.count ?? 1) > 1,
    isNew,
  });
}

/** "four 10s", "three T40s", "the M6s": a size in the plural, or after "the" and before a verb, is a name. */
function isSizeName(sentence: Sentence, quantity: QuantitySpan, opening: Opening, within: boolean): number | null {
  const { tokens } = sentence;
  if (fastenerHead(tokens, quantity.to) !== null && !marked(tokens, quantity.to - 1)) return null;
  const ends = marked(tokens, quantity.to - 1) || !isNamePart(tokens, quantity.to);
  if (quantity.kind === 'number' && quantity.plural && ends) return quantity.value;
  if ((quantity.kind === 'serration' || quantity.kind === 'thread') && quantity.plural && ends) return 0;
  const verb = /^(?:is|are|gets|get|goes|go|takes|take|'s|being)$/.test(bare(tokens, quantity.to)) && !marked(tokens, quantity.to - 1);
  // "two M6 to the frame"
  const placed =
    opening.count !== null &&
    !within &&
    (quantity.kind === 'thread' || quantity.kind === 'serration') &&
    !quantity.plural &&
    (ends || placePrepositions.has(bare(tokens, quantity.to)));
  if (placed) return 0;
  const named = opening.article === 'definite' && opening.count === null && !within && verb;
  if (named && quantity.kind === 'number' && quantity.high === null && quantity.value >= 4 && quantity.value <= 60) return quantity.value;
  return named && (quantity.kind === 'thread' || quantity.kind === 'serration') ? 0 : null;
}

const isNamePart = (tokens: readonly Token[], at: number) =>
  mayName(bare(tokens, at)) && !isVerb(tokens, at) && !toolWords.has(bare(tokens, at));

const positions: Readonly<Record<string, string>> = tableOf<string>({
  uppers: 'upper',
  lowers: 'lower',
  fronts: 'front',
  rears: 'rear',
  tops: 'top',
  bottoms: 'bottom',
  inners: 'inner',
  outers: 'outer',
  longs: 'long',
  shorts: 'short',
  backs: 'back',
  middles: 'middle',
});

/** "the front ones", "the top two", "four on top", "the rear pair", "two of those", "the upper is", "the other six". */
function readElliptic(sentence: Sentence, at: number): Mention | null {
  const { tokens } = sentence;
  const opening = readOpening(sentence, at);
  const names: string[] = [...opening.places];
  let index = opening.next;
  let isNew = false;
  const fallsOff = (next: number) => next > at && marked(tokens, next - 1);
  while (!fallsOff(index) && index - opening.next < 4 && (tellingApart.has(bare(tokens, index)) || isNamedOne(sentence, index)))
    names.push(bare(tokens, index++));
  if (bare(tokens, index) === 'new') isNew = true;
  const word = fallsOff(index) ? '' : bare(tokens, index);
  const base = { opening, at, names, inside: [], bySize: null, byText: null, head: null, sure: true, isNew } as const;
  if (
    word === 'one' &&
    (readNamed(sentence, index) !== null ||
      (names.some((name) => !tellingApart.has(name)) &&
        /^(?:on|at|in|each|per|for)$/.test(bare(tokens, index + 1)) &&
        !marked(tokens, index)))
  )
    return null;
  // "the one in the trans", "the ones on top"
  // "this one over here is a 14"
  const pointed =
    /^(?:this|that) one (?:(?:right|back|over|up|down|in|way) )?(?:(?:here|there|back|front) )?(?:is|gets|takes|goes|'s)\b/.exec(
      tokens
        .slice(at, at + 6)
        .map((token) => token.bare)
        .join(' '),
    );
  if (pointed !== null && !marked(tokens, at + 1))
    return withPlace(sentence, {
      ...base,
      opening: { ...opening, article: 'definite', count: 1 },
      to: at + 2,
      plural: false,
      needsLot: true,
    });
  // "the uppers", "two lowers"
  const named = positions[word];
  if (named !== undefined && names.length === 0)
    return withPlace(sentence, {
      ...base,
      opening: { ...opening, article: opening.count === null && opening.article === 'none' ? 'definite' : opening.article },
      names: [named],
      to: index + 1,
      plural: true,
    });
  const located =
    /^ones?$/.test(word) && names.length === 0 && bare(tokens, at) === 'the' && !marked(tokens, index)
      ? readPlace(sentence, index + 1)
      : null;
  if (located !== null && located.words.length > 0)
    return withPlace(sentence, {
      ...base,
      opening: { ...opening, count: word === 'one' ? 1 : opening.count },
      to: index + 1,
      plural: word !== 'one',
    });
  if (
    /^(?:ones?|pair|set)$/.test(word) &&
    (names.length > 0 || opening.count !== null || opening.share !== null) &&
    !(word === 'set' && names.length === 0)
  ) {
    if (/^(?:new|old|early|later|late|older|newer|earlier)$/.test(bare(tokens, index - 1))) return null;
    const count = word === 'pair' ? 2 : opening.count;
    const plural = word !== 'one';
    return withPlace(sentence, { ...base, opening: { ...opening, count: count ?? (plural ? null : 1) }, to: index + 1, plural });
  }
  if (word === 'them' && opening.share === 'some' && !isSubjectOf(sentence, at, index + 1)) return null;
  if (word === 'them' && index > opening.next - 1 && (opening.share !== null || opening.article === 'all')) {
    return withPlace(sentence, { ...base, to: index + 1, plural: true });
  }
  const { count, share, article } = opening;
  // "all four", "the other six", "the last two", "the two rear" and then a verb or the end.
  const after = fallsOff(index) ? '' : bare(tokens, index);
  const closes =
    after === '' ||
    isVerb(tokens, index) ||
    quantityAt(sentence, index) !== null ||
    /^(?:is|are|'s|'re|get|gets|go|goes|take|takes|to|and|have|has|should|need|needs|also|only|just|there|right|here|through|up|down)$/.test(
      after,
    );
  if (index === opening.next && opening.places.length === 0) {
    if (
      share === 'some' &&
      names.length === 0 &&
      /^(?:these|those|this|that)$/.test(bare(tokens, index - 1)) &&
      !isSubjectOf(sentence, at, index)
    )
      return null;
    if (count !== null && (share !== null || article === 'all') && (closes || prepositions.has(after)))
      return withPlace(sentence, { ...base, to: index, plural: count > 1 });
    if (share === 'others' && closes) return withPlace(sentence, { ...base, to: index, plural: true });
    // "the four are 18 millimeter"
    if (article === 'definite' && count !== null && count > 1 && /^(?:are|get|go|take|have)$/.test(after) && bare(tokens, at) === 'the')
      return withPlace(sentence, { ...base, to: index, plural: true });
  } else if (
    (count !== null || article === 'definite' || (article === 'none' && names.length === 1 && opensHere(tokens, at))) &&
    closes &&
    names.every((name) => tellingApart.has(name) && !/^(?:side|end|first|last)$/.test(name))
  ) {
    const beforeThat = at === 0 ? '' : bare(tokens, at - 1);
    if (count !== null || (!placePrepositions.has(beforeThat) && /^(?:is|are|'s|'re|gets?|goes|takes?)$/.test(after)))
      return withPlace(sentence, { ...base, to: index, plural: (count ?? 1) > 1 });
  }
  // "up top there are five", "on the bottom you've got six"
  const before = tokens
    .slice(Math.max(0, at - 8), at)
    .map((token) => token.bare)
    .join(' ');
  const placed =
    /(?:^|\b(?:and|so|then|now|okay) )(?:up |down |over )?(?:on |at |in |along |around |across )?(?:the )?(top|bottom|front|back|rear|left|right|side|sides|middle|inside|outside|ends)(?: side| end)? (?:there 's|there is|there are|you 've got|you have|you got|you 'll see|we 've got|it 's got|i 've got)(?: also| just| only)?$/.exec(
      before,
    );
  if (
    placed !== null &&
    quantityAt(sentence, at)?.kind === 'number' &&
    count !== null &&
    names.length === 0 &&
    (fallsOff(index) || after === '' || /^(?:and|of|that|which|they|those)$/.test(after))
  )
    return { ...withPlace(sentence, { ...base, to: index, plural: count > 1 }), place: [placed[1] ?? ''] };
  // "one is a 12", "two go to 25"
  if (
    count !== null &&
    count <= 8 &&
    names.length === 0 &&
    share === null &&
    article === 'none' &&
    index === opening.next &&
    /^(?:is|are|'s|gets?|goes|go|takes?)$/.test(after) &&
    quantityAt(sentence, at)?.kind === 'number'
  )
    return withPlace(sentence, { ...base, to: index, plural: count > 1, needsLot: true });
  // "four on top", "one in the middle", "three down the sides", "two at the front".
  if (count !== null && names.length === 0 && share === null && article !== 'definite' && !fallsOff(index)) {
    let from = index;
    while (
      /^(?:hidden|tucked|buried|located|sitting|way|right|over|more)$/.test(bare(tokens, from)) &&
      !marked(tokens, from) &&
      from - index < 2
    )
      from++;
    const place = readPlace(sentence, from);
    const counted = quantityAt(sentence, at);
    if (from > index && place !== null && place.words.length > 0 && counted?.kind === 'number' && counted.value <= 12)
      return withPlace(sentence, { ...base, to: from, plural: count > 1 });
    if (place !== null && place.words.length > 0 && place.each === null && counted?.kind === 'number' && isPlaceOfSome(sentence, at, index))
      return withPlace(sentence, { ...base, to: index, plural: count > 1 });
  }
  return null;
}

/** "two of them are 15", "there's eleven of those", "37 on six of them", but not "I broke one of these, so …". */
function isSubjectOf(sentence: Sentence, at: number, end: number): boolean {
  const { tokens } = sentence;
  const before = at === 0 || marked(tokens, at - 1) ? '' : bare(tokens, at - 1);
  const after = marked(tokens, end - 1) ? '' : bare(tokens, end);
  if (
    /^(?:on|for|of|with|at|but|and|then|so|there|is|'s|are|'re|got|'ve|have|has|the|only|about|like|just|all|also|)$/.test(before) &&
    !/^(?:broke|lost|need|needs)$/.test(before)
  )
    return true;
  return /^(?:is|are|'s|'re|gets?|goes|go|takes?|have|has|come|comes|need|needs)$/.test(after) || quantityAt(sentence, end) !== null;
}

/** At the head of a sentence or clause: "Front is 55, rear is 80." */
const opensHere = (tokens: readonly Token[], at: number) =>
  at === 0 || marked(tokens, at - 1) || /^(?:and|but|so|then)$/.test(bare(tokens, at - 1));

/** A number before a place counts fasteners only where it is not itself a torque or a size: "47 on the front", "22 on the pulley". */
function isPlaceOfSome(sentence: Sentence, at: number, place: number): boolean {
  const { tokens } = sentence;
  const quantity = quantityAt(sentence, at);
  if (quantity?.kind !== 'number' || quantity.value > 12) return false;
  const before = at === 0 || marked(tokens, at - 1) ? '' : bare(tokens, at - 1);
  if (/^(?:to|get|gets|at|take|takes|is|are|a|an|about|torque)$/.test(before)) return false;
  const prep = bare(tokens, place);
  if (/^(?:from|through|into)$/.test(prep))
    return at === 0 || marked(tokens, at - 1) || /^(?:and|then)$/.test(before) || bare(tokens, place - 1) === 'more';
  return !/^(?:to|of|for|by)$/.test(prep);
}

const isNamedOne = (sentence: Sentence, at: number) => {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  return (
    mayName(word) &&
    !isVerb(tokens, at) &&
    fastenerHead(tokens, at) === null &&
    !toolWords.has(word) &&
    /^ones?$/.test(bare(tokens, at + 1)) &&
    !marked(tokens, at) &&
    !/^(?:new|old|early|later|late|older|newer|good|earlier)$/.test(word)
  );
};

interface Draft {
  readonly opening: Opening;
  readonly at: number;
  readonly to: number;
  readonly names: readonly string[];
  readonly inside: readonly QuantitySpan[];
  readonly bySize: number | null;
  readonly byText: string | null;
  readonly needsLot?: boolean;
  readonly head: string | null;
  readonly sure: boolean;
  readonly plural: boolean;
  readonly isNew: boolean;
}

function withPlace(sentence: Sentence, draft: Draft): Mention {
  const place: string[] = [];
  let each: Each | null = null;
  let end = draft.to;
  for (let guard = 0; guard < 4; guard++) {
    if (marked(sentence.tokens, end - 1)) break;
    const found = readPlace(sentence, end) ?? readHolding(sentence, end);
    if (found === null) break;
    place.push(...found.words);
    each ??= found.each;
    end = found.end;
  }
  const { opening } = draft;
  return {
    from: draft.at,
    to: draft.to,
    end,
    head: draft.head,
    sure: draft.sure,
    plural: draft.plural,
    article: opening.article,
    count: opening.count ?? (draft.plural || draft.head === null ? null : opening.article === 'indefinite' ? 1 : null),
    vague: opening.vague,
    share: opening.share,
    another: opening.another,
    names: draft.names,
    place,
    each,
    inside: draft.inside,
    bySize: draft.bySize,
    byText: draft.byText,
    needsLot: draft.needsLot ?? false,
    isNew: draft.isNew,
  };
}

export interface Place {
  readonly words: readonly string[];
  readonly each: Each | null;
  readonly end: number;
}

/** "on each side", "a side", "per wheel", "apiece", "on top", "at the inner end of each arm", "into the side of the case". */
export function readPlace(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  const each = readEach(sentence, at);
  if (each !== null) return each;
  const twice = readTopAndBottom(sentence, at);
  if (twice !== null) return twice;
  if (
    /^(?:up|down|out|in)$/.test(word) &&
    /^(?:top|front|back|below|underneath|here|there|rear)$/.test(bare(tokens, at + 1)) &&
    !marked(tokens, at)
  ) {
    const where = bare(tokens, at + 1);
    return { words: /^(?:here|there)$/.test(where) ? [] : [where], each: null, end: at + 2 };
  }
  if (/^(?:underneath|underside)$/.test(word) && (marked(tokens, at) || !/^(?:the|it|each|that)$/.test(bare(tokens, at + 1))))
    return { words: [word], each: null, end: at + 1 };
  if (!placePrepositions.has(word) || marked(tokens, at)) return null;
  // "to 47", "on those", "on the K" are no places.
  let index = at + 1;
  while (
    /^(?:in|on|of|to|from|top|the|both|either|your|that|this|its|their|my|our|a|an|very|each|every|all)$/.test(bare(tokens, index)) &&
    !marked(tokens, index) &&
    index - at < 5
  ) {
    const inner = readEach(sentence, index);
    if (inner !== null) return inner;
    if (bare(tokens, index) === 'top' && bare(tokens, index + 1) !== 'of') break;
    index++;
  }
  const words: string[] = [];
  for (; index < tokens.length && words.length < 5; index++) {
    const name = bare(tokens, index);
    if (index > at + 1 && marked(tokens, index - 1)) break;
    if (positions[name] !== undefined && words.length > 0) break;
    if (quantityAt(sentence, index) !== null || fastenerHead(tokens, index) !== null) break;
    if (
      !(mayName(name) || tellingApart.has(name)) ||
      isVerb(tokens, index) ||
      (toolWords.has(name) && !(name === 'driver' && /^(?:side|'s)$/.test(bare(tokens, index + 1))))
    )
      break;
    words.push(name);
    if (name === 'driver' && bare(tokens, index + 1) === "'s") index++;
  }
  // "on the head", "with a socket": said of the tool, not of the place.
  if (words.length === 0 || /^(?:head|heads|nut|spec|snug)$/.test(words[0] ?? '')) return null;
  if (fastenerHead(tokens, index) !== null && !marked(tokens, index - 1)) return null;
  if (/^(?:ones?)$/.test(bare(tokens, index)) && readNamed(sentence, index) === null) return null;
  return { words, each: null, end: index };
}

/** "a nut top and bottom", "at both ends", "left and right": one here and one there. */
function readTopAndBottom(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  const start = /^(?:at|on)$/.test(bare(tokens, at)) ? at + 1 : at;
  const from = bare(tokens, start) === 'the' ? start + 1 : start;
  const pair = `${bare(tokens, from)} ${bare(tokens, from + 1)} ${bare(tokens, from + 2)}`;
  if (/^(?:top and bottom|left and right|front and rear|front and back|upper and lower|inner and outer)$/.test(pair)) {
    return { words: [bare(tokens, from), bare(tokens, from + 2)], each: { of: ['end'], times: 2 }, end: from + 3 };
  }
  if (/^(?:both) (?:ends|sides)\b/.test(pair) && start > at) return { words: [], each: { of: ['end'], times: 2 }, end: from + 2 };
  return null;
}

function readEach(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  let index = at;
  if (/^(?:on|at|in|to|for|from|through|with|of)$/.test(bare(tokens, index))) index++;
  if (
    bare(tokens, index) === 'each' &&
    /^(?:one|of)$/.test(bare(tokens, index + 1)) &&
    index > at &&
    (bare(tokens, index + 1) === 'one' || /^(?:them|those|these)$/.test(bare(tokens, index + 2)))
  )
    return { words: [], each: { of: [], times: null }, end: index + (bare(tokens, index + 1) === 'one' ? 2 : 3) };
  const word = bare(tokens, index);
  if (word === 'apiece') return { words: [], each: { of: [], times: null }, end: index + 1 };
  const per = word === 'per' || word === 'each' || word === 'every' || word === 'either' || (word === 'a' && index === at);
  const both = word === 'both' && sides[bare(tokens, index + 1)] === 2;
  if (both) return null;
  if (!per) return null;
  const of: string[] = [];
  let next = index + 1;
  if (word === 'each' && marked(tokens, index)) return { words: [], each: { of: [], times: null }, end: next };
  for (; next < tokens.length && of.length < 3; next++) {
    const name = bare(tokens, next);
    if (next > index + 1 && marked(tokens, next - 1)) break;
    if (
      quantityAt(sentence, next) !== null ||
      fastenerHead(tokens, next) !== null ||
      !(mayName(name) || tellingApart.has(name)) ||
      isVerb(tokens, next)
    )
      break;
    of.push(name);
  }
  const last = of.at(-1);
  if (last === undefined)
    return word === 'each' && !/^(?:of|one)$/.test(bare(tokens, next)) ? { words: [], each: { of: [], times: null }, end: next } : null;
  // "two a side" but not "two a big washer": "a" counts only before a side, an end, a wheel and the like.
  if (
    word === 'a' &&
    !(
      of.length === 1 &&
      /^(?:side|end|corner|wheel|axle|hub|clamp|bag|bracket|rod|plate|arm|strap|leg|valve|mount|cap|joint|hinge|door|cylinder|bank)$/.test(
        last,
      )
    )
  )
    return null;
  const ofEach = bare(tokens, next) === 'of' ? readEach(sentence, next + 1) : null;
  const times = sides[last] ?? null;
  if (ofEach?.each != null)
    return {
      words: [...of, ...ofEach.words],
      each: { of: ofEach.each.of, times: times !== null && ofEach.each.times !== null ? times * ofEach.each.times : null },
      end: ofEach.end,
    };
  return { words: times === null ? of : [], each: { of: of.map(stemOf), times }, end: next };
}

/** "that hold the carrier to the crossmember", "holding it to the frame", "going into the case". */
function readHolding(sentence: Sentence, at: number): Place | null {
  const { tokens } = sentence;
  let index = at;
  if (/^(?:that|which)$/.test(bare(tokens, index))) index++;
  if (
    !/^(?:holds?|holding|go|goes|going|secures?|securing|attach(?:es|ing)?|retain(?:s|ing)?|fix(?:es|ing)?|come|comes|coming|run|runs|running|mounts?|mounting|connect(?:s|ing)?|clamps?|clamping|screws?|screwing|threads?|fastens?|fastening|bolts?|bolting|pinch(?:es|ing)?|joins?|keep|keeps|sit|sits)$/.test(
      bare(tokens, index),
    )
  )
    return null;
  if (
    index === at &&
    !bare(tokens, index).endsWith('ing') &&
    !/^(?:hold|holds|secure|secures|attach|retain|retains|fix|join|pinch)$/.test(bare(tokens, index))
  )
    return null;
  if (/^(?:to|on)$/.test(bare(tokens, index + 1)) && quantityAt(sentence, index + 2) !== null) return null;
  index++;
  const words: string[] = [];
  let each = false;
  for (; index < tokens.length && index - at < 12; index++) {
    const name = bare(tokens, index);
    if (index > at && marked(tokens, index - 1)) break;
    if (quantityAt(sentence, index) !== null || isVerb(tokens, index) || fastenerHead(tokens, index) !== null) break;
    each ||= name === 'each' || name === 'every';
    if (mayName(name) || tellingApart.has(name)) words.push(name);
    else if (!(determiners.has(name) || placePrepositions.has(name) || /^(?:it|down|together|this|and)$/.test(name))) break;
    else if (name === 'and' && !/^(?:the|a|your)$/.test(bare(tokens, index + 1))) break;
  }
  const [last] = words.slice(-1);
  return last === undefined ? null : { words, each: each ? { of: [stemOf(last)], times: null } : null, end: index };
}
