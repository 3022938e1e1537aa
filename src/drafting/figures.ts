import { countOf, type Group, type Told } from './groups.ts';
import { areApart } from './things.ts';
import { stemOf } from './word-classes.ts';

/**
 * "Axle nuts are 240" among figures told before or after the job, and "the nuts on the outside are 32, one per side" in it: a name of
 * which only a torque was told gives it to the fasteners that it can mean, where those are the only ones that lack one.
 */
export function joinFigures(groups: readonly Group[]): readonly Group[] {
  const joined = new Set<Group>();
  for (const figure of groups) {
    if (!isFigure(figure)) continue;
    const meant = groups.filter((group) => group !== figure && !joined.has(group) && mayMean(figure, group));
    if (meant.length === 0 || (meant.length > 1 && figure.head !== null)) continue;
    for (const group of meant)
      for (const field of ['torque', 'angle'] as const) {
        (group.told[field] as Told<unknown>[]).push(...(figure.told[field] as readonly Told<unknown>[]));
        group.sentences.push(...figure.sentences.filter((sentence) => !group.sentences.includes(sentence)));
      }
    joined.add(figure);
  }
  return groups.filter((group) => !joined.has(group));
}

const isFigure = (group: Group) =>
  group.told.torque.length > 0 && group.told.size.length === 0 && countOf(group) === null && group.perUnknown === null;

function mayMean(figure: Group, group: Group): boolean {
  if (group.told.torque.length > 0 || group.only !== figure.only || (group.told.size.length === 0 && countOf(group) === null)) return false;
  if (figure.head !== null && group.head !== figure.head) return false;
  const words = (figure.names.length > 0 ? figure.names : figure.topic).map(stemOf);
  const known = new Set([...group.own, ...group.topic.map(stemOf)]);
  return words.length > 0 && words.every((word) => known.has(word)) && !areApart(figure.own, group.own);
}
