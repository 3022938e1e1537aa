import { multiply, tellCount } from './counting.ts';
import { countOf, likeness, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Item } from './items.ts';
import type { Mention } from './mentions.ts';
import { resolveMention, type Resolved } from './resolve.ts';
import { noteSentence, tell } from './talk.ts';
import { tellMeasured, tellSize, tellTo } from './tell-values.ts';
import { isTotal } from './totals.ts';
import { stemOf, tellingApart } from './word-classes.ts';

const copula = /^(?:is|are|'s|'re|was|were|be|being)$/;

export function hearMention(hearing: Hearing, mention: Mention, index: number, forward = false): void {
  if (mention.article === 'each' && hearOwner(hearing, mention)) return;
  if (countsComponent(hearing, mention)) return;
  if (isTotal(hearing, mention) || addsOtherSide(hearing, mention)) return;
  // "I broke two bolts getting it out"
  if (/^(?:broke|snapped|stripped|lost|sheared|rounded|ruined)$/.test(hearing.word(mention.from - 1))) return;
  const before = hearing.items[index - 1];
  const previous = mention.from > 0 && hearing.open(mention.from - 1) ? hearing.word(mention.from - 1) : '';
  if (describesFocus(hearing, mention, previous, before)) return;
  if (standsForThing(hearing, mention, index)) {
    if (hearing.items[index] !== undefined) hearing.things.add(hearing.items[index]);
    return;
  }
  // "two nuts that come down on studs"
  if (mention.head === 'stud' && mention.count === null && hearing.talk.focus.some(({ head }) => head === 'nut') && hearing.freshAt >= 0)
    return;
  // "you might have a bracket on one of the top ones"
  if (!forward && mention.head === null && mention.share === 'some' && /^(?:on|over|under|with|behind)$/.test(previous)) return;
  // "the ground strap goes under the front one"
  if (mention.head === null && /^(?:under|over|behind|above|below|between|beside|beneath|past|around|against|near)$/.test(previous)) return;
  const around = {
    sentence: hearing.sentence,
    components: hearing.components
      .filter(
        ({ inPlace, from, to }) =>
          (!inPlace || /^(?:there|you|we)$/.test(hearing.word(to))) && to <= mention.from && from >= hearing.valueEnd,
      )
      .map(({ words }) => words),
    leading:
      hearing.components.find(
        ({ inPlace, from }) =>
          !inPlace &&
          hearing.sentence.tokens
            .slice(0, from)
            .every(({ bare }) => /^(?:so|okay|now|then|next|and|well|right|alright|uh|um|first|also|the|thing|up|is|'s)$/.test(bare)),
      )?.words ?? null,
    accompanies:
      previous === 'and' || (before?.kind === 'mention' && before.to === mention.from)
        ? ('and' as const)
        : previous === 'with' ||
            (hearing.talk.focus[0]?.head === 'stud' && hearing.freshAt >= 0 && /^(?:takes?|gets?|uses?|has|got)$/.test(previous)) ||
            (/^(?:got|has|have)$/.test(previous) &&
              /^(?:it|'s|they|'ve|bolt)$/.test(hearing.word(mention.from - 2)) &&
              before?.kind === 'pronoun')
          ? ('with' as const)
          : null,
    focusIsFresh: hearing.freshAt >= 0,
    afterCount: before?.kind === 'quantity' && before.quantity.kind === 'number' && before.to === mention.from,
  };
  const joins = before?.kind === 'mention' && (previous === 'and' || hearing.word(mention.from - 1) === 'and') && hearing.freshAt >= 0;
  const focusBefore = hearing.talk.focus;
  const [current] = hearing.talk.focus;
  // "three bolts, no, four bolts"
  if (
    hearing.correcting &&
    hearing.freshAt >= 0 &&
    current !== undefined &&
    mention.head !== null &&
    mention.head === current.head &&
    mention.count !== null &&
    current.told.size.length + current.told.torque.length === 0
  ) {
    hearing.correcting = false;
    tell(hearing.talk, [current], 'count', mention.count, [], hearing.evidence(mention.from, mention.end, 0.9), {
      replace: true,
      to: mention.end,
    });
    for (const place of mention.place) {
      current.own.add(stemOf(place));
      current.places.push(place);
    }
    hearing.freshAt = mention.from;
    return;
  }
  const resolved = resolveMention(hearing.talk, mention, around);
  if (resolved.groups.length === 0) return;
  hearing.onMate = resolved.mate;
  hearing.valueEnd = mention.end;
  if (resolved.mate) {
    hearing.freshAt = mention.from;
    const [group] = resolved.groups;
    // "one bolt and nut each side"
    if (mention.each !== null && group !== undefined && countOf(group) === 1) multiply(hearing, group, mention.each, mention);
    const before = hearing.sentence.tokens.slice(Math.max(0, mention.from - 2), mention.from);
    const turned = before.some(({ bare }) => /^(?:torque|torqued|tighten|tightened|turn|turning|spin)$/.test(bare));
    if (group !== undefined && turned && mention.head !== group.head) group.turnsMate = true;
    tellInside(hearing, mention, resolved, []);
    return;
  }
  hearing.talk.focus =
    joins && !resolved.groups.some((group) => focusBefore.includes(group)) ? [...focusBefore, ...resolved.groups] : [...resolved.groups];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = mention.from;
  for (const group of resolved.groups) {
    if (mention.plural) group.saidPlural = true;
    else if (mention.head !== null) group.saidSingular = true;
    if (mention.article === 'definite') group.saidDefinite = true;
    if (mention.article !== 'indefinite' || mention.names.length > 0) group.saidVaguely = false;
  }
  tellInside(hearing, mention, resolved, resolved.groups);
  tellWhatIsFor(hearing, mention, resolved.groups);
  tellPending(hearing, resolved.groups);
  if (resolved.isNew && isShopping(hearing, mention)) for (const group of resolved.groups) group.listed = true;
  else for (const group of resolved.groups) group.listed = false;
  if (resolved.isNew) placeBefore(hearing, mention, resolved.groups);
  if (resolved.isNew && hearing.builds.length === 1) for (const group of resolved.groups) group.only = hearing.builds[0] ?? null;
}

/** "spark plugs, four of them", "you need two of them": the count of a thing just named. */
function countsComponent(hearing: Hearing, mention: Mention): boolean {
  if (mention.head !== null || mention.names.length > 0 || mention.share !== 'some' || mention.count === null || mention.place.length > 0)
    return false;
  const component = hearing.components.findLast(({ inPlace }) => !inPlace);
  const stale = hearing.talk.focus.length === 0 || hearing.sentence.index - hearing.talk.focusSentence > 1;
  if (component === undefined ? !stale : component.from < hearing.freshAt) return false;
  if (component !== undefined) hearing.talk.counts.set(stemOf(component.words.at(-1) ?? ''), mention.count);
  return true;
}

/** "engine mounts: the left one is three bolts": the one is a mount. */
function standsForThing(hearing: Hearing, mention: Mention, index: number): boolean {
  const next = hearing.items[index + 1];
  if (mention.head !== null || next?.kind !== 'mention' || next.mention.head === null || next.mention.count === null || mention.plural)
    return false;
  const between = hearing.sentence.tokens.slice(mention.end, next.from).map(({ bare }) => bare);
  if (between.length === 0 || !between.every((word) => /^(?:is|has|have|'s|got|takes|uses|gets|just|also)$/.test(word))) return false;
  const thing = hearing.components.findLast(({ inPlace }) => !inPlace)?.words ?? hearing.talk.topic;
  hearing.components.push({
    kind: 'component',
    words: [...mention.names, ...thing.filter((word) => !tellingApart.has(word)), ...mention.place],
    inPlace: false,
    count: null,
    each: false,
    leads: true,
    from: mention.from,
    to: mention.end,
  });
  return true;
}

/** "every U-bolt has two nuts". */
function hearOwner(hearing: Hearing, mention: Mention): boolean {
  const owner = hearing.talk.groups.findLast((group) => likeness(group, mention.names, mention.head) >= 0.7);
  const next = hearing.word(mention.end);
  if (owner === undefined || !/^(?:has|have|'s|gets|takes|needs|comes|got)$/.test(next)) return false;
  const following = hearing.items.find((item) => item.kind === 'mention' && item.from > mention.from);
  if (following === undefined) return false;
  hearing.times = { by: countOf(owner), of: mention.names.at(-1) ?? '' };
  owner.carriesOthers = true;
  return true;
}

/** "two bolts on this side, two on the other side": as many again. */
function addsOtherSide(hearing: Hearing, mention: Mention): boolean {
  const [focus] = hearing.talk.focus;
  const place = mention.place.join(' ');
  const names = mention.names.join(' ');
  const other = /^(?:other|opposite) side$/.test(place) && (names === '' || names === 'same');
  if (!other || focus === undefined || mention.count === null || hearing.sentence.index - hearing.talk.focusSentence > 1) return false;
  if (mention.head !== null && mention.head !== focus.head) return false;
  const known = countOf(focus);
  if (known === null || focus.bothSides) return false;
  tell(hearing.talk, [focus], 'count', known + mention.count, [], hearing.evidence(mention.from, mention.end, 0.85), {
    replace: true,
    to: mention.end,
  });
  focus.bothSides = true;
  hearing.freshAt = mention.from;
  tellInside(hearing, mention, { groups: [focus], isNew: false, mate: false }, []);
  return true;
}

/** "the four on top are the long ones": says more of what is in focus, names nothing new. */
function describesFocus(hearing: Hearing, mention: Mention, previous: string, before: Item | undefined): boolean {
  if (
    !copula.test(previous) ||
    hearing.talk.focus.length === 0 ||
    before === undefined ||
    before.to < mention.from - 2 ||
    hearing.things.has(before)
  )
    return false;
  const subject =
    before.kind === 'pronoun' || (before.kind === 'build' && hearing.freshAt >= 0)
      ? before
      : before.kind === 'mention' || before.kind === 'all'
        ? before
        : null;
  if (subject === null) return false;
  const [focus] = hearing.talk.focus;
  if (focus === undefined) return false;
  if (before.kind === 'pronoun' && /^(?:that|this|it)$/.test(before.word)) {
    const previousItem = hearing.items[hearing.items.indexOf(before) - 1];
    // "the cable bracket, that's two bolts" begins something new; "the pinch bolt, that's one bolt" does not.
    if (previousItem?.kind === 'component' && previousItem.to >= hearing.freshAt) return false;
    if (
      mention.head !== null &&
      (focus.head !== mention.head || (countOf(focus) !== null && mention.count !== null && countOf(focus) !== mention.count))
    )
      return false;
  }
  if (before.kind === 'pronoun' && before.word === 'there') return false;
  if (mention.head !== null && mention.count !== null && countOf(focus) !== null && mention.count !== countOf(focus)) return false;
  for (const group of hearing.talk.focus) {
    for (const name of mention.names) {
      if (group.own.has(stemOf(name))) continue;
      group.own.add(stemOf(name));
      group.names.push(name);
    }
    noteSentence(group, hearing.sentence);
  }
  hearing.freshAt = mention.from;
  tellInside(hearing, mention, { groups: hearing.talk.focus, isNew: false, mate: false }, hearing.talk.focus);
  return true;
}

/** "you need eight new driveshaft bolts": what to have at hand. */
function isShopping(hearing: Hearing, mention: Mention): boolean {
  const words = hearing.sentence.tokens
    .slice(0, mention.from)
    .map(({ bare }) => bare)
    .join(' ');
  const after = hearing.sentence.tokens
    .slice(mention.end, mention.end + 5)
    .map(({ bare }) => bare)
    .join(' ');
  if (/^(?:just )?to hold (?:it|them|that|things|everything)\b/.test(after)) return true;
  return (
    /\b(?:you(?: 'll| will)? need|get the|get your|order|buy|have ready|kit|you 'll want|pick up)\b/.test(words) &&
    !hearing.sentence.quantities.some(({ kind }) => /^(?:torque|width|serration)$/.test(kind))
  );
}

/** "at the front there's a horizontal bolt", "inner end: a nut": the place may come first. */
function placeBefore(hearing: Hearing, mention: Mention, groups: readonly Group[]): void {
  const head = /^(?:(?:and|the|then|on|at) )*(\w+)(?: (?:end|side|one|mount))?$/.exec(
    hearing.sentence.tokens
      .slice(Math.max(0, mention.from - 4), mention.from)
      .map(({ bare }) => bare)
      .join(' '),
  )?.[1];
  const closed = /[:,]/.test(hearing.sentence.tokens[mention.from - 1]?.mark ?? '');
  if (head !== undefined && closed && tellingApart.has(head) && !/^(?:side|end|one)$/.test(head)) {
    for (const group of groups) {
      group.own.add(stemOf(head));
      group.names.unshift(head);
    }
  }
  // "both ends, castle nuts"
  const both = /\bboth (?:ends|sides)$/.test(
    hearing.sentence.tokens
      .slice(0, mention.from)
      .map(({ bare }) => bare)
      .join(' '),
  );
  const [only] = groups;
  if (both && only !== undefined && mention.count === null && countOf(only) === null)
    tell(hearing.talk, [only], 'count', 2, [], hearing.evidence(Math.max(0, mention.from - 2), mention.end, 0.85));
  const words = hearing.sentence.tokens
    .slice(Math.max(0, mention.from - 8), mention.from)
    .map(({ bare }) => bare)
    .join(' ');
  const place =
    /\b(?:at|on|in|down|up) the (front|rear|back|top|bottom|sides?|left|right|middle|inside|outside|center|centre)(?: of (?:the )?\w+)? ?(?:there 's|there is|there are|you 've got|you got|you have|it 's|is|are|we 've got)?(?: also| only| just)?$/.exec(
      words,
    )?.[1];
  if (place === undefined) return;
  for (const group of groups) {
    group.own.add(stemOf(place));
    group.places.push(place);
  }
}

/** Count, sizes and the like inside the name itself. */
function tellInside(hearing: Hearing, mention: Mention, resolved: Resolved, countFor: readonly Group[]): void {
  const targets = resolved.mate ? hearing.talk.focus : resolved.groups;
  for (const quantity of mention.inside) {
    if (resolved.mate && (quantity.kind === 'width' || quantity.kind === 'number')) continue;
    if (quantity.kind === 'number') tellSize(hearing, targets, { text: String(quantity.value), unit: 'mm' }, quantity, 0.85);
    else tellMeasured(hearing, targets, quantity);
  }
  if (mention.isNew && !resolved.mate) tellTo(hearing, targets, 'single', true, mention.from, mention.to, 0.75);
  if (
    /^(?:allen|allens)$/.test(hearing.word(mention.to - 1)) ||
    hearing.sentence.tokens
      .slice(mention.from, mention.to)
      .some(({ bare }, at) => /^allens?$/.test(bare) || (bare === 'socket' && hearing.word(mention.from + at + 1) === 'head'))
  )
    tellTo(hearing, targets, 'drive', 'socket-head hex', mention.from, mention.to, 0.9);
  if (hearing.sentence.tokens.slice(mention.from, mention.to).some(({ bare }) => bare === 'torx'))
    tellTo(hearing, targets, 'drive', 'internal serration', mention.from, mention.to, 0.9);
  const [group] = countFor;
  if (group === undefined || countFor.length !== 1) return;
  // "the upper", "the front one" of a lot is one of it.
  const one = mention.count === null && !mention.plural && group.whole !== null && countOf(group) === null;
  if (mention.count !== null || one || (mention.each !== null && mention.head !== null && !mention.plural))
    tellCount(hearing, group, mention.count === null ? { ...mention, count: 1 } : mention);
}

/** "54 foot-pounds. That's for the bracket bolts.": the value just told belongs here. */
function tellWhatIsFor(hearing: Hearing, mention: Mention, groups: readonly Group[]): void {
  const words = hearing.sentence.tokens
    .slice(0, mention.from)
    .map(({ bare }) => bare)
    .join(' ');
  if (!/^(?:and |so |now )?(?:that|this|those) (?:'s|is|are|one 's) (?:just |only )?(?:for|on)$/.test(words)) return;
  const last = hearing.talk.tells.findLast(({ field }) => field === 'torque');
  const doubt = hearing.talk.doubts.findLastIndex(
    ({ kind, evidence }) => kind === 'unassigned' && evidence.sentence >= hearing.sentence.index - 1,
  );
  const moved = last !== undefined && last.sentence >= hearing.sentence.index - 1 ? last.groups[0]?.told.torque.pop() : undefined;
  if (moved !== undefined)
    for (const group of groups)
      tell(hearing.talk, [group], 'torque', moved.value, moved.build === null ? [] : [moved.build], moved.evidence);
  else if (doubt >= 0) {
    const [said] = hearing.talk.doubts.splice(doubt, 1);
    if (said?.torque !== undefined) tell(hearing.talk, groups, 'torque', said.torque, [], said.evidence);
  }
}

function tellPending(hearing: Hearing, groups: readonly Group[]): void {
  for (const quantity of hearing.pending.splice(0)) {
    const open = groups.filter((group) => quantity.kind === 'torque' || group.told.size.length === 0);
    if (open.length > 0) tellMeasured(hearing, open, quantity);
  }
}
