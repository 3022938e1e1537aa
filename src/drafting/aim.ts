import { countOf, lastTold, likeness, type FieldName, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { addGroup, groupsInReach, noteSentence, tell } from './talk.ts';
import { areApart, areTogether, type Thing } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** The talk may turn from a group for so many sentences before what is told without a name is nobody's; a torque is often told last. */
const reach = 3;
const torqueReach = 5;

/** Whom a value at that place is about: fasteners, or a thing whose fasteners it stands for. */
function whose(
  hearing: Hearing,
  at: number,
  field: FieldName | null = null,
): { readonly thing: Thing } | { readonly groups: readonly Group[] } {
  const { talk, sentence } = hearing;
  if (hearing.thing !== null && hearing.thingAt > hearing.freshAt && hearing.thingAt < at && speaksOfThing(hearing, at))
    return { thing: hearing.thing };
  if (hearing.freshAt >= 0) return { groups: talk.focus };
  if (hearing.leading !== null && !belongs(talk.focus, hearing.leading)) return { thing: hearing.leading };
  const turned = talk.topic !== null && talk.topicAt > talk.focusAt && talk.topicLeads && talk.topicSentence < sentence.index;
  const waits = field === 'torque' && awaitsTorque(hearing) && talk.topic !== null && ownedBy(hearing, talk.topic).length === 0;
  if (turned && !waits && talk.topic !== null && sentence.index - talk.topicSentence <= 2 && !belongs(talk.focus, talk.topic))
    return { thing: talk.topic };
  return { groups: sentence.index - talk.focusSentence <= (field === 'torque' || field === null ? torqueReach : reach) ? talk.focus : [] };
}

/** "a long bolt, 19, and there's a rubber on top, so don't go crazy, 52": only the bolt has a size, and no torque yet. */
const awaitsTorque = ({ talk, sentence }: Hearing): boolean =>
  talk.focus.length > 0 &&
  sentence.index - talk.focusSentence <= 2 &&
  talk.focus.every((group) => lastTold(group, 'size') !== null && lastTold(group, 'torque') === null);

/** What a value at that place is about, where it is not told by a name after it. A thing without fasteners gets a group to stand for them. */
export function aim(hearing: Hearing, at: number, field: FieldName): readonly Group[] {
  const target = whose(hearing, at, field);
  if ('thing' in target) return focusOn(hearing, fastenersOf(hearing, target.thing, field));
  if (target.groups.length === 0) return target.groups;
  const lot = onlyDescribed(hearing, target.groups);
  if (lot !== null) hearing.talk.focus = lot;
  hearing.talk.focusSentence = hearing.sentence.index;
  return lot ?? target.groups;
}

/**
 * "Two in front and two behind. Seven-eighths.", "The upper one's got the ground on it. 47.": a part that was only described is no
 * part in what the next sentence tells without a name.
 */
function onlyDescribed(hearing: Hearing, groups: readonly Group[]): Group[] | null {
  const [part] = groups;
  const lot = part?.whole ?? null;
  if (part === undefined || lot === null || groups.length !== 1 || hearing.freshAt >= 0) return null;
  const said = hearing.talk.focusSentence;
  // "What's the head on the big ones? Twenty-one.": of those that were asked about.
  if (hearing.talk.askedIn === said) return null;
  if (said >= hearing.sentence.index || (hearing.talk.lengths[said] ?? 0) <= 5) return null;
  const bare = lot.parts.every((one) => one.told.size.length + one.told.torque.length === 0);
  return bare && lot.told.torque.length === 0 ? [lot, ...lot.parts] : null;
}

/** The same without making anything: null where a thing is meant of which no fasteners are known. */
export function aimed(hearing: Hearing, at: number): readonly Group[] | null {
  const target = whose(hearing, at);
  if (!('thing' in target)) return onlyDescribed(hearing, target.groups) ?? target.groups;
  const known = ownedBy(hearing, target.thing);
  return known.length === 0 ? null : known;
}

const belongs = (groups: readonly Group[], thing: Thing) =>
  groups.some((group) => areTogether(group.thing, thing) || (group.own.has(thing.noun) && !areApart(group.own, thing.stems)));

export function focusOn(hearing: Hearing, groups: readonly Group[]): readonly Group[] {
  if (groups.length === 0) return groups;
  hearing.talk.focus = [...groups];
  hearing.talk.focusSentence = hearing.sentence.index;
  hearing.freshAt = Math.max(hearing.freshAt, hearing.thingAt);
  hearing.talk.focusAt = hearing.now(hearing.freshAt);
  for (const group of groups) noteSentence(group, hearing.sentence);
  return groups;
}

const linking =
  /^(?:is|are|'s|'re|was|a|an|the|gets?|takes?|at|to|goes|go|torques?|torqued|tightened|tighten|wants?|needs?|uses?|just|also|only|with|of|them|it|they|those|these|that|this|which|and|both|have|has|got|i|think|like|on|there|you|want|need|do|up|about|be|then|all|one|each|both|now|again|too|so|comes|come|well|i'd|say|'d|call|held|in|by|size|spanner|socket|torque)$/;

/** True where what comes between the thing and the value leaves no doubt that the value is the thing's. */
function speaksOfThing(hearing: Hearing, at: number): boolean {
  const item = hearing.thingItem;
  if (item === null) return false;
  const within = hearing.items.filter((one) => one.from >= item.to && one.to <= at);
  const covered = (index: number) => within.some((one) => index >= one.from && index < one.to && one.kind !== 'component');
  const directly = hearing.sentence.tokens.slice(item.to, at).every(({ bare }, offset) => covered(item.to + offset) || linking.test(bare));
  if (hearing.freshAt < 0) return directly || item.leads;
  // "one pivot bolt and one slider bolt, pivot is five-eighths"
  const meant = hearing.talk.focus.filter((group) => group.own.has(item.noun));
  if (directly && hearing.talk.focus.length > 1 && meant.length === 1) return true;
  const closedBefore = item.from > 0 && !hearing.open(item.from - 1);
  const full = hearing.talk.focus.every((group) => lastTold(group, 'torque') !== null && lastTold(group, 'size') !== null);
  return directly && (item.leads || closedBefore || full);
}

/** The fasteners that a thing stands for: those of it that still lack the value, or a group of its own where none was named. */
export function fastenersOf(hearing: Hearing, thing: Thing, field: FieldName): readonly Group[] {
  const { talk } = hearing;
  const build = hearing.builds[0] ?? null;
  const owned = ownedBy(hearing, thing);
  if (owned.length > 0) {
    const open = owned.filter((group) => (field === 'count' ? countOf(group) === null : lastTold(group, field, build) === null));
    const roots = open.filter(({ whole }) => whole === null || !open.includes(whole));
    // "the drain's a 27" after the flanges beside it: what belongs to a neighbour has its values already.
    const others = owned.every(
      (group) => group.thing !== null && group.thing.noun !== thing.noun && group.sentences[0] !== hearing.sentence.index,
    );
    const alone = others && hearing.thingItem?.leads === true && field !== 'count';
    if (roots.length > 0 || !alone) return roots.length > 0 ? roots : owned.slice(-1);
  }
  const group = addGroup(talk, hearing.sentence, { head: null, sure: false, names: thing.words, places: [], thing, implied: true });
  group.perUnknown = thing.per;
  if (thing.count !== null)
    tell(talk, [group], 'count', thing.count, [], hearing.evidence(hearing.thingItem?.from ?? 0, hearing.thingItem?.to ?? 1, 0.75));
  return [group];
}

function ownedBy(hearing: Hearing, thing: Thing): readonly Group[] {
  const words = [...thing.stems];
  const scored = groupsInReach(hearing.talk)
    .map((group) => ({ group, score: ownerScore(group, thing, words) }))
    .filter(({ score }) => score >= 0.85);
  const best = Math.max(0, ...scored.map(({ score }) => score));
  const owned = scored.filter(({ score }) => score >= best - 0.15).map(({ group }) => group);
  // A group that only stood for the thing gives way to fasteners named since.
  const headed = owned.filter(({ head }) => head !== null);
  return headed.length > 0 && owned.some(({ head }) => head === null) ? headed : owned;
}

function ownerScore(group: Group, thing: Thing, words: readonly string[]): number {
  if (areApart(words, [...group.own, ...group.topic.map(stemOf)])) return 0;
  if (group.thing === thing) return 1;
  const telling = words.filter((word) => tellingApart.has(word));
  if (telling.some((word) => !group.own.has(word) && !group.topic.map(stemOf).includes(word))) return 0;
  return likeness(group, words, null);
}
