import { countOf, isNamed, lastTold, likeness, type Group } from './groups.ts';
import type { Mention } from './mentions.ts';
import type { SaidSentence } from './sentences.ts';
import { addGroup, noteSentence, type Talk } from './talk.ts';
import { areOpposite, stemOf, tellingApart } from './word-classes.ts';

/** Nothing: "one is" where no lot was named that it could be one of. */
export const nobody: Resolved = { groups: [], isNew: false, mate: false };

export interface Resolved {
  readonly groups: readonly Group[];
  readonly isNew: boolean;
  /** Only the nut of a bolt or the bolt of a nut: what is told next may be about either. */
  readonly mate: boolean;
}

export interface Surroundings {
  readonly sentence: SaidSentence;
  /** Things named in this sentence before the mention, nearest last. */
  readonly components: readonly (readonly string[])[];
  /** The one that the sentence begins with. */
  readonly leading: readonly string[] | null;
  /** "with a nut", "it's got a nut". */
  readonly accompanies: 'with' | 'and' | null;
  /** The mention follows another directly, joined by "and" or a comma. */
  readonly focusIsFresh: boolean;
  /** A number stands right before it: "clamps, four, cross-head screws". */
  readonly afterCount: boolean;
}

const found = (groups: readonly Group[]): Resolved => ({ groups, isNew: false, mate: false });

/** Which fasteners a mention means: some that were named before, or new ones. */
export function resolveMention(talk: Talk, mention: Mention, around: Surroundings): Resolved {
  if (mention.needsLot && mention.article === 'definite') return thisOne(talk, mention, around);
  if (mention.needsLot && lotFor(talk, mention, around) === null) return nobody;
  const again = restarted(talk, mention, around);
  if (again !== null) return again;
  // "this is going to be a long one", "there's one on the bellhousing" of something that is no fastener
  if (
    mention.head === null &&
    mention.bySize === null &&
    mention.byText === null &&
    (mention.article === 'indefinite' || talk.topicSentence > talk.focusSentence) &&
    lotFor(talk, mention, around) === null &&
    (mention.article === 'indefinite' || (mention.count === 1 && mention.names.length === 0))
  )
    return nobody;
  const result =
    bySize(talk, mention, around) ?? mate(talk, mention, around) ?? shareOf(talk, mention, around) ?? known(talk, mention, around);
  if (result !== null) {
    for (const group of result.groups) noteSentence(group, around.sentence);
    return result;
  }
  const stale = talk.focus.length === 0 || around.sentence.index - talk.focusSentence > 3;
  if (stale && mention.head === null && mention.article !== 'definite' && mention.bySize === null && mention.byText === null) return nobody;
  return { groups: [create(talk, mention, around, null)], isNew: true, mate: false };
}

/** "this one is a 14": what is in focus where it has no size yet, else one more of the lot, else another beside it. */
function thisOne(talk: Talk, mention: Mention, around: Surroundings): Resolved {
  const [focus] = talk.focus;
  if (focus === undefined || around.sentence.index - talk.focusSentence > 1) return nobody;
  if (focus.told.size.length === 0) return found([focus]);
  const lot = focus.whole ?? focus;
  const all = countOf(lot);
  const sum = lot.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
  if (lot.parts.length > 0 && all !== null && sum < all) return { groups: [create(talk, mention, around, lot)], isNew: true, mate: false };
  return talk.focusSentence === around.sentence.index && focus.head !== null
    ? { groups: [create(talk, { ...mention, head: focus.head }, around, null, focus)], isNew: true, mate: false }
    : nobody;
}

/** "it's got a half-inch bolt … well, a bolt with a three-quarter head": the same one, said better. */
function restarted(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  const [focus] = talk.focus;
  if (focus === undefined || mention.head !== focus.head || mention.article !== 'indefinite' || around.sentence.tokens[0]?.bare !== 'well')
    return null;
  if (
    talk.focusSentence !== around.sentence.index - 1 ||
    focus.sentences[0] !== talk.focusSentence ||
    focus.told.torque.length > 0 ||
    mention.from > 2
  )
    return null;
  focus.told.size.length = 0;
  return found([focus]);
}

