import { aim, aimed, fastenersOf } from './aim.ts';
import { countOf, isNamed, lastTold, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Mention } from './mention.ts';
import { found, isFull, isOfScene, isOfThing, made, nobody, sceneOf, sentencesSince, type Named } from './kinship.ts';
import { create, openLot, partOf } from './lot-parts.ts';
import { groupsInReach } from './talk.ts';
import { areApart } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** "the front ones", "two of them", "the other six", "four on top", "three 12s", "the 17s": fasteners meant without their name. */
export function someOf(hearing: Hearing, mention: Mention): Named {
  if (mention.needsLot) return mention.article === 'definite' ? thisOne(hearing, mention) : oneOfLot(hearing, mention);
  if (mention.bySize !== null || mention.byText !== null) return bySize(hearing, mention);
  // "there's four of them through the hole"
  const [focus] = hearing.talk.focus;
  const totals = mention.share === 'some' && /(?:there 's|there are|got|have)$/.test(hearing.words(0, mention.from));
  if (
    totals &&
    focus !== undefined &&
    hearing.talk.focus.length === 1 &&
    hearing.thing === null &&
    countOf(focus) === null &&
    focus.whole === null &&
    focus.head !== null
  )
    return found([focus]);
  return (
    lastNamed(hearing, mention) ??
    others(hearing, mention) ??
    counted(hearing, mention) ??
    told(hearing, mention) ??
    newPart(hearing, mention)
  );
}

const wordsOf = ({ names, place }: Mention) => [...names.filter((name) => name !== 'same'), ...place];

/** "one is a 12, one is a 14": only of a lot. */
function oneOfLot(hearing: Hearing, mention: Mention): Named {
  const [focus] = hearing.talk.focus;
  if (focus !== undefined && isOneMore(hearing, mention, focus))
    return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  const lot = openLot(hearing, mention);
  return lot !== null && hasRoom(lot, mention) ? made(create(hearing, mention, lot)) : nobody;
}

/** "this one is a 14": what is in focus where it has no size yet, else one more of the lot. */
function thisOne(hearing: Hearing, mention: Mention): Named {
  const [focus] = hearing.talk.focus;
  if (focus === undefined || hearing.sentence.index - hearing.talk.focusSentence > 1) return nobody;
  if (focus.told.size.length === 0) return found([focus]);
  const next = hearing.items.find((item) => item.from >= mention.to && item.kind === 'quantity');
  // "the union, 11 mil, and that one's sixteen", but "this one's a sixteen"
  const isValue =
    next?.kind === 'quantity' &&
    (next.quantity.kind === 'torque' ||
      (next.quantity.kind === 'number' &&
        !next.quantity.plural &&
        !/^(?:a|an)$/.test(hearing.word(next.from - 1)) &&
        focus.whole === null &&
        (countOf(focus) ?? 1) === 1));
  if (isValue && focus.told.torque.length === 0) return found([focus]);
  const lot = focus.whole ?? focus;
  const all = countOf(lot);
  const sum = lot.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
  if (lot.parts.length > 0 && all !== null && sum < all) return made(create(hearing, mention, lot));
  return hearing.talk.focusSentence === hearing.sentence.index && focus.head !== null
    ? made(create(hearing, { ...mention, head: focus.head }, null, focus))
    : nobody;
}

const sizeOf = (group: Group) => Number(lastTold(group, 'size')?.value.text ?? Number.NaN);

function bySize(hearing: Hearing, mention: Mention): Named {
  const { talk } = hearing;
  const text = mention.byText;
  const fits = (group: Group) =>
    text === null
      ? sizeOf(group) === mention.bySize
      : lastTold(group, 'size')?.value.text === text || lastTold(group, 'thread')?.value === text;
  const thing = hearing.thing !== null && hearing.thingAt > hearing.freshAt ? hearing.thing : null;
  const matching = groupsInReach(talk).filter(fits);
  // "a bolt at each end, both thirteens"
  if (mention.article === 'all' && matching.length === 0 && hearing.freshAt >= 0 && thing === null) return found(talk.focus);
  // "all the tens are 80": every one of them that has no torque yet.
  if (mention.article === 'all' && mention.plural && mention.count === null && mention.place.length === 0 && thing === null) {
    const open = matching.filter((group) => lastTold(group, 'torque') === null && group.parts.length === 0);
    if (open.length > 1) return found(open);
  }
  if (mention.article === 'definite' || mention.article === 'all' || mention.share === 'some') {
    const words = mention.place;
    const placed = words.length === 0 ? [] : matching.filter((group) => likeness(group, words, null, hearing.sentence.index) > 0.4);
    const owned = thing === null ? [] : matching.filter((group) => isOfThing(group, thing));
    const near = matching.filter((group) => sentencesSince(hearing, group) <= 6);
    const [choice] = [placed, owned, near].filter((groups) => groups.length > 0);
    const last = choice?.at(-1);
    if (choice !== undefined && last !== undefined) {
      // "the 19s" are all of that size, among those told apart by it.
      const together = choice.filter(
        (group) =>
          group === last ||
          (group.whole !== null && group.whole === last.whole) ||
          (group.thing !== null && group.thing === last.thing && !isFull(group)),
      );
      if (mention.count === null) return found(mention.plural ? together : [last]);
      const exact = choice.findLast((group) => countOf(group) === mention.count);
      return found([exact ?? ((countOf(last) ?? 0) > mention.count ? partOf(hearing, mention, last) : last)]);
    }
  }
  if (mention.another) return made(create(hearing, { ...mention, sure: true }, null));
  // "so you need two eighteens for that": the tools.
  if (/^(?:need|grab|want|get)$/.test(hearing.word(mention.from - 1))) {
    const meant = matching.filter((group) => sentencesSince(hearing, group) <= 2);
    if (meant.length > 0) return found(meant.slice(-1));
  }
  // "two at the bottom on each side that are fifteens … so that's four fifteens"
  const again = matching.findLast(
    (group) => mention.count !== null && countOf(group) === mention.count && sentencesSince(hearing, group) <= 2,
  );
  const summed = matching.findLast(
    ({ perUnknown }) =>
      perUnknown !== null && mention.count !== null && mention.count > perUnknown.count && mention.count % perUnknown.count === 0,
  );
  if (summed !== undefined && sentencesSince(hearing, summed) <= 2 && /\b(?:so|that 's|makes)$/.test(hearing.words(0, mention.from))) {
    summed.perUnknown = null;
    return found([summed]);
  }
  if (again !== undefined && lastTold(again, 'torque') === null && /\b(?:so|that 's|makes)$/.test(hearing.words(0, mention.from)))
    return found([again]);
  const uncounted = uncountedOf(hearing, mention, matching);
  if (uncounted !== null) return found([uncounted]);
  const lot = openLot(hearing, mention);
  const sum = lot?.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0) ?? 0;
  const all = lot === null ? null : countOf(lot);
  if (lot !== null && thing === null && (all === null || sum + (mention.count ?? 1) <= all)) return made(create(hearing, mention, lot));
  if (mention.count === null && mention.article !== 'definite') {
    const focus = aim(hearing, mention.from, 'size');
    if (focus.length > 0) return found(focus);
  }
  return mention.count === null && sceneOf(hearing) === null ? nobody : made(create(hearing, { ...mention, sure: true }, null));
}

/** "the front and the middle ones are eighteens … so that's four eighteens": those of that size, together. */
function uncountedOf(hearing: Hearing, mention: Mention, matching: readonly Group[]): Group | null {
  if (mention.count === null || !/^(?:and |so |okay )*(?:so|that 's|that is|makes)\b/.test(hearing.words(0, mention.from))) return null;
  const open = matching.filter(
    (group) => countOf(group) === null && group.whole !== null && group.parts.length === 0 && sentencesSince(hearing, group) <= 3,
  );
  const [first, ...others] = open;
  const lot = first?.whole ?? null;
  if (first === undefined || lot === null || others.some((group) => group.whole !== lot)) return null;
  for (const other of others) {
    for (const word of [...other.names, ...other.places]) {
      first.own.add(stemOf(word));
      first.places.push(word);
    }
    lot.parts.splice(lot.parts.indexOf(other), 1);
  }
  return first;
}

/** "those last two are both nine": so many named one after the other. */
function lastNamed(hearing: Hearing, mention: Mention): Named | null {
  const { count, article, names, place } = mention;
  if (article !== 'definite' || count === null || count > 6 || names.length !== 1 || names[0] !== 'last' || place.length > 0) return null;
  const open = groupsInReach(hearing.talk).filter((group) => group.whole === null && isUntightened(group) && (countOf(group) ?? 1) === 1);
  const last = open.slice(-count);
  return last.length === count && last.every((group) => sentencesSince(hearing, group) <= count + 1) ? found(last) : null;
}

/** "the other two", "the rest": what of the lot was not told yet. */
function others(hearing: Hearing, mention: Mention): Named | null {
  if (mention.share !== 'others') return null;
  const { talk } = hearing;
  const lot = talk.focus[0]?.whole ?? openLot(hearing, mention);
  if (lot === null) return null;
  const next = hearing.items.find((item) => item.from >= mention.to && item.kind === 'quantity');
  const isSized = lot.parts.every((part) => part.told.size.length > 0);
  const toTighten = isSized && next?.kind === 'quantity' && /^(?:torque|number)$/.test(next.quantity.kind);
  const untold = lot.parts.filter(
    (part) => part.told.torque.length === 0 && (toTighten || part.told.size.length === 0) && !talk.focus.includes(part),
  );
  if (untold.length > 0 && (mention.count === null || untold.reduce((sum, part) => sum + (countOf(part) ?? 0), 0) === mention.count))
    return found(untold);
  const all = countOf(lot);
  const sum = lot.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
  const rest = mention.count ?? (all !== null && sum < all ? all - sum : null);
  const same = lot.parts.find((part) => part.names.includes('other') && !talk.focus.includes(part));
  return found([same ?? create(hearing, { ...mention, names: ['other', ...mention.names], count: rest }, lot)]);
}

/** "four of them", "those three", "the four": by their number alone. */
function counted(hearing: Hearing, mention: Mention): Named | null {
  if (wordsOf(mention).length > 0 || mention.count === null) return null;
  const { talk } = hearing;
  const meant = aimed(hearing, mention.from);
  // "ground straps, there's three of them": so many things, each with its fasteners still to come.
  if (meant === null && mention.share === 'some') {
    const thing = hearing.thing ?? talk.topic;
    if (thing !== null) thing.count = mention.count;
    hearing.counted = thing;
    return nobody;
  }
  const targets = aim(hearing, mention.from, 'count');
  const [focus] = targets;
  if (focus === undefined) return mention.share === 'some' ? nobody : null;
  if (mention.share === 'some') {
    if (targets.length === 1 && countOf(focus) === null) return found([focus]);
    if (countOf(focus) === mention.count) return found([focus]);
    if (mention.count === 1 && hearing.word(mention.from - 1) === 'every') return found(targets);
    const same = focus.parts.find((part) => countOf(part) === mention.count && part.names.length === 0);
    const lot = focus.whole ?? focus;
    return (countOf(lot) ?? 0) > mention.count ? found([same ?? create(hearing, mention, lot)]) : found(targets);
  }
  if (mention.article !== 'definite') return null;
  const lots = talk.focus.flatMap((group) => [...group.parts, ...(group.whole?.parts ?? []), group]);
  const near = talk.groups.filter((group) => sentencesSince(hearing, group) <= 2 && !lots.includes(group));
  const exact = (group: Group) => countOf(group) === mention.count;
  // "those four I left snug": told long before, and still without a torque.
  const left = groupsInReach(talk).filter((group) => exact(group) && isUntightened(group));
  const same = lots.findLast(exact) ?? near.findLast(exact) ?? (left.length === 1 ? left[0] : undefined);
  return same === undefined ? null : found([same]);
}

/** "the front ones", "the bracket ones", "four on top": told apart before by the same words. */
function told(hearing: Hearing, mention: Mention): Named | null {
  const words = wordsOf(mention);
  if (words.length === 0) return null;
  const telling = words.map(stemOf).filter((word) => tellingApart.has(word));
  const indefinite = mention.article !== 'definite' && mention.article !== 'all' && mention.share === null && mention.count !== null;
  let best: { group: Group; score: number } | null = null;
  const left = leftAtPlace(hearing, mention);
  for (const group of left.length > 0 ? left : groupsInReach(hearing.talk)) {
    const topic = new Set(group.topic.map(stemOf));
    if (!telling.every((word) => isNamed(group.own, word) || isNamed(topic, word))) continue;
    // "the bottom one" of either side is one of two.
    const onAll = group.bothSides || (group.times !== null && group.times === countOf(group));
    const ofSides = mention.count === 1 && mention.article === 'definite' && mention.place.length === 0 && onAll;
    const otherCount = mention.count !== null && mention.each === null && countOf(group) !== null && countOf(group) !== mention.count;
    if (otherCount && !ofSides) continue;
    if (indefinite && (isFull(group) || !isOfScene(hearing, group))) continue;
    // "one into the gearbox, sixteen, and one into the pipe": another one, though the pipe is what they belong to.
    if (indefinite && hearing.freshAt >= 0 && isPlacedElsewhere(hearing, mention, group)) continue;
    if (isAtAnotherPlace(mention, group)) continue;
    const scene = hearing.thing ?? hearing.talk.topic;
    let score = likeness(group, words, null, hearing.sentence.index);
    if (scene !== null && isOfThing(group, scene)) score += 0.2;
    if (hearing.talk.focus.includes(group) || (group.whole !== null && group.whole === hearing.talk.focus[0]?.whole)) score += 0.15;
    // "the six on the tank skid": counted before, and still without a torque.
    const isCounted =
      mention.count !== null &&
      mention.count > 1 &&
      mention.article === 'definite' &&
      countOf(group) === mention.count &&
      isUntightened(group);
    if (!isCounted && left.length !== 1) score -= Math.min(0.4, sentencesSince(hearing, group) * 0.02);
    if (score > 0.6 && (best === null || score >= best.score)) best = { group, score };
  }
  if (best === null) return bySizeWord(hearing, words);
  const { group } = best;
  // "the front ones" of a lot whose front left and front right were told apart are both of them.
  const alike =
    mention.plural && mention.count === null && group.whole !== null
      ? group.whole.parts.filter((part) => words.every((word) => part.own.has(stemOf(word)) || isNamed(topicOf(part), stemOf(word))))
      : [];
  return found(alike.length > 1 ? alike : [group]);
}

/** "the verticals, 160", "the lowers are 105", long after their sizes: those called just so that still lack a torque. */
function leftAtPlace(hearing: Hearing, mention: Mention): readonly Group[] {
  const [name, ...others] = [...mention.names, ...mention.place].map(stemOf);
  if (name === undefined || others.length > 0 || mention.article !== 'definite' || !mention.plural || mention.count !== null) return [];
  if (!tellingApart.has(name) && !/^(?:horizontal|vertical)$/.test(name)) return [];
  return groupsInReach(hearing.talk).filter((group) => isUntightened(group) && (group.own.has(name) || topicOf(group).has(name)));
}

/** "the one at the gearbox end", "the one at the body end": told apart by what the place is of. */
function isAtAnotherPlace({ place }: Mention, group: Group): boolean {
  const plain = (words: readonly string[]) => words.filter((word) => !tellingApart.has(word)).map(stemOf);
  const [here, there] = [plain(place), plain(group.places)];
  return here.length > 0 && there.length > 0 && !here.some((word) => there.includes(word) || group.own.has(word));
}

const isPlacedElsewhere = (hearing: Hearing, mention: Mention, group: Group) =>
  group.sentences.at(-1) === hearing.sentence.index &&
  group.told.size.length > 0 &&
  group.places.length > 0 &&
  mention.place.length > 0 &&
  !mention.place.some((word) => group.places.includes(word));

const isUntightened = (group: Group) => group.told.size.length > 0 && group.told.torque.length === 0;

const topicOf = (group: Group) => new Set(group.topic.map(stemOf));

/** "the long ones" of the bracket's bolts, when none was told apart yet; or others beside those in focus. */
function newPart(hearing: Hearing, mention: Mention): Named {
  const words = wordsOf(mention);
  const [focus] = hearing.talk.focus;
  const near = focus !== undefined && hearing.sentence.index - hearing.talk.focusSentence <= 2;
  // "two bolts at the flange and one at the bracket": each at its own place, none part of the other.
  const placed = focus?.places.length !== 0 || focus.bothSides;
  if (
    near &&
    focus.whole === null &&
    placed &&
    mention.place.length > 0 &&
    (followsAtOnce(hearing, mention) || isElsewhere(mention, focus))
  )
    return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  // "three bolts hold the bracket, and then one goes through the middle"
  if (near && mention.share === null && isOneMore(hearing, mention, focus))
    return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  // "ram pin at the front: one bolt. The back one's the same."
  if (near && isOtherOfTwo(mention, focus)) return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  const lot = openLot(hearing, mention) ?? lotOfThing(hearing, mention);
  if (lot !== null && !mention.another && hasRoom(lot, mention)) return found([partOf(hearing, mention, lot)]);
  if (mention.another && near) return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  if (words.length === 0) return mention.share === 'some' && near ? found(hearing.talk.focus) : nobody;
  if (hearing.thing !== null && hearing.thingAt > hearing.freshAt && mention.count !== null) return made(create(hearing, mention, null));
  if (near && isOfScene(hearing, focus)) return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  const turned = hearing.talk.topicAt > hearing.talk.focusAt && hearing.sentence.index - hearing.talk.topicSentence <= 2;
  return turned && mention.count !== null ? made(create(hearing, mention, null)) : nobody;
}

/** "twelve on the outside, ten mil, and two longer ones at the back": counted anew, at another place. */
const isElsewhere = (mention: Mention, focus: Group): boolean =>
  mention.share === null &&
  mention.article !== 'definite' &&
  mention.count !== null &&
  countOf(focus) !== null &&
  focus.places.some((word) => tellingApart.has(word)) &&
  focus.parts.length === 0 &&
  mention.place.some((word) => tellingApart.has(word) && !focus.own.has(stemOf(word)));

/** Named by a place opposite to that of the one in focus, and as many. */
const isOtherOfTwo = (mention: Mention, focus: Group): boolean =>
  focus.head !== null &&
  focus.whole === null &&
  focus.parts.length === 0 &&
  mention.share === null &&
  (countOf(focus) ?? 1) === (mention.count ?? countOf(focus) ?? 1) &&
  focus.places.length > 0 &&
  areApart(wordsOf(mention).map(stemOf), focus.places.map(stemOf));

/** A lot of sixteen of which fourteen and two were told has no three more. */
function hasRoom(lot: Group, mention: Mention): boolean {
  const all = countOf(lot);
  const words = wordsOf(mention).map(stemOf);
  if (all === null || lot.parts.some((part) => words.some((word) => part.own.has(word)))) return true;
  return lot.parts.reduce((sum, part) => sum + (countOf(part) ?? 0), 0) + (mention.count ?? 1) <= all;
}

/** The mention comes straight after the one before it: "two here and one there". */
function followsAtOnce(hearing: Hearing, mention: Mention): boolean {
  const before = hearing.items.findLast((item) => item.to <= mention.from);
  if (before?.kind !== 'each' && (before?.kind !== 'mention' || hearing.freshAt !== before.from)) return false;
  return hearing.sentence.tokens.slice(before.to, mention.from).every(({ bare }) => /^(?:and|then|plus)$/.test(bare));
}

/** "the sensors, there's four of them, two in front": the four, though nobody called them anything but sensors. */
function lotOfThing(hearing: Hearing, mention: Mention): Group | null {
  const { thing } = hearing;
  if (thing === null || hearing.counted !== thing || hearing.thingAt <= hearing.freshAt || hearing.times !== null) return null;
  if (mention.head !== null || mention.count === null || mention.bySize !== null || (thing.count ?? 0) <= mention.count) return null;
  const [lot] = fastenersOf(hearing, thing, 'size');
  return lot?.implied === true && lot.head === null ? lot : null;
}

/** "35 on the big ones, 20 on the small one": of those just told apart by their sizes, the larger or the smaller. */
function bySizeWord(hearing: Hearing, words: readonly string[]): Named | null {
  const [word] = words;
  if (words.length !== 1 || word === undefined || !/^(?:big|bigger|large|larger|small|smaller|little)$/.test(word)) return null;
  const sized = hearing.talk.groups.filter(
    (group) => sentencesSince(hearing, group) <= 2 && Number.isFinite(sizeOf(group)) && group.parts.length === 0,
  );
  const sizes = [...new Set(sized.map(sizeOf))].sort((one, other) => one - other);
  if (sizes.length !== 2) return null;
  const wanted = /^(?:big|large)/.test(word) ? sizes[1] : sizes[0];
  return found(sized.filter((group) => sizeOf(group) === wanted));
}

/** "three bolts hold the bracket, and then one goes through the middle": beside those that are placed already. */
const isOneMore = (hearing: Hearing, mention: Mention, focus: Group): boolean =>
  mention.count === 1 &&
  focus.head !== null &&
  focus.whole === null &&
  focus.parts.length === 0 &&
  focus.places.length > 0 &&
  hearing.sentence.index - hearing.talk.focusSentence <= 1 &&
  /\b(?:then|plus)$/.test(hearing.words(0, mention.from));
