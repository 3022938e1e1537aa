import { aim, aimed, focusOn } from './aim.ts';
import { fastenerHead } from './fastener-words.ts';
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
  const many = ofMany(hearing, mention);
  const factor = factorOf(hearing, mention) ?? (many?.by == null ? null : many);
  const evidence = hearing.evidence(mention.from, mention.end, mention.vague ? 0.5 : factor === null ? 0.92 : 0.85);
  hearing.correcting = false;
  if (factor === null) {
    tell(hearing.talk, [group], 'count', count, hearing.builds, evidence, { replace: true, to: mention.end });
    if (group.perUnknown !== null && count > group.perUnknown.count) group.perUnknown = null;
    return;
  }
  if (factor.by === null) {
    group.perUnknown ??= { count: count * (factor.over ?? mention.each?.over ?? 1), of: factor.of };
    return;
  }
  group.times = factor.by;
  if (/^(?:side|end|corner)$/.test(factor.of)) group.bothSides = true;
  tell(hearing.talk, [group], 'count', count * factor.by, hearing.builds, evidence, { replace: true, to: mention.end });
}

interface Factor {
  readonly by: number | null;
  readonly of: string;
  /** Where it is not known how many: so many for each. */
  readonly over?: number;
}

/** "each side", "per bracket", and what was said before of each: together where they are nested. */
function factorOf(hearing: Hearing, mention: Mention): Factor | null {
  const { count, each, place } = mention;
  const { times } = hearing;
  // "two bolts, left and right" are two.
  const listed = each !== null && each.times === 2 && each.of[0] === 'end' && (count ?? 0) > 1 && place.length > 1;
  if (each === null) return times ?? ofEvery(hearing, mention);
  if (listed) return times;
  const own = {
    by: each.times === null ? manyOver(hearing, each) : timesOf(hearing, each),
    of: each.of.at(-1) ?? hearing.counted?.noun ?? nounOf(hearing.talk.topic?.words ?? []),
  };
  const every = own.of === 'end' && own.by !== null && times === null ? (ofMany(hearing, mention) ?? ofTopic(hearing, mention)) : null;
  if (every !== null && own.by !== null) return { by: every.by === null ? null : own.by * every.by, of: every.of, over: own.by };
  if (own.of !== 'end' || own.by === null || times === null || times.by === null) return own;
  return { by: own.by * times.by, of: times.of };
}

/** "six latches … the latch takes two screws": said of one, meant of every. */
function ofEvery(hearing: Hearing, mention: Mention): Factor | null {
  const { thing, thingItem } = hearing;
  if (thing === null || thingItem === null || thing.count === null || thing.count < 2) return null;
  // "one holder per side with a screw"
  if (thingItem.count === 1 && hearing.thingAt < mention.from) return { by: thing.count, of: thing.noun };
  if (thingItem.count !== null) return null;
  const one = !/s$/.test(thingItem.words.at(-1) ?? '') && /^(?:the|a|an|one)$/.test(hearing.word(thingItem.from));
  // "the partition has five up each side and four along the bottom": the each said how many there are of the fasteners.
  const counted = hearing.items.some(({ kind, from, to }) => kind === 'each' && from > hearing.thingAt && to <= mention.from);
  return one && !counted && hearing.thingAt < mention.from ? { by: thing.count, of: thing.noun } : null;
}