const recent = (talk: Talk, around: Surroundings, sentences: number) =>
  talk.groups.filter((group) => around.sentence.index - (group.sentences.at(-1) ?? -99) <= sentences);

const sizeOf = (group: Group) => Number(lastTold(group, 'size')?.value.text ?? Number.NaN);

/** The lot that "the front ones" or "six of them" are taken from. */
function lotFor(talk: Talk, mention: Mention, around: Surroundings): Group | null {
  const { count } = mention;
  // A lot that has all its values is spoken of again only as "two of them" or "the front ones".
  const again = mention.share !== null || mention.article === 'definite';
  // What was named in the same breath is meant, or nothing.
  const others = talk.focusSentence === around.sentence.index && talk.focus.length > 0 ? [] : recent(talk, around, 6).reverse();
  const candidates = [...talk.focus, ...talk.focus.map(({ whole }) => whole), ...others].filter((group): group is Group => group !== null);
  return (
    candidates.find((group) => {
      if (group.whole !== null) return false;
      if (!again && group.parts.length === 0 && group.told.torque.length > 0 && group.told.size.length > 0) return false;
      const all = countOf(group);
      if (all === null) return count === null || group.parts.length > 0 || talk.focus.includes(group);
      return all > (count ?? 1);
    }) ?? null
  );
}

function bySize(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  if (mention.bySize === null && mention.byText === null) return null;
  const size = mention.bySize ?? -1;
  if (mention.article === 'definite' && mention.count === null) {
    const text = mention.byText;
    const fits = (group: Group) =>
      text === null ? sizeOf(group) === size : lastTold(group, 'size')?.value.text === text || lastTold(group, 'thread')?.value === text;
    // "transaxle to engine, the 17s", "the 14s from the pan side": the words around tell which.
    const said = [...mention.place, ...(around.components.at(-1) ?? [])];
    const likely =
      said.length === 0 ? [] : talk.groups.filter((group) => fits(group) && likeness(group, said, null, around.sentence.index) > 0.4);
    if (likely.length > 0) return found(likely);
    const matches = recent(talk, around, 6).filter(fits);
    const last = matches.at(-1);
    // "the 19s" are all of that size, among those told apart by it.
    if (last !== undefined)
      return found(
        mention.plural
          ? matches.filter(
              (group) => group.whole === last.whole && (group.whole !== null || group === last || group.topic.join() === last.topic.join()),
            )
          : [last],
      );
    // "the four go through the bottom": a count after all.
    const lot = lotFor(talk, { ...mention, count: size }, around);
    if (lot !== null && size < 7) return found([create(talk, { ...mention, count: size, inside: [] }, around, lot)]);
    return null;
  }
  // "the two 16s", "two of the M12s"
  const sized =
    mention.article === 'definite' || mention.share === 'some'
      ? recent(talk, around, 6).findLast((group) =>
          mention.byText === null
            ? sizeOf(group) === size
            : lastTold(group, 'thread')?.value === mention.byText || lastTold(group, 'size')?.value.text === mention.byText,
        )
      : undefined;
  if (sized !== undefined)
    return found([countOf(sized) !== null && (mention.count ?? 0) < (countOf(sized) ?? 0) ? partOf(talk, mention, around, sized) : sized]);
  const lot = lotFor(talk, mention, around);
  const sum = lot?.parts.reduce((total, part) => total + (countOf(part) ?? 0), 0) ?? 0;
  const all = lot === null ? null : countOf(lot);
  if (lot !== null && isSameSubject(talk, lot, around) && (all === null || sum + (mention.count ?? 1) <= all))
    return found([create(talk, mention, around, lot)]);
  return null;
}

