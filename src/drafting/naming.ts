import { countOf, lastTold, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Mention } from './mention.ts';
import { found, isBare, isFull, isOfScene, isOfThing, made, sameKind, sentencesSince, type Named } from './kinship.ts';
import { create, openLot, partOf } from './lot-parts.ts';
import { mateOf } from './mates.ts';
import { someOf } from './shares.ts';
import { isCommonPart } from './parts.ts';
import { groupsInReach, noteSentence } from './talk.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** Which fasteners a mention means: some that were named before, or new ones. */
export function nameFasteners(hearing: Hearing, mention: Mention): Named {
  const named = mention.head === null ? someOf(hearing, mention) : (mateOf(hearing, mention) ?? headed(hearing, mention));
  for (const group of named.groups) noteSentence(group, hearing.sentence);
  return named;
}

function headed(hearing: Hearing, mention: Mention): Named {
  // "the wedge has got its own bolts"
  if (mention.another || mention.names.includes('own')) return made(create(hearing, mention, null));
  return known(hearing, mention) ?? made(create(hearing, mention, null));
}

const isDefinite = ({ article }: Mention) => article === 'definite' || article === 'all' || article === 'each';

function known(hearing: Hearing, mention: Mention): Named | null {
  const { names, place } = mention;
  const uncounted = countedAfterwards(hearing, mention);
  if (uncounted !== null) return found([uncounted]);
  const isMain = groupsInReach(hearing.talk).some((group) => group.own.has('main') && sameKind(group, mention));
  const own = names.filter((name) => name !== 'same' && (name !== 'main' || isMain));
  const bySize = isDefinite(mention) ? toldBySize(hearing, mention) : null;
  if (bySize !== null) return found([bySize]);
  const adopted = adoptImplied(hearing, mention);
  if (adopted !== null) return found([adopted]);
  const ofEach = place.every((word) => mention.each?.of.includes(stemOf(word)) === true);
  if (own.length === 0 && ofEach)
    return isDefinite(mention) || mention.count === null ? bareKnown(hearing, mention) : restated(hearing, mention);
  const onlyTelling = own.every((name) => tellingApart.has(name)) && place.every((word) => tellingApart.has(word));
  const best = bestFor(hearing, mention);
  if (best !== null && accepts(hearing, mention, best)) {
    const all = countOf(best.group);
    if (mention.count !== null && mention.each === null && all !== null && mention.count < all && isDefinite(mention))
      return found([partOf(hearing, mention, best.group)]);
    return found([best.group]);
  }
  const called = namedAfterwards(hearing, mention);
  if (called !== null) return found([called]);
  const lot = hearing.talk.focus[0]?.whole ?? openLot(hearing, mention);
  if (lot !== null && onlyTelling && sameKind(lot, mention) && (isDefinite(mention) || mention.count !== null) && isOfScene(hearing, lot))
    return found([partOf(hearing, mention, lot)]);
  if (isDefinite(mention) && onlyTelling && own.every((name) => /^(?:little|big|small|large)$/.test(name)) && place.length === 0)
    return bareKnown(hearing, mention);
  return null;
}

/** "forty on the clamp nuts, there's two clamps with one nut each": how many there are of those just named. */
function countedAfterwards(hearing: Hearing, mention: Mention): Group | null {
  const [focus] = hearing.talk.focus;
  if (focus === undefined || hearing.talk.focus.length > 1 || hearing.sentence.index - hearing.talk.focusSentence > 1) return null;
  if (
    mention.count === null ||
    mention.head !== focus.head ||
    !focus.saidPlural ||
    mention.names.some((name) => !focus.own.has(stemOf(name)))
  )
    return null;
  if (countOf(focus) !== null || focus.perUnknown !== null) return null;
  const { thing } = hearing;
  const named = thing !== null && hearing.thingAt > hearing.freshAt ? thing : null;
  return named === null || focus.own.has(named.noun) || isOfThing(focus, named) ? focus : null;
}

/** "four bolts, nine-sixteenths. I put a drop of red on every one of those front flange bolts": only now they get their name. */
function namedAfterwards(hearing: Hearing, mention: Mention): Group | null {
  const [focus] = hearing.talk.focus;
  if (focus === undefined || hearing.talk.focus.length > 1 || hearing.sentence.index - hearing.talk.focusSentence > 1) return null;
  const pointed = /\b(?:those|these|them)\b/.test(hearing.words(mention.from - 1, mention.to));
  const noun = stemOf(mention.names.at(-1) ?? '');
  const spoken = hearing.talk.lately.some(({ items }) =>
    items.some((item) => item.kind === 'component' && item.words.map(stemOf).includes(noun)),
  );
  const isNameless = focus.names.length === 0 && focus.whole === null && focus.parts.length === 0;
  if (!pointed || !isNameless || mention.count !== null || !mention.plural || focus.head !== mention.head || !spoken) return null;
  if (countOf(focus) === null || (countOf(focus) ?? 1) < 2 || lastTold(focus, 'torque') !== null) return null;
  for (const name of mention.names) {
    focus.names.push(name);
    focus.own.add(stemOf(name));
  }
  return focus;
}

