import { isToolTalk, weighs } from './chatter.ts';
import { amend, correct, forget } from './corrections.ts';
import { countOf, lastTold, type Group, type SaidSize } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { widened } from './lots.ts';
import { hearMention } from './names.ts';
import { roleOfNumber } from './number-roles.ts';
import type { QuantitySpan } from './quantities.ts';
import { tell } from './talk.ts';
import { tellMeasured, torqueFrom, tellSize, tellTorque } from './tell-values.ts';
import { placedAt, target, implied, namedBy } from './things.ts';
import { setTotal } from './totals.ts';
import { stemOf } from './word-classes.ts';

/** "not 45", "isn't 45": only what comes at once. */
export function negates(hearing: Hearing, to: number, index: number): boolean {
  const next = hearing.items[index + 1];
  return next?.kind === 'quantity' && next.from - to <= 2;
}

export function hearQuantity(hearing: Hearing, quantity: QuantitySpan, index: number): void {
  const negated = hearing.negated;
  hearing.negated = false;
  // "I use a 7/8 to back up the fitting"
  if (
    quantity.kind === 'width' &&
    hearing.word(quantity.to) === 'to' &&
    /^(?:hold|back|keep|steady|counter)$/.test(hearing.word(quantity.to + 1))
  ) {
    const next = hearing.items[index + 1];
    if (next?.kind === 'mention' && next.from - quantity.to <= 4) hearing.skip(next);
    return;
  }
  // "11 would snap it", "a nine-sixteenths will fit the older ones"
  if (/^(?:would|will|might|could|may)$/.test(hearing.word(quantity.to)) && hearing.open(quantity.to - 1)) return;
  if (negated) {
    forget(hearing, quantity);
    return;
  }
  const holding = hearing.holding && (quantity.kind === 'width' || quantity.kind === 'number' || quantity.kind === 'serration');
  if (holding) {
    hearing.holding = false;
    return;
  }
  if (hearing.talk.recall !== null && amend(hearing, quantity)) return;
  if (hearing.correcting && correct(hearing, quantity)) return;
  const targets = forwardTarget(hearing, quantity, index);
  if (targets === null && waitsForName(hearing, quantity, index)) return;
  if (quantity.kind === 'number') {
    hearNumber(hearing, quantity, index, targets);
    return;
  }
  if (quantity.kind === 'torque') {
    if (isToolTalk(hearing.sentence, quantity)) return;
    if (quantity.unit === null && weighs(hearing.sentence, quantity)) return;
  }
  if (
    !/^(?:torque|width|square|serration|cross-head|thread|angle)$/.test(quantity.kind) &&
    !(quantity.kind === 'length' && quantity.of === 'extension')
  )
    return;
  if (quantity.kind === 'angle' && !quantity.further) return;
  if ((quantity.kind === 'width' || quantity.kind === 'serration') && targets === null && isAtMate(hearing, quantity)) return;
  const groups =
    targets ??
    (quantity.kind === 'torque' ? placedAt(hearing, quantity, index) : null) ??
    target(hearing, { from: quantity.from, to: quantity.to }, index);
  if (groups.length === 0) {
    if (quantity.kind === 'torque')
      hearing.talk.doubts.push({
        kind: 'unassigned',
        group: null,
        field: 'torque',
        evidence: hearing.evidence(quantity.from, quantity.to, 0.4),
        said: hearing.evidence(quantity.from, quantity.to, 0).words,
        torque: torqueFrom(hearing, quantity.low, quantity.high, quantity.unit, quantity, quantity.plusMinus),
      });
    return;
  }
  tellMeasured(hearing, groups, quantity);
}

/** "18 on the nut": where the group is a bolt, the nut's size is not its own. */
function isAtMate(hearing: Hearing, quantity: QuantitySpan): boolean {
  const after = [hearing.word(quantity.to), hearing.word(quantity.to + 1), hearing.word(quantity.to + 2)];
  const said = after[0] === 'on' && after[1] === 'the' ? (after[2] ?? '') : '';
  const [focus] = hearing.talk.focus;
  if (focus === undefined) return false;
  const component = hearing.components.at(-1);
  if (component !== undefined && component.from > hearing.freshAt && !component.inPlace) return false;
  if (/^(?:nuts?|bolts?)$/.test(said)) {
    const head = said.replace(/s$/, '');
    const atMate = focus.head !== null && focus.head !== head && (focus.head === 'bolt' || focus.head === 'nut');
    const size: SaidSize | null =
      quantity.kind === 'width'
        ? { text: quantity.written, unit: quantity.unit }
        : quantity.kind === 'number'
          ? { text: String(quantity.value), unit: 'mm' }
          : null;
    if (atMate && size !== null)
      focus.mateSizes.push({ value: size, build: hearing.builds[0] ?? null, evidence: hearing.evidence(quantity.from, quantity.to, 0.85) });
    return atMate;
  }
  return hearing.onMate && lastTold(focus, 'size') !== null;
}

