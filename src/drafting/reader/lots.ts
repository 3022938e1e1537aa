import { judged, type JudgedField } from '../trust.ts';
import type { ReadBuilds } from './build-words.ts';
import { entry } from './entry.ts';
import { implied, roles, timesOver, type Reading } from './net.ts';
import type { Node, TalkView } from './view.ts';

/** A value of a lot: the numbers that say it, and how sure the net is that each is what it is and that it belongs there. */
export interface LotValue {
  readonly nodes: readonly number[];
  /** That the numbers are of this field, and that they are of these fasteners. */
  readonly is: number;
  readonly belongs: number;
  /** It was said of other fasteners first, or of several at once, or taken from "the same as". */
  readonly shared: boolean;
  readonly copied: boolean;
  /** How much likelier it belongs here than to the next best lot. */
  readonly ahead: number;
}

/** Fasteners as the net reads them: the nodes that belong together, and what was told of them. */
export interface Lot {
  readonly nodes: readonly number[];
  readonly names: readonly number[];
  readonly values: { [Field in JudgedField]: LotValue | null };
  /** The numbers of each value by what they say: "they say 55, call it 50" are two. */
  readonly tellings: { [Field in JudgedField]: readonly LotValue[] };
  /** A count that no number says: "the drain plug". */
  readonly implied: { readonly count: number; readonly node: number; readonly chance: number } | null;
}

/** Links count from here on, and for a value that would else stand alone. Our own choice, on talks that the net was not trained on; others near it do as well. */
const enough = 0.5;
/** Lots that contradict each other are one all the same where they are linked as surely as this: one of the two numbers is wrong, or is put right. */
const surelyOne = 0.9;
const orphanFrom = 0.05;
/** For a torque that nothing is named with. */
const namelessFrom = 0.2;
/** A number that is as surely of one build is a value where that is at least so likely. Our own choice, on a talk of our own. */
const surelyOfBuild = 0.8;
const hardlyNothing = 0.2;
/** What is so nearly as sure as the surest. Our own choice, on talks that the net was not trained on. */
const nearlySure = 0.2;
/** Two chances, and which is the larger. */
const even = 0.5;
/** Puts the nodes of a talk together into lots. */
export function lotsOf({ nodes }: TalkView, reading: Reading, builds: ReadBuilds): readonly Lot[] {
  const linkOf = (one: number, other: number) => reading.link[one * nodes.length + other] ?? 0;
  const isHeld = holding(nodes, reading);
  const fieldOf = nodes.map((node, index) =>
    node.kind === 'number' && isHeld[index] === true ? valueField(reading, index, builds) : null,
  );
  const isName = nodes.map(({ kind }, index) => kind !== 'number' && kind !== 'same' && isNamed(reading, index));
  const clashes = (one: readonly number[], other: readonly number[]) => clash(nodes, fieldOf, builds.of, one, other);
  const members = nodes.flatMap((_, index) => (fieldOf[index] !== null || isName[index] ? [index] : []));
  const withoutStraysOf = (fields: readonly JudgedField[], sets: readonly (readonly number[])[]) =>
    withoutStrays(sets, fields, fieldOf, isName, linkOf);
  // A torque that is linked to fasteners which have another would else fill the gap of some that it is hardly linked to.
  const joined = withoutStraysOf(['torque'], cluster(members, linkOf, clashes));
  const clusters = withoutStraysOf(['size', 'torque'], withoutOrphans(joined, fieldOf, isName, linkOf, clashes));
  const drafts = clusters
    .filter((all) => all.some((index) => fieldOf[index] != null))
    .map((all) => {
      const own = (field: JudgedField) => all.filter((index) => fieldOf[index] === field);
      const names = all.filter((index) => isName[index]);
      const values = Object.fromEntries(
        judged.map((field) => [field, ownValue(reading, field, own(field), all, linkOf) ?? sharedValue(field, all)]),
      ) as Record<JudgedField, LotValue | null>;
      const tellings: Lot['tellings'] = { count: [], size: [], torque: [] };
      return { nodes: all, names, values, tellings, implied: impliedOf(reading, names) };
    });

  function sharedValue(field: JudgedField, all: readonly number[]): LotValue | null {
    let best: LotValue | null = null;
    fieldOf.forEach((other, index) => {
      if (other !== field || all.includes(index)) return;
      const belongs = nearness([index], all, linkOf);
      if (belongs > enough && belongs > (best?.belongs ?? 0))
        best = { nodes: [index], is: roleChance(reading, index, field), belongs, shared: true, copied: false, ahead: 0 };
    });
    return best;
  }

  for (const lot of drafts)
    for (const field of judged) {
      const value = lot.values[field];
      if (value === null || value.shared) continue;
      const whole = withAhead(value, lot);
      lot.values[field] = whole;
      const others = lot.nodes.filter((index) => !value.nodes.includes(index));
      const texts = [...new Set(value.nodes.map((index) => numberText(entry(nodes, index))))];
      lot.tellings[field] = texts.map((text) => {
        if (texts.length === 1) return whole;
        const own = value.nodes.filter((index) => numberText(entry(nodes, index)) === text);
        return withAhead(valueOf(reading, field, own, others, linkOf), lot);
      });
    }

  function withAhead(value: LotValue, lot: Lot): LotValue {
    const next = Math.max(0, ...drafts.map((other) => (other === lot ? 0 : nearness(value.nodes, other.nodes, linkOf))));
    return { ...value, ahead: value.belongs - next };
  }

  // "the same as the starter's": what is missing is taken from there.
  nodes.forEach((node, index) => {
    if (node.kind !== 'same' || best(entry(reading.role, index)) !== roles.indexOf('same')) return;
    const ranked = drafts.map((lot) => ({ lot, by: nearness([index], lot.nodes, linkOf) })).sort((one, other) => other.by - one.by);
    const target = ranked[0];
    if (target === undefined || target.by < enough) return;
    const sources = drafts
      .filter((lot) => lot !== target.lot)
      .map((lot) => ({ lot, by: topMean(lot.nodes.map((other) => reading.source[index * nodes.length + other] ?? 0)) }))
      .sort((one, other) => other.by - one.by);
    const [source] = sources;
    if (source === undefined || source.by < 0.2) return;
    judged.forEach((field, at) => {
      const value = source.lot.values[field];
      const isMeant = entry(entry(reading.fields, index), at);
      if (value !== null && isMeant > even && target.lot.values[field] === null)
        target.lot.values[field] = { ...value, belongs: target.by * source.by * value.belongs, copied: true, shared: true };
    });
  });
  return drafts;
}

