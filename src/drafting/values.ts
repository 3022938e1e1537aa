import { aim, aimed, fastenersOf, focusOn } from './aim.ts';
import { isToolTalk, weighs } from './chatter.ts';
import { amend, correct, forget, retract } from './corrections.ts';
import { hearFasteners } from './fasteners.ts';
import { countOf, lastTold, type Group, type SaidSize } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { widened } from './lots.ts';
import { isWidth, roleOfNumber, type Known } from './number-roles.ts';
import { placedAt, placedBy, sizedAt } from './placed-values.ts';
import type { QuantitySpan } from './quantities.ts';
import { tell } from './talk.ts';
import { tellMeasured, tellSize, tellTorque, torqueFrom } from './tell-values.ts';
import { hearThing, thingOf } from './things.ts';
import { hearSide } from './sides.ts';
import { setTotal } from './totals.ts';

/** "not 45", "isn't 45": only what comes at once. */
export function negates(hearing: Hearing, to: number, index: number): boolean {
  const next = hearing.items[index + 1];
  // "the tops have got washers and the bottoms don't | 18 foot-pounds"
  if (/^(?:don't|doesn't|didn't|never)$/.test(hearing.word(to - 1))) return false;
  return next?.kind === 'quantity' && next.from - to <= 2;
}

/** "four on the early ones and six on the later ones": the build right after a number is that number's. */
export function hearQuantity(hearing: Hearing, quantity: QuantitySpan, index: number): void {
  const next = hearing.items[index + 1];
  const isOwn = quantity.kind === 'number' && next?.kind === 'build' && next.from === quantity.to && hearing.open(quantity.to - 1);
  if (!isOwn || next.builds.length === 0 || goesOnAfter.test(hearing.word(next.to))) {
    hearOne(hearing, quantity, index);
    return;
  }
  const { builds } = hearing;
  hearing.builds = next.builds;
  hearOne(hearing, quantity, index);
  hearing.builds = builds;
  hearing.skip(next);
}

/** "and six on the V8 it's …": the build begins what comes. */
const goesOnAfter = /^(?:it|they|there|that|those|these|you|'s|is|has|takes?|gets?)$/;

/** Hears a value: whose it is, and what it tells of them. */
function hearOne(hearing: Hearing, quantity: QuantitySpan, index: number): void {
  const negated = hearing.negated;
  hearing.negated = false;
  if (isAside(hearing, quantity, index)) return;
  const following = hearing.items[index + 1];
  if (quantity.kind === 'number' && following?.kind === 'component' && following.from === quantity.to && following.count === quantity.value)
    return;
  if (countsThings(hearing, quantity, following)) return;
  if (negated) {
    forget(hearing, quantity);
    return;
  }
  if (hearing.holding && /^(?:width|number|serration)$/.test(quantity.kind)) {
    hearing.holding = false;
    hearing.heldUntil = quantity.to + 2;
    // "turn it over with a nineteen on the crank bolt"
    if (following !== undefined && /^on (?:the|a)$/.test(hearing.words(quantity.to, quantity.to + 2)) && following.from <= quantity.to + 2)
      hearing.skip(following);
    return;
  }
  if (hearing.correcting && hearing.heldUntil >= 0 && quantity.from <= hearing.heldUntil + 6) {
    hearing.correcting = false;
    hearing.heldUntil = quantity.to + 2;
    return;
  }
  if (hearing.talk.recall !== null && amend(hearing, quantity)) return;
  if (hearing.correcting && (retract(hearing, quantity, index) || correct(hearing, quantity))) return;
  // "two long and one short, all thirteens", "five up each side and four along the bottom, all the same T40s"
  const all = /\ball(?: the same)?$/.test(hearing.words(quantity.from - 3, quantity.from));
  if (all && (hearing.freshAt >= 0 || quantity.from <= 3) && hearing.talk.focus.length === 1) hearing.talk.focus = widened(hearing, null);
  const forward = forwardTarget(hearing, quantity, index) ?? atEnd(hearing, quantity, index);
  if (forward === null && waitsForName(hearing, quantity, index)) return;
  if (quantity.kind === 'number') {
    hearNumber(hearing, quantity, index, forward);
    return;
  }
  if (
    quantity.kind === 'torque' &&
    (isToolTalk(hearing.sentence, quantity) || (quantity.unit === null && weighs(hearing.sentence, quantity)))
  )
    return;
  if (!/^(?:torque|width|square|serration|cross-head|thread|angle|length)$/.test(quantity.kind)) return;
  if (quantity.kind === 'length' && quantity.of !== 'extension') return;
  if (quantity.kind === 'angle' && !(quantity.further && isTightening(hearing, quantity))) return;
  if ((quantity.kind === 'width' || quantity.kind === 'serration') && forward === null && isAtMate(hearing, quantity)) return;
  const field = quantity.kind === 'torque' ? 'torque' : quantity.kind === 'width' || quantity.kind === 'serration' ? 'size' : 'drive';
  const placed = forward === null && quantity.kind === 'torque' ? placedAt(hearing, quantity, index) : null;
  const groups = forward ?? placed ?? (field === 'drive' ? hearing.talk.focus : aim(hearing, quantity.from, field));
  // "three eighths bolts with a nine sixteenths head": the head is what the wrench is for.
  if (quantity.kind === 'width' && /^heads?$/.test(hearing.word(quantity.to)))
    for (const group of groups)
      group.told.size = group.told.size.filter(
        ({ evidence, build }) => evidence.sentence !== hearing.sentence.index || build !== (hearing.builds[0] ?? null),
      );
  const other = field === 'size' && forward === null ? passedThing(hearing, groups) : null;
  if (other !== null) {
    tellMeasured(hearing, other, quantity);
    return;
  }
  const contradicted = quantity.kind === 'torque' && hearing.contradicted && forward === null && placed === null && hearing.freshAt < 0;
  if (groups.length > 0 && !contradicted) tellMeasured(hearing, groups, quantity);
  else if (quantity.kind === 'torque') doubtTorque(hearing, quantity);
}

/** "Cable brackets, two, each with a screw", "Earth straps, there's two.": so many things, whose fasteners are still to come. */
function countsThings(hearing: Hearing, quantity: QuantitySpan, next: Hearing['items'][number] | undefined): boolean {
  const { thing, thingItem, sentence } = hearing;
  if (quantity.kind !== 'number' || quantity.plural || quantity.value < 2 || quantity.value > 4 || !Number.isInteger(quantity.value))
    return false;
  if (thing === null || thingItem === null || !thingItem.leads || thing.count !== null || hearing.freshAt >= 0) return false;
  if (!/[^s]s$/.test(thingItem.words.at(-1) ?? '')) return false;
  const between = hearing.words(thingItem.to, quantity.from);
  const ends = quantity.to >= sentence.tokens.length && /^there (?:'s|are|is)$/.test(between);
  const shared = between === '' && next?.kind === 'eachOne' && next.from === quantity.to;
  if (!ends && !shared) return false;
  thing.count = quantity.value;
  hearing.counted = thing;
  return true;
}

/** "three T20s and a hose clamp at the bottom | that's an 8 mil": what was named beside it, where it has its size already. */
function passedThing(hearing: Hearing, groups: readonly Group[]): readonly Group[] | null {
  const { passed } = hearing.talk;
  if (passed === null || groups.length === 0 || hearing.sentence.index - passed.sentence > 1 || hearing.freshAt >= 0) return null;
  if (!groups.every((group) => lastTold(group, 'size') !== null)) return null;
  hearing.talk.passed = null;
  const thing = thingOf(hearing.talk, passed.component, hearing.sentence.index);
  return focusOn(hearing, fastenersOf(hearing, thing, 'size'));
}

/** A torque that is nobody's for sure becomes a question. */
function doubtTorque(hearing: Hearing, quantity: QuantitySpan & { kind: 'torque' }): void {
  hearing.talk.doubts.push({
    kind: 'unassigned',
    group: null,
    field: 'torque',
    evidence: hearing.evidence(quantity.from, quantity.to, 0.4),
    said: hearing.words(quantity.from, quantity.to),
    torque: torqueFrom(hearing, quantity.low, quantity.high, quantity.unit, quantity, quantity.plusMinus),
  });
}

/** "I use a 7/8 to back up the fitting", "11 would snap it", "a nine-sixteenths will fit the older ones". */
function isAside(hearing: Hearing, quantity: QuantitySpan, index: number): boolean {
  const backs =
    quantity.kind === 'width' &&
    hearing.word(quantity.to) === 'to' &&
    /^(?:hold|back|keep|steady|counter)$/.test(hearing.word(quantity.to + 1));
  if (backs) {
    const next = hearing.items[index + 1];
    if (next?.kind === 'mention' && next.from - quantity.to <= 4) hearing.skip(next);
    return true;
  }
  // "at least twenty millimeters"
  if (
    quantity.kind === 'width' &&
    /\b(?:at least|at most|gap|clearance|measures?|no closer|sticks? out|thick|wide|bead|slack|play|travel)\b/.test(
      hearing.words(quantity.from - 6, quantity.from),
    )
  )
    return true;
  // "the subframe had to come down an inch"
  if (
    quantity.kind === 'width' &&
    quantity.unit === 'in' &&
    /\b(?:down|up|out|back|over|off|by|forward)$/.test(hearing.words(0, quantity.from)) &&
    /\b(?:an?|half|quarter) ?(?:an )?inch$/.test(hearing.words(quantity.from, quantity.to))
  )
    return true;
  // "so twelve and two and two": what was counted, once more.
  if (quantity.kind === 'number' && isRecital(hearing)) return true;
  // "basically all tens"
  if (/^(?:basically|mostly|nearly|almost|much) all$/.test(hearing.words(quantity.from - 2, quantity.from))) return true;
  // "if you haven't got seventeen, you've missed one"
  if (quantity.kind === 'number' && /^if you (?:haven't|have not|don't|didn't)\b/.test(hearing.words(0, 4))) return true;
  // "if you're twenty five and stupid"
  if (
    /^(?:you|i|we|he|she) (?:are|'re|am|'m|is|'s|was)$/.test(hearing.words(quantity.from - 2, quantity.from)) &&
    quantity.kind === 'number'
  )
    return true;
  // "6 newton metres will do"
  const enough = /^(?:will|would|should|is) (?:do|be (?:plenty|enough|fine)|plenty|enough)\b/.test(
    hearing.words(quantity.to, quantity.to + 3),
  );
  if (enough && quantity.kind === 'torque') return false;
  return /^(?:would|will|might|could|may)$/.test(hearing.word(quantity.to)) && hearing.open(quantity.to - 1);
}

/** "turn it over two full turns" turns an engine, not a fastener that has its torque. */
const isTightening = (hearing: Hearing, { from }: QuantitySpan) =>
  !/\b(?:over|by hand|wheel|engine|crank|steering|lock to lock)\b/.test(hearing.words(from - 6, from));

/** "18 on the nut": where the group is a bolt, the nut's size is not its own. */
function isAtMate(hearing: Hearing, quantity: QuantitySpan): boolean {
  const [focus] = hearing.talk.focus;
  if (focus === undefined || (hearing.thing !== null && hearing.thingAt > hearing.freshAt)) return false;
  const said = /^on the (nut|bolt)s?\b/.exec(hearing.words(quantity.to, quantity.to + 3))?.[1];
  const size: SaidSize | null =
    quantity.kind === 'width'
      ? { text: quantity.written, unit: quantity.unit }
      : quantity.kind === 'number'
        ? { text: String(quantity.value), unit: 'mm' }
        : null;
  const atMate =
    said !== undefined
      ? focus.head !== said && /^(?:bolt|nut)$/.test(focus.head ?? '')
      : hearing.onMate && lastTold(focus, 'size') !== null;
  if (atMate && size !== null)
    focus.mateSizes.push({ value: size, build: hearing.builds[0] ?? null, evidence: hearing.evidence(quantity.from, quantity.to, 0.85) });
  return atMate;
}

/** "grab a 17 socket and tighten the bracket bolts": the tool is told before the name. */
function waitsForName(hearing: Hearing, quantity: QuantitySpan, index: number): boolean {
  if (hearing.freshAt >= 0 || hearing.thing !== null || !/^(?:width|serration|torque)$/.test(quantity.kind)) return false;
  const later = hearing.items
    .slice(index + 1)
    .find(({ kind }) => kind === 'mention' || kind === 'component' || kind === 'quantity' || kind === 'all' || kind === 'pronoun');
  if (hearing.items.slice(0, index).some(({ kind }) => kind === 'pronoun' || kind === 'all')) return false;
  if (later?.kind !== 'mention' || (later.mention.head === null && later.mention.names.length === 0)) return false;
  if (quantity.kind === 'torque') {
    if (hearing.talk.focus.length > 0 && hearing.sentence.index - hearing.talk.focusSentence <= 1) return false;
  } else {
    const tool = /^(?:sockets?|wrench|spanner|key|bit|deep|impact|allen|hex|swivel)$/.test(hearing.word(quantity.to));
    if (!tool || !/\b(?:with|using|use|grab|take|get|need|want|your|my|a)\b/.test(hearing.words(quantity.from - 4, quantity.from)))
      return false;
  }
  hearing.pending.push(quantity);
  return true;
}

/** "47 on the front bolts", "ten on the pickup pipe", "27 on both of those": what is named right after the value. */
function forwardTarget(hearing: Hearing, quantity: QuantitySpan, index: number): readonly Group[] | null {
  if (!/^(?:torque|number|width|serration)$/.test(quantity.kind)) return null;
  const item = hearing.items[index];
  const next = hearing.items[index + 1];
  const end = item?.to ?? quantity.to;
  if (next === undefined || !/^(?:on|for)$/.test(hearing.word(end)) || !hearing.open(end - 1) || hearing.skipped.has(next)) return null;
  if (next.from > end + 1 && !(next.from === end + 2 && /^(?:the|your|all|both|those|these)$/.test(hearing.word(end + 1)))) return null;
  if (next.kind === 'all' && (quantity.kind !== 'number' || isTorqueOfAll(hearing, quantity.value))) {
    if (hearing.thing !== null && hearing.thingAt > hearing.freshAt) return null;
    const many = hearing.countAt(next.from, next.to);
    hearing.talk.focus = widened(hearing, many);
    // "oil cooler lines, one in, one out, thirty on both"
    const [only, ...others] = hearing.talk.focus;
    const lines = only !== undefined && others.length === 0 && countOf(only) === null && only.perUnknown === null;
    // "eight nuts each … 450 on all sixteen of them"
    const sum = only !== undefined && others.length === 0 && only.parts.length === 0 && (many ?? 0) > 2 && countOf(only) === null;
    if (sum) only.perUnknown = null;
    if (many !== null && (sum || (lines && /[^s]s$/.test(only.names.at(-1) ?? '') && only.head === null)))
      tell(hearing.talk, [only], 'count', many, [], hearing.evidence(next.from, next.to, 0.8), { to: next.to });
    hearing.skip(next);
    return hearing.talk.focus;
  }
  if (next.kind === 'component') return forwardThing(hearing, next, quantity);
  if (next.kind !== 'mention') return null;
  const { mention } = next;
  const bareMate =
    /^(?:nut|bolt)$/.test(mention.head ?? '') && mention.names.length === 0 && mention.article === 'definite' && mention.count === null;
  if (
    bareMate &&
    hearing.talk.focus.some(({ head, mate }) => head === mention.head || mate === mention.head || (head !== null && !mention.plural))
  ) {
    if (quantity.kind === 'width' || quantity.kind === 'number') hearing.skip(next);
    return null;
  }
  // "an inch and an eighth head on a three-quarter bolt": the bolt's own width is no socket's.
  if (quantity.kind === 'width' && end > quantity.to && mention.article === 'indefinite' && hearing.talk.focus.length > 0) {
    hearing.skip(next);
    return null;
  }
  const groups = hearFasteners(hearing, mention, index + 1, true);
  hearing.skip(next);
  return groups.length === 0 ? null : groups;
}

/** "seventy on all of them", once their sizes are known. */
const isTorqueOfAll = ({ talk }: Hearing, value: number): boolean =>
  value >= 10 &&
  talk.focus.length > 0 &&
  talk.focus.every((group) => lastTold(group, 'size') !== null && lastTold(group, 'torque') === null);

/** "one at each end, 15 on the axle end and 18 on the drag link end": one of the two. */
function atEnd(hearing: Hearing, quantity: QuantitySpan, index: number): readonly Group[] | null {
  const next = hearing.items[index + 1];
  if (!/^(?:torque|number|width|serration)$/.test(quantity.kind) || next?.kind !== 'component') return null;
  if (!/^(?:on|at|for)$/.test(hearing.word(quantity.to)) || next.from !== quantity.to + 1) return null;
  if (!/^(?:end|side)$/.test(next.words.at(-1) ?? '') || !hearSide(hearing, next)) return null;
  hearing.skip(next);
  return hearing.talk.focus;
}

/** Only where nothing named before it can be meant: "it's a 13 on the bracket" says where. */
function forwardThing(hearing: Hearing, component: Parameters<typeof hearThing>[1], quantity: QuantitySpan): readonly Group[] | null {
  if (quantity.kind !== 'torque' && quantity.kind !== 'number') return null;
  const { focus } = hearing.talk;
  // "eighty on the propshaft bolts, four of them, 14 mil | a hundred and thirty on the driveshafts": those before have theirs.
  const full = hearing.freshAt >= 0 && focus.length > 0 && focus.every((group) => lastTold(group, 'torque') !== null);
  if (component.isUsedUp || (hearing.freshAt >= 0 && !full) || (!full && hearing.thing !== null && hearing.thingAt >= 0)) return null;
  const since = full ? (hearing.items.findLast(({ to }) => to <= quantity.from)?.to ?? 0) : 0;
  const opening = /^(?:(?:and|so|then|it|'s|that|is|you|want|need|just|only|about|now|okay|get|put|i|torque|tighten|'ll|a) )*$/.test(
    `${hearing.words(since, quantity.from)} `.trimStart(),
  );
  if (!opening) return null;
  const { talk, sentence } = hearing;
  const thing = thingOf(talk, component, sentence.index);
  hearing.thing = thing;
  hearing.thingItem = component;
  hearing.thingAt = component.from;
  talk.topic = thing;
  talk.topicAt = hearing.now(component.from);
  talk.topicSentence = sentence.index;
  talk.topicLeads = true;
  const next = hearing.items.find((item) => item === component);
  if (next !== undefined) hearing.skip(next);
  return focusOn(hearing, fastenersOf(hearing, thing, 'torque'));
}

function hearNumber(hearing: Hearing, quantity: QuantitySpan & { kind: 'number' }, index: number, forward: readonly Group[] | null): void {
  if (isToolTalk(hearing.sentence, quantity)) return;
  const groups = forward ?? aimed(hearing, quantity.from);
  // "with a nut, 18 and 18": the other half's size.
  const twice = hearing.sentence.quantities.find(({ to }) => to === quantity.from - 1);
  if (twice?.kind === 'number' && twice.value === quantity.value && hearing.word(quantity.from - 1) === 'and' && isWidth(quantity.value))
    return;
  // "twenty three bolts, twenty three": said again to be sure.
  const counted = hearing.items[index - 1];
  if (counted?.kind === 'mention' && counted.mention.count === quantity.value && counted.to >= quantity.from - 1 && !quantity.plural)
    return;
  const sized = forward === null ? sizedAt(hearing, quantity) : null;
  if (sized !== null) {
    tellSize(hearing, [sized], { text: String(quantity.value), unit: 'mm' }, quantity, 0.75);
    return;
  }
  const there = forward === null ? placedBy(hearing, quantity) : null;
  if (there !== null) {
    tellTorque(hearing, there, quantity.value, quantity.high, null, quantity, null);
    return;
  }
  const role = roleOfNumber(hearing.sentence, quantity, knownOf(hearing, quantity, index, groups, forward !== null));
  if (role === null) {
    if (quantity.value > 1 && quantity.value <= 24 && Number.isInteger(quantity.value) && !quantity.plural)
      hearing.talk.unread.add(hearing.sentence.index);
    return;
  }
  if (role === 'size') {
    if (forward === null && isAtMate(hearing, quantity)) return;
    tellSize(hearing, forward ?? aim(hearing, quantity.from, 'size'), { text: String(quantity.value), unit: 'mm' }, quantity, 0.75);
    return;
  }
  if (
    role === 'torque' &&
    forward === null &&
    hearing.onMate &&
    index > 0 &&
    hearing.items[index - 1]?.kind === 'mention' &&
    isWidth(quantity.value) &&
    isAtMate(hearing, quantity)
  )
    return;
  // "Fifteen. Yes, fifteen on the M.": the size said again.
  const again = groups?.some((group) => group.told.size.some(({ value }) => Number(value.text) === quantity.value)) === true;
  const sizedHere = groups?.some((group) =>
    group.told.size.some(({ value, evidence }) => evidence.sentence === hearing.sentence.index && Number(value.text) === quantity.value),
  );
  const isState = /^(?:is|are|'s|'re)$/.test(hearing.word(quantity.from - 1));
  const short = hearing.sentence.tokens.length <= 6 || (sizedHere === true && isState);
  if (role === 'torque' && again && forward === null && short && isWidth(quantity.value)) return;
  if (role === 'torque') {
    const targets = forward ?? placedAt(hearing, quantity, index) ?? aim(hearing, quantity.from, 'torque');
    if (targets.length > 0) tellTorque(hearing, targets, quantity.value, quantity.high, null, quantity, null);
    return;
  }
  const targets = aim(hearing, quantity.from, 'count');
  const [first] = targets;
  if (first === undefined || !Number.isInteger(quantity.value)) return;
  if (role === 'total') setTotal(hearing, targets, quantity.value, quantity.from, quantity.to);
  else if (isOfOne(hearing, quantity, index))
    tell(hearing.talk, [first], 'count', quantity.value, hearing.builds, hearing.evidence(quantity.from, quantity.to, 0.8), {
      replace: true,
      to: quantity.to,
    });
  else if (countOf(first) === null || (hearing.builds.length > 0 && !first.told.count.some(({ build }) => build === hearing.builds[0])))
    tell(hearing.talk, [first], 'count', quantity.value, hearing.builds, hearing.evidence(quantity.from, quantity.to, 0.8), {
      to: quantity.to,
    });
}

/** "the little one on top is two, 13 mil": the one is a thing, and the number counts what holds it. */
function isOfOne(hearing: Hearing, quantity: QuantitySpan, index: number): boolean {
  const before = hearing.items[index - 1];
  if (before?.kind !== 'mention' || before.mention.head !== null || before.mention.count !== 1) return false;
  return hearing.word(before.mention.to - 1) === 'one' && /^(?:is|'s)(?: only| just)?$/.test(hearing.words(before.to, quantity.from));
}

/** What decides what a bare number is, beside the words around it. */
function knownOf(
  hearing: Hearing,
  quantity: QuantitySpan & { kind: 'number' },
  index: number,
  groups: readonly Group[] | null,
  forward: boolean,
): Known {
  const subject = groups?.at(-1);
  const build = hearing.builds[0] ?? null;
  // No build takes a third of another's torque: "the V8 takes six" counts.
  const elsewhere =
    subject === undefined || build === null ? 0 : (subject.told.torque.findLast((told) => told.build !== build)?.value.value ?? 0);
  const before = hearing.items[index - 1];
  const later = hearing.items.slice(index + (forward ? 2 : 1));
  const nextName = later.findIndex(
    (item) => item.kind === 'component' || (item.kind === 'mention' && (item.mention.head !== null || item.mention.names.length > 0)),
  );
  const here = nextName < 0 ? later : later.slice(0, nextName);
  const isValue = (item: (typeof later)[number]) =>
    item.kind === 'quantity' && /^(?:number|width|serration|torque)$/.test(item.quantity.kind);
  const isSize = (item: (typeof later)[number]) =>
    item.kind === 'quantity' &&
    (/^(?:width|serration)$/.test(item.quantity.kind) || (item.quantity.kind === 'number' && item.quantity.plural));
  const fragment = hearing.sentence.tokens.length <= 4;
  return {
    // A plug with a square in it takes the ratchet itself.
    size:
      subject !== undefined &&
      (lastTold(subject, 'size', build) !== null ||
        (subject.head === 'plug' && lastTold(subject, 'square', build) !== null) ||
        // "carriage bolts with an 18 on the nut"
        subject.mateSizes.length > 0),
    torque: subject !== undefined && lastTold(subject, 'torque', build) !== null,
    scoped: hearing.builds.length > 0,
    torqueElsewhere:
      subject !== undefined &&
      build !== null &&
      subject.told.torque.some((told) => told.build !== null && told.build !== build) &&
      !subject.told.torque.some((told) => told.build === build),
    sizeElsewhere:
      subject !== undefined &&
      build !== null &&
      subject.told.size.some((told) => told.build !== null && told.build !== build) &&
      !subject.told.size.some((told) => told.build === build),
    countElsewhere:
      subject !== undefined &&
      build !== null &&
      subject.told.count.some((told) => told.build !== null && told.build !== build) &&
      !subject.told.count.some((told) => told.build === build),
    beforeBuild: hearing.items[index + 1]?.kind === 'build' && hearing.items[index + 1]?.from === quantity.to,
    sizeHere: subject !== undefined && subject.told.size.some((told) => told.build === build),
    within: (value) => {
      const range = subject === undefined ? null : (lastTold(subject, 'torque', build)?.value.range ?? null);
      return range !== null && value >= range[0] && value <= range[1];
    },
    saidSize: (value) =>
      hearing.talk.groups.some((group) =>
        group.told.size.some((told) => told.evidence.sentence === hearing.sentence.index && Number(told.value.text) === value),
      ),
    disowned: (value) =>
      hearing.talk.disowned?.value === value && !hearing.talk.disowned.groups.some((group) => groups?.includes(group) === true),
    saidTorque: (value) => subject !== undefined && lastTold(subject, 'torque', build)?.value.value === value,
    passing: isPassing(hearing, subject),
    listing: hearing.talk.listing,
    sizesFirst: hearing.talk.sizesFirst,
    least: Math.max(leastOf(hearing), elsewhere / 3),
    corrected: isCorrected(hearing),
    lastWasSize: hearing.talk.tells.at(-1)?.field === 'size' && hearing.talk.tells.at(-1)?.sentence === hearing.sentence.index,
    lastWasTorque: hearing.talk.tells.at(-1)?.field === 'torque' && hearing.talk.tells.at(-1)?.sentence === hearing.sentence.index,
    count:
      subject === undefined
        ? groups === null
          ? ((hearing.thing ?? hearing.talk.topic)?.count ?? null)
          : null
        : isOfOne(hearing, quantity, index)
          ? null
          : countOf(subject),
    ofLot: subject?.whole == null ? null : countOf(subject.whole),
    per: subject?.perUnknown?.count ?? null,
    follows:
      before !== undefined &&
      before.to >= quantity.from - 1 &&
      /^(?:mention|quantity|component|all|pronoun|build|same|each|drive|reach|feature)$/.test(before.kind),
    sizeFollows: here.some(isSize),
    sizeNext: hearing.sentence.quantities.some((one) => one.from === quantity.to && (one.kind === 'width' || one.kind === 'serration')),
    isPlug: subject?.head === 'plug',
    named: before?.kind === 'mention' && before.to === quantity.from - 1,
    fresh:
      groups === null ||
      (subject !== undefined &&
        countOf(subject) === null &&
        subject.perUnknown === null &&
        subject.told.size.length + subject.told.torque.length === 0),
    more: here.filter(isValue).length + (fragment ? numbersIn(hearing) : 0),
    forward,
  };
}

/** In foot-pounds a bare "six" counts; in kilogram metres it may tighten. */
function leastOf({ talk }: Hearing): number {
  const unit = talk.declaredUnit ?? talk.lastUnit ?? [...talk.units.keys()][0] ?? null;
  return unit === 'kgf·m' || unit === 'daN·m' ? 0.5 : unit === 'N·m' ? 5 : 7;
}

/** "34 on the first pass": another torque is still to come. */
const isPassing = ({ talk, sentence }: Hearing, subject: Group | undefined): boolean => {
  const last = talk.tells.findLast(({ field }) => /^(?:torque|size|count)$/.test(field));
  return (
    last?.field === 'torque' &&
    sentence.index - last.sentence <= 1 &&
    subject !== undefined &&
    last.groups.includes(subject) &&
    talk.passIn >= last.sentence
  );
};

/** "hang on, no, the rear ones are 21": what is told now replaces what was told. */
export const isCorrected = (hearing: Hearing): boolean => hearing.correctedAt !== null && hearing.freshAt > hearing.correctedAt;

/** How many numbers the next sentences of a list begin with: "Two. Nineteen. One hundred and ten." */
function numbersIn(hearing: Hearing): number {
  const { following } = hearing;
  if (following === null || following.tokens.length > 8) return 0;
  const first = following.quantities[0];
  return first !== undefined && first.from === 0 && /^(?:number|width|serration|torque)$/.test(first.kind) ? 2 : 0;
}

/** Nothing but numbers one after the other. */
const isRecital = ({ sentence }: Hearing): boolean =>
  sentence.quantities.length > 2 &&
  sentence.quantities.every(({ kind }) => kind === 'number') &&
  sentence.tokens.every(
    ({ bare }, at) => /^(?:so|and|plus|that|'s|then)$/.test(bare) || sentence.quantities.some(({ from, to }) => at >= from && at < to),
  );
