import { countOf, lastTold, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Item } from './items.ts';
import { nounOf } from './parts.ts';
import { groupsInReach, tell } from './talk.ts';
import { thingOf } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';
import { aim, aimed, fastenersOf, focusOn } from './aim.ts';

export function hearSame(hearing: Hearing, item: Item & { kind: 'same' }, index: number): void {
  if (item.side) {
    double(hearing, item);
    return;
  }
  // "they're all the same": as each other.
  if (!item.as && item.what === 'everything' && hearing.word(item.from - 1) === 'all') return;
  if (hearSameFor(hearing, item, index)) return;
  const next = hearing.items[index + 1];
  // "tie rod ends, same deal, castle nut …": what is named next has its own values.
  if (!item.as && next?.kind === 'mention' && next.from <= item.to + 1) return;
  // "speedo gear, same thing, fork and a bolt": it is the bolt that is the same.
  const named = hearing.items.some(
    (one) => one.from >= item.to && one.kind === 'mention' && one.mention.head !== null && one.mention.count !== null,
  );
  if (!item.as && named && aimed(hearing, item.from) === null) return;
  const targets = aim(hearing, item.from, 'torque');
  if (targets.length === 0) return;
  const namesake = item.as ? null : namesakeOf(hearing, targets);
  const from = namesake ?? sameAs(hearing, item, index, targets);
  if (from === null) return;
  const evidence = hearing.evidence(item.from, item.to, 0.8);
  for (const to of targets)
    hearing.talk.copies.push({
      to,
      from: item.as && (from.head === to.head || to.head === null) ? from : (likest(hearing, to, targets) ?? from),
      what: item.what,
      evidence,
    });
}

/** "same for the lambda, except that's a 22": what was told last holds for what is named next. */
function hearSameFor(hearing: Hearing, item: Item & { kind: 'same' }, index: number): boolean {
  const { talk, sentence } = hearing;
  const next = hearing.items[index + 1];
  const [from] = talk.focus;
  if (item.as || from === undefined || next?.kind !== 'component' || sentence.index - talk.focusSentence > 2) return false;
  if (hearing.word(item.to) !== 'for' || next.from !== item.to + 1 || !/^(?:the|your)$/.test(hearing.word(next.from))) return false;
  const groups = fastenersOf(hearing, thingOf(talk, next, sentence.index), 'torque');
  hearing.thingAt = next.from;
  focusOn(hearing, groups);
  hearing.skip(next);
  for (const to of groups)
    if (to !== from) talk.copies.push({ to, from, what: item.what, evidence: hearing.evidence(item.from, item.to, 0.8) });
  return true;
}

function sameAs(hearing: Hearing, item: Item & { kind: 'same' }, index: number, targets: readonly Group[]): Group | null {
  const next = hearing.items[index + 1];
  if (item.as && next !== undefined && next.from - item.to <= 1) {
    const words = next.kind === 'component' ? next.words : next.kind === 'mention' ? [...next.mention.names, ...next.mention.place] : [];
    let best: { group: Group; score: number } | null = null;
    for (const group of hearing.talk.groups) {
      if (targets.includes(group)) continue;
      const score = likeness(group, words, next.kind === 'mention' ? next.mention.head : null);
      if (score > 0.4 && (best === null || score >= best.score)) best = { group, score };
    }
    // What it is compared with is not what the sentence is about.
    if (next.kind === 'component') hearing.skip(next);
    if (best !== null) {
      hearing.skip(next);
      return best.group;
    }
    const only = onlyNamedBy(hearing, words, targets);
    if (only !== null) return only;
    // Something is named that nobody knows: what was told last is not it.
    if (words.some((word) => !tellingApart.has(word))) return null;
  }
  return (
    hearing.talk.groups.findLast(
      (group) =>
        !targets.includes(group) &&
        group.id < (targets[0]?.id ?? Infinity) &&
        (lastTold(group, 'torque') !== null || lastTold(group, 'size') !== null),
    ) ?? null
  );
}

/** "same as the pipe bracket", of the bracket for the pipes: what alone is called so. */
function onlyNamedBy(hearing: Hearing, words: readonly string[], targets: readonly Group[]): Group | null {
  if (words.length === 0) return null;
  const noun = nounOf(words);
  const named = groupsInReach(hearing.talk).filter(
    (group) => !targets.includes(group) && (group.own.has(noun) || group.topic.some((word) => stemOf(word) === noun)),
  );
  const [only] = named;
  return named.length === 1 && only !== undefined ? only : null;
}

/** "do the same on the other side". */
function double(hearing: Hearing, item: Item & { kind: 'same' }): void {
  // "if you're doing both sides, double everything": what was told is one side's, and stays so.
  if (/^(?:and |but |so )*if you /.test(hearing.words(0, item.from))) return;
  const from =
    item.wholeSide || hearing.talk.oneSideFrom !== null
      ? Math.max(hearing.talk.doubledUpTo, hearing.talk.oneSideFrom ?? 0)
      : Math.max(
          hearing.talk.doubledUpTo,
          hearing.talk.groups.findIndex((group) => hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 3),
        );
  const groups = hearing.talk.groups
    .slice(Math.max(0, from))
    .filter((group) => !group.bothSides && !group.carriesOthers && group.whole === null && !isCentral(group));
  for (const group of groups) {
    const count = countOf(group) ?? (group.head !== null ? 1 : null);
    if (count === null) continue;
    tell(
      hearing.talk,
      [group],
      'count',
      count * 2,
      [],
      { sentence: hearing.sentence.index, confidence: 0.75, words: 'the same on the other side' },
      { replace: true },
    );
    for (const part of group.parts) {
      const some = countOf(part);
      if (some !== null)
        tell(
          hearing.talk,
          [part],
          'count',
          some * 2,
          [],
          { sentence: hearing.sentence.index, confidence: 0.7, words: 'the same on the other side' },
          { replace: true },
        );
    }
    group.bothSides = true;
  }
  hearing.doubled = true;
  hearing.talk.oneSideFrom = null;
  hearing.talk.doubledUpTo = hearing.talk.groups.length;
}

/** What a vehicle has once, across its middle (common practice): the other side has no second one. */
const isCentral = (group: Group) =>
  /\b(?:track bar|panhard|(?:sway|roll) bar (?:bracket|clamp|bush|bushing|bolt)|crossmember|diff|differential|gearbox|transmission|propshaft|prop shaft|sump|engine mount)s?\b/.test(
    [...group.topic, ...group.names, group.head ?? ''].join(' '),
  );

/** Of the groups told last, the one of the same kind and number: "three bolts and a through bolt, same torques". */
function likest(hearing: Hearing, to: Group, targets: readonly Group[]): Group | null {
  const kindOf = (group: Group) => group.names.filter((name) => !group.topic.includes(name)).join(' ');
  return (
    hearing.talk.groups
      .slice(-8)
      .findLast(
        (group) =>
          !targets.includes(group) &&
          group.id < to.id &&
          group.head === to.head &&
          countOf(group) === countOf(to) &&
          kindOf(group) === kindOf(to) &&
          lastTold(group, 'torque') !== null,
      ) ?? null
  );
}

/** "the rear brace is the same": as the other brace. */
function namesakeOf(hearing: Hearing, [to]: readonly Group[]): Group | null {
  const noun = to?.thing?.noun;
  if (to === undefined || to.head !== null || noun === undefined) return null;
  return (
    hearing.talk.groups.findLast(
      (group) => group !== to && group.head !== null && group.thing !== to.thing && group.thing?.noun === noun,
    ) ?? null
  );
}