/**
 * A number that the net takes without what follows has the unit or the words after it all the same, where they are nothing else: "thirty" of
 * "thirty newton metres".
 */
export function wholeNumbers(view: TalkView, reading: Reading): TalkView {
  const { nodes } = view;
  const isHeld = holding(nodes, reading);
  const claimed = nodes.filter(({ kind }, index) => kind === 'number' && isHeld[index] === true && best(entry(reading.role, index)) !== 0);
  const whole = nodes.map((node): Node => {
    if (node.quantity?.kind !== 'number' || !claimed.includes(node)) return node;
    const longer = nodes.filter(
      (other) =>
        other.kind === 'number' &&
        other.from === node.from &&
        other.to > node.to &&
        !claimed.some((one) => one !== node && one.from < other.to && one.to > node.to),
    );
    return longer.reduce((most, other) => (other.to > most.to ? other : most), node);
  });
  return { ...view, nodes: whole };
}

/** Of readings of a number that overlap, the surest holds. */
function holding(nodes: readonly Node[], reading: Reading): readonly boolean[] {
  const numbers = nodes.flatMap(({ kind }, index) => (kind === 'number' ? [index] : []));
  const sureness = (index: number) => 1 - entry(entry(reading.role, index), 0);
  const held = nodes.map(() => false);
  for (const index of numbers.sort((one, other) => sureness(other) - sureness(one))) {
    const { from, to } = entry(nodes, index);
    const isTaken = numbers.some((other) => held[other] === true && entry(nodes, other).from < to && entry(nodes, other).to > from);
    if (!isTaken) held[index] = true;
  }
  return held;
}

function valueField(reading: Reading, index: number, { of, chance }: ReadBuilds): JudgedField | null {
  const all = entry(reading.role, index);
  const role = best(all);
  if (role >= 1 && role <= 3) return entry(judged, role - 1);
  // "On the long it's got three of them": what is surely of one build is hardly nothing.
  if (role !== 0 || of[index] == null || (chance[index] ?? 0) < surelyOfBuild) return null;
  const likeliest = best(all.slice(1, 4));
  return (all[1 + likeliest] ?? 0) < hardlyNothing ? null : entry(judged, likeliest);
}

const roleChance = (reading: Reading, index: number, field: JudgedField) => entry(entry(reading.role, index), roles.indexOf(field));

/** Of several tellings those that are nearly as sure as the surest. */
export function surestOf(reading: Reading, nodes: readonly number[], field: JudgedField): readonly number[] {
  const top = Math.max(...nodes.map((index) => roleChance(reading, index, field)));
  return nodes.filter((index) => roleChance(reading, index, field) > top - nearlySure);
}

