import { countOf, lastTold, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { isOfThing, sentencesSince } from './kinship.ts';
import { isWidth } from './number-roles.ts';
import type { QuantitySpan } from './quantities.ts';
import type { SaidSentence } from './sentences.ts';
import { addGroup, groupsInReach, noteSentence, tell } from './talk.ts';
import { areApart } from './things.ts';
import { stemOf } from './word-classes.ts';

/** "30 into the block, and 26 into the case": fasteners told apart by where they go. */
export function placedAt(hearing: Hearing, quantity: QuantitySpan, index: number): readonly Group[] | null {
  const next = hearing.items[index + 1];
  if (next?.kind !== 'component' || !next.inPlace || !hearing.open(quantity.to - 1)) return null;
  if (!/^(?:on|in|into|at|for|to)$/.test(hearing.word(quantity.to)) || next.from !== quantity.to + 1) return null;
  const words = next.words.map(stemOf);
  const { thing } = hearing;
  // "35 on the drain and 30 on the filler"
  const isNamed = (group: Group) => group.head === 'plug' && words.every((word) => group.own.has(word));
  const candidates = groupsInReach(hearing.talk).filter((group) =>
    isNamed(group)
      ? sentencesSince(hearing, group) <= 3
      : group.places.some((place) => words.includes(stemOf(place))) &&
        (thing === null ? sentencesSince(hearing, group) <= 3 : isOfThing(group, thing)),
  );
  const match = candidates.findLast((group) => lastTold(group, 'torque', hearing.builds[0] ?? null) === null);
  if (match === undefined) return null;
  noteSentence(match, hearing.sentence);
  hearing.talk.focus = [match];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.talk.focusAt = hearing.now(quantity.from);
  hearing.freshAt = quantity.from;
  return [match];
}

const where =
  /^(?:(?:on|in|at|for|up|down) )?(?:the )?(top|bottom|front|rear|back|left|right|inside|outside|upper|lower|inner|outer|middle)\b/;

/** The place that follows a number, and where its words end: "on the front", "up top". */
function placeAfter(hearing: Hearing, { to }: QuantitySpan): { readonly place: string; readonly end: number } | null {
  if (!hearing.open(to - 1)) return null;
  const found = where.exec(hearing.words(to, to + 3));
  const place = found?.[1];
  if (found === null || place === undefined || !/^(?:on|in|at|for|up|down)$/.test(hearing.word(to))) return null;
  return { place, end: to + found[0].split(' ').length };
}

/** "20 on the front and 81 at the rear", once their sizes are known: a torque for those at that place. */
export function placedBy(hearing: Hearing, quantity: QuantitySpan & { kind: 'number' }): readonly Group[] | null {
  const found = placeAfter(hearing, quantity);
  if (found === null || quantity.plural || quantity.value < 5) return null;
  const after = hearing.open(found.end - 1) ? hearing.word(found.end) : '';
  const parallel = / (?:on|in|at|for|up|down) (?:the )?\w+ and$/.test(hearing.words(quantity.from - 5, quantity.from));
  if (!/^(?:and|but|so|then|)$/.test(after) && !(parallel && !/^(?:ones?|bolts?|nuts?|side|end)$/.test(after))) return null;
  const { talk, sentence } = hearing;
  const stem = stemOf(found.place);
  const fits = groupsInReach(talk).filter(
    (group) =>
      sentencesSince(hearing, group) <= 3 &&
      group.own.has(stem) &&
      lastTold(group, 'size') !== null &&
      lastTold(group, 'torque', hearing.builds[0] ?? null) === null,
  );
  const match = fits.at(-1);
  if (match === undefined || fits.length > 1) return null;
  return focusOnly(hearing, areApart([stem], match.own) ? partAt(hearing, match, found.place) : match, quantity.from, sentence);
}

/** "a bolt top and bottom, 45 at the top": one half of them. */
function partAt({ talk, sentence }: Hearing, both: Group, place: string): Group {
  const known = both.parts.find((part) => part.own.has(stemOf(place)));
  if (known !== undefined) return known;
  const part = addGroup(talk, sentence, {
    head: both.head,
    sure: both.sure,
    names: both.names,
    places: [place],
    thing: both.thing,
    whole: both,
  });
  const all = countOf(both);
  if (all !== null && all % 2 === 0) tell(talk, [part], 'count', all / 2, [], { sentence: sentence.index, confidence: 0.8, words: place });
  return part;
}

/** "the shock, eighteen at the bottom and fifteen up top": two fasteners that nobody names, told by their sizes and places. */
export function sizedAt(hearing: Hearing, quantity: QuantitySpan & { kind: 'number' }): Group | null {
  const found = placeAfter(hearing, quantity);
  const { talk, sentence } = hearing;
  if (found === null || quantity.plural || !isWidth(quantity.value) || /^(?:to|at|gets?|torque)$/.test(hearing.word(quantity.from - 1)))
    return null;
  const pair = sentence.quantities.some((other) => {
    const place = other === quantity || other.kind !== 'number' || !isWidth(other.value) ? null : placeAfter(hearing, other);
    const [first, second] = other.from < quantity.from ? [place?.end, quantity.from] : [found.end, other.from];
    return (
      place !== null && areApart([stemOf(place.place)], [stemOf(found.place)]) && /^and(?: an?)?$/.test(hearing.words(first ?? 0, second))
    );
  });
  const thing = hearing.thing ?? (talk.topicAt > talk.focusAt ? talk.topic : null) ?? talk.focus[0]?.thing ?? null;
  if (!pair || thing === null) return null;
  const known = groupsInReach(talk).filter((group) => isOfThing(group, thing) && sentencesSince(hearing, group) <= 3);
  if (known.some((group) => lastTold(group, 'size') !== null && group.sentences[0] !== sentence.index)) return null;
  const group = addGroup(talk, sentence, { head: null, sure: false, names: thing.words, places: [found.place], thing, implied: true });
  focusOnly(hearing, group, quantity.from, sentence);
  return group;
}

function focusOnly(hearing: Hearing, group: Group, at: number, sentence: SaidSentence): readonly Group[] {
  noteSentence(group, sentence);
  hearing.talk.focus = [group];
  hearing.talk.focusSentence = sentence.index;
  hearing.talk.focusAt = hearing.now(at);
  hearing.freshAt = at;
  return [group];
}
