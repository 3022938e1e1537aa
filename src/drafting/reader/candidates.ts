import { entry } from './entry.ts';
import type { SaidSize, SaidTorque, Told } from '../groups.ts';
import { oddityOf } from '../oddity.ts';
import { judged, type JudgedField } from '../trust.ts';
import { ofBuild } from './build-words.ts';
import { numberText, type Lot, type LotValue } from './lots.ts';
import { roles } from './net.ts';
import { noSigns, type ReadSigns } from './signs.ts';
import { lastSure, sameTold, tellingsOf, type ReadTold, type TalkRead, type Telling } from './tellings.ts';

/** One value that a group may get. */
export interface ReadCandidate {
  readonly field: JudgedField;
  readonly build: string | null;
  readonly told: ReadTold;
  readonly signs: ReadSigns;
}

/** What is known of a lot beside its numbers. */
export interface AboutLot {
  /** What the rules tell of the group that it is, and how sure they are of it. */
  readonly ruled: (field: JudgedField) => readonly Told<unknown>[];
  readonly trust: (field: JudgedField, told: Told<unknown>) => number;
  /** Whether a number is another lot's too. */
  readonly isClaimed: (node: number) => boolean;
  /** The signs that all its values have. */
  readonly signs: Pick<ReadSigns, 'missing' | 'nameless' | 'unruled' | 'overlap' | 'twin'>;
}

/** Every value that a lot may get, with its signs: for each field and build those of the net first, the likeliest before others, and then that of the rules. */
export function candidatesOf(talk: TalkRead, lot: Lot, about: AboutLot): readonly ReadCandidate[] {
  const ways = Object.fromEntries(judged.map((field) => [field, tellingsOf(talk, lot, field)])) as Record<JudgedField, readonly Telling[]>;
  return judged.flatMap((field) => {
    const told: readonly Told<unknown>[] = ways[field].length > 0 ? ways[field].map((one) => one.told) : about.ruled(field);
    return [...new Set(told.map(({ build }) => build))].flatMap((build) => valuesOf(field, build));
  });

  function valuesOf(field: JudgedField, build: string | null): readonly ReadCandidate[] {
    const own = ways[field].filter(({ told }) => told.build === build);
    const rule = ruleOf(field, build);
    const common = { ...noSigns, ...about.signs, rule: rule === null ? 0 : about.trust(field, rule) };
    const read = own.map((telling): ReadCandidate => {
      const { told } = telling;
      const agreed = rule !== null && sameTold(told.value, rule.value);
      const signs = {
        ...common,
        ...signsOf(telling, field, build),
        agreed: agreed ? 1 : 0,
        against: rule !== null && !agreed ? 1 : 0,
        doubled: rule !== null && isDouble(field, rule.value, told.value) ? -1 : 0,
      };
      return { field, build, told, signs };
    });
    if (rule === null || read.some(({ signs }) => signs.agreed === 1)) return read;
    const told = { ...rule, build } as ReadTold;
    const [net] = own;
    const signs = {
      ...common,
      ruleOnly: net === undefined ? 1 : 0,
      against: net === undefined ? 0 : 1,
      doubled: net !== undefined && isDouble(field, rule.value, net.told.value) ? 1 : 0,
      times: net?.times ?? 1,
      odd: oddOf(field, told),
    };
    return [...read, { field, build, told, signs }];
  }

  /** What the rules heard of no build in particular is not against this build where it is another's. */
  function ruleOf(field: JudgedField, build: string | null): Told<unknown> | null {
    const ruled = about.ruled(field);
    const isOfOther = (one: Told<unknown>) => ways[field].some(({ told }) => told.build !== build && sameTold(told.value, one.value));
    return ruled.findLast((one) => one.build === build) ?? ruled.findLast((one) => one.build === null && !isOfOther(one)) ?? null;
  }

  /** What speaks for a telling by itself. */
  function signsOf({ told, value, times, part }: Telling, field: JudgedField, build: string | null): Partial<ReadSigns> {
    const own = { times, part, odd: oddOf(field, told) };
    if (value === null) return { ...own, implied: 1, is: lot.implied?.chance ?? 0, belongs: 0.5 };
    return {
      ...own,
      is: value.is,
      belongs: value.belongs,
      ahead: value.ahead,
      shared: value.shared ? 1 : 0,
      copied: value.copied ? 1 : 0,
      parts: field === 'count' && value.nodes.length > 1 ? 1 : 0,
      ...speaksOf(talk, value, otherNodes(field, build, value), field),
      ofBuild: Math.min(...value.nodes.map((node) => entry(talk.builds.chance, node))),
      claimed: value.nodes.some(about.isClaimed) ? 1 : 0,
    };
  }

  /** What else may be said of the same. */
  function otherNodes(field: JudgedField, build: string | null, { nodes }: LotValue): readonly number[] {
    const textOf = (node: number) => numberText(entry(talk.view.nodes, node));
    const text = textOf(nodes.at(-1) ?? -1);
    return ofBuild(talk.builds, lot.values[field]?.nodes ?? [], build).filter((node) => textOf(node) !== text);
  }

  /** How odd a size is with the torque that the lot has, or a torque with its size. */
  function oddOf(field: JudgedField, { value, build }: Told<unknown>): number {
    if (field === 'count') return 0;
    const other = field === 'size' ? 'torque' : 'size';
    const all = [...about.ruled(other), ...ways[other].map(({ told }) => told).reverse()];
    const beside = all.findLast((one) => one.build === build) ?? all.findLast((one) => one.build === null);
    if (beside === undefined) return 0;
    const [size, torque] = field === 'size' ? [value, beside.value] : [beside.value, value];
    return oddityOf(size as SaidSize, torque as SaidTorque);
  }
}

const isDouble = (field: JudgedField, one: unknown, other: unknown) => field === 'count' && Number(one) === 2 * Number(other);

/** How often the value is said, how surely another is, and what speaks against its number. */
function speaksOf(
  { view, reading }: TalkRead,
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