/** "the ball joints have a castle nut": one for each of them. */
function ofMany(hearing: Hearing, mention: Mention): Factor | null {
  const { thing, thingItem } = hearing;
  if (thing === null || thingItem === null || mention.count !== 1 || mention.article !== 'indefinite') return null;
  if (hearing.thingAt >= mention.from || !/[^s]s$/.test(thingItem.words.at(-1) ?? '') || thingItem.count === 1) return null;
  return /^(?:have|get|take|use|need|are|'ve)(?: got)?$/.test(hearing.words(thingItem.to, mention.from))
    ? { by: thing.count, of: thing.noun }
    : null;
}

function manyOver(hearing: Hearing, each: Each): number | null {
  const many = howMany(hearing, each);
  return many === null ? null : many * (each.over ?? 1);
}

/** A bumper has two corners, where a frame has four. */
const cornersOf = ({ thing, talk }: Hearing): number => {
  const at = thing ?? talk.topic;
  return at?.stems.has('bumper') === true || at?.under?.stems.has('bumper') === true ? 2 : 4;
};

const timesOf = (hearing: Hearing, { of, times }: Each): number | null =>
  times === 4 && of.at(-1) === 'corner' ? cornersOf(hearing) : times;

/** "Shock absorbers. One each side. Bolt top and bottom": at the top and at the bottom of every one. */
function ofTopic({ talk, thing, sentence }: Hearing, { plural, count }: Mention): Factor | null {
  const { topic } = talk;
  if (thing !== null || topic === null || plural || (count ?? 1) !== 1 || sentence.index - topic.lastSentence > 2) return null;
  const many = /[^s]s$/.test(topic.words.at(-1) ?? '') ? topic.count : null;
  return many === null || many < 2 ? null : { by: many, of: topic.noun };
}

/** How many of what is counted by there are, where the talk has said so. */
function howMany(hearing: Hearing, each: Each): number | null {
  const noun = each.of.at(-1);
  if (noun === undefined && isBothEnds(hearing)) return 2;
  if (noun === undefined) return hearing.counted?.count ?? hearing.thing?.count ?? hearing.talk.topic?.count ?? null;
  return countOfThings(hearing, noun, each.of);
}

/** "top and bottom, one bolt at each" */
const isBothEnds = ({ sentence }: Hearing): boolean =>
  /\b(?:top and bottom|left and right|front and (?:rear|back)|upper and lower|inner and outer) \w+(?: \w+)? (?:at|on|in) each\b/.test(
    sentence.tokens.map(({ bare }) => bare).join(' '),
  );

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
  const times = item.each.times === null ? manyOver(hearing, item.each) : timesOf(hearing, item.each);
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
  if (thing !== null && times !== null) thing.count ??= item.count * times;
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
  if (next?.kind === 'mention' && next.mention.head !== null) return true;
  // "Dampers. One each side at the rear. Top bolt, nineteen.": the dampers are counted, and what holds them comes next.
  const { following } = hearing;
  const isWhole = item.from === 0 && next === undefined && hearing.thing === null;
  if (isWhole && following !== null && [0, 1, 2].some((at) => fastenerHead(following.tokens, at)?.sure === true)) return true;
  // "there are two gussets, one each side": the gussets again, not what holds them.
  const counted = hearing.thingItem?.count ?? null;
  return next === undefined && counted !== null && item.each.times !== null && counted === item.count * item.each.times;
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
  // "twenty foot-pounds each" counts nothing.
  const told = hearing.sentence.quantities.some((one) => one.kind === 'torque' && one.to === from);
  if (told && hearing.word(to - 1) === 'each') return;
  // "left and right, each has a bolt"
  if (/\bleft and right$/.test(hearing.words(0, from))) {
    hearing.times = { by: 2, of: 'side' };
    return;
  }
  const word = hearing.word(to - 1);
  const paired = /^(?:side|end)$/.test(word) ? 2 : word === 'corner' ? cornersOf(hearing) : null;
  if (paired !== null && countsBack(hearing, from, to, paired)) return;
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

/** "one bolt, 10 millimeter, each side": where nothing is named after it, what was counted before it. */
function countsBack(hearing: Hearing, from: number, to: number, times: number): boolean {
  const { talk, sentence } = hearing;
  const [focus] = talk.focus;
  const told = focus?.told.count.at(-1);
  if (focus === undefined || talk.focus.length !== 1 || told === undefined || hearing.freshAt < 0) return false;
  const next = hearing.items.find((item) => item.from >= to && item.kind !== 'pronoun');
  if (next?.kind === 'mention') return false;
  if (told.evidence.sentence !== sentence.index || focus.bothSides || focus.times !== null || focus.whole !== null) return false;
  const [named] = hearing.components.slice(-1);
  if (named !== undefined && named.from > hearing.freshAt) return false;
  focus.bothSides = true;
  tell(talk, [focus], 'count', told.value * times, hearing.builds, hearing.evidence(from, to, 0.85), { replace: true, to });
  return true;
}