interface Scored {
  readonly group: Group;
  readonly score: number;
}

function bestFor(hearing: Hearing, mention: Mention): Scored | null {
  const words = [...mention.names, ...(mention.sure || mention.head === null ? [] : [mention.head]), ...mention.place];
  const scene = hearing.thing !== null && hearing.thingAt >= hearing.valueEnd && hearing.thingAt < mention.from ? hearing.thing : null;
  const noun = mention.names.findLast((name) => !tellingApart.has(name)) ?? null;
  let best: Scored | null = null;
  for (const group of groupsInReach(hearing.talk)) {
    // Studs that have a size and a torque are turned themselves, so the nuts on them are others.
    const isStudded = mention.head === 'nut' && /^(?:stud|lug)$/.test(group.head ?? '') && !isFull(group);
    if (group.head !== null && !sameKind(group, mention) && !isStudded) continue;
    let score = likeness(group, words, mention.head, hearing.sentence.index);
    if (mention.count !== null && mention.each === null && countOf(group) !== null) score += countOf(group) === mention.count ? 0.1 : -0.3;
    // "the through bolt" is none of two, unless there is one on either side.
    const one =
      !mention.plural &&
      mention.count === null &&
      (countOf(group) ?? 1) > 1 &&
      !group.bothSides &&
      group.times === null &&
      group.thing?.count == null;
    if (one && mention.article === 'definite' && !group.saidSingular) score -= 0.3;
    if (noun !== null && !isNamedBy(group, noun, mention.names)) score -= 0.4;
    // Only near it, not of it: "the two on the starter side" are no "starter bolts".
    else if (noun !== null && isOnlyPlace(group, noun)) score -= 0.2;
    if (scene !== null) score += isOfThing(group, scene) ? 0.1 : -0.5;
    if (hearing.talk.focus.includes(group)) score += 0.05;
    if (isDefinite(mention) && group.told.torque.length === 0 && sentencesSince(hearing, group) <= 2) score += 0.1;
    score -= Math.min(0.12, sentencesSince(hearing, group) * 0.004);
    if (best === null || score > best.score) best = { group, score };
  }
  return best;
}

/** "wheel bolts" are not the bolts of the wheel speed sensor: what they are named by must be what those belong to. */
function isNamedBy(group: Group, name: string, names: readonly string[]): boolean {
  const stem = stemOf(name);
  const { thing } = group;
  const own = group.names.filter((word) => !tellingApart.has(word)).map(stemOf);
  // "wheel bolts" are not those of the jockey wheel clamp.
  if (own.length > 1 && own.at(-1) !== stem && own.includes(stem) && !isCommonPart(own.at(-1) ?? '')) return false;
  if (own.length > 1 && own.at(-1) !== stem && own.includes(stem) && names.length === 1) return false;
  // "cradle bolts" are not those of the brackets on the corners of the cradle.
  const stems = thing?.words.map(stemOf) ?? [];
  if (thing !== null && !group.own.has(stem) && stems.includes(stem) && stems.indexOf(stem) > stems.indexOf(thing.noun)) return false;
  if (group.own.has(stem) || thing === null || isCommonPart(thing.noun)) return true;
  return (
    thing.noun === stem || thing.under?.noun === stem || thing.noun.includes(stem) || stem.includes(thing.noun) || !thing.stems.has(stem)
  );
}

const isOnlyPlace = (group: Group, noun: string) => {
  const stem = stemOf(noun);
  return group.places.map(stemOf).includes(stem) && ![...group.names, ...group.topic].map(stemOf).includes(stem);
};

/** Of what kind a nut or bolt is: "the jam nuts on the tie rods" are not the nuts that were told before. */
const kindWords = /^(?:jam|lock|pinch|castle|castellated|flare|banjo|through|pivot|adjuster|adjusting)$/;