/** "grab a 17 socket and tighten the bracket bolts": the value is told before the name. */
function waitsForName(hearing: Hearing, quantity: QuantitySpan, index: number): boolean {
  if (hearing.freshAt >= 0 || !/^(?:width|serration|torque)$/.test(quantity.kind)) return false;
  const later = hearing.items
    .slice(index + 1)
    .find(
      (item) =>
        item.kind === 'mention' ||
        item.kind === 'component' ||
        item.kind === 'quantity' ||
        item.kind === 'all' ||
        (item.kind === 'pronoun' && /^(?:they|those|these|them|it)$/.test(item.word)),
    );
  const named = later?.kind === 'mention' ? later : null;
  if (named === null || (named.mention.head === null && named.mention.names.length === 0)) return false;
  if (quantity.kind === 'torque') {
    if (hearing.talk.focus.length > 0 || hearing.components.some(({ inPlace }) => !inPlace)) return false;
  } else {
    const before = hearing.sentence.tokens
      .slice(Math.max(0, quantity.from - 4), quantity.from)
      .map(({ bare }) => bare)
      .join(' ');
    const tool = /^(?:sockets?|wrench|spanner|key|bit|deep|impact|allen|hex|swivel)$/.test(hearing.word(quantity.to));
    if (!tool || !/\b(?:with|using|use|grab|take|get|need|want|your|my|a)\b/.test(before)) return false;
    if (hearing.components.some(({ inPlace, to }) => !inPlace && to <= quantity.from)) return false;
  }
  hearing.pending.push(quantity);
  return true;
}

/** "47 on the front bolts": what is named right after the value. */
function forwardTarget(hearing: Hearing, quantity: QuantitySpan, index: number): readonly Group[] | null {
  const next = hearing.items[index + 1];
  const end = hearing.items[index]?.to ?? quantity.to;
  // "27 foot-pounds on both of those"
  const thing = hearing.components.findLast(({ inPlace }) => !inPlace);
  if (
    next?.kind === 'all' &&
    (thing === undefined || thing.from < hearing.freshAt) &&
    /^(?:on|for)$/.test(hearing.word(end)) &&
    next.from === end + 1 &&
    quantity.kind !== 'number'
  ) {
    hearing.talk.focus = widened(hearing, hearing.countBefore(next.from, next.to));
    hearing.skip(next);
    return hearing.talk.focus;
  }
  if (next?.kind !== 'mention' || !/^(?:on|for)$/.test(hearing.word(end)) || next.from !== end + 1 || !hearing.open(end - 1)) return null;
  if (
    /^(?:nut|bolt)$/.test(next.mention.head ?? '') &&
    next.mention.names.length === 0 &&
    next.mention.article === 'definite' &&
    hearing.talk.focus.length > 0
  ) {
    if (quantity.kind === 'width' || quantity.kind === 'number') hearing.skip(next);
    return null;
  }
  // "an inch and an eighth head on a three-quarter bolt": the bolt's own width is no socket's.
  if (quantity.kind === 'width' && end > quantity.to && next.mention.article === 'indefinite' && hearing.talk.focus.length > 0) {
    hearing.skip(next);
    return null;
  }
  if (hearing.skipped.has(next)) return null;
  const role = quantity.kind === 'number' || quantity.kind === 'torque' || quantity.kind === 'width' || quantity.kind === 'serration';
  if (!role) return null;
  hearMention(hearing, next.mention, index + 1, true);
  hearing.skip(next);
  return hearing.talk.focus;
}

