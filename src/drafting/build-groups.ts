import type { Group, Told } from './groups.ts';
import type { Talk } from './talk.ts';
import { nounOf } from './parts.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** So many sentences may lie between what one build has and what the other has in its place. Our own number. */
const nearby = 4;

/**
 * "First gen, the rack's got two bolts … second gen, it's four bolts": the fasteners of one build and those of another in the same place
 * are one group, told by build. Only where the later was named on its own build alone, and nothing was told of that build before.
 */
export function joinBuilds(talk: Talk): void {
  for (const later of [...talk.groups]) {
    const build = later.only;
    if (build === null || later.whole !== null || later.parts.length > 0) continue;
    const before = talk.groups.findLast((group) => group.id < later.id && isOtherBuilds(group, build) && takesItsPlace(group, later));
    if (before === undefined) continue;
    take(before, later, build);
    talk.groups.splice(talk.groups.indexOf(later), 1);
  }
}

const fieldsOf = (group: Group) => Object.values(group.told) as Told<unknown>[][];

/** Something was told of it for another build, and nothing for this one. */
function isOtherBuilds(group: Group, build: string): boolean {
  if (group.whole !== null || group.parts.length > 0) return false;
  const told = new Set(fieldsOf(group).flatMap((list) => list.map((one) => one.build ?? group.only)));
  return !told.has(build) && [...told].some((one) => one !== null);
}

function takesItsPlace(group: Group, later: Group): boolean {
  if (group.head !== null && later.head !== null && group.head !== later.head) return false;
  if ((later.sentences[0] ?? 0) - (group.sentences.at(-1) ?? 0) > nearby) return false;
  const own = later.names.filter((name) => !tellingApart.has(name));
  if (own.some((name) => !group.own.has(stemOf(name)))) return false;
  if (later.places.join(' ') !== group.places.join(' ') && later.places.length > 0) return false;
  if (later.thing === null || later.thing === group.thing) return true;
  // "K2, round flange … K4's got the toothed flange"
  const noun = nounOf(later.thing.words);
  return later.thing.only !== null && (group.nearby.has(noun) || nounOf(group.topic) === noun);
}

function take(group: Group, later: Group, build: string): void {
  const first = group.only;
  group.only = null;
  const lists = group.told as Record<string, Told<unknown>[]>;
  for (const [field, list] of Object.entries(later.told) as [string, Told<unknown>[]][]) {
    const into = lists[field];
    if (into === undefined) continue;
    into.splice(0, into.length, ...into.map((told) => ({ ...told, build: told.build ?? first })));
    into.push(...list.map((told) => ({ ...told, build: told.build ?? build })));
  }
  group.head ??= later.head;
  group.sentences.push(...later.sentences.filter((sentence) => !group.sentences.includes(sentence)));
}