function accepts(hearing: Hearing, mention: Mention, { group, score }: Scored): boolean {
  const words = [...mention.names, ...mention.place].map(stemOf);
  if (isFull(group) && mention.names.some((name) => kindWords.test(name) && !group.own.has(stemOf(name)))) return false;
  const unlike = words.some(
    (word) => tellingApart.has(word) && !group.own.has(word) && !group.topic.map(stemOf).includes(word) && !group.nearby.has(word),
  );
  if (unlike && score < 0.8) return false;
  if (isDefinite(mention)) return score >= 0.5;
  if (mention.count === null) return isFull(group) ? score >= 0.85 && sentencesSince(hearing, group) > 0 : score >= 0.6;
  // "one bolt at the engine end, one bolt at the subframe end"
  const elsewhere = mention.place.map(stemOf).some((word) => !tellingApart.has(word) && !group.own.has(word) && !group.nearby.has(word));
  if (elsewhere && group.places.length > 0) return false;
  if (
    group.places.length > 0 &&
    mention.place.length > 0 &&
    sentencesSince(hearing, group) <= 1 &&
    mention.place.join(' ') !== group.places.join(' ') &&
    mention.article !== 'definite'
  )
    return false;
  // Counted without an article is new, unless the same number of the same was just named and nothing is known of it yet.
  const all = countOf(group);
  const open = (all === null || all === mention.count || mention.each !== null) && !isFull(group) && group.told.torque.length === 0;
  return open && score >= 0.84 && isOfScene(hearing, group);
}

/** "the M12 bolts", "the 17 millimetre bolts": told apart by a size that was told. */
function toldBySize(hearing: Hearing, mention: Mention): Group | null {
  const [inside] = mention.inside;
  if (inside === undefined || mention.count !== null) return null;
  const text =
    inside.kind === 'width'
      ? inside.written
      : inside.kind === 'thread' || inside.kind === 'serration'
        ? inside.text
        : inside.kind === 'number'
          ? String(inside.value)
          : null;
  const named = mention.names.filter((name) => !/^(?:same|main)$/.test(name));
  return (
    groupsInReach(hearing.talk).findLast(
      (group) =>
        sameKind(group, mention) &&
        (lastTold(group, 'size')?.value.text === text || lastTold(group, 'thread')?.value === text) &&
        named.every((name) => group.own.has(stemOf(name)) || group.topic.map(stemOf).includes(stemOf(name))),
    ) ?? null
  );
}

/** "carburettor clamps, four, cross-head screws": the kind of what was only counted so far. */
function adoptImplied(hearing: Hearing, mention: Mention): Group | null {
  const [focus] = hearing.talk.focus;
  if (focus?.head !== null || hearing.sentence.index - hearing.talk.focusSentence > 1) return null;
  if (mention.names.some((name) => !tellingApart.has(name)) || hearing.thingAt > hearing.freshAt) return null;
  if (hearing.talk.topicAt > hearing.talk.focusAt) return null;
  // "the upper ones have a 24 mil nut": each of them.
  const each =
    mention.article === 'indefinite' && mention.count === 1 && /^(?:have|has|take|takes|get|gets)$/.test(hearing.word(mention.from - 1));
  if (mention.count !== null && countOf(focus) !== null && countOf(focus) !== mention.count && !each) return null;
  focus.head = mention.head;
  focus.sure = mention.sure;
  return focus;
}

/** "those bolts", "the four nuts", "bolts": the last of that kind, those of the thing that is spoken of first. */
function bareKnown(hearing: Hearing, mention: Mention): Named | null {
  const { talk } = hearing;
  // "on the K two bolts each, on the M three … K bolts are fifteens"
  const [build, ...builds] = hearing.builds;
  const ofBuild =
    build === undefined || builds.length > 0 || mention.count !== null
      ? []
      : groupsInReach(talk).filter((group) => group.only === build && sameKind(group, mention) && sentencesSince(hearing, group) <= 4);
  if (ofBuild.length === 1) return found(ofBuild);
  // "plugs, both of them" after a fill plug and a drain plug.
  const alike = mention.sure || !mention.plural ? [] : talk.groups.filter((group) => group.head === mention.head);
  if (alike.length > 0) return found(alike);
  const fits = (group: Group) =>
    sameKind(group, mention) && group.head !== null && (mention.count === null || countOf(group) === mention.count || group.whole === null);
  const exact = (groups: readonly Group[]) =>
    mention.count === null ? groups : groups.filter((group) => countOf(group) === mention.count);
  const turned = talk.topicAt > talk.focusAt && talk.topicLeads && hearing.sentence.index - talk.topicSentence <= 1 ? talk.topic : null;
  const named = hearing.thing !== null && hearing.thingAt > hearing.freshAt ? hearing.thing : turned;
  if (named !== null) {
    const owned = talk.groups.filter((group) => fits(group) && isOfThing(group, named));
    const choice = exact(owned).at(-1) ?? null;
    if (choice !== null) return found([choice]);
    const left = mentionedBefore(hearing, mention);
    if (left !== null) return found([left]);
    // "the bracket's bolts" of a bracket that had none yet.
    if (mention.count !== null || !owned.some((group) => group.head === mention.head)) return null;
  }
  const focused = talk.focus.filter((group) => sameKind(group, mention) && group.head !== null);
  if (focused.length > 0 && (named === null || focused.some((group) => isOfThing(group, named)))) {
    const all = focused.reduce((sum, group) => sum + (countOf(group) ?? 0), 0);
    const [first] = focused;
    if (
      talk.topicAt > talk.focusAt &&
      talk.topicLeads &&
      talk.topic !== null &&
      first !== undefined &&
      !isOfThing(first, talk.topic) &&
      isFull(first)
    )
      return null;
    if (mention.count !== null && first !== undefined && focused.length === 1 && all > mention.count)
      return found([partOf(hearing, mention, first)]);
    if (mention.count === null || all === mention.count || all === 0) return found(focused);
  }
  if (mention.article === 'none' && mention.count === null && talk.topicAt > talk.focusAt) return null;
  const recent = talk.groups.filter((group) => group.head !== null && sameKind(group, mention) && sentencesSince(hearing, group) <= 6);
  const choice = exact(recent.filter((group) => group.head === mention.head)).at(-1) ?? exact(recent).at(-1);
  if (choice === undefined) {
    const left = mentionedBefore(hearing, mention);
    return left === null ? null : found([left]);
  }
  if (talk.topicAt > talk.focusAt && talk.topicLeads && talk.topic !== null && !isOfThing(choice, talk.topic) && isFull(choice))
    return null;
  return found([choice]);
}