function hearNumber(hearing: Hearing, quantity: QuantitySpan & { kind: 'number' }, index: number, forward: readonly Group[] | null): void {
  if (isToolTalk(hearing.sentence, quantity)) return;
  const before = hearing.items[index - 1];
  const groups = forward ?? hearing.talk.focus;
  const focus = groups.at(-1);
  const follows =
    before !== undefined &&
    before.to >= quantity.from - 1 &&
    (before.kind === 'mention' ||
      before.kind === 'quantity' ||
      before.kind === 'component' ||
      before.kind === 'all' ||
      before.kind === 'pronoun' ||
      before.kind === 'build');
  const component = hearing.components.at(-1);
  const elsewhere =
    forward === null &&
    component !== undefined &&
    component.from > hearing.freshAt &&
    !component.inPlace &&
    follows &&
    before.kind === 'component';
  const subject = elsewhere ? namedBy(hearing, component) : focus;
  const known = {
    size: subject !== undefined && lastTold(subject, 'size', hearing.builds[0] ?? null) !== null,
    scoped: hearing.builds.length > 0,
    sizeHere: subject !== undefined && subject.told.size.some(({ build }) => build === (hearing.builds[0] ?? null)),
    lastWasTorque: hearing.talk.tells.at(-1)?.field === 'torque' && hearing.talk.tells.at(-1)?.sentence === hearing.sentence.index,
    torque: subject !== undefined && lastTold(subject, 'torque', hearing.builds[0] ?? null) !== null,
    count: subject === undefined ? null : countOf(subject),
    per: subject?.perUnknown?.count ?? null,
    follows,
    sizeFollows:
      hearing.items
        .slice(index + 1)
        .find((item) => item.kind === 'mention' || (item.kind === 'quantity' && /^(?:width|serration)$/.test(item.quantity.kind)))?.kind ===
      'quantity',
    sizeNext: hearing.sentence.quantities.some((one) => one.from === quantity.to && (one.kind === 'width' || one.kind === 'serration')),
    named: before?.kind === 'mention' && before.to === quantity.from - 1,
  };
  const role = roleOfNumber(hearing.sentence, quantity, known);
  if (role === 'size') {
    if (forward === null && isAtMate(hearing, quantity)) return;
    const targets = forward ?? target(hearing, quantity, index);
    tellSize(hearing, targets, { text: String(quantity.value), unit: 'mm' }, quantity, 0.75);
  } else if (role === 'torque') {
    const targets = forward ?? placedAt(hearing, quantity, index) ?? target(hearing, quantity, index);
    if (targets.length > 0) tellTorque(hearing, targets, quantity.value, quantity.high, null, quantity, null);
  } else if (role === 'total' && focus !== undefined) setTotal(hearing, hearing.talk.focus, quantity.value, quantity.from, quantity.to);
  else if (role === 'count') hearCount(hearing, quantity, index);
  else if (elsewhere && Number.isInteger(quantity.value) && quantity.value <= 12) {
    // "o2 sensors, two", "skid plate: six."
    if (/^(?:number|part|step|stage|rule|page|type|build|model|figure|video|speed|section|gear|line)$/.test(before.words.at(-1) ?? ''))
      return;
    hearing.talk.counts.set(stemOf(before.words.at(-1) ?? ''), quantity.value);
    const [group] = implied(hearing, before);
    if (group !== undefined && countOf(group) === null)
      tell(hearing.talk, [group], 'count', quantity.value, [], hearing.evidence(quantity.from, quantity.to, 0.75), { to: quantity.to });
  }
}

/** "there's eleven of those". */
function hearCount(hearing: Hearing, quantity: QuantitySpan & { kind: 'number' }, index: number): void {
  const component = hearing.components.findLast(({ to }) => to <= quantity.from);
  if (component !== undefined && component.from > hearing.freshAt && !component.inPlace) {
    hearing.talk.counts.set(stemOf(component.words.at(-1) ?? ''), quantity.value);
    const before = hearing.items[index - 1];
    if (
      before?.kind === 'component' &&
      before.to === quantity.from &&
      hearing.word(quantity.to) !== 'places' &&
      !/^(?:number|part|step|stage|rule|page|type|build|model|figure|video|speed|section|gear|line)$/.test(before.words.at(-1) ?? '')
    ) {
      const [group] = implied(hearing, before);
      if (group !== undefined && countOf(group) === null)
        tell(hearing.talk, [group], 'count', quantity.value, [], hearing.evidence(quantity.from, quantity.to, 0.75), { to: quantity.to });
    }
    return;
  }
  const [focus] = target(hearing, quantity, index);
  if (focus === undefined || !Number.isInteger(quantity.value)) return;
  if (countOf(focus) !== null && (hearing.builds.length === 0 || focus.told.count.some(({ build }) => build === hearing.builds[0]))) return;
  tell(hearing.talk, [focus], 'count', quantity.value, hearing.builds, hearing.evidence(quantity.from, quantity.to, 0.85), {
    to: quantity.to,
  });
}
