import { aim, aimed, focusOn } from './aim.ts';
import { countOf, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Item } from './items.ts';
import type { Mention } from './mention.ts';
import type { Each } from './places.ts';
import { addGroup, groupsInReach, tell } from './talk.ts';
import { nounOf } from './parts.ts';
import { stemOf } from './word-classes.ts';

/** Two counts that do not contradict each other. */
export const sameBuild = (one: number | null, other: number | null): boolean => one === null || other === null || one === other;

/** Tells a group the count that came with its name, so many times over as the sentence says. */
export function tellCount(hearing: Hearing, group: Group, mention: Mention, again: boolean): void {
  const { count } = mention;
  if (count === null) return;
  const all = countOf(group);
  if (
    all !== null &&
    !again &&
    !hearing.correcting &&
    (hearing.builds.length === 0 || group.told.count.some(({ build }) => build === hearing.builds[0]))
  )
    return;
  const factor = factorOf(hearing, mention) ?? ofMany(hearing, mention);
  const evidence = hearing.evidence(mention.from, mention.end, mention.vague ? 0.5 : factor === null ? 0.92 : 0.85);
  hearing.correcting = false;
  if (factor === null) {
    tell(hearing.talk, [group], 'count', count, hearing.builds, evidence, { replace: true, to: mention.end });
    if (group.perUnknown !== null && count > group.perUnknown.count) group.perUnknown = null;
    return;
  }
  if (factor.by === null) {
    group.perUnknown ??= { count, of: factor.of };
    return;
  }
  group.times = factor.by;
  if (/^(?:side|end|corner)$/.test(factor.of)) group.bothSides = true;
  tell(hearing.talk, [group], 'count', count * factor.by, hearing.builds, evidence, { replace: true, to: mention.end });
}

interface Factor {
  readonly by: number | null;
  readonly of: string;
}

/** "each side", "per bracket", and what was said before of each: together where they are nested. */
function factorOf(hearing: Hearing, { count, each, place }: Mention): Factor | null {
  const { times } = hearing;
  // "two bolts, left and right" are two.
  const listed = each !== null && each.times === 2 && each.of[0] === 'end' && (count ?? 0) > 1 && place.length > 1;
  if (each === null) return times ?? ofEvery(hearing);
  if (listed) return times;
  const own = {
    by: each.times ?? howMany(hearing, each),
    of: each.of.at(-1) ?? hearing.counted?.noun ?? nounOf(hearing.talk.topic?.words ?? []),
  };
  if (own.of !== 'end' || own.by === null || times === null || times.by === null) return own;
  return { by: own.by * times.by, of: times.of };
}

/** "six latches … the latch takes two screws": said of one, meant of every. */
function ofEvery(hearing: Hearing): Factor | null {
  const { thing, thingItem } = hearing;
  if (thing === null || thingItem === null || thing.count === null || thing.count < 2) return null;
  // "one holder per side with a screw"
  if (thingItem.count === 1 && hearing.thingAt > hearing.freshAt) return { by: thing.count, of: thing.noun };
  if (thingItem.count !== null) return null;
  const one = !/s$/.test(thingItem.words.at(-1) ?? '') && /^(?:the|a|an|one)$/.test(hearing.word(thingItem.from));
  return one && hearing.thingAt > hearing.freshAt ? { by: thing.count, of: thing.noun } : null;
}

