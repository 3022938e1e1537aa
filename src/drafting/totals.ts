import { countOf, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Mention } from './mention.ts';
import { isOfThing } from './kinship.ts';
import { groupsInReach, tell } from './talk.ts';
import { stemOf } from './word-classes.ts';

/** "so that's eight nuts and four bolts", "two links, four nuts": checks what was counted, names nothing new. */
export function isTotal(hearing: Hearing, mention: Mention): boolean {
  const { count, head } = mention;
  if (count !== null && head === null && mention.share === null && mention.bySize === null) return isSumOfPlace(hearing, mention);
  if (count !== null && head === null && mention.share === 'some' && mention.each === null) return isSumOfThem(hearing, mention);
  if (count === null || count < 2 || head === null || mention.each !== null || mention.another) return isMoreInAll(hearing, mention);
  const alike = groupsInReach(hearing.talk).filter(
    (group) => group.head === head && group.whole === null && hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 6,
  );
  const match = alike.at(-1);
  if (match === undefined || !mention.names.every((name) => match.own.has(stemOf(name)))) return false;
  if (mention.article !== 'none' && mention.share === null) return false;
  if (!sumsUp(hearing, mention, match) || turnedFrom(hearing, match)) return false;
  setTotal(hearing, [match], count, mention.from, mention.to);
  if (!hearing.talk.focus.includes(match)) hearing.talk.focus = [match];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.talk.focusAt = hearing.now(mention.from);
  hearing.freshAt = mention.from;
  return true;
}

