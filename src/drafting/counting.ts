import { countOf, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Item } from './items.ts';
import type { Mention } from './mentions.ts';
import { addGroup, tell } from './talk.ts';
import { stemOf } from './word-classes.ts';

/** "two bolts on each bracket, and two brackets": now it is known how many. */
export function countsAtLast(hearing: Hearing, thing: string, many: number): void {
  for (const group of hearing.talk.groups) {
    if (group.perUnknown?.of !== thing || hearing.sentence.index - (group.sentences.at(-1) ?? -99) > 3) continue;
    const total = group.perUnknown.count * many;
    group.perUnknown = null;
    tell(hearing.talk, [group], 'count', total, [], { sentence: hearing.sentence.index, confidence: 0.85, words: `${many} ${thing}` });
  }
}

/** "every U-bolt has two nuts": how many U-bolts there are. */
export function ownerCount(hearing: Hearing, words: readonly string[]): number | null {
  const owner = hearing.talk.groups.findLast((group) => likeness(group, words, null) >= 0.8);
  return owner === undefined ? null : countOf(owner);
}

export function tellCount(hearing: Hearing, group: Group, mention: Mention): void {
  const { count, each } = mention;
  if (count === null) return;
  const all = countOf(group);
  const one =
    mention.article === 'indefinite' ||
    mention.article === 'each' ||
    hearing.word(mention.from) === 'one' ||
    hearing.word(mention.from) === 'single';
  const pairs = each?.times === 2 && each.of[0] === 'end' && count > 1 && mention.place.length > 1 ? null : each;
  const own = pairs === null || each === null ? null : { by: each.times ?? multiplicity(hearing, each.of), of: thingOf(hearing, each.of) };
  // "every link has a bolt at each end"
  const { times } = hearing;
  const nested =
    own?.of === 'end' && own.by !== null && times !== null && times.by !== null ? { by: own.by * times.by, of: times.of } : null;
  const factor = nested ?? own ?? times;
  const sided =
    each === null && hearing.times === null && hearing.sideCount !== null && one && group.sentences[0] === hearing.sentence.index
      ? hearing.sideCount
      : null;
  const evidence = hearing.evidence(mention.from, mention.end, mention.vague ? 0.5 : 0.92);
  if (factor !== null) {
    if (all !== null && !hearing.correcting) return;
    if (factor.by === null) {
      group.perUnknown ??= { count, of: factor.of };
      return;
    }
    if (factor.of === 'side' || factor.of === 'sides') group.bothSides = true;
    tell(hearing.talk, [group], 'count', count * factor.by, [], { ...evidence, confidence: 0.85 }, { replace: true, to: mention.end });
    return;
  }
  if (all === null || (hearing.correcting && all !== count)) {
    if (sided !== null) group.bothSides = true;
    tell(hearing.talk, [group], 'count', count * (sided ?? 1), [], evidence, { replace: true, to: mention.end });
    hearing.correcting = false;
    if (group.perUnknown !== null && count > group.perUnknown.count) group.perUnknown = null;
  }
}

export function multiply(
  hearing: Hearing,
  group: Group,
  each: { readonly of: readonly string[]; readonly times: number | null },
  span: { readonly from: number; readonly end: number },
): void {
  const times = each.times ?? multiplicity(hearing, each.of);
  const count = countOf(group) ?? 1;
  if (times === null) {
    group.told.count.length = 0;
    group.perUnknown = { count, of: thingOf(hearing, each.of) };
  } else {
    if (/^sides?$/.test(each.of.at(-1) ?? '')) group.bothSides = true;
    tell(hearing.talk, [group], 'count', count * times, [], hearing.evidence(span.from, span.end, 0.85), { replace: true });
  }
}

/** What "each" alone is said of: the thing named last. */
function thingOf(hearing: Hearing, of: readonly string[]): string {
  return of.at(-1) ?? stemOf(hearing.components.findLast(({ inPlace }) => !inPlace)?.words.at(-1) ?? hearing.talk.topic.at(-1) ?? '');
}

/** How many of what is counted by: brackets, straps, or whatever the talk was at. */
function multiplicity(hearing: Hearing, of: readonly string[]): number | null {
  const last = of.at(-1);
  if (last !== undefined) return hearing.talk.counts.get(last) ?? ownerCount(hearing, of);
  const component = hearing.components.findLast(({ inPlace }) => !inPlace);
  if (component !== undefined) return component.count ?? hearing.talk.counts.get(stemOf(component.words.at(-1) ?? '')) ?? null;
  const topic = hearing.talk.topic.at(-1);
  return topic === undefined ? null : (hearing.talk.counts.get(stemOf(topic)) ?? null);
}

export function hearEach(hearing: Hearing, item: Item & { kind: 'each' }): void {
  const component = hearing.components.findLast(({ inPlace }) => !inPlace);
  const [focus] = hearing.talk.focus;
  const times = item.each.times ?? multiplicity(hearing, item.each.of);
  const mentioned = hearing.freshAt >= 0 && (component === undefined || component.from <= hearing.freshAt);
  const nearby = focus !== undefined && hearing.sentence.index - hearing.talk.focusSentence <= 1;
  if (focus !== undefined && (mentioned || (component === undefined && nearby))) {
    if (countOf(focus) !== null) {
      if (addsToLot(hearing, item, times)) return;
      // "one bolt, and there's one on each side"
      if (countOf(focus) === item.count && times !== null && !focus.bothSides)
        multiply(hearing, focus, item.each, { from: item.from, end: item.to });
      focus.bothSides = true;
      return;
    }
    const evidence = hearing.evidence(item.from, item.to, 0.85);
    if (times === null) focus.perUnknown ??= { count: item.count, of: thingOf(hearing, item.each.of) };
    else {
      focus.bothSides = true;
      tell(hearing.talk, [focus], 'count', item.count * times, [], evidence, { to: item.to });
    }
    return;
  }
  if (times === null) return;
  const total = item.count * times;
  if (component !== undefined) hearing.talk.counts.set(stemOf(component.words.at(-1) ?? ''), total);
  else if (hearing.talk.topic.length > 0) hearing.talk.counts.set(stemOf(hearing.talk.topic.at(-1) ?? ''), total);
  hearing.sideCount = total;
}

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
    topic: lot.topic,
    whole: lot,
  });
  tell(hearing.talk, [part], 'count', item.count * times, [], hearing.evidence(item.from, item.to, 0.85));
  hearing.talk.focus = [part];
  return true;
}
