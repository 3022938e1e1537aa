import { lastTold, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { isOfThing, sentencesSince } from './kinship.ts';
import type { QuantitySpan } from './quantities.ts';
import { groupsInReach, noteSentence } from './talk.ts';
import { stemOf, tellingApart } from './word-classes.ts';

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

/** "20 on the front and 81 at the rear", once their sizes are known: a torque for those at that place. */
export function placedBy(hearing: Hearing, quantity: QuantitySpan & { kind: 'number' }): readonly Group[] | null {
  const place = hearing.word(quantity.to + 2);
  if (!/^(?:on|in|at|for) the$/.test(hearing.words(quantity.to, quantity.to + 2)) || !tellingApart.has(place)) return null;
  if (quantity.plural || quantity.value < 5 || !hearing.open(quantity.to - 1)) return null;
  const after = hearing.open(quantity.to + 2) ? hearing.word(quantity.to + 3) : '';
  const parallel = / (?:on|in|at|for) the \w+ and$/.test(hearing.words(quantity.from - 5, quantity.from));
  if (!/^(?:and|but|so|then|)$/.test(after) && !(parallel && !/^(?:ones?|bolts?|nuts?|side|end)$/.test(after))) return null;
  const fits = groupsInReach(hearing.talk).filter(
    (group) =>
      sentencesSince(hearing, group) <= 3 &&
      group.own.has(stemOf(place)) &&
      lastTold(group, 'size') !== null &&
      lastTold(group, 'torque', hearing.builds[0] ?? null) === null,
  );
  const match = fits.at(-1);
  if (match === undefined || fits.length > 1) return null;
  noteSentence(match, hearing.sentence);
  hearing.talk.focus = [match];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.talk.focusAt = hearing.now(quantity.from);
  hearing.freshAt = quantity.from;
  return [match];
}