function isNamed(reading: Reading, index: number): boolean {
  const role = roles[best(entry(reading.role, index))];
  return role === 'name' || role === 'reference';
}

const best = (values: Float32Array) => values.reduce((top, value, index) => (value > (values[top] ?? 0) ? index : top), 0);

/** The mean of the better half, so that one far mention does not part what is told in one breath. */
function topMean(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => other - one);
  const few = sorted.slice(0, Math.max(1, Math.ceil(sorted.length / 2)));
  return few.reduce((sum, value) => sum + value, 0) / few.length;
}

type Link = (one: number, other: number) => number;

const nearness = (some: readonly number[], others: readonly number[], linkOf: Link) =>
  topMean(some.flatMap((one) => others.filter((other) => other !== one).map((other) => linkOf(one, other))));

/** Joins what belongs together, the surest first. */
function cluster(
  members: readonly number[],
  linkOf: Link,
  clashes: (one: readonly number[], other: readonly number[]) => boolean,
): readonly (readonly number[])[] {
  const sets = members.map((index) => [index]);
  const alive = members.map(() => true);
  const count = members.length;
  const scores = new Float32Array(count * count).fill(-1);
  for (let a = 0; a < count; a++) for (let b = a + 1; b < count; b++) scores[a * count + b] = linkOf(members[a] ?? 0, members[b] ?? 0);
  for (;;) {
    let at = -1;
    for (let index = 0, top = enough; index < scores.length; index++)
      if ((scores[index] ?? 0) > top) {
        top = scores[index] ?? 0;
        at = index;
      }
    if (at < 0) break;
    const [a, b] = [Math.floor(at / count), at % count];
    if ((scores[at] ?? 0) < surelyOne && clashes(entry(sets, a), entry(sets, b))) {
      scores[at] = -1;
      continue;
    }
    entry(sets, a).push(...entry(sets, b));
    alive[b] = false;
    for (let c = 0; c < count; c++) {
      scores[Math.min(b, c) * count + Math.max(b, c)] = -1;
      if (alive[c] && c !== a) scores[Math.min(a, c) * count + Math.max(a, c)] = nearness(entry(sets, a), entry(sets, c), linkOf);
    }
  }
  return sets.filter((_, index) => alive[index]).map((set) => set.sort((one, other) => one - other));
}

/** A torque or a size that stands alone is hardly a lot of its own: it goes to the likeliest lot that lacks it. */
function withoutOrphans(
  clusters: readonly (readonly number[])[],
  fieldOf: readonly (JudgedField | null)[],
  isName: readonly boolean[],
  linkOf: Link,
  clashes: (one: readonly number[], other: readonly number[]) => boolean,
): readonly (readonly number[])[] {
  const sets = clusters.map((set) => [...set]);
  const has = (set: readonly number[], field: JudgedField) => set.some((index) => fieldOf[index] === field);
  const homes = (set: readonly number[], at: number) => {
    const [own, ...more] = judged.filter((field) => has(set, field));
    if (own === undefined || own === 'count' || more.length > 0) return [];
    const from = own === 'torque' && !set.some((index) => isName[index]) ? namelessFrom : orphanFrom;
    return sets.flatMap((other, to) => {
      if (to === at || has(other, own) || !judged.some((field) => has(other, field)) || clashes(set, other)) return [];
      const by = nearness(set, other, linkOf);
      return by > from ? [{ from: at, to, by }] : [];
    });
  };
  for (;;) {
    const [home] = sets.flatMap(homes).sort((one, other) => other.by - one.by);
    if (home === undefined) return sets.map((set) => set.sort((one, other) => one - other));
    entry(sets, home.to).push(...entry(sets, home.from));
    sets.splice(home.from, 1);
  }
}

/** "They say fifty-five … call it fifty": a torque or a size without a name that is linked to fasteners is told of them, whatever else is told of them. */
function withoutStrays(
  clusters: readonly (readonly number[])[],
  kinds: readonly JudgedField[],
  fieldOf: readonly (JudgedField | null)[],
  isName: readonly boolean[],
  linkOf: Link,
): readonly (readonly number[])[] {
  const isStray = (set: readonly number[]) => set.every((index) => kinds.some((field) => fieldOf[index] === field));
  const sets = clusters.filter((set) => !isStray(set)).map((set) => [...set]);
  const left: (readonly number[])[] = [];
  for (const stray of clusters.filter(isStray)) {
    const fields = new Set(stray.map((index) => fieldOf[index]));
    const [host] = sets
      .filter((set) => set.some((index) => isName[index]) && set.some((index) => fields.has(fieldOf[index])))
      .map((set) => ({ set, by: nearness(stray, set, linkOf) }))
      .sort((one, other) => other.by - one.by);
    if (host !== undefined && host.by > enough) host.set.push(...stray);
    else left.push(stray);
  }
  return [...sets.map((set) => set.sort((one, other) => one - other)), ...left];
}

