import { countOf, type Group } from './groups.ts';
import type { Talk } from './talk.ts';
import { areApart } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** So much of what the later telling is called by has to be known of the earlier one. Our own number. */
const alikeFrom = 0.5;
/** And so much more than of any other. */
const ahead = 0.15;

/**
 * "three bolts up to a bracket, eighteens … so the bracket bolts are ninety": many tell the sizes first and the torques once all is in
 * place, by other words. What has only a torque and what has everything but one are the same fasteners, where the words of the one are
 * said of the other and of no third.
 */
export function joinRetold(talk: Talk): void {
  for (const later of talk.groups.filter(isHalfTold)) {
    const scored = talk.groups
      .filter((group) => group.id < later.id && mayBe(group, later))
      .map((group) => ({ group, score: sharedWords(group, later) }))
      .sort((one, other) => other.score - one.score);
    const [best, second] = scored;
    const isNamedAgain = later.told.torque.length === 0;
    if (best === undefined || best.score < (isNamedAgain ? 0.9 : alikeFrom) || best.score - (second?.score ?? 0) < ahead) continue;
    take(best.group, later);
    talk.groups.splice(talk.groups.indexOf(later), 1);
  }
}

/** It lacks a size or a torque, and has no parts. */
const isHalfTold = (group: Group) =>
  group.whole === null &&
  group.parts.length === 0 &&
  group.mateSizes.length === 0 &&
  group.told.torque.length + group.told.size.length + group.told.count.length > 0 &&
  (group.told.torque.length === 0 || group.told.size.length === 0);

const kinds = ['size', 'torque'] as const;

function mayBe(group: Group, later: Group): boolean {
  if (kinds.some((kind) => group.told[kind].length > 0 && later.told[kind].length > 0)) return false;
  if (later.told.torque.length > 0 && group.told.size.length === 0) return false;
  if (later.told.torque.length === 0 && (group.head === null || group.head !== later.head || !later.saidPlural)) return false;
  if (group.parts.some((part) => kinds.some((kind) => part.told[kind].length > 0 && later.told[kind].length > 0))) return false;
  if (group.whole !== null && group.whole.told.torque.length > 0) return false;
  if (group.only !== later.only) return false;
  if (group.head !== null && later.head !== null && group.head !== later.head) return false;
  if (!isSameNumber(group, later)) return false;
  return !areApart(group.own, later.own);
}

/** As many, or twice as many: told of one side first, and of both later. */
function isSameNumber(group: Group, later: Group): boolean {
  const [one, other] = [countOf(group), countOf(later)];
  if (one === null || other === null || one === other || one * 2 === other) return true;
  return later.told.count.every(({ evidence }) => evidence.confidence <= 0.7);
}

/** The share of the words that name the later telling that are known of the group: its own, or said about it. */
function sharedWords(group: Group, later: Group): number {
  const own = [...later.names, ...later.places];
  const words = [...new Set((own.some((word) => !tellingApart.has(word)) ? own : [...own, ...later.topic]).map(stemOf))];
  const topic = new Set(group.topic.map(stemOf));
  const first = later.sentences[0] ?? 0;
  let known = 0;
  let plain = 0;
  for (const word of words) {
    const weight = group.own.has(word) || topic.has(word) ? 1 : (group.nearby.get(word) ?? first) < first ? 0.7 : 0;
    known += weight;
    if (weight > 0 && !tellingApart.has(word)) plain++;
  }
  return plain === 0 ? 0 : known / words.length;
}

function take(group: Group, later: Group): void {
  group.told.torque.push(...later.told.torque);
  group.told.angle.push(...later.told.angle);
  group.told.passes.push(...later.told.passes);
  const sure = later.told.count.filter(({ evidence }) => evidence.confidence > 0.8);
  if (sure.length > 0 && countOf(group) !== countOf(later)) group.told.count.splice(0, group.told.count.length, ...sure);
  if (group.told.size.length === 0) group.told.size.push(...later.told.size);
  group.head ??= later.head;
  group.sentences.push(...later.sentences.filter((sentence) => !group.sentences.includes(sentence)));
}
