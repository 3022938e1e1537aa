import { aim, aimed } from './aim.ts';
import { countOf, isNamed, lastTold, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Mention } from './mention.ts';
import { found, isFull, isOfScene, isOfThing, made, nobody, sceneOf, sentencesSince, type Named } from './kinship.ts';
import { create, openLot, partOf } from './lot-parts.ts';
import { groupsInReach } from './talk.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** "the front ones", "two of them", "the other six", "four on top", "three 12s", "the 17s": fasteners meant without their name. */
export function someOf(hearing: Hearing, mention: Mention): Named {
  if (mention.needsLot) return mention.article === 'definite' ? thisOne(hearing, mention) : oneOfLot(hearing, mention);
  if (mention.bySize !== null || mention.byText !== null) return bySize(hearing, mention);
  return others(hearing, mention) ?? counted(hearing, mention) ?? told(hearing, mention) ?? newPart(hearing, mention);
}

const wordsOf = ({ names, place }: Mention) => [...names.filter((name) => name !== 'same'), ...place];

/** "one is a 12, one is a 14": only of a lot. */
function oneOfLot(hearing: Hearing, mention: Mention): Named {
  const lot = openLot(hearing, mention);
  return lot !== null && hasRoom(lot, mention) ? made(create(hearing, mention, lot)) : nobody;
}

/** "this one is a 14": what is in focus where it has no size yet, else one more of the lot. */
function thisOne(hearing: Hearing, mention: Mention): Named {
  const [focus] = hearing.talk.focus;
  if (focus === undefined || hearing.sentence.index - hearing.talk.focusSentence > 1) return nobody;
  if (focus.told.size.length === 0) return found([focus]);
  const next = hearing.items.find((item) => item.from >= mention.to && item.kind === 'quantity');
  if (next?.kind === 'quantity' && next.quantity.kind === 'torque' && focus.told.torque.length === 0) return found([focus]);
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

/** "the other two", "the rest": what of the lot was not told yet. */
function others(hearing: Hearing, mention: Mention): Named | null {
  if (mention.share !== 'others') return null;
  const { talk } = hearing;
  const lot = talk.focus[0]?.whole ?? openLot(hearing, mention);
  if (lot === null) return null;
  const untold = lot.parts.filter((part) => part.told.size.length + part.told.torque.length === 0 && !talk.focus.includes(part));
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
  const same = lots.findLast((group) => countOf(group) === mention.count) ?? near.findLast((group) => countOf(group) === mention.count);
  return same === undefined ? null : found([same]);
}

/** "the front ones", "the bracket ones", "four on top": told apart before by the same words. */
function told(hearing: Hearing, mention: Mention): Named | null {
  const words = wordsOf(mention);
  if (words.length === 0) return null;
  const telling = words.map(stemOf).filter((word) => tellingApart.has(word));
  const indefinite = mention.article !== 'definite' && mention.article !== 'all' && mention.share === null && mention.count !== null;
  let best: { group: Group; score: number } | null = null;
  for (const group of groupsInReach(hearing.talk)) {
    const topic = new Set(group.topic.map(stemOf));
    if (!telling.every((word) => isNamed(group.own, word) || isNamed(topic, word))) continue;
    if (mention.count !== null && mention.each === null && countOf(group) !== null && countOf(group) !== mention.count) continue;
    if (indefinite && (isFull(group) || !isOfScene(hearing, group))) continue;
    const scene = hearing.thing ?? hearing.talk.topic;
    let score = likeness(group, words, null, hearing.sentence.index);
    if (scene !== null && isOfThing(group, scene)) score += 0.2;
    if (hearing.talk.focus.includes(group) || (group.whole !== null && group.whole === hearing.talk.focus[0]?.whole)) score += 0.15;
    score -= Math.min(0.4, sentencesSince(hearing, group) * 0.02);
    if (score > 0.6 && (best === null || score >= best.score)) best = { group, score };
  }
  if (best === null) return null;
  const { group } = best;
  // "the front ones" of a lot whose front left and front right were told apart are both of them.
  const alike =
    mention.plural && mention.count === null && group.whole !== null
      ? group.whole.parts.filter((part) => telling.every((word) => part.own.has(word)))
      : [];
  return found(alike.length > 1 ? alike : [group]);
}

/** "the long ones" of the bracket's bolts, when none was told apart yet; or others beside those in focus. */
function newPart(hearing: Hearing, mention: Mention): Named {
  const words = wordsOf(mention);
  const [focus] = hearing.talk.focus;
  const near = focus !== undefined && hearing.sentence.index - hearing.talk.focusSentence <= 2;
  const lot = openLot(hearing, mention);
  if (lot !== null && !mention.another && hasRoom(lot, mention)) return found([partOf(hearing, mention, lot)]);
  if (mention.another && near) return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  if (words.length === 0) return mention.share === 'some' && near ? found(hearing.talk.focus) : nobody;
  if (hearing.thing !== null && hearing.thingAt > hearing.freshAt && mention.count !== null) return made(create(hearing, mention, null));
  if (near && isOfScene(hearing, focus)) return made(create(hearing, { ...mention, head: focus.head, sure: focus.sure }, null, focus));
  const turned = hearing.talk.topicAt > hearing.talk.focusAt && hearing.sentence.index - hearing.talk.topicSentence <= 2;
  return turned && mention.count !== null ? made(create(hearing, mention, null)) : nobody;
}

/** A lot of sixteen of which fourteen and two were told has no three more. */
function hasRoom(lot: Group, mention: Mention): boolean {
  const all = countOf(lot);
  const words = wordsOf(mention).map(stemOf);
  if (all === null || lot.parts.some((part) => words.some((word) => part.own.has(word)))) return true;
  return lot.parts.reduce((sum, part) => sum + (countOf(part) ?? 0), 0) + (mention.count ?? 1) <= all;
}