/** "those two nuts I mentioned, twenty-four newton metres", long after: the only ones of that kind and number that still lack a torque. */
function mentionedBefore(hearing: Hearing, mention: Mention): Group | null {
  if (mention.count === null || mention.count < 2 || !/^(?:those|these|the)$/.test(wordBefore(hearing, mention))) return null;
  const left = groupsInReach(hearing.talk).filter(
    (group) => group.head === mention.head && countOf(group) === mention.count && lastTold(group, 'torque') === null && !isBare(group),
  );
  const [only] = left;
  return left.length === 1 && only !== undefined ? only : null;
}

const wordBefore = (hearing: Hearing, { from }: Mention): string => hearing.word(from);

/** "four bolts" again of the same thing, while nothing was told that would differ. */
function restated(hearing: Hearing, mention: Mention): Named | null {
  const again = saidAgain(hearing, mention);
  if (again !== null) return found([again]);
  const [focus] = hearing.talk.focus;
  if (focus === undefined || mention.article === 'indefinite' || hearing.thingAt > hearing.freshAt) return null;
  if (hearing.talk.topicAt > hearing.talk.focusAt && !isOfScene(hearing, focus)) return null;
  if (focus.head !== mention.head || hearing.sentence.index - hearing.talk.focusSentence > 2) return null;
  const all = countOf(focus);
  // "four bolts … two bolts per strap": counted otherwise.
  if (all !== null && mention.each !== null && mention.count !== null && all > mention.count && all % mention.count === 0 && isBare(focus))
    return found([focus]);
  const per = focus.perUnknown?.count ?? null;
  if (per !== null && mention.count !== null && mention.count > per && mention.count % per === 0) return found([focus]);
  if (all === null && per === null && lastTold(focus, 'torque') === null) return found([focus]);
  if (all === mention.count && isBare(focus)) return found([focus]);
  const lot = openLot(hearing, mention);
  if (lot !== null && lot.head === mention.head && lot.parts.length > 0) {
    const sum = lot.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
    if (sum + (mention.count ?? 0) <= (countOf(lot) ?? 0)) return found([create(hearing, mention, lot)]);
  }
  return null;
}

/** "so six nuts, 14 millimeter, and they're 26": told before, with the same size, and still without a torque. */
function saidAgain(hearing: Hearing, mention: Mention): Group | null {
  if (mention.count === null || mention.head === null || hearing.thing !== null) return null;
  const opened = /^(?:(?:so|okay|and|again|anyway|right|now|those|alright) )*$/.test(`${hearing.words(0, mention.from)} `.trimStart());
  if (!opened) return null;
  const size = hearing.sentence.quantities.find(({ from, kind }) => from >= mention.from && /^(?:width|serration)$/.test(kind));
  const text = size?.kind === 'width' ? size.written : size?.kind === 'serration' ? size.text : null;
  const times = mention.each?.times ?? 1;
  if (text === null) return null;
  return (
    groupsInReach(hearing.talk).findLast(
      (group) =>
        group.head === mention.head &&
        sentencesSince(hearing, group) <= 8 &&
        lastTold(group, 'torque') === null &&
        lastTold(group, 'size')?.value.text === text &&
        countOf(group) === (mention.count ?? 0) * times,
    ) ?? null
  );
}
