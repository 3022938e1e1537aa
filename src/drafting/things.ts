import type { Hearing } from './hearing.ts';
import { hearSide } from './sides.ts';
import type { Component } from './items.ts';
import { isCommonPart, nounOf } from './parts.ts';
import type { Talk } from './talk.ts';
import { areOpposite, stemOf, tellingApart } from './word-classes.ts';

/** A thing that is no fastener, as the talk goes on: "the crossmember", "two straps". */
export interface Thing {
  readonly words: readonly string[];
  readonly stems: ReadonlySet<string>;
  /** Its last word that is no word of place, stemmed. */
  readonly noun: string;
  /** What it belongs to, where its own name is one that every assembly has: the clamp of the anti-roll bar. */
  readonly under: Thing | null;
  count: number | null;
  /** So many for each of another thing whose number is not known yet: "two clips each". */
  per: { readonly count: number; readonly of: string } | null;
  /** There on this build only: "on the K there's a stay". */
  only: string | null;
  lastSentence: number;
}

/** The thing that these words mean: one that was named before, or a new one. */
export function thingOf(talk: Talk, component: Pick<Component, 'words' | 'count'> & { readonly noun?: string }, sentence: number): Thing {
  const stems = new Set(component.words.map(stemOf));
  const noun = component.noun ?? nounOf(component.words);
  const bare = [...stems].every((stem) => stem === noun);
  // "balance shaft: the housing …" is not the thermostat's before it.
  const { topic } = talk;
  const turned = (thing: Thing) =>
    topic !== null &&
    talk.topicLeads &&
    talk.topicSentence > thing.lastSentence &&
    thing !== topic &&
    thing.under !== topic &&
    thing.stems.size > 1;
  const known = talk.things.findLast(
    (thing) =>
      thing.noun === noun &&
      isSameName(stems, thing.stems) &&
      !isNarrower(stems, thing) &&
      (!bare ||
        !isCommonPart(noun) ||
        thing === talk.topic ||
        thing.under === talk.topic ||
        (sentence - thing.lastSentence <= 3 && !turned(thing))),
  );
  const called = known ?? (component.count === null ? onlyOf(talk, noun, stems) : null);
  if (called !== null) {
    called.lastSentence = sentence;
    if (component.count !== null) called.count = component.count;
    return called;
  }
  const modifiers = [...stems].filter((stem) => stem !== noun && !tellingApart.has(stem));
  const above = talk.topic === null ? null : (talk.topic.under ?? talk.topic);
  const thing: Thing = {
    words: component.words,
    stems,
    noun,
    under:
      modifiers.length === 0 &&
      isCommonPart(noun) &&
      !(noun === 'arm' && /^(?:lower|upper)$/.test(component.words[0] ?? '')) &&
      above?.noun !== noun &&
      sentence - (above?.lastSentence ?? -99) <= 6
        ? above
        : null,
    count: component.count,
    per: null,
    only: null,
    lastSentence: sentence,
  };
  talk.things.push(thing);
  if (talk.things.length > 300) talk.things.shift();
  return thing;
}

const degrees = /^(?:big|small|long|short|fat|thick|thin)$/;

/** "the big pivot" is the pivot, where there is but one. */
function onlyOf(talk: Talk, noun: string, stems: ReadonlySet<string>): Thing | null {
  if (![...stems].some((stem) => degrees.test(stem)) || ![...stems].every((stem) => stem === noun || degrees.test(stem))) return null;
  const named = talk.things.filter((thing) => thing.noun === noun);
  const [only] = named;
  return named.length === 1 && only !== undefined && ![...only.stems].some((stem) => degrees.test(stem)) ? only : null;
}

/** "the transfer case plate" is not "that plate" of the tank before it, which has a name already. */
const isNarrower = (stems: ReadonlySet<string>, { stems: known, noun, under }: Thing): boolean =>
  under !== null && isCommonPart(noun) && [...stems].some((stem) => !known.has(stem) && !tellingApart.has(stem) && !under.stems.has(stem));

