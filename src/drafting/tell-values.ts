import type { Evidence, Group, SaidSize, SaidTorque } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { QuantitySpan } from './quantities.ts';
import { movedOn } from './moved-on.ts';
import { widthOf } from './oddity.ts';
import { tell } from './talk.ts';

export function tellMeasured(hearing: Hearing, groups: readonly Group[], quantity: QuantitySpan): void {
  switch (quantity.kind) {
    case 'torque': {
      tellTorque(hearing, groups, quantity.low, quantity.high, quantity.unit, quantity, quantity.plusMinus);
      return;
    }
    case 'width':
      if (quantity.high === null) tellSize(hearing, groups, { text: quantity.written, unit: quantity.unit }, quantity, 0.92);
      return;
    case 'serration': {
      tellSize(hearing, groups, { text: quantity.text, unit: null }, quantity, 0.95);
      return;
    }
    case 'cross-head':
      tellTo(
        hearing,
        groups,
        'drive',
        quantity.number === null ? 'cross-head' : `cross-head ${quantity.number}`,
        quantity.from,
        quantity.to,
        0.9,
      );
      return;
    case 'thread':
      tellTo(hearing, groups, 'thread', quantity.text, quantity.from, quantity.to, 0.95);
      return;
    case 'square':
      tellTo(hearing, groups, 'square', quantity.size, quantity.from, quantity.to, 0.8);
      return;
    case 'length':
      tellTo(hearing, groups, 'reach', `extension ${quantity.millimetres}`, quantity.from, quantity.to, 0.8);
      return;
    case 'angle':
      tellTo(hearing, groups, 'angle', quantity.degrees, quantity.from, quantity.to, 0.9);
      return;
    default:
      return;
  }
}

export function tellSize(
  hearing: Hearing,
  groups: readonly Group[],
  size: SaidSize,
  span: { readonly from: number; readonly to: number },
  confidence: number,
): void {
  const open = groups.filter((group) => {
    const told = group.told.size.find(({ build }) => build === (hearing.builds[0] ?? null));
    // A second size for the same fasteners is another tool's, unless it was a correction or is for another build.
    return told === undefined || (told.value.text === size.text && told.value.unit === size.unit);
  });
  const evidence = hearing.evidence(span.from, span.to, confidence);
  const others = open.length === 0 ? movedOn(hearing, groups, 'size', span.from) : null;
  if (others !== null) {
    tell(hearing.talk, others, 'size', size, hearing.builds, evidence, { to: span.to });
    noteTelling(hearing, others, 'size', span.to);
    return;
  }
  if (open.length === 0 && hearing.correctedAt !== null && hearing.freshAt > hearing.correctedAt) {
    tell(hearing.talk, groups, 'size', size, hearing.builds, evidence, { replace: true, to: span.to });
    return;
  }
  tell(hearing.talk, open, 'size', size, hearing.builds, evidence, { to: span.to });
  noteTelling(hearing, open, 'size', span.to);
  // Two sizes of one thing: what comes next may be another's.
  hearing.contradicted = open.length === 0 && groups.length > 0;
  for (const group of groups)
    if (!open.includes(group)) hearing.talk.doubts.push({ kind: 'contradiction', group, field: 'size', evidence, said: evidence.words });
}

export function tellTorque(
  hearing: Hearing,
  told: readonly Group[],
  low: number,
  high: number | null,
  unit: SaidTorque['unit'],
  span: QuantitySpan,
  plusMinus: { readonly amount: number; readonly percent: boolean } | null,
): void {
  const groups = onThisBuild(hearing, told);
  const torque = torqueFrom(hearing, low, high, unit, span, plusMinus, groups);
  if (unit !== null) hearing.talk.lastUnit = unit;
  const confidence = unit !== null ? 0.93 : torque.doubt === null ? 0.75 : 0.5;
  const evidence = hearing.evidence(span.from, span.to, confidence);
  const others = groups.every((group) => isTold(hearing, group, torque, span)) ? movedOn(hearing, groups, 'torque', span.from) : null;
  const meant = others ?? groups;
  for (const group of meant) tellOneTorque(hearing, group, torque, evidence, span);
  noteTelling(hearing, meant, 'torque', span.to);
  hearing.valueEnd = span.to;
}

/** "one bolt on the early, on the late it's a nut … early, a hundred and thirty; late, eighty": that build's own fasteners at the same place. */
function onThisBuild({ talk, builds }: Hearing, groups: readonly Group[]): readonly Group[] {
  const [build, ...others] = builds;
  const [group] = groups;
  if (build === undefined || others.length > 0 || group === undefined || groups.length > 1 || group.thing === null) return groups;
  if (group.only === build) return groups;
  const own = talk.groups.filter((one) => one.thing === group.thing && one.only === build && one.told.torque.length === 0);
  return own.length === 1 ? own : groups;
}