/** "so that's four more bolts between the two braces". */
function isMoreInAll(hearing: Hearing, mention: Mention): boolean {
  if (mention.count === null || !mention.another || !/(?:^|\s)(?:so|that|is|'s)$/.test(hearing.words(0, mention.from))) return false;
  const match = groupsInReach(hearing.talk).findLast((group) => group.head === mention.head && group.whole === null);
  if (match === undefined || hearing.sentence.index - (match.sentences.at(-1) ?? -99) > 2) return false;
  setTotal(hearing, [match], mention.count, mention.from, mention.to);
  return true;
}

/** "front bush is a horizontal bolt, rear bush a vertical one … so two horizontals, two verticals" */
function isSumOfPlace(hearing: Hearing, mention: Mention): boolean {
  const { count, names, place } = mention;
  const [name, ...others] = names;
  const first = hearing.items.find(({ kind }) => kind !== 'pronoun');
  const opens = first?.kind === 'mention' && first.mention.names.length === 1 && /^(?:and )?so$/.test(hearing.words(0, first.from));
  if (count === null || count < 2 || name === undefined || others.length + place.length > 0 || !opens) return false;
  const named = groupsInReach(hearing.talk).filter((group) => group.whole === null && group.own.has(stemOf(name)));
  const [only] = named;
  const known = only === undefined ? null : countOf(only);
  if (only === undefined || named.length > 1 || known === null || known >= count || count % known !== 0) return false;
  setTotal(hearing, [only], count, mention.from, mention.to);
  return true;
}

/** "each pedestal has one bolt, so seven of them" */
function isSumOfThem(hearing: Hearing, mention: Mention): boolean {
  const [focus] = hearing.talk.focus;
  if (focus === undefined || mention.count === null || mention.names.length + mention.place.length > 0) return false;
  const apart = hearing.sentence.index - hearing.talk.focusSentence;
  if (hearing.freshAt < 0 && (apart > 2 || !/^(?:so)?$/.test(hearing.words(0, mention.from)))) return false;
  // "a saddle takes one screw … two of them, therefore"
  const concludes = /^(?:therefore|then|altogether)$/.test(hearing.words(mention.end, hearing.sentence.tokens.length));
  if (!concludes && !/\b(?:so|so that 's|that 's|makes|making)$/.test(hearing.words(0, mention.from))) return false;
  const known = countOf(focus) ?? focus.perUnknown?.count ?? 1;
  if (mention.count <= known || mention.count % known !== 0) return false;
  setTotal(hearing, [focus], mention.count, mention.from, mention.to);
  return true;
}

function sumsUp(hearing: Hearing, mention: Mention, match: Group): boolean {
  const start = hearing.words(0, mention.from);
  const after = hearing.sentence.tokens
    .slice(mention.end, mention.end + 3)
    .map(({ bare }) => bare)
    .join(' ');
  if (/^(?:total|altogether|in all|all in|in total|all told|all together|for the (?:pair|two)|between (?:them|the two))/.test(after))
    return true;
  if (
    /\b(?:looking at|for a total of|total of|that makes|making|comes to|which means|that means|makes)(?: \S+ (?:bolts|nuts|screws|studs) and)?$/.test(
      start,
    )
  )
    return true;
  const known = countOf(match) ?? match.perUnknown?.count ?? 0;
  const multiple = known > 0 && (mention.count ?? 0) % known === 0;
  const near = hearing.sentence.index - (match.sentences.at(-1) ?? -99) <= 1;
  if (/\b(?:so that 's|so that is|so you 've got|so there 's|so there are|that 's)(?: \S+ (?:bolts|nuts|screws|studs) and)?$/.test(start))
    return multiple || adding(hearing, mention.count ?? 0, match) !== null;
  if (/\bso$/.test(start)) return near && multiple;
  // "Two links, four nuts."
  const things = hearing.components.filter(({ count }) => count !== null);
  return (
    near &&
    multiple &&
    known < (mention.count ?? 0) &&
    things.length > 0 &&
    hearing.sentence.tokens.length <= 6 &&
    mention.names.length === 0
  );
}

/** Something else was named since. */
function turnedFrom(hearing: Hearing, group: Group): boolean {
  const thing =
    hearing.thing ??
    (hearing.talk.topicSentence > (group.sentences.at(-1) ?? -1) || (hearing.talk.topicAt > hearing.talk.focusAt && hearing.freshAt < 0)
      ? hearing.talk.topic
      : null);
  return thing !== null && !isOfThing(group, thing);
}

export function setTotal(hearing: Hearing, groups: readonly Group[], value: number, from: number, to: number): void {
  const [first] = groups;
  if (first === undefined || !Number.isInteger(value)) return;
  const within = first.whole !== null && (countOf(first.whole) ?? 0) > value;
  const group = groups.length === 1 ? (first.whole !== null && !within && countOf(first) !== value ? first.whole : first) : first;
  const together = adding(hearing, value, first);
  if (together !== null) {
    hearing.talk.focus = [...together];
    for (const one of together) one.summed = true;
    return;
  }
  const over = first.whole === null ? timesOver(hearing, value, first) : null;
  if (over !== null) {
    for (const one of over.groups) {
      const each = countOf(one) ?? one.perUnknown?.count ?? 1;
      one.perUnknown = null;
      one.bothSides = true;
      one.summed = true;
      tell(hearing.talk, [one], 'count', each * over.times, [], hearing.evidence(from, to, 0.85), { replace: true, to });
    }
    hearing.talk.focus = [...over.groups];
    return;
  }
  if (groups.length > 1 && groups.reduce((sum, one) => sum + (countOf(one) ?? 0), 0) === value) return;
  const known = countOf(group);
  if (known === value || groups.length > 1) {
    group.bothSides = true;
    return;
  }
  const evidence = hearing.evidence(from, to, 0.93);
  // What is no multiple of what was counted may be anything: the count stays, and the author is asked.
  if (known !== null && group.perUnknown === null && (value % known !== 0 || value > 8 * known)) {
    hearing.talk.doubts.push({ kind: 'total', group, field: 'count', evidence, said: `${known}, and then ${value} in all` });
    return;
  }
  group.perUnknown = null;
  group.bothSides = true;
  tell(hearing.talk, [group], 'count', value, hearing.builds, evidence, { replace: true, to });
}

/** "three bolts … three bolts … that's six": the last ones that make up the sum. */
function adding(hearing: Hearing, value: number, last: Group): readonly Group[] | null {
  const recent = recentLike(hearing, last);
  for (let from = recent.length - 2; from >= 0; from--) {
    const groups = recent.slice(from);
    if (groups.reduce((sum, group) => sum + (countOf(group) ?? 0), 0) === value) return groups;
  }
  return null;
}

function recentLike(hearing: Hearing, last: Group): readonly Group[] {
  return groupsInReach(hearing.talk).filter(
    (group) =>
      group.whole === null &&
      group.head === last.head &&
      !group.carriesOthers &&
      hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 2,
  );
}

/** "a nut on top and a nut below; two links, four nuts": each of the last ones, so many times over. */
function timesOver(hearing: Hearing, value: number, last: Group): { readonly groups: readonly Group[]; readonly times: number } | null {
  const recent = recentLike(hearing, last).filter(
    (group) => group.topic.join() === last.topic.join() && group.sentences.at(-1) === last.sentences.at(-1),
  );
  const sum = recent.reduce((all, group) => all + (countOf(group) ?? group.perUnknown?.count ?? 0), 0);
  return recent.length > 1 && sum > 0 && value > sum && value % sum === 0 ? { groups: recent, times: value / sum } : null;
}
