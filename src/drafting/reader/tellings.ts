import { entry } from './entry.ts';
import type { Heard } from '../extract.ts';
import type { Evidence, SaidSize, SaidTorque, Told } from '../groups.ts';
import type { TorqueUnit } from '../../torque/quantities.ts';
import { oddityOf } from '../oddity.ts';
import type { QuantitySpan } from '../quantities.ts';
import { torqueIn } from '../tell-values.ts';
import type { JudgedField } from '../trust.ts';
import { readTorqueUnit } from '../unit-words.ts';
import { ofBuild, type ReadBuilds } from './build-words.ts';
import { countOfLot, numberText, surestOf, timesChance, type Lot, type LotValue } from './lots.ts';
import { timesOver, type Reading } from './net.ts';
import type { Node, TalkView } from './view.ts';

/** A talk as the rules heard it and as the net reads it. */
export interface TalkRead {
  readonly heard: Heard;
  readonly view: TalkView;
  readonly reading: Reading;
  readonly builds: ReadBuilds;
  readonly units: Units;
}

export type ReadTold = Told<number> | Told<SaidSize> | Told<SaidTorque>;

/** One of the values that a lot may have: the numbers that say it, or none where it is implied. */
export interface Telling {
  readonly told: ReadTold;
  readonly value: LotValue | null;
  readonly times: number;
  readonly part: number;
}

/** How likely a count holds so many times over, to be worth a thought. Our own choice. */
const timesFrom = 0.2;

/** Every value that the numbers of a lot may mean, for each build the likeliest first. */
export function tellingsOf(talk: TalkRead, lot: Lot, field: JudgedField): readonly Telling[] {
  const { view, reading, builds } = talk;
  const value = lot.values[field];
  if (value === null) return impliedTold(talk, lot, field).map((told) => ({ told, value: null, times: 1, part: 0 }));
  const partOf = (one: LotValue, build: string | null) => ({ ...one, nodes: ofBuild(builds, one.nodes, build) });
  const tell = (one: LotValue) =>
    toldOf(talk, lot, field, one).map((told): Telling => {
      const own = partOf(one, told.build);
      return { told, value: own, times: field === 'count' ? timesChance(reading, own) : 1, part: 0 };
    });
  const isChief = (one: Telling) =>
    one.value?.nodes.includes(lastSure(reading, ofBuild(builds, value.nodes, one.told.build), field)) === true;
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
      const build = builds.of[node] ?? null;
      const number = Number(numberText(entry(view.nodes, node)));
      return timesOver.flatMap((over, at): Telling[] => {
        const times = entry(entry(reading.times, node), at);
        if (over === 0 || times < timesFrom || !Number.isInteger(number) || number < 1) return [];
        const told = { value: number * over, build, evidence: evidenceOf(talk, entry(view.nodes, node), one.is) };
        return [{ told, value: partOf(one, build), times, part: entry(reading.part, node) }];
      });
    });
  }
}

export function sameTold(one: unknown, other: unknown): boolean {
  if (typeof one === 'number') return one === other;
  const [first, second] = [one as Partial<SaidSize & SaidTorque>, other as Partial<SaidSize & SaidTorque>];
  return first.text === second.text && first.value === second.value;
}

function evidenceOf({ heard, view }: TalkRead, node: Node, confidence: number): Evidence {
  const start = view.starts[node.sentence] ?? 0;
  const tokens = entry(heard.sentences, node.sentence).tokens.slice(node.from - start, node.to - start);
  return { sentence: node.sentence, confidence, words: tokens.map(({ bare }) => bare).join(' '), from: node.from - start };
}

function impliedTold(talk: TalkRead, lot: Lot, field: JudgedField): readonly Told<number>[] {
  if (field !== 'count' || lot.implied === null) return [];
  const node = entry(talk.view.nodes, lot.implied.node);
  return [{ value: lot.implied.count, build: null, evidence: evidenceOf(talk, node, lot.implied.chance) }];
}

