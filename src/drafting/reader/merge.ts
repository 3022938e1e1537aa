import { entry } from './entry.ts';
import type { Heard } from '../extract.ts';
import type { Group, Told } from '../groups.ts';
import { judged, type JudgedField } from '../trust.ts';
import { stemOf } from '../word-classes.ts';
import type { ReadBuilds } from './build-words.ts';
import { calledAs, isIdle, named, nameShare, tellingWords, withThing } from './called.ts';
import { candidatesOf, type ReadCandidate } from './candidates.ts';
import { lotsOf, numberText, wholeNumbers, type Lot, type LotValue } from './lots.ts';
import type { Reading } from './net.ts';
import { unitsOf } from './tellings.ts';
import type { TalkView } from './view.ts';

/** A group as read, with every value that it may get. */
export interface ReadGroup {
  readonly group: Group;
  readonly candidates: readonly ReadCandidate[];
}

/** Puts what the net read and what the rules heard together: the net says what belongs together, the rules what it is called. */
export function readGroups(
  heard: Heard,
  seen: TalkView,
  reading: Reading,
  read: ReadBuilds,
  ruleTrust: (group: Group, field: JudgedField, told: Told<unknown>) => number,
): readonly ReadGroup[] {
  const view = wholeNumbers(seen, reading);
  const lots = lotsOf(view, reading, read).filter(
    (lot) => lot.values.size !== null || lot.values.torque !== null || (lot.values.count !== null && lot.names.length > 0),
  );
  const builds = withoutLoneBuilds(read, lots);
  const bases = basesOf(heard.groups, view, lots);
  const claims = new Map<number, number>();
  for (const lot of lots)
    for (const value of Object.values(lot.values)) for (const node of value?.nodes ?? []) claims.set(node, (claims.get(node) ?? 0) + 1);
  const talk = { heard, view, reading, builds, units: unitsOf(view, heard) };
  const buildWords = new Set([...heard.builds, ...builds.more].flatMap(({ id, name }) => `${id} ${name}`.toLowerCase().split(/[ -]+/)));
  const telling = lots.map((lot) => tellingWords(view, lot, reading));
  /** A word that names other fasteners and not these: what the rules carried over from them. */
  const isOthers = (index: number, word: string) =>
    !entry(telling, index).has(stemOf(word)) && telling.some((words, other) => other !== index && words.has(stemOf(word)));
  let next = heard.groups.reduce((most, { id }) => Math.max(most, id), 0) + 1;
  const made = lots.map((lot, index): ReadGroup => {
    const base = bases.get(index) ?? null;
    const isOfBuild = lot.nodes.some((node) => entry(builds.of, node) !== null);
    const isTold = (word: string) => !isOfBuild || !buildWords.has(word);
    const called = calledAs(base?.group.id ?? next++, view, lot, { words: entry(telling, index), isTold });
    const known =
      base === null
        ? called
        : named(base.group, called, { isTold, isForeign: (word) => isOthers(index, word) || isIdle(view, reading, lot, word) });
    const group = withThing(known, view, reading, lot, isTold);
    const twin = lots.some(
      (other) =>
        other !== lot &&
        sameValue(view, lot.values.size, other.values.size) &&
        (lot.values.torque === null || other.values.torque === null || sameValue(view, lot.values.torque, other.values.torque)),
    );
    const lacking = judged.filter((field) => lot.values[field] === null && !(field === 'count' && lot.implied !== null)).length;
    const candidates = candidatesOf(talk, lot, {
      ruled: (field) => base?.group.told[field] ?? [],
      trust: (field, told) => (base === null ? 0 : ruleTrust(base.group, field, told)),
      isClaimed: (node) => (claims.get(node) ?? 0) > 1,
      signs: {
        missing: lacking,
        nameless: lot.names.length === 0 ? 1 : 0,
        unruled: base === null ? 1 : 0,
        overlap: base?.share ?? 0,
        twin: twin ? 1 : 0,
      },
    });
    return { group, candidates };
  });
  return withAlsoDoubled(made);
}

/** "Do the one side, then the other the same": where the rules take that for several lots, they are hardly wrong for one of them. */
function withAlsoDoubled(groups: readonly ReadGroup[]): readonly ReadGroup[] {
  const isDoubled = ({ candidates }: ReadGroup) => candidates.some(({ signs }) => signs.doubled === 1);
  const many = groups.filter(isDoubled).length;
  return groups.map(({ group, candidates }) => ({
    group,
    candidates: candidates.map((one) => ({ ...one, signs: { ...one.signs, alsoDoubled: one.signs.doubled * Math.min(3, many - 1) } })),
  }));
}

/**
 * "She's on single wheels, so twelve nuts, a hundred and thirty": what is told of one build only, of fasteners that all builds have, holds for
 * all of them where nothing else is told.
 */
function withoutLoneBuilds(builds: ReadBuilds, lots: readonly Lot[]): ReadBuilds {
  const of = [...builds.of];
  for (const { values } of lots) {
    const told = judged.map((field) => (values[field]?.shared === false ? values[field].nodes : []));
    const names = new Set(told.flat().map((node) => of[node] ?? null));
    if (names.size !== 2 || !names.has(null)) continue;
    for (const nodes of told) if (nodes.every((node) => of[node] != null)) for (const node of nodes) of[node] = null;
  }
  return { ...builds, of };
}

interface Base {
  readonly group: Group;
  /** The share of the lot's numbers that the rules put there too. */
  readonly share: number;
}

/** For each lot the group of the rules that has most of its numbers; each group is taken once. */
function basesOf(groups: readonly Group[], { nodes }: TalkView, lots: readonly Lot[]): ReadonlyMap<number, Base> {
  const pairs = lots.flatMap((lot, index) => {
    const numbers = lot.nodes.map((node) => entry(nodes, node)).filter(({ kind }) => kind === 'number');
    return groups.flatMap((group) => {
      const common = numbers.filter(({ ruledOf }) => ruledOf.includes(group.id)).length;
      const sentences = lot.nodes.filter((node) => group.sentences.includes(entry(nodes, node).sentence)).length;
      const score = common + 0.02 * sentences + 0.3 * nameShare(group, lot, nodes);
      return common > 0 ? [{ index, group, share: common / Math.max(1, numbers.length), score }] : [];
    });
  });
  const bases = new Map<number, Base>();
  const used = new Set<number>();
  for (const { index, group, share } of pairs.sort((one, other) => other.score - one.score)) {
    if (bases.has(index) || used.has(group.id)) continue;
    bases.set(index, { group, share });
    used.add(group.id);
  }
  return bases;
}

function sameValue(view: TalkView, one: LotValue | null, other: LotValue | null): boolean {
  if (one === null || other === null) return false;
  return numberText(entry(view.nodes, one.nodes.at(-1) ?? -1)) === numberText(entry(view.nodes, other.nodes.at(-1) ?? -1));
}