/** A torque with the unit that it was said in, or that it shares with its neighbours. */
export function torqueFrom(
  hearing: Hearing,
  low: number,
  high: number | null,
  unit: SaidTorque['unit'],
  span: QuantitySpan,
  plusMinus: { readonly amount: number; readonly percent: boolean } | null,
  groups: readonly Group[] = [],
): SaidTorque {
  const { talk } = hearing;
  // "45 newton meters … gas is 45, diesel is 60": of what one build's was told in, the other's is.
  const own = hearing.builds.length === 1 ? (groups[0]?.told.torque.at(-1)?.value.unit ?? null) : null;
  const isPlain = unit === null && span.kind === 'number' && talk.declaredUnit === null;
  if (isPlain && own === null && talk.units.has('lbf·in') && talk.units.has('lbf·ft') && isTooBigForInches(groups))
    return { ...torqueIn('lbf·ft', low, high, plusMinus), doubt: null };
  const pounds = span.kind === 'torque' && unit === null;
  const beside = hearing.sentence.quantities.find((one) => one.kind === 'torque' && one.unit !== null);
  const [only] = talk.units.size === 1 ? talk.units.keys() : [null];
  const carried = [unit, beside?.kind === 'torque' ? beside.unit : null, talk.declaredUnit, own, talk.lastUnit, only ?? null];
  const earlier = sameValueTold(hearing, low);
  // "60 inch-pounds … I put it to 35": nobody can say of what.
  const mixed =
    unit === null && span.kind === 'number' && talk.units.has('lbf·in') && talk.units.has('lbf·ft') && talk.lastUnit === 'lbf·in';
  const unsure = mixed && low < 60 && beside === undefined && talk.declaredUnit === null && earlier === null;
  if (unsure) return { ...torqueIn(null, low, high, plusMinus), doubt: 'no unit' };
  if (unit === null && beside === undefined && earlier !== null && talk.units.size > 1) carried.unshift(earlier);
  const fitting = carried.find((one) => one !== null && (!pounds || one.startsWith('lbf'))) ?? null;
  const sure =
    unit !== null ||
    (earlier !== null && fitting === earlier && /\bsame\b/.test(hearing.words(span.from - 4, span.from))) ||
    (!pounds && own !== null && fitting === own) ||
    (!pounds && (fitting === talk.declaredUnit || fitting === only || (beside?.kind === 'torque' && beside.unit === fitting)));
  return { ...torqueIn(fitting, low, high, plusMinus), doubt: sure && fitting !== null ? null : pounds ? 'pounds' : 'no unit' };
}

/** No head of 12 mm or half an inch is tightened in inch-pounds: foot-pounds were meant. Common practice. */
function isTooBigForInches(groups: readonly Group[]): boolean {
  const widths = groups.flatMap((group) => {
    const size = group.told.size.at(-1)?.value;
    return size === undefined || size.unit === null ? [] : [widthOf(size)];
  });
  return groups.length > 0 && widths.length === groups.length && widths.every((width) => width >= 12);
}

/** A torque as it was said, in that unit. */
export function torqueIn(
  unit: SaidTorque['unit'],
  low: number,
  high: number | null,
  plusMinus: { readonly amount: number; readonly percent: boolean } | null,
): Omit<SaidTorque, 'doubt'> {
  const half = high === null ? null : (high - low) / 2;
  const amount = plusMinus === null ? null : plusMinus.percent ? (low * plusMinus.amount) / 100 : plusMinus.amount;
  const band = half ?? amount;
  return {
    value: high === null ? low : (low + high) / 2,
    unit,
    range: high === null ? null : [low, high],
    band: band === null ? null : { minus: band, plus: band },
  };
}

/** "89 inch-pounds … those get 89 too": the unit that the same number was told in. */
function sameValueTold({ talk }: Hearing, value: number): SaidTorque['unit'] {
  const told = talk.groups.flatMap((group) => group.told.torque).findLast((one) => one.value.value === value && one.value.doubt === null);
  return told?.value.unit ?? null;
}

/** True where it has another torque, of which this one is no closer telling and no later pass. */
function isTold(hearing: Hearing, group: Group, torque: SaidTorque, span: QuantitySpan): boolean {
  const told = group.told.torque.find(({ build }) => build === (hearing.builds[0] ?? null));
  if (told === undefined || told.value.value === torque.value) return false;
  const { range } = told.value;
  if (range !== null && torque.value >= range[0] && torque.value <= range[1]) return false;
  return !isNextPass(hearing, told.value, torque, told.evidence, span);
}