/** True while nothing else was named since that group was. */
function isSameSubject(talk: Talk, group: Group, around: Surroundings): boolean {
  if (around.sentence.index - (group.sentences.at(-1) ?? -99) > 4) return false;
  const words = new Set([...group.own, ...group.topic.map(stemOf)]);
  const since = talk.topicSentence > (group.sentences.at(-1) ?? -1) && talk.topicSentence < around.sentence.index ? talk.topic : undefined;
  const last = around.components.at(-1) ?? since;
  return last === undefined || last.some((word) => words.has(stemOf(word)));
}

/** "with a nut behind it", "the nut is captive": the other half of what was named. */
function mate(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  const [focus] = talk.focus;
  if (
    focus === undefined ||
    mention.head === null ||
    mention.names.some((name) => !/^(?:other|flange|lock|captive|back|u|t|j)$/.test(name))
  )
    return null;
  const pair =
    (focus.head === 'bolt' && mention.head === 'nut') ||
    (focus.head === 'nut' && mention.head === 'bolt') ||
    (focus.head === 'stud' && mention.head === 'nut') ||
    (focus.head === 'nut' && mention.head === 'stud');
  // What is turned on studs is their nuts.
  if (
    focus.head === 'stud' &&
    mention.head === 'nut' &&
    (mention.count === null || mention.count === countOf(focus)) &&
    focus.told.torque.length === 0 &&
    around.sentence.index - talk.focusSentence <= 1
  ) {
    focus.head = 'nut';
    return found(talk.focus);
  }
  const reach = mention.article === 'definite' && mention.count === null ? 3 : 1;
  if (!pair || around.sentence.index - talk.focusSentence > reach) return null;
  const words = new Set([...focus.own, ...focus.topic.map(stemOf)]);
  if (around.leading !== null && talk.focusSentence < around.sentence.index && !around.leading.some((word) => words.has(stemOf(word))))
    return null;
  const fits =
    (mention.count === null && mention.article !== 'definite') ||
    (mention.count === null && around.accompanies === 'with') ||
    mention.count === countOf(focus) ||
    (around.accompanies === 'with' && mention.count === 1);
  // "that's two U-bolts" after their nuts were named: they are what the nuts are on.
  if (mention.head === 'bolt' && mention.names.length > 0 && focus.names.join(' ').includes(`${mention.names.join(' ')} bolt`))
    return { groups: talk.focus, isNew: false, mate: true };
  const apart = mention.place.map(stemOf).filter((word) => tellingApart.has(word));
  if (around.accompanies === 'and' && apart.some((word) => [...focus.own].some((other) => areOpposite(word, other)))) return null;
  // Bolts that have their torque already are done with.
  if (around.accompanies === 'and' && focus.told.torque.length > 0) return null;
  if (around.accompanies !== null && fits) {
    // What is turned on a stud is its nut.
    if (focus.head === 'stud') {
      focus.head = 'nut';
      return found(talk.focus);
    }
    return { groups: talk.focus, isNew: false, mate: true };
  }
  if (
    mention.article === 'definite' &&
    mention.count === null &&
    !recent(talk, around, 2).some(
      (group) => group.head === mention.head && group !== focus && (group.sentences.at(-1) ?? 0) >= (focus.sentences[0] ?? 0),
    ) &&
    !talk.groups.some((group) => group.head === mention.head && group.topic.length > 0 && group.topic.join(' ') === focus.topic.join(' '))
  )
    return { groups: talk.focus, isNew: false, mate: true };
  return null;
}

