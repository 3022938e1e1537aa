import { entry } from './entry.ts';
import type { Heard } from '../extract.ts';
import type { Evidence, Group, SaidSize, SaidTorque, Told } from '../groups.ts';
import type { Mention } from '../mention.ts';
import type { TorqueUnit } from '../../torque/quantities.ts';
import { newGroup } from '../talk.ts';
import { torqueIn } from '../tell-values.ts';
import { judged, type JudgedField } from '../trust.ts';
import { readTorqueUnit } from '../unit-words.ts';
import { stemOf, tellingApart } from '../word-classes.ts';
import type { ReadBuilds } from './build-words.ts';
import { countOfLot, lotsOf, surestOf, wholeNumbers, numberText, timesChance, type Lot, type LotValue } from './lots.ts';
import { roles, type Reading } from './net.ts';
import type { Node, TalkView } from './view.ts';

/** What speaks for a value that the net or the rules or both put to a group; numbers from 0 to 1, mostly. */
export interface ReadSigns {
  /** Both say the same; or only the rules say it; or they say different values and this is the net's. */
  readonly agreed: number;
  readonly ruleOnly: number;
  readonly against: number;
  /** The rules count twice what the net does: 1 for theirs, -1 for the net's. */
  readonly doubled: number;
  /** The net: that the number is of the field, and that it belongs there. */
  readonly is: number;
  readonly belongs: number;
  readonly shared: number;
  readonly copied: number;
  /** No number says it. */
  readonly implied: number;
  readonly parts: number;
  readonly times: number;
  /** How much likelier it belongs here than to others; how often it is said in all, less one; whether something else is said of it as well. */
  readonly ahead: number;
  readonly again: number;
  readonly otherwise: number;
  /** That the number holds nothing of fasteners or no longer holds; how likely another reading of its words is; that it is of that build. */
  readonly void: number;
  readonly rival: number;
  readonly ofBuild: number;
  /** Of count, size and torque, how many the lot lacks; it has no name; the rules know no such group; how much of the lot is in that group. */
  readonly missing: number;
  readonly nameless: number;
  readonly unruled: number;
  readonly overlap: number;
  /** Another group has the same size and the same torque, or shares the number. */
  readonly twin: number;
  readonly claimed: number;
  /** How sure the rules are of theirs, by their own signs. */
  readonly rule: number;
}