/** The values as they are told, one for each build that the net reads them of. */
function toldOf(talk: TalkRead, lot: Lot, field: JudgedField, value: LotValue): readonly ReadTold[] {
  const { view, reading, builds, units } = talk;
  const told: ReadTold[] = [];
  for (const build of new Set(value.nodes.map((index) => builds.of[index] ?? null))) {
    const own = ofBuild(builds, value.nodes, build);
    if (field === 'count') {
      const counted = countOfLot(view, reading, { ...value, nodes: own });
      if (counted !== null)
        told.push({ value: counted.count, build, evidence: evidenceOf(talk, entry(view.nodes, counted.node), value.is) });
      continue;
    }
    const last = entry(view.nodes, lastSure(reading, own, field));
    const evidence = evidenceOf(talk, last, value.is);
    if (field === 'size') {
      const size = sizeOf(last);
      if (size !== null) told.push({ value: size, build, evidence });
    } else {
      const nodes = own.map((index) => entry(view.nodes, index)).filter((one) => numberText(one) === numberText(last));
      const torque = torqueOf(last, nodes, units, sizeBeside(talk, lot, build));
      if (torque !== null) told.push({ value: torque, build, evidence });
    }
  }
  return told;
}

/** Of several tellings the last that is nearly as sure as the surest: a correction comes later. */
export function lastSure(reading: Reading, nodes: readonly number[], field: JudgedField): number {
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

const isInUnit = (quantity: QuantitySpan | null): quantity is QuantitySpan & { readonly kind: 'torque'; readonly unit: TorqueUnit } =>
  quantity?.kind === 'torque' && quantity.unit !== null;

/** The size that a lot has on that build. */
function sizeBeside({ view, reading, builds }: TalkRead, { values }: Lot, build: string | null): SaidSize | null {
  const own = ofBuild(builds, values.size?.nodes ?? [], build);
  return own.length === 0 ? null : sizeOf(entry(view.nodes, lastSure(reading, own, 'size')));
}

interface Units {
  /** For each torque of the talk with a unit, where it was said. */
  readonly said: readonly { readonly at: number; readonly unit: TorqueUnit }[];
  readonly kinds: ReadonlySet<TorqueUnit>;
}

export function unitsOf({ nodes, starts }: TalkView, { sentences }: Heard): Units {
  const said = nodes.flatMap(({ quantity, from }) => (isInUnit(quantity) ? [{ at: from, unit: quantity.unit }] : []));
  // "Right, torques, all newton metres."
  if (said.length === 0)
    for (const { tokens, index } of sentences)
      for (let at = 0; at < tokens.length; at++) {
        const unit = readTorqueUnit(tokens, at)?.unit ?? null;
        if (unit !== null) said.push({ at: (starts[index] ?? 0) + at, unit });
      }
  return { said, kinds: new Set(said.map(({ unit }) => unit)) };
}

/** A unit that makes a torque odder for its head than another of the talk would, by as much as inch-pounds for foot-pounds do, is not written. */
const odderBy = 1;

/**
 * The torque of a number in its unit, or in that which the talk was at when the number was first told (`tellings`). Where another unit of the
 * talk fits the head much better the unit stays open, which is asked about.
 */
function torqueOf({ quantity }: Node, tellings: readonly Node[], { said, kinds }: Units, size: SaidSize | null): SaidTorque | null {
  if (quantity?.kind !== 'torque' && quantity?.kind !== 'number') return null;
  const [low, high] = quantity.kind === 'torque' ? [quantity.low, quantity.high] : [quantity.value, quantity.high];
  const plusMinus = quantity.kind === 'torque' ? quantity.plusMinus : null;
  const own = [quantity, ...tellings.map((one) => one.quantity)].find(isInUnit)?.unit ?? null;
  const first = tellings[0]?.from ?? 0;
  const unit = own ?? said.findLast(({ at }) => at < first)?.unit ?? said[0]?.unit ?? null;
  const isPounds = quantity.kind === 'torque' && quantity.unit === null;
  const doubt = own !== null || (kinds.size === 1 && !isPounds) ? null : isPounds ? 'pounds' : 'no unit';
  const told = (one: TorqueUnit | null): SaidTorque => ({ ...torqueIn(one, low, high, plusMinus), doubt });
  const oddIn = (one: TorqueUnit | null) => (size === null ? 0 : oddityOf(size, told(one)));
  return told(own === null && [...kinds].some((other) => oddIn(unit) - oddIn(other) > odderBy) ? null : unit);
}