/** "the ball joints have a castle nut": one for each of them. */
function ofMany(hearing: Hearing, mention: Mention): Factor | null {
  const { thing, thingItem } = hearing;
  if (thing === null || thingItem === null || mention.count !== 1 || mention.article !== 'indefinite') return null;
  if (hearing.thingAt <= hearing.freshAt || !/[^s]s$/.test(thingItem.words.at(-1) ?? '') || thingItem.count === 1) return null;
  return /^(?:have|get|take|use|need|are|'ve)(?: got)?$/.test(hearing.words(thingItem.to, mention.from))
    ? { by: thing.count, of: thing.noun }
    : null;
}

/** How many of what is counted by there are, where the talk has said so. */
function howMany(hearing: Hearing, each: Each): number | null {
  const noun = each.of.at(-1);
  if (noun === undefined) return hearing.counted?.count ?? hearing.thing?.count ?? hearing.talk.topic?.count ?? null;
  return countOfThings(hearing, noun, each.of);
}

/** How many of those things there are: as counted, or as many as there are fasteners of that name. */
export function countOfThings(hearing: Hearing, noun: string, words: readonly string[]): number | null {
  const thing = hearing.talk.things.findLast(
    (one) => one.noun === noun && one.count !== null && words.every((word) => one.stems.has(stemOf(word)) || word === noun),
  );
  if (thing !== undefined && hearing.sentence.index - thing.lastSentence <= 8) return thing.count;
  const owner = groupsInReach(hearing.talk).findLast((group) => group.head === noun && likeness(group, words, null) >= 0.8);
  return owner === undefined ? null : countOf(owner);
}

/** "two bolts on each bracket, and two brackets": now it is known how many. */
export function countsAtLast(hearing: Hearing, noun: string, many: number): void {
  for (const thing of hearing.talk.things) if (thing.per?.of === noun) thing.count = thing.per.count * many;
  for (const group of groupsInReach(hearing.talk)) {
    if (group.perUnknown?.of !== noun || hearing.sentence.index - (group.sentences.at(-1) ?? -99) > 3) continue;
    const total = group.perUnknown.count * many;
    group.perUnknown = null;
    tell(hearing.talk, [group], 'count', total, [], { sentence: hearing.sentence.index, confidence: 0.85, words: `${many} ${noun}` });
  }
}

/** "one each side", "two a side": of the fasteners in focus, or of the thing just named. */
export function hearEach(hearing: Hearing, item: Item & { kind: 'each' }): void {
  // "two copper washers, one on each side": counted of the washers.
  const last = hearing.components.at(-1);
  if (last?.isUsedUp === true && last.from > hearing.freshAt && last.to <= item.from && item.from - last.to <= 2) return;
  const times = item.each.times ?? howMany(hearing, item.each);
  const evidence = hearing.evidence(item.from, item.to, 0.85);
  const here = hearing.thing !== null && hearing.thingAt > hearing.freshAt ? hearing.thing : null;
  const meant = aimed(hearing, item.from);
  const thing = here ?? (meant === null || meant.length === 0 ? hearing.talk.topic : null);
  if (thing !== null && isThingCounted(hearing, item)) {
    if (times !== null) thing.count = item.count * times;
    hearing.counted = thing;
    if (times !== null) hearing.times = { by: item.count * times, of: thing.noun };
    return;
  }
  const [focus] = aim(hearing, item.from, 'count');
  if (focus === undefined) return;
  const all = countOf(focus);
  if (all !== null) {
    if (addsToLot(hearing, item, times)) return;
    // "one a side up top and one a side at the bottom"
    const [first] = hearing.items.filter((one) => one.kind === 'each' && one.to < item.from);
    if (first?.kind === 'each' && times !== null && all === first.count * times) {
      const between = hearing.words(first.to, item.from);
      if (/\band$/.test(between) && hearing.items.every((one) => one.from <= first.from || one.from >= item.from)) {
        tell(hearing.talk, [focus], 'count', all + item.count * times, [], evidence, { replace: true, to: item.to });
        return;
      }
    }
    // "one bolt, and there's one on each side"
    const lone = all === item.count && times !== null && !focus.bothSides;
    if (lone) tell(hearing.talk, [focus], 'count', all * times, [], evidence, { replace: true, to: item.to });
    // "a lock bolt … one per slack": as many as there are of those, whose number nobody told.
    if (times === null && all === item.count && item.each.of.length > 0 && focus.whole === null) {
      focus.told.count.length = 0;
      focus.perUnknown = { count: all, of: item.each.of.at(-1) ?? '' };
      return;
    }
    focus.bothSides = true;
    return;
  }
  if (times === null) focus.perUnknown ??= { count: item.count, of: item.each.of.at(-1) ?? '' };
  else {
    focus.bothSides = true;
    tell(hearing.talk, [focus], 'count', item.count * times, hearing.builds, evidence, { to: item.to });
  }
  focusOn(hearing, [focus]);
}

/** "links, one each side, with a nut top and bottom": the things are counted where their fasteners are still to come. */
const isThingCounted = (hearing: Hearing, item: Item & { kind: 'each' }) => {
  const next = hearing.items.find((one) => one.from >= item.to && (one.kind === 'mention' || one.kind === 'quantity'));
  return next?.kind === 'mention' && next.mention.head !== null;
};

/** "five across the top and one at each end": more of the same lot. */
function addsToLot(hearing: Hearing, item: Item & { kind: 'each' }, times: number | null): boolean {
  const lot = hearing.talk.focus[0]?.whole ?? null;
  const all = lot === null ? null : countOf(lot);
  if (lot === null || all === null || times === null) return false;
  const sum = lot.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
  if (sum + item.count * times > all) return false;
  const part = addGroup(hearing.talk, hearing.sentence, {
    head: lot.head,
    sure: lot.sure,
    names: [],
    places: [...item.each.of],
    thing: lot.thing,
    whole: lot,
  });
  tell(hearing.talk, [part], 'count', item.count * times, [], hearing.evidence(item.from, item.to, 0.85));
  hearing.talk.focus = [part];
  return true;
}

/** "each has two bolts", "on each side there's a nut": the next count is so many times over. */
export function hearEachOne(hearing: Hearing, from: number, to: number): void {
  const word = hearing.word(to - 1);
  const paired = /^(?:side|end)$/.test(word) ? 2 : word === 'corner' ? 4 : null;
  if (paired !== null) {
    hearing.times = { by: paired, of: word };
    return;
  }
  const thing = hearing.counted ?? (hearing.thing !== null && hearing.thingAt < from ? hearing.thing : hearing.talk.topic);
  const next = hearing.word(to);
  // "two on the left and two on the right, and each of them has two nuts"
  const [focus] = hearing.talk.focus;
  const named = hearing.items.find((item) => item.kind === 'mention' && item.from >= to);
  const owns =
    focus?.head === 'bolt' && named?.kind === 'mention' && named.mention.head === 'nut' && hearing.talk.topicAt < hearing.talk.focusAt;
  if (owns && countOf(focus) !== null && focus.told.torque.length === 0 && /^(?:has|have|'s|gets?|takes?|got)$/.test(next)) {
    hearing.times = { by: countOf(focus), of: 'bolt' };
    focus.carriesOthers = true;
    return;
  }
  if (thing === null || (thing.count === null && !/^(?:has|have|'s|gets?|takes?|with|needs?)$/.test(next))) return;
  hearing.times = { by: thing.count, of: thing.noun };
}
