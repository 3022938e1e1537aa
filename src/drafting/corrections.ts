import { likeness, type SaidSize, type SaidTorque } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { isWidth } from './number-roles.ts';
import type { QuantitySpan } from './quantities.ts';
import { groupsInReach, tell } from './talk.ts';
import { prepositions } from './word-classes.ts';

/** "I gave 45 for the tie rod ends": finds what was told then; the value that follows replaces it. */
export function recall(hearing: Hearing): void {
  const words = hearing.sentence.tokens.map(({ bare }) => bare).join(' ');
  if (
    !/\b(?:i|we) (?:gave|said|told you|called|quoted|had you)\b(?! (?:that|it|to|you|before))/.test(words) &&
    !/\b(?:i|we) (?:gave|told) you\b/.test(words)
  )
    return;
  const told = hearing.sentence.tokens.findIndex(
    ({ bare }, at) => /^(?:gave|said|told|called|quoted|had)$/.test(bare) && /^(?:i|we)$/.test(hearing.word(at - 1)),
  );
  const old = hearing.items.find(
    (item) => item.from > told && item.kind === 'quantity' && /^(?:torque|number|width)$/.test(item.quantity.kind),
  );
  if (old?.kind !== 'quantity') return;
  const { quantity } = old;
  const value =
    quantity.kind === 'torque' ? quantity.low : quantity.kind === 'number' || quantity.kind === 'width' ? quantity.value : Number.NaN;
  const near = hearing.items
    .filter((item) => item.kind === 'component' || item.kind === 'mention')
    .filter((item) => item.to > told - 5 && item.from < old.to + 6);
  const named = near.flatMap((item) => (item.kind === 'component' ? item.words : [...item.mention.names, ...item.mention.place]));
  const candidates = groupsInReach(hearing.talk).flatMap((group) => [
    ...(quantity.kind !== 'width' && group.told.torque.some((told) => told.value.value === value)
      ? [{ group, field: 'torque' as const }]
      : []),
    ...(quantity.kind !== 'torque' && group.told.size.some((told) => Number(told.value.text) === value)
      ? [{ group, field: 'size' as const }]
      : []),
  ]);
  let best = candidates.at(-1);
  let most = 0;
  for (const candidate of candidates) {
    const score = named.length === 0 ? 0 : likeness(candidate.group, named, null);
    if (score > most) [best, most] = [candidate, score];
  }
  if (best === undefined || (named.length > 0 && most === 0)) return;
  hearing.talk.recall = { ...best, sentence: hearing.sentence.index };
  // What is said of it here is no news of anything else.
  for (const item of [...near, old]) hearing.skip(item);
  for (const item of hearing.items) {
    if (item.kind !== 'quantity' || item.from <= old.from) continue;
    hearing.skip(item);
    if (amend(hearing, item.quantity)) break;
  }
  for (const item of hearing.items) if (item.kind === 'correction' && item.from < told) hearing.skip(item);
}

/** The value that takes the place of the one recalled. */
export function amend(hearing: Hearing, quantity: QuantitySpan): boolean {
  const { recall } = hearing.talk;
  if (recall === null || hearing.sentence.index - recall.sentence > 2) return false;
  const fits = quantity.kind === 'number' || quantity.kind === (recall.field === 'torque' ? 'torque' : 'width');
  if (!fits || (quantity.kind === 'number' && quantity.value < 2)) return false;
  hearing.talk.recall = null;
  hearing.correcting = true;
  hearing.talk.tells.push({ groups: [recall.group], field: recall.field, sentence: hearing.sentence.index, to: 0 });
  return correct(hearing, quantity, true);
}

