import { countOf, lastTold, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import { groupsInReach } from './talk.ts';

/** "everything is 14 millimeter": all of this thing's that still lack a torque. */
export function everything(hearing: Hearing): Group[] {
  const [first] = hearing.talk.focus;
  const open = groupsInReach(hearing.talk).filter(
    (group) =>
      group.whole === null &&
      hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 3 &&
      group.thing === (first?.thing ?? null) &&
      (lastTold(group, 'torque') === null || group.sentences.at(-1) === hearing.sentence.index),
  );
  return first !== undefined && open.includes(first) ? open : widened(hearing, null);
}

/** "five on top, five below and two at the ends; they are 13": once a lot is told in full, "they" are all of it. */
export function meansWholeLot(hearing: Hearing, word: string): void {
  const lot = hearing.talk.focus[0]?.whole ?? null;
  if (lot === null || !/^(?:they|those|these|them)$/.test(word) || lot.parts.length < 2) return;
  const bare = lot.parts.every((part) => part.told.size.length + part.told.torque.length === 0);
  const sum = lot.parts.reduce((all, part) => all + (countOf(part) ?? 0), 0);
  if (bare && sum === countOf(lot)) hearing.talk.focus = [lot, ...lot.parts];
}

/** "all of them": the lot with its parts, or those just named that make up the number. */
export function widened(hearing: Hearing, count: number | null): Group[] {
  const { focus, groups } = hearing.talk;
  const [first] = focus;
  if (first === undefined) return focus;
  if (count === null && first.whole === null && focus.length > 1) return focus;
  if (count !== null) {
    const sum = focus.reduce((all, group) => all + numberOf(group), 0);
    if (sum === count) return focus;
    const lot = first.whole ?? (first.parts.length > 0 ? first : null);
    if (lot !== null && countOf(lot) === count) return [lot, ...lot.parts];
    const recent = groups.filter((group) => hearing.sentence.index - (group.sentences.at(-1) ?? -99) <= 3 && group.whole === null);
    for (let from = recent.length - 1; from >= 0; from--) {
      const last = recent.slice(from);
      if (last.reduce((all, group) => all + numberOf(group), 0) === count) return last;
    }
    return focus;
  }
  const lot = first.whole;
  if (lot !== null) return [lot, ...lot.parts];
  const together = groups.filter(
    (group) =>
      group.sentences.at(-1) === first.sentences.at(-1) &&
      group.thing === first.thing &&
      group.whole === null &&
      (lastTold(group, 'torque') === null || group.sentences.at(-1) === hearing.sentence.index),
  );
  const all = together.includes(first) ? together : focus;
  return all.length > 1 ? all : withBare(hearing, first);
}

/** "the front plate has six bolts, the rear plate has four, all of them are 15": those before it of which nothing was told yet. */
function withBare({ talk, sentence }: Hearing, first: Group): Group[] {
  if (first.told.torque.length > 0) return [first];
  const out = [first];
  for (const group of talk.groups.filter((one) => one.id < first.id && one.whole === null).reverse()) {
    // What has a size of its own is one of all where the last has just that size: "front flange … rear flange the same … 70 on all".
    const like = group.told.size.length === 0 || lastTold(group, 'size')?.value.text === lastTold(first, 'size')?.value.text;
    const bare = group.told.torque.length === 0 && like && group.parts.length === 0 && !group.implied;
    const alike = (group.head === first.head || first.head === null) && countOf(group) !== null;
    if (!bare || !alike || sentence.index - (group.sentences.at(-1) ?? -99) > 2 || group.carriesOthers) break;
    out.unshift(group);
  }
  return out;
}

/** How many there are, one where only one was ever spoken of. */
const numberOf = (group: Group) => countOf(group) ?? (group.saidSingular && !group.saidPlural && group.perUnknown === null ? 1 : 0);
