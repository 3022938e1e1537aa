import type { Heard } from './extract.ts';
import type { Group, Told } from './groups.ts';
import type { QuantitySpan } from './quantities.ts';
import type { SaidSentence } from './sentences.ts';
import { oddity } from './oddity.ts';
import { stemOf, tellingApart } from './word-classes.ts';

/** The values that a wrong reading puts on the wrong fasteners, or makes up. */
export const judged = ['count', 'size', 'torque'] as const;
export type JudgedField = (typeof judged)[number];

export const isJudged = (field: string): field is JudgedField => Object.hasOwn(trustedFrom, field);

/**
 * A value that is less likely right than this is asked about and not written. Our own choice, from batches left out of the fitting
 * (`tests/bench/draft-trust.ts`): on talk of the easier kind a stricter one would not make what is written any better, and would ask more.
 * A wrong torque breaks things where a wrong count or size does not fit, so it is asked about sooner. DEVELOPERS.md says what it costs.
 */
export const trustedFrom: Readonly<Record<JudgedField, number>> = { count: 0.75, size: 0.75, torque: 0.8 };

/** What speaks for a value and against it; each is a number, mostly 0 or 1. */
export interface Signs {
  /** By the rule that heard it. */
  readonly rule: number;
  /** Of size, torque and count, how many the group lacks. */
  readonly missing: number;
  readonly noTorque: number;
  /** Nobody called it a bolt, a nut or the like. */
  readonly headless: number;
  /** The sentence names what the value is for. */
  readonly named: number;
  /** The group's size, or its count, was told in the same sentence. */
  readonly sizeHere: number;
  readonly countHere: number;
  /** One, of what was spoken of in the plural. */
  readonly oneOfMany: number;
  /** Numbers of the sentence that nothing was made of, and torques near it. */
  readonly looseHere: number;
  readonly looseTorques: number;
  /** Torques near it that are nobody's. */
  readonly unassigned: number;
  /** Contradictions about the group, and about this value. */
  readonly doubts: number;
  readonly doubted: number;
  /** So many values were told for it. */
  readonly told: number;
  /** So many other groups were given the same words, are named in the same sentence, or share a word of the name. */
  readonly sharing: number;
  readonly crowd: number;
  readonly alike: number;
  /** The group told next lacks its size or its torque. */
  readonly nextHalf: number;
  /** The talk about it says "the same". */
  readonly same: number;
  /** The share of the talk's groups that were given no torque: who tells them later tells them by other words. */
  readonly torqueless: number;
  /** How far the torque is from what is common for the head. */
  readonly odd: number;
}

type Weights = { readonly before: number } & { readonly [Sign in keyof Signs]?: number };

/**
 * Fitted by logistic regression to the talks under tests/drafting/corpus that were read (`npx tsx tests/bench/draft-trust.ts` does it
 * again, and leaves each batch out in turn to say what the weights are worth on talk they were not fitted to).
 */
const weights: Readonly<Record<JudgedField, Weights>> = {
  count: {
    before: -0.18,
    rule: 3.5,
    missing: -1.12,
    headless: -1.07,
    named: 0.96,
    sizeHere: 1.14,
    oneOfMany: -2.46,
    looseHere: -0.51,
    unassigned: -8.12,
    alike: -0.31,
    sharing: 0.39,
    torqueless: -3.52,
  },
  size: {
    before: 6.5,
    headless: -1.08,
    noTorque: -1.44,
    countHere: 1.59,
    doubted: -2.18,
    told: -1.86,
    crowd: -0.58,
    alike: -0.43,
    same: -0.84,
    sharing: -1.35,
    named: 0.53,
    torqueless: -3.23,
  },
  torque: {
    before: 2.08,
    rule: 2.39,
    missing: -2.02,
    headless: -0.77,
    named: 0.41,
    sizeHere: 0.59,
    looseTorques: -1.14,
    doubts: -0.96,
    sharing: -0.95,
    nextHalf: -0.5,
    same: -0.74,
    odd: -0.84,
    torqueless: -4.02,
  },
};

/** The signs that count for a field, in the order of the table above. */
export const signsFor = (field: JudgedField): readonly (keyof Signs)[] =>
  Object.keys(weights[field]).filter((sign): sign is keyof Signs => sign !== 'before');

/** How likely a value is right, from 0 to 1. */
export function trustIn(field: JudgedField, signs: Signs): number {
  const { before, ...weightOf } = weights[field];
  const sum = signsFor(field).reduce((total, sign) => total + (weightOf[sign] ?? 0) * signs[sign], before);
  return 1 / (1 + Math.exp(-sum));
}

