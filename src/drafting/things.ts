import { ownerCount, countsAtLast } from './counting.ts';
import { countOf, lastTold, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Component } from './items.ts';
import { readPlace } from './mentions.ts';
import type { QuantitySpan } from './quantities.ts';
import { addGroup, noteSentence, tell } from './talk.ts';
import { areOpposite, stemOf, tellingApart } from './word-classes.ts';

export function hearComponent(hearing: Hearing, item: Component): void {
  if (opensOtherEnd(hearing, item)) return;
  const last = stemOf(item.words.at(-1) ?? '');
  const pair = hearing.word(item.from - 1) === 'of' && hearing.word(item.from - 2) === 'pair' ? 2 : null;
  const count = item.count ?? pair;
  const place = count === null ? null : readPlace(hearing.sentence, item.to);
  // "two brackets, left and right" are two.
  const each = place === null || (place.words.length > 1 && count !== 1) ? null : place.each;
  const bySide = hearing.times !== null && /^sides?$/.test(hearing.times.of) && !item.each ? hearing.times.by : null;
  const many = count === null ? null : count * (each?.times ?? bySide ?? 1);
  if (many !== null && many > 1) {
    hearing.talk.counts.set(last, many);
    countsAtLast(hearing, last, many);
  }
  // "three clamps on each side with a bolt": so many bolts.
  if (many !== null && each?.times != null) {
    hearing.times = { by: many, of: last };
    hearing.timesAt = item.from;
  }
  // What was counted by each bracket ends where something else is spoken of.
  if (!item.each && !item.inPlace && hearing.times !== null && hearing.valueEnd > hearing.timesAt && item.from >= hearing.valueEnd)
    hearing.times = null;
  if (item.each) hearing.timesAt = item.from;
  if (item.each)
    hearing.times = {
      by:
        hearing.talk.counts.get(last) ??
        ({ side: 2, end: 2, corner: 4 } as Record<string, number>)[last] ??
        ownerCount(hearing, item.words),
      of: last,
    };
  hearing.components.push(item);
}

/** "then at the knuckle end it's the same": another one like the last, at the other end. */
function opensOtherEnd(hearing: Hearing, item: Component): boolean {
  const [focus] = hearing.talk.focus;
  const before = hearing.sentence.tokens.slice(0, item.from).map(({ bare }) => bare);
  if (
    !item.inPlace ||
    focus === undefined ||
    hearing.freshAt >= 0 ||
    hearing.sentence.index - hearing.talk.focusSentence > 1 ||
    !/^(?:end|side)$/.test(item.words.at(-1) ?? '')
  )
    return false;
  if (
    !before.every((word) => /^(?:then|and|at|on|now|the|over)$/.test(word)) ||
    !/^it$/.test(hearing.word(item.to)) ||
    !/^(?:the|same|a|an)$/.test(hearing.word(item.to + 2))
  )
    return false;
  const group = addGroup(hearing.talk, hearing.sentence, {
    head: focus.head,
    sure: focus.sure,
    names: [...item.words, ...focus.names],
    places: [],
    topic: focus.topic,
    beside: focus,
  });
  const count = countOf(focus);
  if (count !== null) tell(hearing.talk, [group], 'count', count, [], hearing.evidence(item.from, item.to, 0.7));
  hearing.talk.focus = [group];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = item.from;
  return true;
}

