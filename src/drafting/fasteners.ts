import { sameBuild, tellCount } from './counting.ts';
import { countOf, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Item } from './items.ts';
import type { Mention } from './mention.ts';
import type { Named } from './kinship.ts';
import { nameFasteners } from './naming.ts';
import { addGroup, noteSentence, tell } from './talk.ts';
import { tellMeasured, tellSize, tellTo } from './tell-values.ts';
import { areApart, thingOf } from './things.ts';
import { isTotal } from './totals.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** Hears that fasteners are named; `forward` where a value was told just before and waits for them. */
export function hearFasteners(hearing: Hearing, mention: Mention, index: number, forward = false): readonly Group[] {
  const before = hearing.items[index - 1];
  const previous = mention.from > 0 && hearing.open(mention.from - 1) ? hearing.word(mention.from - 1) : '';
  if (isInPassing(hearing, mention, previous, forward)) return [];
  if (mention.article === 'each' && ownsOthers(hearing, mention)) return [];
  if (isTotal(hearing, mention)) return hearing.talk.focus;
  if (addsOtherSide(hearing, mention) || correctsCount(hearing, mention)) return hearing.talk.focus;
  if (describesFocus(hearing, mention, previous, before)) return hearing.talk.focus;
  if (standsForThing(hearing, mention, index)) return [];
  const focusBefore = hearing.talk.focus;
  const follows = joinsFocus(hearing, mention, before);
  const named = nameFasteners(hearing, mention);
  const [only] = named.groups;
  if (only === undefined) return [];
  hearing.onMate = named.mate;
  hearing.freshAt = mention.from;
  hearing.talk.focusAt = hearing.now(mention.from);
  hearing.talk.focusSentence = hearing.sentence.index;
  if (named.mate) {
    if (mention.each !== null && sameBuild(countOf(only), mention.count) && !only.bothSides)
      tellCount(hearing, only, { ...mention, count: countOf(only) ?? 1 }, true);
    if (/^(?:torque|torqued|tighten|tightened|turn|turning|spin|on)$/.test(hearing.words(mention.from - 1, mention.from)))
      only.turnsMate = true;
    tellInside(hearing, mention, named);
    return named.groups;
  }
  const joined =
    (follows || isTwinOf(only, focusBefore, named.isNew, mention.count)) && !named.groups.some((group) => focusBefore.includes(group));
  hearing.talk.focus = joined ? [...focusBefore, ...named.groups] : [...named.groups];
  for (const group of named.groups) {
    if (mention.plural && named.groups.length === 1) group.saidPlural = true;
    else if (mention.head !== null) group.saidSingular = true;
    if (mention.article !== 'indefinite' || mention.names.length > 0) group.saidVaguely = false;
    group.listed = named.isNew && isShopping(hearing, mention);
  }
  nameByKind(hearing, mention, only);
  spreadEach(hearing, mention, before, focusBefore);
  tellInside(hearing, mention, named);
  tellNamed(hearing, mention, named.groups);
  movesLastTorque(hearing, mention, named.groups);
  for (const quantity of hearing.pending.splice(0)) {
    const open = named.groups.filter((group) => quantity.kind === 'torque' || group.told.size.length === 0);
    if (open.length > 0) tellMeasured(hearing, open, quantity);
  }
  if (named.isNew) placeBefore(hearing, mention, named.groups);
  if (named.isNew && hearing.builds.length === 1) for (const group of named.groups) group.only = hearing.builds[0] ?? null;
  return named.groups;
}

/** "four of them are short and one's long": from now on the long one is called so. */
function nameByKind(hearing: Hearing, mention: Mention, group: Group): void {
  if (group.whole === null) return;
  const word =
    /^(?:are|is|'s|'re) (?:the |a )?(?:really |quite |very )?(long|short|longer|shorter|big|small|bigger|smaller|thick|thin)\b/.exec(
      hearing.words(mention.end, mention.end + 4),
    )?.[1];
  if (word === undefined || group.own.has(stemOf(word))) return;
  group.own.add(stemOf(word));
  group.names.push(word);
}