/** Where everything of a talk was said, so that a value can be seen among its neighbours. */
export interface TalkMap {
  readonly heard: Heard;
  /** For each sentence, how many tokens stand before it. */
  readonly starts: readonly number[];
  readonly places: readonly { readonly at: number; readonly field: JudgedField; readonly group: Group }[];
  readonly loose: readonly { readonly at: number; readonly sentence: number; readonly kind: QuantitySpan['kind'] }[];
  readonly order: readonly Group[];
  readonly torqueless: number;
}

/** Tokens of a sentence stay apart from those of the next. */
const placeOf = (starts: readonly number[], { evidence }: Told<unknown>) => (starts[evidence.sentence] ?? 0) + (evidence.from ?? 0);

/** So many groups without a fault are added to every talk, so that one of two says little. Our own number. */
const usual = 3;

export function mapOf(heard: Heard): TalkMap {
  const starts = startsOf(heard.sentences);
  const taken = new Set<number>();
  const places: { at: number; field: JudgedField; group: Group }[] = [];
  for (const group of heard.groups)
    for (const one of [group, ...group.parts]) {
      for (const told of [...judged, 'passes' as const]
        .flatMap((field) => one.told[field] as readonly Told<unknown>[])
        .concat(one.mateSizes)) {
        const words = told.evidence.from === undefined ? 0 : told.evidence.words.split(' ').length;
        for (let index = 0; index < words; index++) taken.add(placeOf(starts, told) + index);
      }
      for (const field of judged) for (const told of one.told[field]) places.push({ at: placeOf(starts, told), field, group });
    }
  const loose = heard.sentences.flatMap(({ index, quantities }) =>
    quantities
      .filter(({ kind, from }) => /^(?:torque|width|serration|number)$/.test(kind) && !taken.has((starts[index] ?? 0) + from))
      .map(({ kind, from }) => ({ at: (starts[index] ?? 0) + from, sentence: index, kind })),
  );
  const order = [...heard.groups].sort((one, other) => (one.sentences[0] ?? 0) - (other.sentences[0] ?? 0));
  const torqueless = order.filter(({ told }) => told.torque.length === 0).length / (order.length + usual);
  return { heard, starts, places, loose, order, torqueless };
}

function startsOf(sentences: readonly SaidSentence[]): readonly number[] {
  const starts: number[] = [];
  let start = 0;
  for (const { tokens } of sentences) {
    starts.push(start);
    start += tokens.length;
  }
  return starts;
}

/** How many tokens around a value count as near it. */
const near = 25;

export function signsOf(map: TalkMap, group: Group, field: JudgedField, told: Told<unknown>): Signs {
  const { heard, loose, order } = map;
  const { sentence, confidence } = told.evidence;
  const at = placeOf(map.starts, told);
  const names = namesOf(group);
  const flag = (is: boolean) => (is ? 1 : 0);
  const isHere = (one: 'size' | 'count') => flag(group.told[one].some(({ evidence }) => evidence.sentence === sentence));
  const next = order[order.indexOf(group) + 1];
  return {
    rule: confidence,
    // A plug with a square in it takes the ratchet itself.
    missing: judged.filter((one) => group.told[one].length === 0 && !(one === 'size' && group.told.square.length > 0)).length,
    noTorque: flag(group.told.torque.length === 0),
    headless: flag(group.head === null),
    named: flag((heard.sentences[sentence]?.tokens ?? []).some(({ bare }) => names.has(stemOf(bare)))),
    sizeHere: isHere('size'),
    countHere: isHere('count'),
    oneOfMany: flag(group.told.count.at(-1)?.value === 1 && group.saidPlural),
    looseHere: loose.filter((one) => one.sentence === sentence).length,
    looseTorques: loose.filter((one) => one.kind === 'torque' && Math.abs(one.at - at) <= near).length,
    unassigned: heard.doubts.filter(({ kind, evidence }) => kind === 'unassigned' && Math.abs(evidence.sentence - sentence) <= 1).length,
    doubts: Math.min(3, heard.doubts.filter((one) => one.group === group).length),
    doubted: flag(heard.doubts.some((one) => one.group === group && one.field === field)),
    told: Math.min(3, group.told[field].length),
    sharing: map.places.filter((one) => one.at === at && one.field === field && one.group !== group).length,
    crowd: heard.groups.filter(({ sentences }) => sentences.includes(sentence)).length,
    alike: Math.min(3, order.filter((one) => one !== group && [...names].some((name) => namesOf(one).has(name))).length),
    nextHalf: flag(next !== undefined && (next.told.torque.length === 0 || next.told.size.length === 0)),
    same: flag(group.sentences.some((one) => /\b(?:same|likewise|identical)\b/i.test(heard.sentences[one]?.text ?? ''))),
    torqueless: map.torqueless,
    odd: oddity(group, told.build),
  };
}

/** What it is called by, without words of place and without "bolt". */
const namesOf = (group: Group): ReadonlySet<string> =>
  new Set([...group.names, ...group.topic].filter((word) => !tellingApart.has(word) && word !== group.head).map(stemOf));