/** What an attribute is about: what was named last, or the thing that leads the clause where no fastener was named. */
export function target(hearing: Hearing, span: { readonly from: number; readonly to: number }, _index: number): readonly Group[] {
  const component = hearing.components.findLast(({ to }) => to <= span.from);
  const { focus } = hearing.talk;
  const fresh = hearing.freshAt >= 0;
  if (component !== undefined && (!fresh || component.from > hearing.freshAt)) {
    const within = hearing.items.filter((item) => item.from >= component.to && item.to <= span.from && item.kind !== 'pronoun');
    const counted = within.every(
      (item) =>
        item.kind === 'each' || item.kind === 'quantity' || item.kind === 'mention' || item.kind === 'drive' || item.kind === 'feature',
    );
    const between = hearing.sentence.tokens
      .slice(component.to, span.from)
      .filter((_, offset) => !within.some((item) => component.to + offset >= item.from && component.to + offset < item.to));
    const verb = between.some(({ bare }) => /^(?:is|are|'s|'re|gets?|takes?|goes|go)$/.test(bare));
    const directly =
      counted &&
      between.every(({ bare }) =>
        /^(?:is|are|'s|'re|a|an|gets?|takes?|the|at|to|goes|go|torques?|just|also|only|with|uses?|needs?|wants?|of|them|it|they|those|these|that|this|and|both|have|has|i|think|uh|um|like)$/.test(
          bare,
        ),
      );
    // "new gasket, 32": said in passing while the fastener still lacks its torque.
    const passing = fresh && !verb && !focusIsFull(hearing, span);
    const torqueOf =
      component.inPlace &&
      /^(?:on|for|of)$/.test(hearing.word(component.from - 1)) &&
      /^(?:torques?|spec|specs)$/.test(hearing.word(component.from - 2));
    if (torqueOf && !fresh) return implied(hearing, component);
    const side = directly && !component.inPlace ? sideOf(hearing, component) : null;
    if (side !== null) return side;
    const about = !component.inPlace && (component.leads || directly);
    const named = component.words.filter((word) => !tellingApart.has(word)).map(stemOf);
    const telling = component.words.filter((word) => tellingApart.has(word)).map(stemOf);
    const overlap = focus.some(
      (group) =>
        !telling.some((word) => [...group.own, ...group.topic.map(stemOf)].some((other) => areOpposite(word, other))) &&
        named.filter((word) => group.own.has(word) || group.topic.map(stemOf).includes(word)).length > named.length / 2,
    );
    if (
      about &&
      directly &&
      !passing &&
      !(overlap && hearing.sentence.index - hearing.talk.focusSentence <= 2) &&
      (!fresh || !hearing.open(component.from - 1) || component.leads || focusIsFull(hearing, span))
    ) {
      const before = hearing.items[hearing.items.indexOf(component) - 1];
      // "both the fill and the drain are 18"
      const paired =
        before?.kind === 'component' &&
        before.count === 2 &&
        hearing.sentence.tokens
          .slice(before.to, component.from)
          .map(({ bare }) => bare)
          .join(' ') === 'and';
      const first = paired ? implied(hearing, before) : [];
      const groups = [...first, ...implied(hearing, component)];
      hearing.talk.focus = groups;
      return groups;
    }
    if (component.inPlace && !fresh && !overlap) {
      const match = hearing.talk.groups.findLast((group) => likeness(group, component.words, null) >= 0.8);
      if (match !== undefined) return [match];
    }
    if (
      about &&
      !fresh &&
      !overlap &&
      hearing.sentence.index - hearing.talk.focusSentence > 0 &&
      component.leads &&
      focus.every((group) => lastTold(group, 'torque') !== null)
    )
      return implied(hearing, component);
  }
  const leading = hearing.components.find(({ inPlace, leads }) => !inPlace && leads);
  if (
    !fresh &&
    leading !== undefined &&
    leading.from <= 3 &&
    focusIsFull(hearing, span) &&
    !focus.some((group) =>
      leading.words.some(
        (word) => !tellingApart.has(word) && (group.own.has(stemOf(word)) || group.topic.map(stemOf).includes(stemOf(word))),
      ),
    )
  )
    return implied(hearing, leading);
  if (hearing.sentence.index - hearing.talk.focusSentence > 4)
    return component !== undefined && !component.inPlace ? implied(hearing, component) : [];
  return focus;
}

/** "the backup switch and the neutral switch, they're both 22": the two things named just before. */
export function pairedThings(hearing: Hearing, index: number): readonly Group[] | null {
  const [second, first] = hearing.items
    .slice(0, index)
    .filter(({ kind }) => kind !== 'pronoun')
    .reverse();
  if (first?.kind !== 'component' || second?.kind !== 'component' || first.inPlace || second.inPlace) return null;
  const joint = hearing.sentence.tokens.slice(first.to, second.from);
  if (joint.length !== 1 || joint[0]?.bare !== 'and') return null;
  return [...implied(hearing, first), ...implied(hearing, second)];
}