/** "the two front ones", "six of them", "the other six", "four on top". */
function shareOf(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  const some = mention.share !== null || mention.head === null;
  if (!some) return null;
  const words = [...mention.names, ...mention.place];
  if (mention.share === 'others') {
    const lot = talk.focus[0]?.whole ?? lotFor(talk, mention, around);
    const untold = lot?.parts.filter((part) => part.told.size.length + part.told.torque.length === 0 && !talk.focus.includes(part)) ?? [];
    if (untold.length > 0 && (mention.count === null || untold.reduce((sum, part) => sum + (countOf(part) ?? 0), 0) === mention.count))
      return found(untold);
    if (lot !== null) {
      const total = countOf(lot);
      const sum = lot.parts.reduce((all, part) => all + (countOf(part) ?? 0), 0);
      const rest = mention.count ?? (total !== null && sum < total ? total - sum : null);
      const same = lot.parts.find((part) => part.names.includes('other') && !talk.focus.includes(part));
      return found([same ?? create(talk, { ...mention, names: ['other', ...mention.names], count: rest }, around, lot)]);
    }
  }
  // "most of them are …, there's eleven of those"
  const [current] = talk.focus;
  if (
    mention.share === 'some' &&
    words.length === 0 &&
    talk.focus.length === 1 &&
    current !== undefined &&
    countOf(current) === null &&
    current.whole !== null
  )
    return found([current]);
  // "the four are 18 millimeter"
  if (words.length === 0 && mention.share === null && mention.count !== null && mention.article === 'definite') {
    const lots = talk.focus.flatMap((group) => [...group.parts, ...(group.whole?.parts ?? []), group]);
    const same =
      lots.findLast((group) => countOf(group) === mention.count) ??
      recent(talk, around, 2).findLast((group) => countOf(group) === mention.count);
    if (same !== undefined) return found([same]);
  }
  const now = lotFor(talk, mention, around);
  if (
    words.length > 0 &&
    mention.article === 'none' &&
    mention.count !== null &&
    now !== null &&
    countOf(now) !== null &&
    isSameSubject(talk, now, around)
  ) {
    const sum = now.parts.reduce((all, part) => all + (countOf(part) ?? 0), 0);
    const telling = words.filter((word) => tellingApart.has(word)).map(stemOf);
    const again = now.parts.find((part) => telling.length > 0 && telling.every((word) => part.own.has(word)) && fitsCount(part, mention));
    if (again !== undefined) return found([again]);
    const done = now.parts.length === 0 && now.told.torque.length > 0 && now.told.size.length > 0;
    if (sum + mention.count <= (countOf(now) ?? 0) && !done) return found([create(talk, mention, around, now)]);
  }
  if (words.length > 0) {
    const best = bestOf(
      talk,
      words,
      mention,
      around,
      talk.groups.filter((group) => around.sentence.index - (group.sentences[0] ?? 0) <= 400),
    );
    const telling = words.filter((word) => tellingApart.has(word)).map(stemOf);
    if (
      best !== null &&
      best.score > 0.6 &&
      telling.every((word) => isNamed(best.group.own, word) || isNamed(new Set(best.group.topic.map(stemOf)), word)) &&
      fitsCount(best.group, mention)
    )
      return found([best.group]);
  }
  const lot = lotFor(talk, mention, around);
  // Where the lot has all its values, "and then two long ones" are others.
  const others =
    lot !== null &&
    mention.share === null &&
    mention.article === 'none' &&
    mention.count !== null &&
    lot.parts.length === 0 &&
    lot.told.torque.length > 0 &&
    lot.told.size.length > 0;
  if (lot !== null && !others && (isSameSubject(talk, lot, around) || mention.share !== null || mention.article === 'definite')) {
    if (mention.share === 'some' && words.length === 0 && mention.count !== null) {
      const all = countOf(lot);
      if (all === null || all === mention.count) return found([lot]);
      const same = lot.parts.find((part) => countOf(part) === mention.count && part.names.length === 0);
      if (same !== undefined) return found([same]);
    }
    return found([create(talk, mention, around, lot)]);
  }
  const [focus] = talk.focus;
  if (focus !== undefined && around.sentence.index - talk.focusSentence <= 2 && mention.bySize === null && words.length > 0)
    return { groups: [create(talk, { ...mention, head: focus.head, sure: focus.sure }, around, null, focus)], isNew: true, mate: false };
  return mention.share === 'some' && focus !== undefined ? found(talk.focus) : null;
}