/** Two sizes or two torques that differ are two lots', unless they are of two builds. */
function clash(
  nodes: readonly Node[],
  fieldOf: readonly (JudgedField | null)[],
  builds: readonly (string | null)[],
  one: readonly number[],
  other: readonly number[],
): boolean {
  return (['size', 'torque'] as const).some((field) => {
    const texts = (set: readonly number[]) =>
      set
        .filter((index) => fieldOf[index] === field)
        .map((index) => ({ text: numberText(entry(nodes, index)), build: builds[index] ?? null }));
    const [ours, theirs] = [texts(one), texts(other)];
    if (ours.length === 0 || theirs.length === 0) return false;
    return !ours.some((mine) => theirs.some((yours) => mine.text === yours.text || mine.build !== yours.build));
  });
}

/** What the number says, in a form that can be compared. */
export function numberText({ quantity }: Node): string {
  if (quantity === null) return '2';
  switch (quantity.kind) {
    case 'torque':
      return quantity.high === null ? String(quantity.low) : `${quantity.low} to ${quantity.high}`;
    case 'width':
      return quantity.written;
    case 'serration':
    case 'thread':
      return quantity.text;
    case 'square':
      return quantity.size;
    case 'number':
      return quantity.high === null ? String(quantity.value) : `${quantity.value} to ${quantity.high}`;
    default:
      return '';
  }
}

function ownValue(reading: Reading, field: JudgedField, own: readonly number[], all: readonly number[], linkOf: Link): LotValue | null {
  const others = all.filter((index) => !own.includes(index));
  return own.length === 0 ? null : valueOf(reading, field, own, others, linkOf);
}

/** What these numbers say, among the other nodes of their lot. */
function valueOf(reading: Reading, field: JudgedField, own: readonly number[], others: readonly number[], linkOf: Link): LotValue {
  return {
    nodes: own,
    is: Math.max(...own.map((index) => roleChance(reading, index, field))),
    belongs: others.length === 0 ? 0.5 : Math.max(...own.map((index) => nearness([index], others, linkOf))),
    shared: false,
    copied: false,
    ahead: 1,
  };
}

function impliedOf(reading: Reading, names: readonly number[]): Lot['implied'] {
  for (const node of names) {
    const at = best(entry(reading.implied, node));
    const count = implied[at] ?? 0;
    if (count > 0) return { count, node, chance: entry(entry(reading.implied, node), at) };
  }
  return null;
}

/** How many the counting numbers make, and the number that says so last: the whole where one says it, else the sum of the parts. */
export function countOfLot(
  { nodes }: TalkView,
  reading: Reading,
  value: LotValue,
): { readonly count: number; readonly node: number } | null {
  const all = value.nodes.map((index) => {
    const over = timesOver[best(entry(reading.times, index))] ?? 0;
    const number = Number(numberText(entry(nodes, index)));
    return {
      index,
      number,
      part: (reading.part[index] ?? 0) > even,
      count: over === 0 || !Number.isInteger(number) ? null : number * over,
    };
  });
  const sure = new Set(surestOf(reading, value.nodes, 'count'));
  const told = all.filter(({ index }) => sure.has(index));
  const whole = told.filter(({ part }) => !part).at(-1);
  if (whole !== undefined) {
    // "Five each side, so ten": the ten is not each side's.
    const count = all.some((one) => one !== whole && one.count === whole.number && one.number !== one.count) ? whole.number : whole.count;
    return count === null || count < 1 ? null : { count, node: whole.index };
  }
  const count = told.reduce<number | null>((sum, one) => (sum === null || one.count === null ? null : sum + one.count), 0);
  const last = told.at(-1);
  if (count === null || count < 1 || last === undefined) return null;
  // Parts of several sentences: the one quoted has to show that it is about them.
  const isOne = new Set(told.map(({ index }) => entry(nodes, index).sentence)).size === 1;
  return isOne || count % (last.count ?? 1) === 0 ? { count, node: last.index } : null;
}

/** How sure the net is of how many times over a count holds. */
export const timesChance = (reading: Reading, value: LotValue): number =>
  Math.min(...value.nodes.map((index) => entry(entry(reading.times, index), best(entry(reading.times, index)))));
