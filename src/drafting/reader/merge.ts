import { entry } from './entry.ts';
import type { Heard } from '../extract.ts';
import type { Evidence, Group, SaidSize, SaidTorque, Told } from '../groups.ts';
import type { TorqueUnit } from '../../torque/quantities.ts';
import { oddityOf } from '../oddity.ts';
import { torqueIn } from '../tell-values.ts';
import { judged, type JudgedField } from '../trust.ts';
import { readTorqueUnit } from '../unit-words.ts';
import { stemOf } from '../word-classes.ts';
import type { ReadBuilds } from './build-words.ts';
import { calledAs, isIdle, named, nameShare, tellingWords } from './called.ts';
import { countOfLot, lotsOf, surestOf, wholeNumbers, numberText, timesChance, type Lot, type LotValue } from './lots.ts';
import { noSigns, type ReadSigns } from './signs.ts';
import { roles, timesOver, type Reading } from './net.ts';
import type { Node, TalkView } from './view.ts';

/** One value that a group may get. */
export interface ReadCandidate {
  readonly field: JudgedField;
  readonly build: string | null;
  readonly told: Told<number> | Told<SaidSize> | Told<SaidTorque>;
  readonly signs: ReadSigns;
}

/** One of the values that a lot may have: the numbers that say it, or none where it is implied. */
interface Telling {
  readonly told: ReadCandidate['told'];
  readonly value: LotValue | null;
  readonly times: number;
  readonly part: number;
}

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
  const units = unitsOf(view, heard);
  const buildWords = new Set([...heard.builds, ...builds.more].flatMap(({ id, name }) => `${id} ${name}`.toLowerCase().split(/[ -]+/)));
  const telling = lots.map((lot) => tellingWords(view, lot, reading));
  /** A word that names other fasteners and not these: what the rules carried over from them. */
  const isOthers = (index: number) => (word: string) =>
    !entry(telling, index).has(stemOf(word)) && telling.some((words, other) => other !== index && words.has(stemOf(word)));
  let next = heard.groups.reduce((most, { id }) => Math.max(most, id), 0) + 1;
  const made = lots.map((lot, index): ReadGroup => {
    const base = bases.get(index) ?? null;
    const isOfBuild = lot.nodes.some((node) => entry(builds.of, node) !== null);
    const isTold = (word: string) => !isOfBuild || !buildWords.has(word);
    const called = calledAs(base?.group.id ?? next++, view, lot, { words: entry(telling, index), isTold });
    const group =
      base === null
        ? called
        : named(base.group, called, { isTold, isForeign: (word) => isOthers(index)(word) || isIdle(view, reading, lot, word) });
    const twin = lots.some(
      (other) =>
        other !== lot &&
        sameValue(view, lot.values.size, other.values.size) &&
        (lot.values.torque === null || other.values.torque === null || sameValue(view, lot.values.torque, other.values.torque)),
    );
    const lacking = judged.filter((field) => lot.values[field] === null && !(field === 'count' && lot.implied !== null)).length;
    const ways = Object.fromEntries(judged.map((field) => [field, tellings(heard, view, reading, builds.of, units, lot, field)])) as Record<
      JudgedField,
      readonly Telling[]
    >;
    const ruledOf = (field: JudgedField) => (base?.group.told[field] ?? []) as readonly Told<unknown>[];
    const candidates = judged.flatMap((field) => {
      const buildsTold = (ways[field].length > 0 ? ways[field].map(({ told }) => told) : ruledOf(field)).map(({ build }) => build);
      return [...new Set(buildsTold)].flatMap((build) => candidatesOf(field, build));
    });
    return { group, candidates };

    function candidatesOf(field: JudgedField, build: string | null): readonly ReadCandidate[] {
      const own = ways[field].filter(({ told }) => told.build === build);
      // What the rules heard of no build in particular is not against this build where it is another's.
      const isOfOther = (one: Told<unknown>) => ways[field].some(({ told }) => told.build !== build && sameTold(told.value, one.value));
      const ruled = ruledOf(field);
      const rule = ruled.findLast((one) => one.build === build) ?? ruled.findLast((one) => one.build === null && !isOfOther(one)) ?? null;
      const isDouble = (one: unknown, other: unknown) => field === 'count' && Number(one) === 2 * Number(other);
      const common = {
        ...noSigns,
        missing: lacking,
        nameless: lot.names.length === 0 ? 1 : 0,
        unruled: base === null ? 1 : 0,
        overlap: base?.share ?? 0,
        twin: twin ? 1 : 0,
        rule: rule === null || base === null ? 0 : ruleTrust(base.group, field, rule),
      };
      const out = own.map(({ told, value, times, part }): ReadCandidate => {
        const agreed = rule !== null && sameTold(told.value, rule.value);
        return {
          field,
          build,
          told,
          signs: {
            ...common,
            agreed: agreed ? 1 : 0,
            against: rule !== null && !agreed ? 1 : 0,
            doubled: rule !== null && isDouble(rule.value, told.value) ? -1 : 0,
            implied: value === null ? 1 : 0,
            times,
            part,
            odd: oddOf(field, told),
            ...(value === null
              ? { is: lot.implied?.chance ?? 0, belongs: 0.5 }
              : {
                  is: value.is,
                  belongs: value.belongs,
                  ahead: value.ahead,
                  shared: value.shared ? 1 : 0,
                  copied: value.copied ? 1 : 0,
                  parts: field === 'count' && value.nodes.length > 1 ? 1 : 0,
                  ...speaksOf(view, reading, value, otherNodes(field, build, value), field),
                  ofBuild: Math.min(...value.nodes.map((node) => entry(builds.chance, node))),
                  claimed: value.nodes.some((node) => (claims.get(node) ?? 0) > 1) ? 1 : 0,
                }),
          },
        };
      });
      if (rule === null || out.some(({ signs }) => signs.agreed === 1)) return out;
      const told = { ...rule, build } as ReadCandidate['told'];
      const [net] = own;
      const signs = {
        ...common,
        ruleOnly: net === undefined ? 1 : 0,
        against: net === undefined ? 0 : 1,
        doubled: net !== undefined && isDouble(rule.value, net.told.value) ? 1 : 0,
        times: net?.times ?? 1,
        odd: oddOf(field, told),
      };
      return [...out, { field, build, told, signs }];
    }

    /** What else may be said of the same. */
    function otherNodes(field: JudgedField, build: string | null, { nodes }: LotValue): readonly number[] {
      const text = numberText(entry(view.nodes, nodes.at(-1) ?? -1));
      const all = lot.values[field]?.nodes ?? [];
      return all.filter((node) => (builds.of[node] ?? null) === build && numberText(entry(view.nodes, node)) !== text);
    }

    /** How odd a size is with the torque that the lot has, or a torque with its size. */
    function oddOf(field: JudgedField, { value, build }: Told<unknown>): number {
      if (field === 'count') return 0;
      const other = field === 'size' ? 'torque' : 'size';
      const all = [...ruledOf(other), ...ways[other].map(({ told }) => told).reverse()];
      const beside = all.findLast((one) => one.build === build) ?? all.findLast((one) => one.build === null);
      if (beside === undefined) return 0;
      const [size, torque] = field === 'size' ? [value, beside.value] : [beside.value, value];
      return oddityOf(size as SaidSize, torque as SaidTorque);
    }
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

/** How likely a count holds so many times over, to be worth a thought. Our own choice. */
const timesFrom = 0.2;

/** Every value that the numbers of a lot may mean, for each build the likeliest first. */
function tellings(
  heard: Heard,
  view: TalkView,
  reading: Reading,
  buildOf: readonly (string | null)[],
  units: Units,
  lot: Lot,
  field: JudgedField,
): readonly Telling[] {
  const value = lot.values[field];
  if (value === null) return impliedTold(heard, view, lot, field).map((told) => ({ told, value: null, times: 1, part: 0 }));
  const ofBuild = (one: LotValue, build: string | null) => ({
    ...one,
    nodes: one.nodes.filter((node) => (buildOf[node] ?? null) === build),
  });
  const tell = (one: LotValue) =>
    toldOf(heard, view, reading, buildOf, units, field, one).map((told): Telling => {
      const own = ofBuild(one, told.build);
      return { told, value: own, times: field === 'count' ? timesChance(reading, own) : 1, part: 0 };
    });
  const isChief = (one: Telling) => {
    const { nodes } = ofBuild(value, one.told.build);
    return one.value?.nodes.includes(lastSure(reading, nodes, field)) === true;
  };
  const others = lot.tellings[field].flatMap(field === 'count' ? singleCounts : tell);
  const all =
    field === 'count' || others.length === 0
      ? [...tell(value), ...others]
      : [...others.filter(isChief), ...others.filter((one) => !isChief(one))];
  return all.filter(
    ({ told }, index) => !all.slice(0, index).some((one) => one.told.build === told.build && sameTold(one.told.value, told.value)),
  );

  /** "Six: two in front, four behind" may be any of the three, and each may be for both sides. */
  function singleCounts(one: LotValue): readonly Telling[] {
    return one.nodes.flatMap((node) => {
      const build = buildOf[node] ?? null;
      const number = Number(numberText(entry(view.nodes, node)));
      return timesOver.flatMap((over, at): Telling[] => {
        const times = entry(entry(reading.times, node), at);
        if (over === 0 || times < timesFrom || !Number.isInteger(number) || number < 1) return [];
        const told = { value: number * over, build, evidence: evidenceOf(heard, view, entry(view.nodes, node), one.is) };
        return [{ told, value: ofBuild(one, build), times, part: entry(reading.part, node) }];
      });
    });
  }
}

/** How often the value is said, how surely another is, and what speaks against its number. */
function speaksOf(
  view: TalkView,
  reading: Reading,
  { nodes }: LotValue,
  others: readonly number[],
  field: JudgedField,
): Pick<ReadSigns, 'again' | 'otherwise' | 'void' | 'rival'> {
  const last = field === 'count' ? entry(nodes, nodes.length - 1) : lastSure(reading, nodes, field);
  const text = numberText(entry(view.nodes, last));
  const same = nodes.filter((index) => numberText(entry(view.nodes, index)) === text).length;
  const { from, to } = entry(view.nodes, last);
  const rivals = view.nodes.flatMap((node, index) =>
    node.kind === 'number' && index !== last && node.from < to && node.to > from ? [1 - entry(entry(reading.role, index), 0)] : [],
  );
  const roleOf = (index: number) => entry(reading.role, index);
  return {
    again: Math.min(2, same - 1),
    otherwise: Math.max(0, ...others.map((index) => entry(roleOf(index), roles.indexOf(field)))),
    void: entry(roleOf(last), roles.indexOf('void')),
    rival: Math.max(0, ...rivals),
  };
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

function sameTold(one: unknown, other: unknown): boolean {
  if (typeof one === 'number') return one === other;
  const [first, second] = [one as Partial<SaidSize & SaidTorque>, other as Partial<SaidSize & SaidTorque>];
  return first.text === second.text && first.value === second.value;
}

function evidenceOf(heard: Heard, view: TalkView, node: Node, confidence: number): Evidence {
  const start = view.starts[node.sentence] ?? 0;
  const tokens = entry(heard.sentences, node.sentence).tokens.slice(node.from - start, node.to - start);
  return { sentence: node.sentence, confidence, words: tokens.map(({ bare }) => bare).join(' '), from: node.from - start };
}

function impliedTold(heard: Heard, view: TalkView, lot: Lot, field: JudgedField): readonly Told<number>[] {
  if (field !== 'count' || lot.implied === null) return [];
  const node = entry(view.nodes, lot.implied.node);
  return [{ value: lot.implied.count, build: null, evidence: evidenceOf(heard, view, node, lot.implied.chance) }];
}

/** The values as they are told, one for each build that the net reads them of. */
function toldOf(
  heard: Heard,
  view: TalkView,
  reading: Reading,
  buildOf: readonly (string | null)[],
  units: Units,
  field: JudgedField,
  value: LotValue,
): readonly (Told<number> | Told<SaidSize> | Told<SaidTorque>)[] {
  const builds = [...new Set(value.nodes.map((index) => buildOf[index] ?? null))];
  const told: (Told<number> | Told<SaidSize> | Told<SaidTorque>)[] = [];
  for (const build of builds) {
    const own = value.nodes.filter((index) => (buildOf[index] ?? null) === build);
    if (field === 'count') {
      const counted = countOfLot(view, reading, { ...value, nodes: own });
      if (counted !== null)
        told.push({ value: counted.count, build, evidence: evidenceOf(heard, view, entry(view.nodes, counted.node), value.is) });
      continue;
    }
    const last = entry(view.nodes, lastSure(reading, own, field));
    const evidence = evidenceOf(heard, view, last, value.is);
    if (field === 'size') {
      const size = sizeOf(last);
      if (size !== null) told.push({ value: size, build, evidence });
    } else {
      const torque = torqueOf(last, units);
      if (torque !== null) told.push({ value: torque, build, evidence });
    }
  }
  return told;
}

/** Of several tellings the last that is nearly as sure as the surest: a correction comes later. */
function lastSure(reading: Reading, nodes: readonly number[], field: JudgedField): number {
  return surestOf(reading, nodes, field).at(-1) ?? entry(nodes, nodes.length - 1);
}

function sizeOf({ quantity }: Node): SaidSize | null {
  switch (quantity?.kind) {
    case 'width':
      return { text: quantity.written, unit: quantity.unit };
    case 'serration':
    case 'thread':
      return { text: quantity.text, unit: null };
    case 'number':
      return quantity.high !== null ? null : Number.isInteger(quantity.value) ? { text: String(quantity.value), unit: 'mm' } : null;
    default:
      return null;
  }
}

interface Units {
  /** For each torque of the talk with a unit, where it was said. */
  readonly said: readonly { readonly at: number; readonly unit: TorqueUnit }[];
  readonly only: TorqueUnit | null;
}

function unitsOf({ nodes, starts }: TalkView, { sentences }: Heard): Units {
  const said = nodes.flatMap(({ quantity, from }) =>
    quantity?.kind === 'torque' && quantity.unit !== null ? [{ at: from, unit: quantity.unit }] : [],
  );
  // "Right, torques, all newton metres."
  if (said.length === 0)
    for (const { tokens, index } of sentences)
      for (let at = 0; at < tokens.length; at++) {
        const unit = readTorqueUnit(tokens, at)?.unit ?? null;
        if (unit !== null) said.push({ at: (starts[index] ?? 0) + at, unit });
      }
  const kinds = new Set(said.map(({ unit }) => unit));
  return { said, only: kinds.size === 1 ? entry([...kinds], 0) : null };
}

function torqueOf({ quantity, from }: Node, units: Units): SaidTorque | null {
  if (quantity?.kind !== 'torque' && quantity?.kind !== 'number') return null;
  const [low, high] = quantity.kind === 'torque' ? [quantity.low, quantity.high] : [quantity.value, quantity.high];
  const plusMinus = quantity.kind === 'torque' ? quantity.plusMinus : null;
  const own = quantity.kind === 'torque' ? quantity.unit : null;
  const unit = own ?? units.only ?? units.said.findLast(({ at }) => at < from)?.unit ?? units.said[0]?.unit ?? null;
  const isPounds = quantity.kind === 'torque' && own === null;
  const doubt = own !== null || (units.only !== null && !isPounds) ? null : isPounds ? 'pounds' : 'no unit';
  return { ...torqueIn(unit, low, high, plusMinus), doubt };
}