/** "not 45": takes back a 45 that was told before. */
export function forget(hearing: Hearing, quantity: QuantitySpan): void {
  const value = quantity.kind === 'torque' ? quantity.low : quantity.kind === 'number' || quantity.kind === 'width' ? quantity.value : null;
  if (value === null) return;
  for (const group of hearing.talk.focus) {
    const at = group.told.torque.findIndex((told) => told.value.value === value && hearing.sentence.index - told.evidence.sentence <= 2);
    if (at >= 0 && group.told.torque.length > 1) group.told.torque.splice(at, 1);
  }
}

/** "no, sorry, seventeen": the last value of that kind is replaced wherever it was put. */
export function correct(hearing: Hearing, quantity: QuantitySpan, recalled = false): boolean {
  // "no, that's the other one": a word, no number.
  if (quantity.kind === 'number' && quantity.value === 1 && !quantity.digits) return false;
  const kinds: Partial<Record<QuantitySpan['kind'], 'torque' | 'size' | 'angle'>> = {
    torque: 'torque',
    width: 'size',
    serration: 'size',
    angle: 'angle',
  };
  const field =
    quantity.kind === 'number'
      ? hearing.talk.tells.findLast(({ field: told }) => /^(?:torque|size|count)$/.test(told))?.field
      : kinds[quantity.kind];
  const last =
    field === undefined
      ? undefined
      : hearing.talk.tells.findLast((told) => told.field === field && hearing.sentence.index - told.sentence <= 3);
  if (last === undefined || field === undefined) return false;
  // "fifteen-sixteenths and they get the same 150": no head is so wide.
  if (field === 'size' && quantity.kind === 'number' && !isWidth(quantity.value)) return false;
  // "45. No, that's for the gas engine. Gas is 45, diesel is 60.": told of each build, and nothing is taken back.
  const [build] = hearing.builds;
  const apart = build !== undefined && field === 'torque' && last.groups.some(({ told }) => told.torque.at(-1)?.build === null);
  const othersFollow = hearing.items.some((item) => item.kind === 'build' && item.from > quantity.from);
  if (apart && othersFollow) {
    hearing.correcting = false;
    return false;
  }
  // "fifty-five is the old truck": whose it is instead, and what is right comes next.
  const value = quantity.kind === 'torque' ? quantity.low : quantity.kind === 'number' ? quantity.value : null;
  const isOthers = /^(?:is|'s|was)$/.test(hearing.word(quantity.to)) && hearing.open(quantity.to - 1);
  if (isOthers && field === 'torque' && value !== null && last.groups.every(({ told }) => told.torque.at(-1)?.value.value === value)) {
    hearing.correctedAt ??= quantity.from;
    hearing.talk.disowned = { value, groups: last.groups };
    return true;
  }
  hearing.correcting = false;
  // Other fasteners were named since: "pinch bolt, it's a 12 point, no, a regular 12 millimeter" is no news of the nut before it.
  const { focus } = hearing.talk;
  const [named] = focus;
  if (
    !(recalled && field === 'torque') &&
    named !== undefined &&
    !last.groups.some((group) => focus.includes(group)) &&
    hearing.freshAt >= 0 &&
    named.told[field].length === 0 &&
    field !== 'angle'
  )
    return false;
  const next = hearing.word(quantity.to);
  // "no wait the front ones are 17" names what it is about.
  if (quantity.kind === 'number' && quantity.plural && /^(?:is|are|get|go|take)$/.test(next)) return false;
  const evidence = hearing.evidence(quantity.from, quantity.to, 0.9);
  // What is put right is still what the talk is at.
  if (last.groups.every((group) => focus.includes(group))) hearing.talk.focusSentence = hearing.sentence.index;
  if (field === 'torque' && (quantity.kind === 'torque' || quantity.kind === 'number')) {
    const value = quantity.kind === 'torque' ? quantity.low : quantity.value;
    for (const group of last.groups) {
      const told = group.told.torque.at(-1);
      if (told === undefined) continue;
      const unit = quantity.kind === 'torque' ? (quantity.unit ?? told.value.unit) : told.value.unit;
      const high = quantity.high;
      const corrected: SaidTorque = {
        ...told.value,
        value: high === null ? value : (value + high) / 2,
        unit,
        range: high === null ? null : [value, high],
        band: high === null ? null : { minus: (high - value) / 2, plus: (high - value) / 2 },
      };
      tell(hearing.talk, [group], 'torque', corrected, told.build === null ? [] : [told.build], evidence, {
        replace: true,
        to: quantity.to,
      });
    }
    return true;
  }
  if (field === 'size') {
    const mentioned = hearing.items.find((item) => item.kind === 'mention' && item.from > quantity.to && item.from <= quantity.to + 3);
    if (
      mentioned !== undefined &&
      /^(?:a|an)$/.test(hearing.word(mentioned.from)) &&
      hearing.sentence.tokens.slice(quantity.to, mentioned.from).some(({ bare }) => bare === 'on')
    )
      hearing.skip(mentioned);
  }
  if (field === 'size' && (quantity.kind === 'width' || quantity.kind === 'serration' || quantity.kind === 'number')) {
    const size: SaidSize =
      quantity.kind === 'width'
        ? { text: quantity.written, unit: quantity.unit }
        : quantity.kind === 'serration'
          ? { text: quantity.text, unit: null }
          : { text: String(quantity.value), unit: 'mm' };
    for (const group of last.groups) {
      const told = group.told.size.at(-1);
      if (told !== undefined)
        tell(hearing.talk, [group], 'size', size, told.build === null ? [] : [told.build], evidence, { replace: true, to: quantity.to });
    }
    return true;
  }
  // "I mean the alignment rack, and then they get 45": no count.
  const tightened = /^(?:get|gets|to|at|torque|take|takes)$/.test(hearing.word(quantity.from - 1));
  if (field === 'count' && tightened) return false;
  if (field === 'count' && quantity.kind === 'number' && !prepositions.has(next) && Number.isInteger(quantity.value)) {
    tell(hearing.talk, last.groups, 'count', quantity.value, [], evidence, { replace: true, to: quantity.to });
    return true;
  }
  return false;
}

/** "those are a fifteen, no, that's the fifteen for the sway bar": the value told last is another's, and its own is still to come. */
export function retract(hearing: Hearing, quantity: QuantitySpan, index: number): boolean {
  const value = quantity.kind === 'number' || quantity.kind === 'width' ? quantity.value : quantity.kind === 'torque' ? quantity.low : null;
  const next = hearing.items[index + 1];
  if (value === null || next?.kind !== 'component' || !/^(?:for|on|of|'s|is)$/.test(hearing.word(quantity.to))) return false;
  // "37. No, wait, 37's the strap bolts": told again of what it is for.
  const isOthers = /^(?:'s|is)$/.test(hearing.word(quantity.to));
  if (isOthers && next.from > quantity.to + 1) return false;
  const last = hearing.talk.tells.findLast(({ field }) => field === 'size' || field === 'torque');
  if (last === undefined || hearing.sentence.index - last.sentence > 1) return false;
  for (const group of last.groups) {
    const told = last.field === 'size' ? group.told.size : group.told.torque;
    const said = told.at(-1)?.value;
    if (said === undefined || Number('text' in said ? said.text : said.value) !== value) return false;
    told.pop();
  }
  hearing.skip(next);
  return true;
}

/** "the frame one's a 21 and the axle one's an 18, no, other way round": the two values told last change places. */
export function swapLast(hearing: Hearing): void {
  const [second, first] = hearing.talk.tells
    .filter(({ field }) => /^(?:size|torque)$/.test(field))
    .slice(-2)
    .reverse();
  if (first === undefined || second === undefined || first.field !== second.field) return;
  const [one] = first.groups;
  const [other] = second.groups;
  if (one === undefined || other === undefined || one === other) return;
  if (first.field === 'size') [one.told.size, other.told.size] = [other.told.size, one.told.size];
  else [one.told.torque, other.told.torque] = [other.told.torque, one.told.torque];
}