function focusIsFull(hearing: Hearing, _span: { readonly from: number; readonly to: number }): boolean {
  return hearing.talk.focus.every((group) => lastTold(group, 'torque') !== null && lastTold(group, 'size') !== null);
}

/** "idler pulley 14 millimeter": the thing stands for what fixes it. */
export function implied(hearing: Hearing, component: Component): readonly Group[] {
  const near = sideOf(hearing, component);
  if (near !== null) return near;
  const known = namedBy(hearing, component);
  const group =
    known ??
    addGroup(hearing.talk, hearing.sentence, { head: null, sure: false, names: component.words, places: [], topic: [], implied: true });
  if (known === undefined) {
    const count = component.count ?? hearing.talk.counts.get(stemOf(component.words.at(-1) ?? '')) ?? null;
    if (count !== null) tell(hearing.talk, [group], 'count', count, [], hearing.evidence(component.from, component.to, 0.75));
  }
  noteSentence(group, hearing.sentence);
  hearing.talk.focus = [group];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = component.from;
  return [group];
}

/** The group that a thing's name stands for, where there is one already. */
export function namedBy(hearing: Hearing, component: Component): Group | undefined {
  let best: { group: Group; score: number } | undefined;
  for (const group of hearing.talk.groups) {
    const score = likeness(group, component.words, null);
    if (score >= 0.85 && score >= (best?.score ?? 0)) best = { group, score };
  }
  return best?.group;
}

/** "30 into the block, and 26 into the case": told apart by where they go. */
export function placedAt(hearing: Hearing, quantity: QuantitySpan, index: number): readonly Group[] | null {
  const next = hearing.items[index + 1];
  if (
    next?.kind !== 'component' ||
    !next.inPlace ||
    !hearing.open(quantity.to - 1) ||
    !/^(?:on|in|into|at|for|to)$/.test(hearing.word(quantity.to)) ||
    next.from !== quantity.to + 1
  )
    return null;
  const topic = new Set(
    hearing.components.filter(({ to, inPlace }) => to <= quantity.from && !inPlace).flatMap(({ words }) => words.map(stemOf)),
  );
  const words = next.words.map(stemOf);
  const candidates = hearing.talk.groups.filter(
    (group) =>
      group.places.some((place) => words.includes(stemOf(place))) &&
      (topic.size > 0
        ? [...group.topic.map(stemOf), ...group.own].some((word) => topic.has(word))
        : hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 3),
  );
  const match = candidates.findLast((group) => lastTold(group, 'torque', hearing.builds[0] ?? null) === null);
  if (match === undefined) return null;
  noteSentence(match, hearing.sentence);
  hearing.talk.focus = [match];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = quantity.from;
  return [match];
}

/** "the engine side gets 48": those just named that go into the engine. */
function sideOf(hearing: Hearing, component: Component): readonly Group[] | null {
  if (!/^(?:side|end)$/.test(component.words.at(-1) ?? '')) return null;
  const words = component.words.slice(0, -1);
  const recent = hearing.talk.groups.filter((group) => hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 3);
  const fits = recent.filter((group) => words.length > 0 && likeness(group, words, null) >= 0.8);
  const match = fits.findLast(({ whole }) => whole === null) ?? fits.at(-1);
  if (match === undefined) return null;
  const count = countOf(match);
  const own = words.some((word) => match.own.has(stemOf(word)));
  // "one bolt at each end": what is told of one end is told of half of them.
  const half = !own && match.whole === null && count !== null && count % 2 === 0;
  const group = half
    ? addGroup(hearing.talk, hearing.sentence, {
        head: match.head,
        sure: match.sure,
        names: component.words,
        places: [],
        topic: match.topic,
        whole: match,
      })
    : match;
  if (half) tell(hearing.talk, [group], 'count', count / 2, [], hearing.evidence(component.from, component.to, 0.8));
  hearing.talk.focus = [group];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = component.from;
  return [group];
}