/** "the clamp" is "the hose clamp" said shortly; "the front clamp" is not "the rear clamp", nor "the hose clamp" "the pipe clamp". */
function isSameName(one: ReadonlySet<string>, other: ReadonlySet<string>): boolean {
  const [few, many] = one.size <= other.size ? [one, other] : [other, one];
  if (![...few].every((stem) => many.has(stem))) return false;
  return ![...many].some((stem) => tellingApart.has(stem) && !few.has(stem)) || few.size === many.size;
}

/** The words that a group belonging to the thing is found by, the widest first. */
export const nameOfThing = (thing: Thing | null): readonly string[] =>
  thing === null ? [] : [...(thing.under?.words ?? []).filter((word) => !thing.words.includes(word)), ...thing.words];

/** True where both are the same thing or one belongs to the other. */
export const areTogether = (one: Thing | null, other: Thing | null): boolean =>
  one !== null &&
  other !== null &&
  (one === other || one.under === other || other.under === one || (one.under !== null && one.under === other.under));

/** "front" beside "rear" keeps two things apart whatever else they share. */
export const areApart = (one: Iterable<string>, other: Iterable<string>): boolean => {
  const others = [...other];
  return [...one].some((word) => others.some((opposite) => areOpposite(word, opposite)));
};

/** Notes what a sentence names; its last main thing is what is spoken of next. */
export function hearThing(hearing: Hearing, component: Component): void {
  hearing.components.push(component);
  if (/^(?:side|end)$/.test(component.words.at(-1) ?? '') && hearSide(hearing, component)) return;
  if (component.isUsedUp && !component.isPart) return;
  const { talk, sentence } = hearing;
  const many = manyOf(hearing, component);
  if (component.inPlace && !opensPlace(hearing, component)) {
    if (many !== null && (component.isPart || isKnown(talk, component))) thingOf(talk, { ...component, count: many }, sentence.index);
    return;
  }
  if (!component.isPart && !showsFastened(hearing, component)) return;
  const owner = hearing.thing;
  const each =
    many === null
      ? undefined
      : hearing.items.find(
          (item) =>
            item.kind === 'eachOne' &&
            item.from === component.to &&
            hearing.word(item.to - 1) === 'each' &&
            !/^(?:with|has|have|'s|gets?|takes?|got)$/.test(hearing.word(item.to)),
        );
  const thing = thingOf(talk, { ...component, count: each === undefined ? many : null }, sentence.index);
  if (each !== undefined && many !== null && owner !== null) {
    if (owner.count === null) thing.per = { count: many, of: owner.noun };
    else thing.count = many * owner.count;
    hearing.skip(each);
  }
  // "in each wheel arch there are two": how many times over, not what the talk is at.
  if (component.each && component.inPlace) {
    hearing.times = { by: thing.count, of: thing.noun };
    hearing.thing = thing;
    hearing.thingItem = null;
    hearing.thingAt = component.from;
    return;
  }
  if (isSaidInPassing(hearing, component)) {
    if (component.isPart) talk.passed = { component, sentence: sentence.index, at: component.from };
    return;
  }
  hearing.thing = thing;
  hearing.thingAt = component.from;
  hearing.thingItem = component;
  const place = component.count === null ? null : hearing.placeAt(component.to);
  if (
    component.count !== null &&
    place?.each?.of.length === 1 &&
    place.each.times === null &&
    thing.count === many &&
    many === component.count
  ) {
    // "one latch per window"
    thing.count = null;
    thing.per = { count: component.count, of: place.each.of[0] ?? '' };
  }
  const [build, ...builds] = hearing.builds;
  if (
    build !== undefined &&
    builds.length === 0 &&
    /\b(?:there 's|there is|there are|has|have|got|only)\b/.test(hearing.words(0, component.from)) &&
    // "the Mark 1 has no belly plate"
    !/\b(?:no|not|hasn't|haven't|doesn't|don't|isn't|without|never)\b/.test(hearing.words(0, component.from))
  )
    thing.only ??= build;
  if (component.leads && component.from <= 4) hearing.leading ??= thing;
  if (component.each) hearing.times = { by: thing.count, of: thing.noun };
  else if (isNested(hearing, component) && thing.count !== null) hearing.times = { by: thing.count, of: thing.noun };
  else if (hearing.times !== null && hearing.valueEnd >= 0 && component.from >= hearing.valueEnd) hearing.times = null;
  if (many !== null && many > 1) hearing.counted = thing;
  talk.topic = thing;
  talk.topicAt = hearing.now(component.from);
  talk.topicSentence = sentence.index;
  talk.topicLeads = component.leads || hearing.sentence.tokens.length - (component.to - component.from) <= 3;
}

/** "the pump has got a pulley with holes in it", "which has the larger rubber", "not the sway bar": not what the talk is at. */
function isSaidInPassing(hearing: Hearing, component: Component): boolean {
  const before = hearing.words(component.from - 4, component.from);
  // "two bolts at one end and a V-clamp at the other"
  const added = hearing.freshAt >= 0 && /\band$/.test(before) && /^(?:a|an)$/.test(hearing.word(component.from));
  if (added && !/^(?:has|have|'s|is|with|that|which|gets?|takes?)$/.test(hearing.word(component.to))) return true;
  if (/\bnot$/.test(before)) return true;
  // "to get the bar out"
  if (
    /\b(?:get|getting|got) (?:the|that|this|it)$/.test(`${before} ${hearing.word(component.from)}`) &&
    /^(?:out|off|clear|past)$/.test(hearing.word(component.to))
  )
    return true;
  // "the other flange has eight": said to tell it apart.
  const other = hearing.sentence.tokens.slice(component.from, component.to).some(({ bare }) => bare === 'other');
  if (other && component.count === null && /^(?:has|have|'s)$/.test(hearing.word(component.to))) {
    const counted = hearing.items.find((item) => item.kind === 'quantity' && item.from === component.to + 1);
    if (counted !== undefined) hearing.skip(counted);
    return true;
  }
  // Taken in hand, or in the way: "using the transmission jack", "you take the console out".
  // "Grab handle: one bolt top and bottom" is one to hold on to.
  const isGrab = /(?:^|\b)grab$/.test(before) && /^(?:handle|rail|bar)s?$/.test(hearing.word(component.from)) && component.from <= 2;
  if (
    !isGrab &&
    /\b(?:use|using|used|take|took|taking|remove|removed|removing|pull|pulled|see|hit|touch|don't|avoid|watch|grab|need|like)(?: (?:the|your|a|that|this|my))?$/.test(
      before,
    ) &&
    hearing.freshAt < 0
  )
    return true;
  if (/\b(?:which|who|that) (?:\w+ )?(?:has|have|had|is|are|goes|holds|got|use|uses)$/.test(before)) return true;
  const leans =
    /^(?:on|in|with|around) (?:it|them|one|that)$/.test(hearing.words(component.to, component.to + 2)) &&
    !/^(?:side|end|one|corner)$/.test(hearing.word(component.to + 2));
  if (leans) return !(component.leads && /^(?:is|has|'s|gets|takes|are|have)$/.test(hearing.word(component.to + 2)));
  // "each strap has a hinge at the back and a nut at the front": the nut is the strap's.
  const also = hearing.items.some(
    (item) => item.kind === 'mention' && item.from > component.to && item.mention.head !== null && hearing.word(item.from - 1) === 'and',
  );
  if (also && hearing.leading !== null && /\b(?:has|have|'s got) (?:a|an)$/.test(`${before} ${hearing.word(component.from)}`.trim()))
    return true;
  // "the passenger one has an intermediate shaft with a bearing bracket": what is brought up.
  if (
    component.isPart &&
    /\b(?:got|has|have|with) (?:a|an)(?: \w+)?$/.test(
      `${hearing.words(component.from - 2, component.from)} ${hearing.word(component.from)}`.trim(),
    )
  )
    return false;
  return (
    hearing.leading !== null && !component.leads && component.count === null && hearing.freshAt < 0 && hearing.open(component.from - 1)
  );
}

const isKnown = (talk: Talk, component: Component) => talk.things.some(({ noun }) => noun === component.noun);

/** How many there are: "two brackets", "a pair of links", "three clamps on each side". */
function manyOf(hearing: Hearing, component: Component): number | null {
  const pair = hearing.word(component.from - 1) === 'of' && hearing.word(component.from - 2) === 'pair' ? 2 : null;
  const place = hearing.placeAt(component.to);
  const single = /^(?:a|an)$/.test(hearing.word(component.from)) && place?.each?.times != null ? 1 : null;
  // "both ends have a clamp"
  const both =
    /^(?:a|an)$/.test(hearing.word(component.from)) &&
    /\bboth (?:ends|sides) (?:have|has|get|take)(?: got)?$/.test(hearing.words(0, component.from));
  const count = component.count ?? pair ?? (both ? 2 : null) ?? single;
  if (count === null) return null;
  const each = place === null || (place.words.length > 1 && count !== 1) ? null : place.each;
  const bySide = hearing.times !== null && hearing.times.of === 'side' && !component.each && each === null ? hearing.times.by : null;
  const nested = each === null && isNested(hearing, component) ? (hearing.times?.by ?? 1) : 1;
  return count * (each?.times ?? bySide ?? nested);
}

/** "every frame has four clamps": so many on each of what was just counted by. */
const isNested = (hearing: Hearing, component: Component): boolean =>
  hearing.times !== null &&
  component.count !== null &&
  !component.each &&
  component.noun !== hearing.times.of &&
  !/^(?:side|end|corner)$/.test(hearing.times.of) &&
  /\b(?:has|has got|'s got|gets|takes|carries|with) \w+$/.test(hearing.words(component.from - 3, component.from));

/** "On the starter there's two bolts", "At the front end, four nuts": a place at the head of the sentence is what it speaks of. */
function opensPlace(hearing: Hearing, component: Component): boolean {
  const before = hearing.sentence.tokens.slice(0, component.from).map(({ bare }) => bare);
  const opening = before.every((word) =>
    /^(?:and|so|then|now|okay|right|well|on|for|at|with|in|into|the|up|down|over|back|also)$/.test(word),
  );
  return opening && /^(?:on|for|at|with|in|into)$/.test(hearing.word(component.from - 1));
}

/** A word that is no known part names a thing where fasteners or values are told of it at once: "the gubbins has two bolts". */
function showsFastened(hearing: Hearing, component: Component): boolean {
  const { items, sentence } = hearing;
  if (component.isUsedUp) return false;
  // "there's a wedge at the front | that's got two bolts"
  const introduced =
    component.leads &&
    component.count === null &&
    /^(?:and |so |then |okay |now )*there (?:'s|is) (?:a|an|the)$/.test(hearing.words(0, component.from + 1));
  if (introduced && component.words.length <= 3 && items.every(({ kind, from }) => from <= component.from || kind === 'component'))
    return true;
  const alone = component.leads && sentence.tokens.length - (component.to - component.from) <= 1;
  if (alone && component.words.length <= 3) return true;
  // "vacuum modulator, held by a little fork and one bolt"
  const held = /^(?:held|fixed|secured|located) (?:on |in |down |up )?(?:by|with)$/.exec(
    sentence.tokens
      .slice(component.to, component.to + 3)
      .map(({ bare }) => bare)
      .join(' ')
      .replace(/ (?:a|an|the|one|two|three|four|\S+)$/, ''),
  );
  if (held !== null && component.leads && items.some(({ kind, from }) => kind === 'mention' && from > component.to)) return true;
  const next = items.find((item) => item.from >= component.to && item.kind !== 'pronoun' && item.kind !== 'build');
  if (next === undefined || !/^(?:mention|quantity|each|eachOne|all)$/.test(next.kind)) return false;
  if (next.kind === 'quantity' && !/^(?:torque|width|serration|number|thread)$/.test(next.quantity.kind)) return false;
  const between = sentence.tokens.slice(component.to, next.from).map(({ bare }) => bare);
  const verb = between.some((word) => /^(?:has|have|'s|is|are|'re|gets?|takes?|with|uses?|needs?|got)$/.test(word));
  const closed = /[:,.]/.test(sentence.tokens[component.to - 1]?.mark ?? '');
  return (
    component.leads &&
    (verb || closed || between.length === 0) &&
    between.every((word) =>
      /^(?:has|have|'s|'ve|is|are|'re|gets?|takes?|with|uses?|needs?|got|just|only|also|that|it|they|there|the|a|by|held|on|you|all)$/.test(
        word,
      ),
    )
  );
}