const fitsCount = (group: Group, mention: Mention) =>
  mention.count === null || mention.each !== null || countOf(group) === null || countOf(group) === mention.count;

interface Best {
  readonly group: Group;
  readonly score: number;
}

function bestOf(talk: Talk, words: readonly string[], mention: Mention, around: Surroundings, among: readonly Group[]): Best | null {
  let best: Best | null = null;
  for (const group of among) {
    let score = likeness(group, words, mention.head, around.sentence.index);
    if (mention.count !== null && mention.each === null && countOf(group) !== null)
      score += countOf(group) === mention.count ? 0.15 : -0.35;
    if (talk.focus.includes(group)) score += 0.08;
    score -= Math.min(0.12, Math.max(0, around.sentence.index - (group.sentences.at(-1) ?? 0)) * 0.004);
    if (best === null || score > best.score) best = { group, score };
  }
  return best;
}

/** Named fasteners that were named before. */
function known(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  if (mention.another) return null;
  const taken = carried(talk, mention, around) ?? adopted(talk, mention, around);
  if (taken !== null) return taken;
  const words = [...mention.names, ...(mention.sure || mention.head === null ? [] : [mention.head]), ...mention.place];
  const definite = mention.article === 'definite' || mention.article === 'all' || mention.article === 'each';
  const summed =
    mention.article === 'all' && (mention.count !== null || mention.inside.length > 0) ? allTogether(talk, mention, around) : null;
  if (summed !== null) return summed;
  const sized = definite ? byInside(talk, mention) : null;
  if (sized !== null) return sized;
  if (mention.names.length + mention.place.length === 0)
    return definite ? bareDefinite(talk, mention, around) : bareIndefinite(talk, mention, around);
  const listed = mention.article === 'none' && mention.count === null;
  const best = lackingTorque(talk, words, mention, around, bestOf(talk, words, mention, around, talk.groups));
  if (best !== null) {
    const apart = words
      .map(stemOf)
      .some(
        (word) =>
          tellingApart.has(word) && ![...best.group.own, ...best.group.topic.map(stemOf)].includes(word) && !best.group.nearby.has(word),
      );
    const needed = definite || listed ? 0.5 : 0.84;
    if (best.group.told.torque.length > 0 && isAnother(talk, best.group, around)) return null;
    if (best.score >= needed && !(apart && best.score < 0.8)) {
      if (mention.count !== null && mention.each === null) {
        const all = countOf(best.group);
        if (all !== null && mention.count < all && definite) return found([partOf(talk, mention, around, best.group)]);
        if (all !== null && mention.count !== all && !definite && best.group.perUnknown === null) return null;
      }
      // "two bolts per bracket" again, where another thing's bracket has its values already.
      if (!definite && !listed && (best.group.told.torque.length > 0 || !isSameSubject(talk, best.group, around))) return null;
      return found([best.group]);
    }
  }
  // "the little screw": big and little tell nothing where there is only one.
  if (definite && mention.names.every((name) => /^(?:little|big|small|large|main|same)$/.test(name)) && mention.place.length === 0)
    return bareDefinite(talk, mention, around);
  // "the front bolts" of "four main bolts" not yet told apart.
  const lot = talk.focus[0]?.whole ?? lotFor(talk, mention, around);
  const onlyTelling =
    mention.names.length > 0 &&
    mention.names.every((name) => tellingApart.has(name) && (definite || !/^(?:little|big|small|large)$/.test(name)));
  if (
    lot !== null &&
    lot.head === mention.head &&
    onlyTelling &&
    isSameSubject(talk, lot, around) &&
    lot.told.torque.length === 0 &&
    (definite || mention.count !== null) &&
    (countOf(lot) ?? 99) > (mention.count ?? 1)
  ) {
    return found([partOf(talk, mention, around, lot)]);
  }
  return null;
}

