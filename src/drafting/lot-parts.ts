import { countOf, lastTold, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { isBare, isFull, isOfScene, isOfThing, sentencesSince } from './kinship.ts';
import type { Mention } from './mention.ts';
import { addGroup } from './talk.ts';
import { areApart } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** The lot in focus, or the last of this scene, from which some may still be told apart. */
export function openLot(hearing: Hearing, mention: Mention): Group | null {
  const { talk } = hearing;
  // "I nearly forgot the two centre bolts": of nothing that was spoken of last.
  if (/\b(?:forgot|forget|forgetting|forgotten|missed)(?: about)?$/.test(hearing.words(0, mention.from))) return null;
  const again = mention.share !== null || mention.article === 'definite';
  const others = hearing.freshAt >= 0 ? [] : talk.groups.filter((group) => sentencesSince(hearing, group) <= 6).reverse();
  const candidates = [...talk.focus, ...talk.focus.map(({ whole }) => whole), ...others].filter((group) => group !== null);
  return (
    candidates.find((group) => {
      if (group.whole !== null || isOtherSize(group, mention) || isToldApart(hearing, group, mention)) return false;
      // One at each corner has none in the middle.
      if (group.bothSides && mention.count === 1 && mention.names.some((name) => /^(?:center|centre|middle)$/.test(name))) return false;
      if (areApart(group.own, [...mention.names, ...mention.place].map(stemOf))) return false;
      const inFocus =
        talk.focus.some((one) => one === group || one.whole === group) &&
        (hearing.thing === null || hearing.thingAt <= hearing.freshAt || isOfThing(group, hearing.thing)) &&
        // The talk has turned to something else since.
        (hearing.freshAt >= 0 || talk.topic === null || talk.topicAt <= talk.focusAt || !talk.topicLeads || isOfThing(group, talk.topic));
      const recalled = again && hearing.thing === null && sentencesSince(hearing, group) <= 6 && group.told.torque.length === 0;
      if (!inFocus && !recalled && !isOfScene(hearing, group)) return false;
      if (group.parts.length === 0 && isFull(group) && (!again || talk.topicAt > talk.focusAt)) return false;
      const all = countOf(group);
      if (all === null) return group.saidPlural && (mention.count === null || group.parts.length > 0 || talk.focus.includes(group));
      return all > (mention.count ?? 1);
    }) ?? null
  );
}

/** The part of a lot that the mention tells apart, made where it is new. */
export function partOf(hearing: Hearing, mention: Mention, lot: Group): Group {
  const words = [...mention.names, ...mention.place].map(stemOf).filter((word) => tellingApart.has(word));
  const same = lot.parts.find(
    (part) =>
      words.every((word) => part.own.has(word)) &&
      (words.length > 0 || mention.count !== null) &&
      (mention.count === null || countOf(part) === mention.count),
  );
  return same ?? create(hearing, mention, lot);
}

/** Words that say of what kind a fastener is, not what it belongs to. */
const kinds =
  /^(?:through|pinch|banjo|flare|lock|castle|castellated|castled|crown|special|shoulder|flange|flanged|cap|hex|u|t|j|stud|pivot|adjuster|adjusting|clamp|eye|captive|countersunk|fine|coarse|same|dome|stretch|shouldered|hollow|retaining|securing|fixing|mounting|weird|skinny|fancy|star|grub)$/;

/** A new group, named by the mention and by what the talk is at. */
export function create(hearing: Hearing, mention: Mention, lot: Group | null, beside: Group | null = null): Group {
  const { talk, sentence } = hearing;
  const nuts = nutsOn(hearing, mention, lot);
  if (nuts !== null) return nuts;
  const ownName = [...mention.names, ...mention.place].some((word) => !tellingApart.has(word));
  const here = hearing.thing !== null && hearing.thingAt >= hearing.valueEnd ? hearing.thing : null;
  const scene = here ?? (ownName && mention.names.some((word) => !tellingApart.has(word) && !kinds.test(word)) ? null : talk.topic);
  return addGroup(talk, sentence, {
    head: mention.head ?? lot?.head ?? beside?.head ?? null,
    sure: mention.sure,
    names:
      lot === null
        ? mention.names
        : [...lot.names.filter((name) => !areApart([stemOf(name)], mention.names.map(stemOf))), ...mention.names],
    places: mention.place,
    thing: lot?.thing ?? beside?.thing ?? scene,
    whole: lot,
    beside,
  });
}

/** "your spring U-bolts … so that's eight nuts": the nuts are what is turned. */
function nutsOn(hearing: Hearing, mention: Mention, lot: Group | null): Group | null {
  const [focus] = hearing.talk.focus;
  if (mention.head !== 'nut' || mention.names.length > 0 || lot !== null || focus?.head !== 'bolt' || focus.told.torque.length > 0)
    return null;
  if (!isBare(focus) && !focus.names.some((name) => /^(?:u|j)$/.test(name))) return null;
  const all = countOf(focus);
  if (hearing.sentence.index - hearing.talk.focusSentence > 1 || mention.count === null || all === null) return null;
  const onEach = mention.each !== null && /^bolts?$/.test(mention.each.of.at(-1) ?? '');
  if (mention.each !== null && !onEach) return null;
  if (!onEach && (mention.count <= all || mention.count % all !== 0)) return null;
  focus.carriesOthers = true;
  const nuts = addGroup(hearing.talk, hearing.sentence, {
    head: 'nut',
    sure: true,
    names: [...focus.names, 'bolt'],
    places: [...focus.places],
    thing: focus.thing,
  });
  // A U-bolt has nothing to turn: what was told was told of its nuts.
  nuts.told.size.push(...focus.told.size.splice(0));
  return nuts;
}

/** "eleven M8s and four M10s": fasteners named by one size have no parts of another. */
function isOtherSize(group: Group, mention: Mention): boolean {
  if (mention.bySize === null && mention.byText === null) return false;
  const size = lastTold(group, 'size')?.value.text ?? null;
  const thread = lastTold(group, 'thread')?.value ?? null;
  if (group.parts.length > 0 || (size === null && thread === null)) return false;
  return mention.byText === null ? size !== null && Number(size) !== mention.bySize : thread !== mention.byText && size !== mention.byText;
}

/** "they're eighteens … then across the front there's three, which are sixteens": others beside those that have their size. */
function isToldApart(hearing: Hearing, group: Group, mention: Mention): boolean {
  if (mention.count === null || mention.share !== null || mention.article === 'definite' || mention.needsLot) return false;
  const known = lastTold(group, 'size')?.value;
  if (known === undefined || group.parts.length > 0 || group.sentences.at(-1) === hearing.sentence.index) return false;
  const next = hearing.items.find((item) => item.from >= mention.to && (item.kind === 'mention' || item.kind === 'quantity'));
  if (next?.kind !== 'quantity') return false;
  const { quantity } = next;
  if (quantity.kind === 'width') return quantity.written !== known.text;
  return quantity.kind === 'number' && quantity.plural && String(quantity.value) !== known.text;
}