/** One value that a group may get. */
export interface ReadCandidate {
  readonly field: JudgedField;
  readonly build: string | null;
  readonly told: Told<number> | Told<SaidSize> | Told<SaidTorque>;
  readonly signs: ReadSigns;
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
  builds: ReadBuilds,
  ruleTrust: (group: Group, field: JudgedField, told: Told<unknown>) => number,
): readonly ReadGroup[] {
  const view = wholeNumbers(seen, reading);
  const lots = lotsOf(view, reading, builds).filter(
    (lot) => lot.values.size !== null || lot.values.torque !== null || (lot.values.count !== null && lot.names.length > 0),
  );
  const bases = basesOf(heard.groups, view, lots);
  const claims = new Map<number, number>();
  for (const lot of lots)
    for (const value of Object.values(lot.values)) for (const node of value?.nodes ?? []) claims.set(node, (claims.get(node) ?? 0) + 1);
  const units = unitsOf(view, heard);
  const buildWords = new Set([...heard.builds, ...builds.more].flatMap(({ id, name }) => `${id} ${name}`.toLowerCase().split(/[ -]+/)));
  let next = heard.groups.reduce((most, { id }) => Math.max(most, id), 0) + 1;
  return lots.map((lot, index): ReadGroup => {
    const base = bases.get(index) ?? null;
    const isOfBuild = lot.nodes.some((node) => entry(builds.of, node) !== null);
    const isTold = (word: string) => !isOfBuild || !buildWords.has(word);
    const read = groupOf(base?.group.id ?? next++, view, lot, reading, isTold);
    const group = base === null ? read : named(base.group, read, isTold);
    const twin = lots.some(
      (other) =>
        other !== lot &&
        sameValue(view, lot.values.size, other.values.size) &&
        (lot.values.torque === null || other.values.torque === null || sameValue(view, lot.values.torque, other.values.torque)),
    );
    const lacking = judged.filter((field) => lot.values[field] === null && !(field === 'count' && lot.implied !== null)).length;
    const candidates = judged.flatMap((field): readonly ReadCandidate[] => {
      const value = lot.values[field];
      const own = value === null ? impliedTold(heard, view, lot, field) : toldOf(heard, view, reading, builds.of, units, field, value);
      const ruled = (base?.group.told[field] ?? []) as readonly Told<unknown>[];
      const differing = new Set([...own.map(({ build }) => build), ...(own.length === 0 ? ruled.map(({ build }) => build) : [])]);
      return [...differing].flatMap((build): readonly ReadCandidate[] => {
        const told = own.findLast((one) => one.build === build) ?? null;
        // What the rules heard of no build in particular is not against this build where it is another's.
        const isOfOther = (one: Told<unknown>) => own.some((other) => other.build !== build && sameTold(other.value, one.value));
        const rule = ruled.findLast((one) => one.build === build) ?? ruled.findLast((one) => one.build === null && !isOfOther(one)) ?? null;
        const nodes = value?.nodes.filter((node) => (builds.of[node] ?? null) === build) ?? [];
        const ofBuild = value === null || nodes.length === 0 ? value : { ...value, nodes };
        const tellings = ofBuild === null ? null : tellingsOf(view, reading, ofBuild, field);
        const agreed = told !== null && rule !== null && sameTold(told.value, rule.value);
        const isDoubled = field === 'count' && told !== null && rule !== null && rule.value === 2 * Number(told.value);
        const signs = (isRule: boolean): ReadSigns => ({
          agreed: agreed ? 1 : 0,
          ruleOnly: isRule && told === null ? 1 : 0,
          against: !agreed && told !== null && rule !== null ? 1 : 0,
          doubled: !isDoubled ? 0 : isRule ? 1 : -1,
          is: isRule ? 0 : (value?.is ?? lot.implied?.chance ?? 0),
          belongs: isRule ? 0 : (value?.belongs ?? 0.5),
          shared: !isRule && value?.shared === true ? 1 : 0,
          copied: !isRule && value?.copied === true ? 1 : 0,
          implied: !isRule && value === null ? 1 : 0,
          parts: field === 'count' && ofBuild !== null && ofBuild.nodes.length > 1 ? 1 : 0,
          times: field === 'count' && ofBuild !== null ? timesChance(reading, ofBuild) : 1,
          ahead: isRule || value === null ? 0 : value.ahead,
          again: isRule || tellings === null ? 0 : tellings.again,
          otherwise: isRule || tellings === null ? 0 : tellings.otherwise,
          void: isRule || tellings === null ? 0 : tellings.void,
          rival: isRule || tellings === null ? 0 : tellings.rival,
          ofBuild: isRule || ofBuild === null ? 0 : Math.min(...ofBuild.nodes.map((node) => entry(builds.chance, node))),
          missing: lacking,
          nameless: lot.names.length === 0 ? 1 : 0,
          unruled: base === null ? 1 : 0,
          overlap: base?.share ?? 0,
          twin: twin ? 1 : 0,
          claimed: value !== null && value.nodes.some((node) => (claims.get(node) ?? 0) > 1) ? 1 : 0,
          rule: rule === null || base === null ? 0 : ruleTrust(base.group, field, rule),
        });
        const out: ReadCandidate[] = [];
        if (told !== null) out.push({ field, build, told, signs: signs(false) });
        if (rule !== null && !agreed) out.push({ field, build, told: { ...rule, build } as ReadCandidate['told'], signs: signs(true) });
        return out;
      });
    });
    return { group, candidates };
  });
}

