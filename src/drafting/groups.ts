import type { TorqueBand, TorqueUnit } from '../torque/quantities.ts';
import type { Thing } from './things.ts';
import { areOpposite, stemOf, tellingApart } from './word-classes.ts';
import { tableOf } from '../torque/table.ts';

/** Where a value came from. Nothing is told without it. */
export interface Evidence {
  readonly sentence: number;
  readonly confidence: number;
  /** The words themselves, such as "forty-seven foot-pounds". */
  readonly words: string;
  /** The token of the sentence that they begin at, where they are said in it. */
  readonly from?: number;
}

/** One value as told once, for one build or for all (null). */
export interface Told<Value> {
  readonly value: Value;
  readonly build: string | null;
  readonly evidence: Evidence;
}

export interface SaidTorque {
  readonly value: number;
  /** Null where no unit was said, or only "pounds". */
  readonly unit: TorqueUnit | null;
  /** The lower and upper end where a range was told. */
  readonly range: readonly [number, number] | null;
  readonly band: TorqueBand | null;
  /** Why the unit is doubtful, where it is. */
  readonly doubt: 'no unit' | 'pounds' | null;
}

export interface SaidSize {
  /** "17", "9/16", "T50". */
  readonly text: string;
  readonly unit: 'mm' | 'in' | null;
}

export type ToldFields = {
  count: Told<number>[];
  size: Told<SaidSize>[];
  drive: Told<string>[];
  square: Told<string>[];
  thread: Told<string>[];
  torque: Told<SaidTorque>[];
  angle: Told<number>[];
  reach: Told<string>[];
  condition: Told<string>[];
  order: Told<string>[];
  single: Told<true>[];
  snug: Told<true>[];
  /** Torques of the passes before the last. */
  passes: Told<SaidTorque>[];
};
export type FieldName = keyof ToldFields;
export type ValueOf<Field extends FieldName> = ToldFields[Field][number]['value'];

/** Like fasteners, as the talk goes on: everything told about them so far. */
export interface Group {
  readonly id: number;
  head: string | null;
  sure: boolean;
  /** Words of the name and the place, stemmed; and as they were said, in order. */
  readonly own: Set<string>;
  readonly names: string[];
  readonly places: string[];
  /** What they belong to: the starter, the skid plate; and its name. */
  readonly thing: Thing | null;
  readonly topic: readonly string[];
  /** Words of the sentences about them, each with the first such sentence. */
  readonly nearby: Map<string, number>;
  readonly told: ToldFields;
  readonly sentences: number[];
  /** The lot that these are some of: "the two front ones" of the eight. */
  whole: Group | null;
  readonly parts: Group[];
  /** Only on this build. */
  only: string | null;
  /** How many for each of something whose number was not told. */
  /** How many times over its count was said: "three on every strut", and two struts. */
  times: number | null;
  perUnknown: { readonly count: number; readonly of: string } | null;
  /** Held by nuts that were counted by it, so it is not itself turned. */
  carriesOthers: boolean;
  /** The size of its nut, where it is a bolt, or of its bolt; and whether that is what is turned. */
  readonly mateSizes: Told<SaidSize>[];
  /** "nut" where it is a bolt with one. */
  mate: string | null;
  turnsMate: boolean;
  /** Named by one thing that is no fastener: "the crank pulley is a 22". */
  readonly implied: boolean;
  /** Named only in a list of what to have at hand. */
  listed: boolean;
  /** "don't touch that" */
  untouched: boolean;
  readonly beside: Group | null;
  /** Its count is for both sides already, or is a total. */
  bothSides: boolean;
  /** Counted together with its neighbour. */
  summed: boolean;
  /** Named in the plural, or as one. */
  saidPlural: boolean;
  saidSingular: boolean;
  /** Only ever "a bolt". */
  saidVaguely: boolean;
}

export function emptyTold(): ToldFields {
  return {
    count: [],
    size: [],
    drive: [],
    square: [],
    thread: [],
    torque: [],
    angle: [],
    reach: [],
    condition: [],
    order: [],
    single: [],
    snug: [],
    passes: [],
  };
}

/** The last value told for that build or for all, or null. */
export function lastTold<Field extends FieldName>(group: Group, field: Field, build: string | null = null): Told<ValueOf<Field>> | null {
  const told = group.told[field] as readonly Told<ValueOf<Field>>[];
  return told.findLast((one) => one.build === build) ?? (build === null ? null : (told.findLast((one) => one.build === null) ?? null));
}

/** The count told for it: its own, or what its parts make. */
export function countOf(group: Group): number | null {
  return group.told.count.at(-1)?.value ?? null;
}

const alike: Readonly<Record<string, readonly string[]>> = tableOf<readonly string[]>({
  bolt: ['screw', 'cap screw', 'fastener', 'stud'],
  screw: ['bolt', 'cap screw', 'fastener'],
  nut: ['fastener', 'lug', 'stud'],
  fastener: ['bolt', 'nut', 'screw'],
  plug: ['bolt'],
  lug: ['nut'],
});

/** How well name words fit a group: 1 all of them are its own; below 0 they are something else. */
export function likeness(group: Group, words: readonly string[], head: string | null, sentence = Number.POSITIVE_INFINITY): number {
  const stems = [...new Set(words.map(stemOf))];
  if (stems.length === 0) return 0;
  const topic = new Set(group.topic.map(stemOf));
  const own = group.own;
  let score = 0;
  for (const stem of stems) {
    const pieces = joinedIn(stem, own, topic);
    if (own.has(stem)) score += 1;
    else if (isNamed(own, stem)) score += 0.85;
    else if (topic.has(stem)) score += 0.9;
    else if (pieces) score += 0.9;
    else if ([...own, ...topic].some((word) => areOpposite(word, stem))) score -= 1.5;
    else if ((group.nearby.get(stem) ?? sentence) < sentence) score += tellingApart.has(stem) ? 0.25 : 0.45;
    else score -= 0.35;
  }
  let result = score / stems.length;
  if (head !== null && group.head !== null && head !== group.head) result -= alike[head]?.includes(group.head) === true ? 0.12 : 0.5;
  return result;
}

const sameLevel: Readonly<Record<string, string>> = tableOf<string>({ upper: 'top', top: 'upper', lower: 'bottom', bottom: 'lower' });

/** "the lowers" are the ones along the bottom. */
export function isNamed(own: ReadonlySet<string>, stem: string): boolean {
  return own.has(stem) || own.has(sameLevel[stem] ?? stem);
}

/** "crossmember" and "cross member" are one word. */
function joinedIn(stem: string, own: ReadonlySet<string>, topic: ReadonlySet<string>): boolean {
  const words = [...own, ...topic];
  if (
    words.some(
      (first) => first.length >= 3 && stem.startsWith(first) && stem.length > first.length && words.includes(stem.slice(first.length)),
    )
  )
    return true;
  return words.some((word) => word.length > stem.length + 2 && stem.length >= 4 && (word.startsWith(stem) || word.endsWith(stem)));
}