/** "the front two …, the rear two …, and all four cradle bolts are 22": those just named that make up the number. */
function allTogether(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  const last = recent(talk, around, 2).filter((group) => group.whole === null && (group.head === null || sameKind(group, mention)));
  // "one at the front, two at the back, all 17 millimeter bolts"
  if (mention.count === null) {
    const open = last.filter((group) => group.head === null && group.sentences.at(-1) === around.sentence.index);
    for (const group of open) group.head = mention.head;
    return open.length > 0 ? found(open) : null;
  }
  let sum = 0;
  for (let from = last.length - 1; from >= 0; from--) {
    sum += countOf(last[from] as Group) ?? 0;
    if (sum < mention.count) continue;
    const groups = last.slice(from);
    if (sum !== mention.count || groups.length < 2 || !groups.some((group) => group.head === null)) return null;
    for (const group of groups) {
      group.head ??= mention.head;
      for (const name of mention.names) {
        group.own.add(stemOf(name));
        group.names.push(name);
      }
    }
    return found(groups);
  }
  return null;
}

/** "the M12 bolts", "the 17 millimeter ones": told apart by a size that was told. */
function byInside(talk: Talk, mention: Mention): Resolved | null {
  const [inside] = mention.inside;
  if (inside === undefined || mention.count !== null || mention.names.some((name) => !tellingApart.has(name))) return null;
  const text =
    inside.kind === 'width'
      ? inside.written
      : inside.kind === 'thread' || inside.kind === 'serration'
        ? inside.text
        : inside.kind === 'number'
          ? String(inside.value)
          : null;
  const match = talk.groups.findLast(
    (group) =>
      sameKind(group, mention) &&
      (lastTold(group, 'size')?.value.text === text || lastTold(group, 'thread')?.value === text) &&
      mention.names.every((name) => group.own.has(stemOf(name))),
  );
  return match === undefined ? null : found([match]);
}

/** True where the talk has turned to another thing since: its "top nut" is another top nut. */
function isAnother(talk: Talk, group: Group, around: Surroundings): boolean {
  const words = new Set([...group.own, ...group.topic.map(stemOf)]);
  const shares = (thing: readonly string[]) => thing.some((word) => !tellingApart.has(word) && words.has(stemOf(word)));
  if (around.leading !== null && around.components.includes(around.leading)) return !shares(around.leading);
  return (
    talk.topicAlone &&
    talk.topicSentence > (group.sentences.at(-1) ?? -1) &&
    talk.topicSentence === around.sentence.index - 1 &&
    !shares(talk.topic)
  );
}

/** Of two that fit, the one just spoken of that still lacks its torque is meant. */
function lackingTorque(talk: Talk, words: readonly string[], mention: Mention, around: Surroundings, best: Best | null): Best | null {
  if (best === null || best.group.told.torque.length === 0 || mention.article !== 'definite') return best;
  for (const group of talk.focus) {
    if (group === best.group || group.told.torque.length > 0 || around.sentence.index - talk.focusSentence > 1 || !sameKind(group, mention))
      continue;
    const score = likeness(group, words, mention.head, around.sentence.index);
    if (score > 0.35) return { group, score: Math.max(score, 0.85) };
  }
  return best;
}

/** "the J-bolt nut": the nuts of the J-bolts named before stand for them. */
function carried(talk: Talk, mention: Mention, _around: Surroundings): Resolved | null {
  const owner = mention.names.at(-1);
  if (owner === undefined || !/^(?:bolts?|studs?|screws?)$/.test(owner) || mention.head === null) return null;
  const names = mention.names.slice(0, -1);
  const group = talk.groups.findLast((one) => one.head === stemOf(owner) && likeness(one, names, null) >= 0.8);
  if (group === undefined || lastTold(group, 'size') !== null || group.told.torque.length > 0) return null;
  group.names.push(owner);
  group.head = mention.head;
  return found([group]);
}