/** "I broke two bolts", "goes under the front one", "there's a bracket on one of the top ones": named to say where or what happened. */
function isInPassing(hearing: Hearing, mention: Mention, previous: string, forward: boolean): boolean {
  if (hearing.doubled && mention.another) return true;
  // "fifteen sixteenths, like the spider ones": told by comparing.
  if (previous === 'like' && mention.article === 'definite') return true;
  // "goes up into a captive nut": where it ends, not what is turned.
  if (
    /^(?:into|onto)$/.test(hearing.word(mention.from - 1)) &&
    mention.article === 'indefinite' &&
    mention.head !== null &&
    !mention.plural &&
    hearing.freshAt >= 0
  )
    return true;
  // "nineteens with nineteen nuts": the other half's size.
  const isSize = hearing.sentence.quantities.some(
    (one) => one.to <= mention.from && one.kind === 'number' && one.plural && one.value === mention.count,
  );
  if (isSize && previous === 'with' && mention.head !== null) return true;
  // "lower half, the tin one: eighteen screws": says which thing it is.
  const [focus] = hearing.talk.focus;
  const saysWhich =
    mention.head === null &&
    !mention.plural &&
    mention.count === 1 &&
    mention.article === 'definite' &&
    mention.names.length > 0 &&
    mention.names.every((name) => !tellingApart.has(name)) &&
    mention.end >= hearing.sentence.tokens.length &&
    focus !== undefined &&
    (countOf(focus.whole ?? focus) ?? 0) > 1;
  if (saysWhich && !forward) return true;
  // "a hundred and ten, bottom one first, then the top": in which order.
  const isOrder =
    mention.head === null &&
    mention.share === null &&
    mention.article !== 'definite' &&
    /^(?:first|last|next)$/.test(hearing.word(mention.end)) &&
    hearing.items.every((item) => item.from < mention.end || item.kind !== 'quantity');
  if (isOrder) return true;
  // "three clips, no bolts"
  if (previous === 'no' && mention.head !== null && mention.count === null) return true;
  // "I was thinking of the lighter one"
  if (/\bthinking (?:of|about)$/.test(hearing.words(0, mention.from))) return true;
  // "one of them had a stripped hole"
  if (mention.share === 'some' && mention.count === 1 && /^(?:had|was|broke|snapped|came|needed)$/.test(hearing.word(mention.end)))
    return true;
  if (/^(?:broke|snapped|stripped|lost|missed|sheared|rounded|ruined|snap|strip|drop|dropped)$/.test(previous)) return true;
  // "I've got one bolt in it": only to hold it until now.
  if (
    mention.head !== null &&
    (mention.count ?? 9) <= 2 &&
    mention.names.length === 0 &&
    /\b(?:i 've got|i got|run in|stick|put|throw)(?: just)?$/.test(hearing.words(0, mention.from)) &&
    /^(?:in (?:it|there|place)|holding it|to hold)\b/.test(hearing.words(mention.to, mention.to + 2))
  )
    return true;
  // "a plate with the nuts welded on"
  if (/^(?:(?:is|are|'s|'re) )?(?:welded|captive|captured|pressed)\b/.test(hearing.words(mention.end, mention.end + 2))) return true;
  const indefinite = /^(?:a|an|any|another)$/.test(hearing.word(mention.from)) && mention.count === 1 && mention.names.length === 0;
  if (
    indefinite &&
    /^(?:if|when|whenever|until)\b/.test(hearing.words(0, mention.from)) &&
    !/\b(?:got|has|have|there 's)\b/.test(hearing.words(0, mention.from))
  )
    return true;
  if (mention.head !== null || forward) return false;
  // "the front two are longer than the other three"
  if (/\b(?:longer|shorter|bigger|smaller|fatter|different) (?:than|from|to)\b/.test(hearing.words(0, hearing.sentence.tokens.length))) {
    const valued = hearing.items.some((item) => item.kind === 'quantity' && item.quantity.kind !== 'number');
    if (!valued) return true;
  }
  // "the first time round 100, the final is 300": a pass, not a fastener
  if (
    mention.names.length > 0 &&
    mention.place.length === 0 &&
    !mention.plural &&
    mention.names.every((name) => /^(?:final|first|second|third|last)$/.test(name)) &&
    !(hearing.word(mention.to - 1) === 'one' && hearing.talk.focus.some((group) => (countOf(group.whole ?? group) ?? 0) > 1))
  )
    return true;
  // "so long ones, the same head": says what they are.
  if (
    mention.article === 'none' &&
    mention.count === null &&
    mention.plural &&
    mention.place.length === 0 &&
    /^so (?:\w+ )?ones$/.test(hearing.words(mention.from - 1, mention.to))
  )
    return mention.names.every((name) => /^(?:long|short|big|little|small|longer|shorter|bigger|smaller)$/.test(name));
  if (mention.needsLot && /^(?:in|at|for|after)$/.test(previous)) return true;
  if (/^(?:under|over|behind|above|below|between|beside|beneath|past|around|against|near)$/.test(previous)) return true;
  if (mention.share === 'some' && /^(?:on|with|of)$/.test(previous)) return true;
  const vague = mention.article === 'indefinite' && (mention.count ?? 1) === 1 && mention.bySize === null && mention.byText === null;
  return vague && mention.names.every((name) => /^(?:long|good|bad|hard|easy|big|little|first|last)$/.test(name)) && hearing.freshAt < 0;
}

/** "every U-bolt has two nuts": what is counted next is there for each of these. */
function ownsOthers(hearing: Hearing, mention: Mention): boolean {
  const words = mention.names.map(stemOf);
  const owner = hearing.talk.groups.findLast((group) => group.head === mention.head && words.every((word) => group.own.has(word)));
  if (owner === undefined || !/^(?:has|have|'s|gets|takes|needs|comes|got)$/.test(hearing.word(mention.end))) return false;
  if (!hearing.items.some((item) => item.kind === 'mention' && item.from > mention.from)) return false;
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
  const all = countOf(focus);
  if (all === null || focus.bothSides) return false;
  tell(hearing.talk, [focus], 'count', all + mention.count, [], hearing.evidence(mention.from, mention.end, 0.85), {
    replace: true,
    to: mention.end,
  });
  focus.bothSides = true;
  hearing.freshAt = mention.from;
  noteSentence(focus, hearing.sentence);
  for (const quantity of mention.inside) tellMeasured(hearing, [focus], quantity);
  return true;
}

/** "three bolts, no, four bolts", "six bolts, no, I tell a lie, it's five bolts each": the number is put right. */
function correctsCount(hearing: Hearing, mention: Mention): boolean {
  const [focus] = hearing.talk.focus;
  if (!hearing.correcting || hearing.freshAt < 0 || focus === undefined || mention.count === null) return false;
  if (mention.names.some((name) => !focus.own.has(stemOf(name)))) return false;
  if (mention.head !== null && mention.head !== focus.head) return false;
  hearing.correcting = false;
  focus.told.count.length = 0;
  focus.perUnknown = null;
  tellCount(hearing, focus, mention, false);
  hearing.freshAt = mention.from;
  return true;
}

/** "the four on top are the long ones", "those are two M10 bolts": says more of what is in focus, names nothing new. */
function describesFocus(hearing: Hearing, mention: Mention, previous: string, before: Item | undefined): boolean {
  const { talk } = hearing;
  // "three nuts on the flange, 14 mil, copper nuts"
  const materials =
    mention.names.length > 0 && mention.names.every((name) => /^(?:copper|brass|steel|stainless|nylon|flanged|plastic|coated)$/.test(name));
  if (materials && mention.count === null && mention.article === 'none' && hearing.freshAt >= 0 && talk.focus[0]?.head === mention.head)
    return true;
  if (!/^(?:is|are|'s|'re|was|were|being)$/.test(previous) || before === undefined || before.to < mention.from - 2) return false;
  const [focus] = talk.focus;
  // "no, hold on, that's the axle nut": another.
  if (hearing.correcting && before.kind === 'pronoun' && before.word === 'that' && mention.head !== null) return false;
  if (focus === undefined || hearing.sentence.index - talk.focusSentence > 1) return false;
  // "the carrier bearing bolts, there's two of them": counts them.
  const isCounted = mention.share === 'some' && mention.count !== null && mention.names.length === 0 && countOf(focus) === null;
  if (isCounted && hearing.freshAt >= 0 && /^(?:there 's|there are|there is)$/.test(hearing.words(mention.from - 2, mention.from)))
    return false;
  const thingBetween = hearing.thing !== null && hearing.thingAt > hearing.freshAt;
  if (before.kind === 'pronoun') {
    if (thingBetween || before.word === 'there') return false;
    if (hearing.freshAt < 0 && talk.topicAt > talk.focusAt) return false;
    if (
      /^(?:that|this|it)$/.test(before.word) &&
      mention.head !== null &&
      (focus.head !== mention.head || !sameBuild(countOf(focus), mention.count))
    )
      return false;
  } else if (!(before.kind === 'mention' || before.kind === 'all') || hearing.freshAt < 0 || thingBetween) return false;
  if (mention.head !== null && mention.head !== focus.head) return false;
  if (mention.count !== null && countOf(focus) !== null && mention.count !== countOf(focus) && mention.head !== null) return false;
  if (mention.head === null && mention.count !== null && countOf(focus) !== null && mention.count !== countOf(focus)) return false;
  for (const group of talk.focus) {
    for (const name of mention.names) {
      if (group.own.has(stemOf(name))) continue;
      group.own.add(stemOf(name));
      group.names.push(name);
    }
    noteSentence(group, hearing.sentence);
  }
  hearing.freshAt = mention.from;
  tellInside(hearing, mention, { groups: talk.focus, isNew: false, mate: false });
  return true;
}

/** "engine mounts: the left one is three bolts": the one is a mount. */
function standsForThing(hearing: Hearing, mention: Mention, index: number): boolean {
  const next = hearing.items[index + 1];
  if (mention.head === null && !mention.plural && next?.kind === 'quantity')
    return standsForCounted(
      hearing,
      mention,
      next.quantity.kind === 'number' && !next.quantity.plural ? next.quantity.value : null,
      next.from,
      next,
    );
  // "then the front has two more"
  if (
    mention.head === null &&
    !mention.plural &&
    next?.kind === 'mention' &&
    next.mention.head === null &&
    next.mention.another &&
    next.mention.names.length === 0 &&
    next.mention.bySize === null
  )
    return standsForCounted(hearing, mention, next.mention.count, next.from, next);
  if (mention.head !== null || mention.plural || next?.kind !== 'mention' || next.mention.head === null || next.mention.count === null)
    return false;
  const between = hearing.sentence.tokens.slice(mention.end, next.from).map(({ bare }) => bare);
  const closed = /[,:]/.test(hearing.sentence.tokens[next.from - 1]?.mark ?? '');
  if (
    (between.length === 0 && !closed) ||
    !between.every((word) => /^(?:is|has|have|'s|got|takes|uses|gets|just|also|held|by|on|with)$/.test(word))
  )
    return false;
  const base = hearing.thing ?? hearing.talk.topic;
  const words = [...mention.names, ...(base?.words.filter((word) => !tellingApart.has(word)) ?? []), ...mention.place];
  if (words.length === 0) return false;
  hearing.thing = thingOf(hearing.talk, { words, count: null }, hearing.sentence.index);
  hearing.thingAt = mention.from;
  hearing.thingItem = null;
  hearing.talk.topic = hearing.thing;
  hearing.talk.topicAt = hearing.now(mention.from);
  return true;
}

/** "Left one, two bolts. Right one, two bolts. Eighteen": what comes next is told of both sides. */
function isTwinOf(group: Group, [before]: readonly Group[], isNew: boolean, count: number | null): boolean {
  if (before === undefined || !isNew || group.head !== before.head) return false;
  if ((countOf(group) ?? count) !== countOf(before)) return false;
  if (group.head === null && group.thing !== before.thing) return false;
  if (before.whole !== null || group.whole !== null || before.told.size.length + before.told.torque.length > 0) return false;
  const words = (one: Group) => [...one.own, ...one.topic.map(stemOf)];
  return areApart(words(group), words(before)) && (group.sentences[0] ?? 0) - (before.sentences.at(-1) ?? -9) <= 1;
}

/** "the front one has four 10 mil nuts, the middle one has six": six of the same at the next of its kind. */
function standsForCounted(hearing: Hearing, mention: Mention, count: number | null, from: number, item: Item): boolean {
  const { talk, sentence } = hearing;
  const [before] = talk.focus;
  if (before === undefined || before.head === null || sentence.index - talk.focusSentence > 2 || count === null) return false;
  if (item.kind === 'quantity' && hearing.freshAt < 0) return false;
  if (count > 24 || !Number.isInteger(count) || mention.names.length === 0) return false;
  if (!/^(?:has|'s got|got|takes)$/.test(hearing.words(mention.end, from))) return false;
  if (!(hearing.open(item.to - 1) ? /^(?:and|the|)$/.test(hearing.word(item.to)) : true)) return false;
  const group = addGroup(talk, sentence, {
    head: before.head,
    sure: before.sure,
    names: mention.names,
    places: mention.place,
    thing: before.thing,
    beside: before,
  });
  tell(talk, [group], 'count', count, hearing.builds, hearing.evidence(mention.from, item.to, 0.85), { to: item.to });
  for (const size of before.told.size)
    if (size.evidence.sentence === sentence.index)
      tell(talk, [group], 'size', size.value, hearing.builds, { ...size.evidence, confidence: 0.7 });
  hearing.skip(item);
  talk.focus = item.kind === 'quantity' ? [...talk.focus, group] : [group];
  talk.focusSentence = sentence.index;
  hearing.freshAt = mention.from;
  talk.focusAt = hearing.now(mention.from);
  return true;
}

/** The mention follows another directly: "the bolts and the nuts are both 17". */
function joinsFocus(hearing: Hearing, mention: Mention, before: Item | undefined): boolean {
  if (before?.kind !== 'mention' || hearing.freshAt < 0 || hearing.freshAt !== before.from || hearing.skipped.has(before)) return false;
  const gap = hearing.sentence.tokens.slice(before.to, mention.from).map(({ bare }) => bare);
  return gap.length > 0 && gap.every((word) => /^(?:and|the|a)$/.test(word)) && gap.includes('and');
}

/** "you need eight new driveshaft bolts": what to have at hand. */
function isShopping(hearing: Hearing, mention: Mention): boolean {
  const { sentence } = hearing;
  if (/^(?:just )?to hold (?:it|them|that|things|everything)\b/.test(hearing.words(mention.end, mention.end + 5))) return true;
  return (
    /\b(?:you(?: 'll| will)? need|get the|get your|order|buy|have ready|kit|you 'll want|pick up)\b/.test(hearing.words(0, mention.from)) &&
    !sentence.quantities.some(({ kind }) => /^(?:torque|width|serration)$/.test(kind))
  );
}

/** "at the front there's a horizontal bolt", "inner end: a nut", "both ends, castle nuts": the place may come first. */
function placeBefore(hearing: Hearing, mention: Mention, groups: readonly Group[]): void {
  const [only] = groups;
  if (
    /\bboth (?:ends|sides)$/.test(hearing.words(0, mention.from)) &&
    only !== undefined &&
    mention.count === null &&
    countOf(only) === null
  )
    tell(hearing.talk, [only], 'count', 2, [], hearing.evidence(Math.max(0, mention.from - 2), mention.end, 0.85));
  const words = hearing.words(mention.from - 8, mention.from);
  const headed = /(?:^|[a-z] )?\b(?:the |then |on |at )?(\w+)(?: (?:end|side|one))?$/.exec(
    hearing.words(mention.from - 3, mention.from),
  )?.[1];
  // "one bolt at the top, one bolt at the bottom": the top is the first one's.
  if (hearing.items.some((item) => item.kind === 'mention' && item.from < mention.from && item.to >= mention.from)) return;
  const closed = /[:,]/.test(hearing.sentence.tokens[mention.from - 1]?.mark ?? '');
  const place =
    headed !== undefined && closed && tellingApart.has(headed) && !/^(?:side|end|one)$/.test(headed)
      ? headed
      : /\b(?:at|on|in|down|up) the (front|rear|back|top|bottom|sides?|left|right|middle|inside|outside|center|centre)(?: of (?:the )?\w+)? ?(?:there 's|there is|there are|you 've got|you got|you have|it 's|is|are|we 've got)?(?: also| only| just)?$/.exec(
          words,
        )?.[1];
  if (place === undefined) return;
  for (const group of groups) {
    group.own.add(stemOf(place));
    group.places.push(place);
  }
}

/** Sizes, drive and newness inside the name itself. */
function tellInside(hearing: Hearing, mention: Mention, named: Named): void {
  const { groups } = named;
  for (const quantity of mention.inside) {
    if (named.mate && (quantity.kind === 'width' || quantity.kind === 'number')) continue;
    if (quantity.kind === 'number') tellSize(hearing, groups, { text: String(quantity.value), unit: 'mm' }, quantity, 0.85);
    else tellMeasured(hearing, groups, quantity);
  }
  if (mention.isNew && !named.mate) tellTo(hearing, groups, 'single', true, mention.from, mention.to, 0.75);
  const said = hearing.words(mention.from, mention.to);
  if (/\b(?:allens?|socket heads?|cap heads|hex socket|inhex)\b/.test(said))
    tellTo(hearing, groups, 'drive', 'socket-head hex', mention.from, mention.to, 0.9);
  if (/\btorx\b/.test(said)) tellTo(hearing, groups, 'drive', 'internal serration', mention.from, mention.to, 0.9);
  if (/\b(?:twelve|12) point/.test(said)) tellTo(hearing, groups, 'drive', 'bihex', mention.from, mention.to, 0.9);
}

/** The count that comes with the name: "four", "the front one" of a lot, "a nut on each side". */
function tellNamed(hearing: Hearing, mention: Mention, groups: readonly Group[]): void {
  const [group] = groups;
  if (group === undefined || groups.length !== 1) return;
  // "three studs with copper nuts": as many nuts.
  const stud = hearing.items.findLast((item) => item.to <= mention.from);
  if (mention.head === 'nut' && mention.plural && mention.count === null && countOf(group) === null && stud?.kind === 'mention')
    if (
      stud.mention.head === 'stud' &&
      stud.mention.count !== null &&
      /^(?:with|and)(?: the)?$/.test(hearing.words(stud.to, mention.from))
    ) {
      tellCount(hearing, group, { ...mention, count: stud.mention.count, each: stud.mention.each }, false);
      return;
    }
  if (countsAsThings(hearing, mention, group)) return;
  const one = mention.count === null && !mention.plural && group.whole !== null && countOf(group) === null;
  if (mention.count !== null || one || (mention.each !== null && mention.head !== null && !mention.plural))
    tellCount(hearing, group, mention.count === null ? { ...mention, count: 1 } : mention, false);
}

/** "54 foot-pounds. That's for the bracket bolts.": the value told last belongs here. */
function movesLastTorque(hearing: Hearing, mention: Mention, groups: readonly Group[]): void {
  const { talk, sentence } = hearing;
  const before = hearing.words(0, mention.from);
  const isFor = /^(?:and |so |now )?(?:that|this|those) (?:'s|is|are|one 's) (?:just |only )?(?:for|on)$/.test(before);
  // "a hundred and fifty-two, no, hold on, that's the axle nut"
  const isOthers = hearing.correcting && /\b(?:no|wait|sorry|on) (?:that|those) (?:'s|is|are|was)(?: for| on)?$/.test(before);
  if (!isFor && !isOthers) return;
  if (isOthers) hearing.correcting = false;
  const last = talk.tells.findLast(({ field }) => field === 'torque');
  const doubt = talk.doubts.findLastIndex(({ kind, evidence }) => kind === 'unassigned' && evidence.sentence >= sentence.index - 1);
  const moved = last !== undefined && last.sentence >= sentence.index - 1 ? last.groups[0]?.told.torque.pop() : undefined;
  if (moved !== undefined)
    for (const group of groups) tell(talk, [group], 'torque', moved.value, moved.build === null ? [] : [moved.build], moved.evidence);
  else if (doubt >= 0) {
    const [said] = talk.doubts.splice(doubt, 1);
    if (said?.torque !== undefined) tell(talk, groups, 'torque', said.torque, [], said.evidence);
  }
}

/** "cooler lines, two of them. They're flare nuts": as many nuts. */
function countsAsThings(hearing: Hearing, mention: Mention, group: Group): boolean {
  const { topic } = hearing.talk;
  const many = topic?.count ?? 1;
  if (topic === null || many < 2 || hearing.sentence.index - topic.lastSentence > 2) return false;
  if (!mention.plural || mention.count !== null || mention.head === null || countOf(group) !== null) return false;
  if (!/^(?:(?:and|so|now) )?(?:they|those|these) (?:'re|are)(?: just| all)?$/.test(hearing.words(0, mention.from))) return false;
  const said = hearing.talk.lately.findLast(({ items }) => items.some((item) => item.kind === 'mention' && item.mention.count === many));
  if (said === undefined) return false;
  tell(hearing.talk, [group], 'count', many, [], { sentence: said.sentence, confidence: 0.75, words: `${many} of them` });
  return true;
}

/** "one bolt at the top and one bolt at the bottom on each side": the top ones as well. */
function spreadEach(hearing: Hearing, mention: Mention, before: Item | undefined, focus: readonly Group[]): void {
  const [first] = focus;
  const times = mention.each?.times ?? null;
  if (times === null || mention.each?.of[0] !== 'side' || before?.kind !== 'mention' || first === undefined || focus.length !== 1) return;
  if (hearing.words(before.to, mention.from) !== 'and' || before.mention.each !== null || before.mention.count === null) return;
  const told = first.told.count.at(-1);
  if (told === undefined || told.value !== before.mention.count || told.evidence.sentence !== hearing.sentence.index) return;
  tell(hearing.talk, [first], 'count', told.value * times, hearing.builds, hearing.evidence(before.from, mention.end, 0.85), {
    replace: true,
  });
  first.bothSides = true;
}
