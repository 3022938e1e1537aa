import { fastenerHead } from './fastener-words.ts';
import type { Mention } from './mention.ts';
import { readNamed } from './named.ts';
import { readOpening, type Opening } from './opening.ts';
import { withPlace } from './placed.ts';
import { namesByPlace, positionNames, readPlace } from './places.ts';
import { bare, marked, phrase, quantityAt, type Sentence } from './sentence-view.ts';
import type { Token } from './tokens.ts';
import { isVerb, mayName, placePrepositions, prepositions, tellingApart, toolWords } from './word-classes.ts';

/** "the front ones", "the top two", "four on top", "the rear pair", "two of those", "the upper is", "the other six". */
export function readElliptic(sentence: Sentence, at: number): Mention | null {
  const { tokens } = sentence;
  const opening = readPlaceAlone(sentence, at) ?? readOpening(sentence, at);
  const names: string[] = [...opening.places];
  let index = opening.next;
  let isNew = false;
  const fallsOff = (next: number) => next > at && marked(tokens, next - 1);
  while (!fallsOff(index) && index - opening.next < 4 && (tellingApart.has(bare(tokens, index)) || isNamedOne(sentence, index))) {
    const name = bare(tokens, index++);
    if (!/^(?:extra|more|spare|odd|different|separate)$/.test(name)) names.push(name);
  }
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
  // "the two are 15s and the one is a 13"
  const against = /\bthe (?:two|three|four|five|six)\b/.test(
    tokens
      .slice(0, at)
      .map((token) => token.bare)
      .join(' '),
  );
  if (
    word === 'one' &&
    names.length === 0 &&
    bare(tokens, at) === 'the' &&
    against &&
    /^(?:is|'s|gets?|takes?)$/.test(bare(tokens, index + 1))
  )
    return withPlace(sentence, { ...base, opening: { ...opening, article: 'definite', count: 1 }, to: index + 1, plural: false });
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
  // "driver side is a fifteen", "the left hand side gets 40"
  const sided = readSided(tokens, at);
  if (sided !== null)
    return withPlace(sentence, { ...base, opening: { ...opening, article: 'definite' }, names: sided.names, to: sided.to, plural: true });
  // "the uppers", "two lowers"
  const named = positionNames[word];
  if (named !== undefined && names.length === 0 && (opening.count ?? 0) <= 12 && namesByPlace(tokens, index))
    return withPlace(sentence, {
      ...base,
      opening: { ...opening, article: opening.count === null && opening.article === 'none' ? 'definite' : opening.article },
      names: [named],
      to: index + 1,
      plural: true,
    });
  // "the pair in the center are 15s"
  if (word === 'pair' && names.length === 0 && bare(tokens, at) === 'the' && index === at + 1 && !marked(tokens, index)) {
    const place = readPlace(sentence, index + 1);
    if (place !== null && place.words.length > 0)
      return withPlace(sentence, { ...base, opening: { ...opening, count: 2 }, to: index + 1, plural: true });
  }
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
    !(word === 'set' && names.length === 0) &&
    // "twenty four, one hundred and twenty"
    (quantityAt(sentence, index)?.to ?? 0) <= index + 1 &&
    (word !== 'one' || (opening.count ?? 1) === 1)
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
    // "another four", "the three that go into the case"
    const elsewhere = placePrepositions.has(after) && (readPlace(sentence, index)?.words.length ?? 0) > 0;
    if (opening.another && count !== null && (closes || elsewhere)) return withPlace(sentence, { ...base, to: index, plural: count > 1 });
    // "the four out at the ends are 18s"
    const out = /^(?:out|over|up|down|back)$/.test(after) ? index + 1 : -1;
    const further = out > 0 && placePrepositions.has(bare(tokens, out)) && (readPlace(sentence, out)?.words.length ?? 0) > 0;
    if (further && article === 'definite' && count !== null && count > 1 && count <= 12)
      return withPlace(sentence, { ...base, to: out, plural: true });
    if (article === 'definite' && count !== null && count <= 24 && /^(?:that|which)$/.test(after))
      return withPlace(sentence, { ...base, to: index, plural: count > 1 });
    if (share === 'others' && closes) return withPlace(sentence, { ...base, to: index, plural: true });
    // "the four are 18 millimeter"
    // "I do the two at 44"
    if (article === 'definite' && count !== null && count > 1 && count <= 12 && after === 'at' && quantityAt(sentence, index + 1) !== null)
      return withPlace(sentence, { ...base, to: index, plural: true });
    // "those four I left snug"
    if (
      article === 'definite' &&
      count !== null &&
      count > 1 &&
      count <= 24 &&
      /^(?:i|we)$/.test(after) &&
      /^(?:the|those|these)$/.test(bare(tokens, at))
    )
      return withPlace(sentence, { ...base, to: index, plural: true });
    if (article === 'definite' && count !== null && count > 1 && /^(?:are|get|go|take|have)$/.test(after) && bare(tokens, at) === 'the')
      return withPlace(sentence, { ...base, to: index, plural: true });
  } else if (
    (count ?? 0) <= 12 &&
    (count !== null || article === 'definite' || (article === 'none' && names.length === 1 && opensHere(tokens, at))) &&
    closes &&
    names.every(
      (name) => tellingApart.has(name) && (!/^(?:side|end|first|last)$/.test(name) || (count !== null && count > 1 && name === 'last')),
    )
  ) {
    const beforeThat = at === 0 ? '' : bare(tokens, at - 1);
    // "60 for the big ones, 25 for the small"
    const forward = /^(?:for|on)$/.test(beforeThat) && sentence.quantities.some(({ to }) => to === at - 1);
    if (
      forward &&
      article === 'definite' &&
      count === null &&
      !names.some((name) => /^(?:top|bottom|back|front|inside|outside)$/.test(name))
    )
      return withPlace(sentence, { ...base, to: index, plural: true });
    if (opening.article === 'definite' && bare(tokens, at) !== 'the' && index === at + 1 && quantityAt(sentence, index) !== null)
      return withPlace(sentence, { ...base, to: index, plural: true });
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

/** "two at the front and two at the rear: front 19, rear 24": no nineteen in front. */
function readPlaceAlone(sentence: Sentence, at: number): Opening | null {
  const { tokens } = sentence;
  const word = bare(tokens, at);
  const value = quantityAt(sentence, at + 1);
  if (!/^(?:front|rear|top|bottom|upper|lower|inner|outer|left|right)$/.test(word) || marked(tokens, at) || !opensHere(tokens, at))
    return null;
  if (value?.kind !== 'number' || value.value < 7 || !phrase(tokens, 0, at).includes(` the ${word}`)) return null;
  return { next: at, article: 'definite', count: null, vague: false, share: null, another: false, places: [] };
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
  const there = /^(?:is|are)$/.test(before) && bare(tokens, at - 2) === 'there';
  if (!there && /^(?:to|get|gets|at|take|takes|is|are|a|an|about|torque)$/.test(before)) return false;
  // "11 mil on the front one and 12 on the rear one": the next value of the same kind.
  const parallel = sentence.quantities.some(
    (one) => /^(?:width|torque)$/.test(one.kind) && one.to < at && at - one.to <= 6 && /^(?:on|for|at)$/.test(bare(tokens, one.to)),
  );
  if (parallel && before === 'and') return false;
  const prep = bare(tokens, place);
  // "three bolts, two into the box, one into the sump"
  const ofLot = fastenerHead(tokens, at - 1)?.plural === true || (quantity.value === 1 && phrase(tokens, 0, at).includes(` ${prep} the `));
  if (/^(?:from|through|into)$/.test(prep))
    return at === 0 || marked(tokens, at - 1) || /^(?:and|then)$/.test(before) || bare(tokens, place - 1) === 'more' || ofLot;
  // "two bolts to the pump and one to the bracket"
  const again =
    prep === 'to' &&
    before === 'and' &&
    bare(tokens, place + 1) === 'the' &&
    tokens.slice(0, at).some((token, index) => token.bare === 'to' && fastenerHead(tokens, index - 1) !== null);
  // "the two by the starter"
  const beside = prep === 'by' && bare(tokens, at - 1) === 'the';
  return again || beside || !/^(?:to|of|for|by)$/.test(prep);
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
    (quantityAt(sentence, at + 1)?.to ?? 0) <= at + 2 &&
    !marked(tokens, at) &&
    !/^(?:new|old|early|later|late|older|newer|good|earlier)$/.test(word) &&
    // "two into the box, one into the sump"
    !/^(?:into|from|through)$/.test(bare(tokens, at + 2))
  );
};

/** A side that stands for the fasteners on it, before its verb or its value. */
function readSided(tokens: readonly Token[], at: number): { readonly names: readonly string[]; readonly to: number } | null {
  const from = bare(tokens, at) === 'the' ? at + 1 : at;
  const start = bare(tokens, at - 1) === 'the' ? at - 1 : at;
  if (start > 0 && !marked(tokens, start - 1) && prepositions.has(bare(tokens, start - 1))) return null;
  const word = bare(tokens, from);
  if (!/^(?:driver|driver's|passenger|left|right|nearside|offside|inner|outer|inboard|outboard)$/.test(word)) return null;
  let to = from + 1;
  if (bare(tokens, to) === "'s") to++;
  if (bare(tokens, to) === 'hand') to++;
  if (!/^(?:side|end)$/.test(bare(tokens, to)) || marked(tokens, to)) return null;
  return /^(?:is|are|'s|gets?|takes?|goes|go)$/.test(bare(tokens, to + 1))
    ? { names: [word.replace("'s", ''), bare(tokens, to)], to: to + 1 }
    : null;
}