/** "carburettor clamps, four, cross-head screws": the kind of what was counted just before. */
function adopted(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  const [focus] = talk.focus;
  if (
    focus?.implied !== true ||
    focus.head !== null ||
    talk.focusSentence !== around.sentence.index ||
    mention.count !== null ||
    mention.names.length > 0 ||
    mention.head === null ||
    !around.afterCount
  )
    return null;
  if (focus.told.torque.length > 0) return null;
  focus.head = mention.head;
  focus.sure = mention.sure;
  return found([focus]);
}

function partOf(talk: Talk, mention: Mention, around: Surroundings, lot: Group): Group {
  const words = [...mention.names, ...mention.place].map(stemOf);
  const same = lot.parts.find(
    (part) =>
      words.filter((word) => tellingApart.has(word)).every((word) => part.own.has(word)) &&
      (mention.count === null || countOf(part) === mention.count),
  );
  return same ?? create(talk, mention, around, lot);
}

/** "those bolts", "the four nuts": the last of that kind. */
function bareDefinite(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  const fits = (group: Group) => sameKind(group, mention);
  const about = around.components.at(-1) ?? around.leading ?? (talk.topicSentence > talk.focusSentence ? talk.topic : null);
  if (about !== null && about.length > 0) {
    const words = new Set(about.filter((word) => !tellingApart.has(word)).map(stemOf));
    const concerned = talk.groups.filter(
      (group) => fits(group) && [...group.topic.map(stemOf), ...group.own].some((word) => words.has(word)),
    );
    const match = concerned.findLast((group) => mention.count === null || countOf(group) === mention.count) ?? null;
    if (match !== null) return found([match]);
    if (around.leading !== null && around.leading === about && talk.focus.every((group) => group.told.torque.length > 0)) return null;
    if (
      around.components.length === 0 &&
      (talk.topicAlone || mention.count !== null) &&
      !talk.focus.some((group) => fits(group) && countOf(group) === mention.count)
    )
      return null;
  }
  const inFocus = talk.focus.filter(fits);
  if (inFocus.length > 0) {
    const [first] = inFocus;
    const all = inFocus.reduce((sum, group) => sum + (countOf(group) ?? 0), 0);
    if (mention.count === null || all === mention.count || all === 0 || first === undefined) return found(inFocus);
    if (mention.count < all && inFocus.length === 1) return found([partOf(talk, mention, around, first)]);
    return found(inFocus);
  }
  const last = recent(talk, around, 8).filter(fits);
  const match = mention.count === null ? last.at(-1) : (last.findLast((group) => countOf(group) === mention.count) ?? null);
  if (match === null || match === undefined) return null;
  // "plugs, both of them" after a fill plug and a drain plug.
  if (!mention.sure && mention.plural) return found(last);
  return found([match]);
}

/** "two nuts" again about the same thing, with nothing told that would differ. */
function bareIndefinite(talk: Talk, mention: Mention, around: Surroundings): Resolved | null {
  if (!mention.sure && mention.plural && mention.count === null) {
    const alike = talk.groups.filter((group) => group.head === mention.head);
    if (alike.length > 0) return found(alike);
  }
  if (mention.article === 'none' && mention.count === null && mention.inside.length === 0) return bareDefinite(talk, mention, around);
  const [focus] = talk.focus;
  if (focus === undefined || mention.count === null || around.components.length > 0) return null;
  if (
    focus.perUnknown !== null &&
    sameKind(focus, mention) &&
    mention.count > focus.perUnknown.count &&
    mention.count % focus.perUnknown.count === 0
  )
    return found([focus]);
  const uncounted =
    sameKind(focus, mention) &&
    focus.head === mention.head &&
    countOf(focus) === null &&
    focus.perUnknown === null &&
    lastTold(focus, 'torque') === null &&
    mention.article === 'none' &&
    around.sentence.index - talk.focusSentence <= 2;
  if (uncounted) return found([focus]);
  const again =
    sameKind(focus, mention) &&
    countOf(focus) === mention.count &&
    lastTold(focus, 'size') === null &&
    lastTold(focus, 'torque') === null &&
    mention.article !== 'indefinite';
  if (again) return found([focus]);
  const lot = lotFor(talk, mention, around);
  if (lot !== null && lot.head === mention.head && lot.parts.length > 0 && isSameSubject(talk, lot, around)) {
    const sum = lot.parts.reduce((all, part) => all + (countOf(part) ?? 0), 0);
    if (sum + mention.count <= (countOf(lot) ?? 0)) return found([create(talk, mention, around, lot)]);
  }
  return null;
}