/** How often the value is said, in which other ways, and what speaks against its number. */
function tellingsOf(
  view: TalkView,
  reading: Reading,
  { nodes }: LotValue,
  field: JudgedField,
): Pick<ReadSigns, 'again' | 'otherwise' | 'void' | 'rival'> {
  const last = field === 'count' ? entry(nodes, nodes.length - 1) : lastSure(reading, nodes, field);
  const text = numberText(entry(view.nodes, last));
  const same = nodes.filter((index) => numberText(entry(view.nodes, index)) === text).length;
  const { from, to } = entry(view.nodes, last);
  const others = view.nodes.flatMap((node, index) =>
    node.kind === 'number' && index !== last && node.from < to && node.to > from ? [1 - entry(entry(reading.role, index), 0)] : [],
  );
  const roleOf = entry(reading.role, last);
  return {
    again: Math.min(2, same - 1),
    otherwise: same === nodes.length ? 0 : 1,
    void: entry(roleOf, roles.indexOf('void')),
    rival: Math.max(0, ...others),
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

function nameShare(group: Group, lot: Lot, nodes: readonly Node[]): number {
  const own = new Set([...group.own, ...group.topic.map(stemOf)]);
  const words = lot.names.flatMap((node) => namesIn(entry(nodes, node))).map(stemOf);
  return words.length === 0 ? 0 : words.filter((word) => own.has(word)).length / words.length;
}

const namesIn = ({ item }: Node): readonly string[] =>
  item?.kind === 'mention' ? [...item.mention.names, ...item.mention.place] : item?.kind === 'component' ? item.words : [];

/** The group of the rules, called by what the net took for its names; what the rules call it besides is kept where the net has little. */
function named(ruled: Group, read: Group, isTold: (word: string) => boolean): Group {
  const group = { ...ruled, topic: ruled.topic.filter(isTold), names: ruled.names.filter(isTold), places: ruled.places.filter(isTold) };
  const words = [...read.topic, ...read.names];
  if (words.length >= 2)
    return {
      ...group,
      head: read.head === null || read.head === 'fastener' ? group.head : read.head,
      topic: read.topic,
      names: read.names,
      places: read.places.length > 0 ? read.places : group.places,
    };
  const known = new Set([...group.topic, ...group.names, ...group.places].map(stemOf));
  const more = words.filter((word) => !known.has(stemOf(word)));
  return { ...group, topic: [...more, ...group.topic] };
}

/** A word names fasteners where the mentions that have it are worth this much of those of the word that they have most. Our own choice. */
const worthNaming = 0.35;

/** Which words of a lot's mentions name it: those that the surest and nearest of them have. */
function tellingWords(nodes: readonly Node[], lot: Lot, reading: Reading): ReadonlySet<string> {
  const worth = new Map<string, number>();
  const all = nodes.length;
  for (const index of lot.names) {
    const links = lot.nodes.filter((other) => other !== index).map((other) => reading.link[index * all + other] ?? 0);
    const near = links.length === 0 ? 1 : links.reduce((sum, link) => sum + link, 0) / links.length;
    const isName = entry(entry(reading.role, index), roles.indexOf('name'));
    for (const word of new Set(namesIn(entry(nodes, index)).map(stemOf))) worth.set(word, (worth.get(word) ?? 0) + isName * near);
  }
  const most = Math.max(0, ...worth.values());
  return new Set([...worth].filter(([, one]) => one >= worthNaming * most).map(([word]) => word));
}

/** A group that the rules did not hear, named by what the net took for its names. */
function groupOf(id: number, { nodes }: TalkView, lot: Lot, reading: Reading, isTold: (word: string) => boolean): Group {
  const telling = tellingWords(nodes, lot, reading);
  // Which build it is of is told beside the name.
  const tells = (word: string) => telling.has(stemOf(word)) && isTold(word);
  const items = lot.names.map((node) => entry(nodes, node).item);
  const mentions = items.flatMap((item): Mention[] => (item?.kind === 'mention' ? [item.mention] : []));
  const components = items.flatMap((item) => (item?.kind === 'component' ? [item] : []));
  const said = mentions.map((mention) => mention.head).find((one) => one !== null) ?? null;
  const names = [...new Set(mentions.flatMap((mention) => mention.names.filter(tells)))];
  const places = [...new Set(mentions.flatMap((mention) => mention.place.filter(tells)))];
  // What nobody called anything is asked about all the same.
  const head = said ?? (names.length + components.length === 0 ? 'fastener' : null);
  const topic = [...new Set(components.flatMap(({ words }) => words.filter(tells)))].filter((word) => !names.includes(word));
  const made = newGroup(id, {
    head,
    sure: head !== null,
    names: names.filter((word) => !places.includes(word)),
    places,
    thing: null,
    implied: head === null,
  });
  return {
    ...made,
    topic:
      head === null || components.length === 0 || !entry(components, 0).inPlace ? topic : topic.filter((word) => !tellingApart.has(word)),
    sentences: [...new Set(lot.nodes.map((node) => entry(nodes, node).sentence))].sort((one, other) => one - other),
    saidPlural: mentions.some(({ plural }) => plural),
    saidSingular: mentions.some(({ plural }) => !plural),
    saidVaguely: names.length + topic.length === 0,
  };
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
