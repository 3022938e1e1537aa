import { countOf, lastTold, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Mention } from './mention.ts';
import { isWidth } from './number-roles.ts';
import { found, isFull, type Named } from './kinship.ts';
import { addGroup } from './talk.ts';
import { areApart } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

const arePair = (one: string | null, other: string | null) =>
  (one === 'bolt' && other === 'nut') ||
  (one === 'screw' && other === 'nut') ||
  (one === 'nut' && other === 'bolt') ||
  (one === 'stud' && other === 'nut') ||
  (one === 'nut' && other === 'stud');

/** "with a nut behind it", "two bolts, two nuts", "hold the nut": the other half of what was named is no group of its own. */
export function mateOf(hearing: Hearing, mention: Mention): Named | null {
  const { talk } = hearing;
  const [focus] = talk.focus;
  if (focus === undefined || !arePair(focus.head, mention.head)) return null;
  if (mention.names.some((name) => !/^(?:other|flange|flanged|lock|captive|back|same|nylon|nyloc|plain|castle)$/.test(name))) return null;
  const apart = hearing.sentence.index - talk.focusSentence;
  // "they're eighteens, with eighteen nuts on the back": as wide, not as many.
  const wide = mention.count !== null && mention.count >= 10 && isWidth(mention.count) && mention.count !== countOf(focus);
  if (wide && hearing.word(mention.from - 1) === 'with' && apart <= 1) return { groups: talk.focus, isNew: false, mate: true };
  if (apart > 2 || (hearing.thing !== null && hearing.thingAt > hearing.freshAt && hearing.freshAt < 0 && apart > 0)) return null;
  const same: Named = { groups: talk.focus, isNew: false, mate: true };
  const studs = nutsOnStuds(hearing, focus, mention);
  if (studs !== null) return studs;
  // "one through bolt, 18 mil head, 18 nut"
  const isSized = mention.count === null && mention.article === 'none' && !mention.plural && mention.inside.length > 0;
  if (isSized && apart === 0 && hearing.freshAt >= 0 && mention.place.length === 0 && focus.told.torque.length === 0) {
    focus.mate = mention.head;
    return same;
  }
  const bare = mention.count === null && mention.place.length === 0;
  // "two nuts and two bolts: nuts are 15 and go to 44, the bolts are 18": each has its own.
  if (
    bare &&
    focus.mate === mention.head &&
    lastTold(focus, 'torque') !== null &&
    focus.told.torque.at(-1)?.evidence.sentence !== hearing.sentence.index
  )
    return parted(hearing, focus, mention);
  // "three studs with nuts … there's a through bolt … the nuts are fifty-five": those, not the one on the bolt.
  const lone = (countOf(focus) ?? 1) === 1 && !focus.saidPlural;
  const open = talk.groups.some(
    (group) =>
      group !== focus &&
      group.head === mention.head &&
      (countOf(group) ?? 0) > 1 &&
      group.told.torque.length === 0 &&
      hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 8,
  );
  if (bare && mention.plural && mention.article === 'definite' && lone && open) return null;
  if (bare && mention.article !== 'indefinite' && focus.mate === mention.head) return same;
  const others = talk.groups.some(
    (group) => group !== focus && group.head === mention.head && hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 3,
  );
  if (bare && mention.article === 'definite') return others ? null : same;
  const placed = mention.place.map(stemOf).filter((word) => tellingApart.has(word));
  if (placed.some((word) => areApart([word], focus.own))) return null;
  const joined = joins(hearing, mention);
  if (joined === null || isFull(focus) || lastTold(focus, 'torque') !== null) return null;
  const fits =
    mention.count === null ||
    mention.count === countOf(focus) ||
    mention.count === focus.perUnknown?.count ||
    (joined === 'with' && mention.count === 1) ||
    (mention.count === 1 && (mention.each !== null || hearing.times !== null));
  if (!fits || (joined === 'and' && mention.place.length > 0 && mention.each === null)) return null;
  focus.mate = mention.head;
  return same;
}

/** What is turned on studs is their nuts. */
function nutsOnStuds(hearing: Hearing, focus: Group, mention: Mention): Named | null {
  const said = mention.count === null || (mention.count === 1 && /^(?:is|'s|just)$/.test(hearing.word(mention.from - 1)));
  if (focus.head === 'nut' && mention.head === 'stud' && said) return { groups: hearing.talk.focus, isNew: false, mate: false };
  if (focus.head !== 'stud' || mention.head !== 'nut' || focus.told.torque.length > 0) return null;
  if (mention.count !== null && countOf(focus) !== null && mention.count !== countOf(focus) && mention.count !== 1) return null;
  // "every second one came out with the nut on it": one of many, and still a stud.
  if (mention.count === null && !mention.plural && (countOf(focus) ?? 1) > 1) return null;
  focus.head = 'nut';
  return found(hearing.talk.focus);
}

/** How the other half is joined to the first: with, and, or a comma. */
function joins(hearing: Hearing, mention: Mention): 'with' | 'and' | null {
  const before = hearing.word(mention.from - 1);
  if (before === 'with' && hearing.thing === null) return 'with';
  if (hearing.freshAt < 0) return null;
  if (before === 'with') return 'with';
  if (/^(?:got|has|have|takes|uses)$/.test(before) && /^(?:it|'s|they|'ve|that)$/.test(hearing.word(mention.from - 2))) return 'with';
  const between = hearing.items.findLast((item) => item.to <= mention.from && item.from >= hearing.freshAt && item.kind !== 'quantity');
  if (between?.kind !== 'mention') return null;
  // "one bolt through, 19, and a nylon nut": its size may come between.
  const isValue = (at: number) => hearing.sentence.quantities.some(({ from, to }) => at >= from && at < to);
  const gap = hearing.sentence.tokens.slice(between.to, mention.from).filter((_, offset) => !isValue(between.to + offset));
  return gap.every(({ bare }) => /^(?:and|plus|with|a|the|through)$/.test(bare)) ? 'and' : null;
}

function parted(hearing: Hearing, focus: Group, mention: Mention): Named {
  const group = addGroup(hearing.talk, hearing.sentence, {
    head: mention.head,
    sure: true,
    names: focus.names,
    places: focus.places,
    thing: focus.thing,
    beside: focus,
  });
  group.told.count.push(...focus.told.count);
  focus.mate = null;
  return { groups: [group], isNew: true, mate: false };
}