function tellOneTorque(hearing: Hearing, group: Group, torque: SaidTorque, evidence: Evidence, span: QuantitySpan): void {
  const build = hearing.builds[0] ?? null;
  const told = group.told.torque.find((one) => one.build === build);
  if (told === undefined || (told.value.value === torque.value && (told.value.unit === torque.unit || torque.doubt !== null))) {
    if (told === undefined) tell(hearing.talk, [group], 'torque', torque, hearing.builds, evidence, { to: span.to });
    return;
  }
  const { range } = told.value;
  if (range !== null && torque.range === null && torque.value >= range[0] && torque.value <= range[1]) {
    tell(hearing.talk, [group], 'torque', { ...torque, unit: torque.unit ?? told.value.unit }, hearing.builds, evidence, {
      replace: true,
      to: span.to,
    });
    return;
  }
  if (isNextPass(hearing, told.value, torque, told.evidence, span)) {
    tell(hearing.talk, [group], 'passes', told.value, hearing.builds, told.evidence);
    tell(hearing.talk, [group], 'torque', torque, hearing.builds, evidence, { replace: true, to: span.to });
    return;
  }
  // "Forty newton metres, four zero": the same again in other words.
  if (torque.doubt !== null || (span.kind === 'number' && told.evidence.sentence === hearing.sentence.index)) return;
  hearing.talk.doubts.push({ kind: 'contradiction', group, field: 'torque', evidence, said: evidence.words });
}

/** "to 30 first, then 60, and the final is 90". */
function isNextPass(hearing: Hearing, before: SaidTorque, next: SaidTorque, evidence: Evidence, span: QuantitySpan): boolean {
  if (next.value <= before.value) return false;
  // "first pass is thirty on everything … second pass, the sides go to eighty-five, and then the ends fifty-five"
  if (hearing.talk.firstPasses.has(evidence.sentence) && evidence.sentence < hearing.sentence.index) return true;
  if (hearing.sentence.index - evidence.sentence > 1) return false;
  const words = hearing.sentence.tokens
    .slice(Math.max(0, span.from - 9), span.from)
    .map(({ bare }) => bare)
    .join(' ');
  return /\b(?:then|final|finally|finish|finished|finishes|ends? up|second|next|last|third|pass|stage|step|after that|up to|round|again)\b/.test(
    words,
  );
}

function noteTelling(hearing: Hearing, groups: readonly Group[], field: 'size' | 'torque', to: number): void {
  const scoped = hearing.builds;
  hearing.lastTelling = {
    to,
    undo: (builds) => {
      for (const group of groups) {
        const list: { build: string | null; value: unknown; evidence: Evidence }[] = group.told[field];
        const at = list.findLastIndex((told) => told.build === (scoped[0] ?? null) && told.evidence.sentence === hearing.sentence.index);
        const told = list[at];
        if (told === undefined) continue;
        list.splice(at, 1, ...builds.map((build) => ({ ...told, build })));
      }
    },
  };
}

export function tellTo(
  hearing: Hearing,
  groups: readonly Group[],
  field: 'drive' | 'square' | 'thread' | 'reach',
  value: string,
  from: number,
  to: number,
  confidence: number,
): void;

export function tellTo(
  hearing: Hearing,
  groups: readonly Group[],
  field: 'angle',
  value: number,
  from: number,
  to: number,
  confidence: number,
): void;

export function tellTo(
  hearing: Hearing,
  groups: readonly Group[],
  field: 'single',
  value: true,
  from: number,
  to: number,
  confidence: number,
): void;

export function tellTo(
  hearing: Hearing,
  groups: readonly Group[],
  field: 'drive' | 'square' | 'thread' | 'reach' | 'angle' | 'single',
  value: string | number | true,
  from: number,
  to: number,
  confidence: number,
): void {
  tell(hearing.talk, groups, field, value as never, hearing.builds, hearing.evidence(from, to, confidence), { to });
}

export function tellFocus(
  hearing: Hearing,
  field: 'reach' | 'drive' | 'condition' | 'order' | 'single' | 'snug',
  value: string | true,
  from: number,
  to: number,
  confidence: number,
): void {
  if (hearing.sentence.index - hearing.talk.focusSentence > 1 || hearing.talk.focus.length === 0) return;
  tell(hearing.talk, hearing.talk.focus, field, value as never, hearing.builds, hearing.evidence(from, to, confidence), { to });
}