const sameKind = (group: Group, mention: Mention) =>
  mention.head === null ||
  (group.head === null && mention.sure) ||
  group.head === mention.head ||
  mention.head === 'fastener' ||
  group.head === 'fastener' ||
  (mention.head === 'screw' && group.head === 'bolt') ||
  (mention.head === 'bolt' && group.head === 'screw');

function create(talk: Talk, mention: Mention, around: Surroundings, lot: Group | null, beside: Group | null = null): Group {
  const components = around.components;
  const own = [...mention.names, ...mention.place].map(stemOf);
  const near = [...components].reverse();
  const [focus] = talk.focus;
  // "your spring U-bolts … so that's eight nuts": the nuts are what is turned.
  const onBolts =
    mention.head === 'nut' &&
    mention.names.length === 0 &&
    focus?.head === 'bolt' &&
    lot === null &&
    beside === null &&
    focus.told.size.length + focus.told.torque.length === 0 &&
    around.sentence.index - talk.focusSentence <= 1 &&
    mention.count !== null &&
    countOf(focus) !== null &&
    mention.count > (countOf(focus) ?? 0) &&
    mention.count % (countOf(focus) ?? 1) === 0;
  if (onBolts) {
    focus.carriesOthers = true;
    return addGroup(talk, around.sentence, {
      head: 'nut',
      sure: true,
      names: [...focus.names, 'bolt'],
      places: [...focus.places],
      topic: focus.topic,
    });
  }
  const named = mention.place.some((word) => !tellingApart.has(word));
  const topic =
    lot?.topic ??
    beside?.topic ??
    topicFrom(
      talk,
      named ? near.filter((component) => component === around.leading) : near,
      own,
      named,
      around.sentence.index,
      /^(?:there|it|this|that|you)$/.test(around.sentence.tokens[0]?.bare ?? ''),
    );
  return addGroup(talk, around.sentence, {
    head: mention.head ?? lot?.head ?? beside?.head ?? null,
    sure: mention.sure,
    names:
      lot === null
        ? mention.names
        : [...lot.names.filter((name) => !mention.names.some((word) => areOpposite(stemOf(word), stemOf(name)))), ...mention.names],
    places: lot === null ? mention.place : [...mention.place],
    topic,
    topicIsHere: components.length > 0,
    whole: lot,
    beside,
  });
}

/** What the fasteners belong to: named in the same sentence, or what the talk was at. */
function topicFrom(
  talk: Talk,
  nearestFirst: readonly (readonly string[])[],
  own: readonly string[],
  named: boolean,
  sentence: number,
  opening: boolean,
): readonly string[] {
  const words: string[] = [];
  for (const component of nearestFirst.slice(0, 2))
    words.unshift(...component.filter((word) => !words.includes(word) && !own.includes(stemOf(word))));
  // "the anti-roll bar passes underneath; there are two saddles"
  if (words.length > 0 && opening && talk.topicSentence === sentence - 1)
    words.unshift(...talk.topic.filter((word) => !words.includes(word) && !own.includes(stemOf(word))));
  if (words.length > 0) return words.slice(0, 7);
  // "two nuts and a bolt" belong to the same thing.
  const [focus] = talk.focus;
  if (nearestFirst.length === 0 && named && focus !== undefined && talk.focusSentence === sentence && focus.sentences[0] === sentence)
    return focus.topic;
  if (nearestFirst.length > 0 || named) return [];
  return focus !== undefined && talk.focusSentence === sentence && talk.topicSentence < sentence && focus.sentences[0] === sentence
    ? focus.topic
    : talk.topic;
}
