import type { BuildScope } from './build-scope.ts';
import type { TorqueUnit } from '../torque/quantities.ts';
import { emptyTold, type Evidence, type FieldName, type Group, type SaidTorque, type Told, type ValueOf } from './groups.ts';
import type { Component, Item } from './items.ts';
import type { SaidSentence } from './sentences.ts';
import { nameOfThing, type Thing } from './things.ts';
import { stemOf } from './word-classes.ts';

/** Something told, so that a correction can find it. */
export interface Tell {
  readonly groups: readonly Group[];
  readonly field: FieldName;
  readonly sentence: number;
  /** Where in the sentence it ended. */
  readonly to: number;
}

/** A value that was said of nothing in particular, or twice differently. */
export interface Doubt {
  readonly kind: 'unassigned' | 'contradiction' | 'total';
  readonly group: Group | null;
  readonly field: FieldName;
  readonly evidence: Evidence;
  readonly said: string;
  readonly torque?: SaidTorque;
}

/** What the listener remembers as the talk goes on. */
export interface Talk {
  readonly groups: Group[];
  /** What "they" and "those" mean now. */
  focus: Group[];
  focusSentence: number;
  /** Where the focus was set, to put it in order with the topic. */
  focusAt: number;
  readonly things: Thing[];
  /** The thing the talk is at: the starter. */
  topic: Thing | null;
  topicAt: number;
  topicSentence: number;
  /** It was what its sentence spoke of, not what something was done to. */
  topicLeads: boolean;
  tells: Tell[];
  readonly doubts: Doubt[];
  buildScope: BuildScope | null;
  readonly units: Map<TorqueUnit, number>;
  lastUnit: TorqueUnit | null;
  /** "Everything today is in newton metres." */
  declaredUnit: TorqueUnit | null;
  readonly copies: {
    readonly to: Group;
    readonly from: Group;
    readonly what: 'torque' | 'size' | 'everything';
    readonly evidence: Evidence;
  }[];
  /** The last sentence that spoke of a first pass. */
  passIn: number;
  /** Sentences that told a torque of a first pass. */
  readonly firstPasses: Set<number>;
  /** The last sentence that asked something. */
  askedIn: number;
  /** The last sentence that only counted once more what was told. */
  recitedIn: number;
  /** Where the talk began to tell everything once more. */
  recapFrom: number | null;
  /** A part that was named beside what the talk is at: "and a hose clamp at the bottom". */
  passed: { readonly component: Component; readonly sentence: number; readonly at: number } | null;
  /** What the last sentences were made of, this one's apart. */
  readonly lately: { readonly sentence: number; readonly items: readonly Item[] }[];
  /** The two things that a sentence ended with: "fill plug and drain plug". */
  pair: { readonly things: readonly Component[]; readonly sentence: number } | null;
  /** Torques are being read out one after the other. */
  listing: boolean;
  /** "Sizes first, torques after": until the torques begin, no bare number is one. */
  sizesFirst: boolean;
  /** Up to that sentence a value puts the one before it right. */
  correctingUntil: number;
  /** "38. No, 38 is the back end.": the torque, and whose it is not. */
  disowned: { readonly value: number; readonly groups: readonly Group[] } | null;
  /** The last sentence that put something right. */
  correctedIn: number;
  /** How many tokens each sentence has. */
  readonly lengths: number[];
  doubledUpTo: number;
  /** Sentences with a small number that nobody could place. */
  readonly unread: Set<number>;
  /** "front hub, right hand side": the group from which on only one side was spoken of. */
  oneSideFrom: number | null;
  /** "I gave 45 for the tie rods": what comes next corrects that. */
  recall: { readonly group: Group; readonly field: 'torque' | 'size'; readonly sentence: number } | null;
}

export function emptyTalk(): Talk {
  return {
    groups: [],
    focus: [],
    focusSentence: -1,
    focusAt: -1,
    things: [],
    topic: null,
    topicAt: -1,
    topicSentence: -1,
    topicLeads: false,
    tells: [],
    doubts: [],
    buildScope: null,
    units: new Map(),
    lastUnit: null,
    declaredUnit: null,
    copies: [],
    passIn: -9,
    firstPasses: new Set(),
    recitedIn: -9,
    askedIn: -9,
    recapFrom: null,
    listing: false,
    sizesFirst: false,
    lately: [],
    pair: null,
    passed: null,
    correctingUntil: -1,
    disowned: null,
    correctedIn: -9,
    lengths: [],
    doubledUpTo: 0,
    unread: new Set(),
    oneSideFrom: null,
    recall: null,
  };
}

/** No talk speaks of more groups at once; further back nobody is meant, and a long talk takes time in proportion to its length. */
const reach = 300;

/** The groups that a mention may still mean. */
export const groupsInReach = (talk: Talk): readonly Group[] => (talk.groups.length <= reach ? talk.groups : talk.groups.slice(-reach));

export interface NewGroup {
  readonly head: string | null;
  readonly sure: boolean;
  readonly names: readonly string[];
  readonly places: readonly string[];
  readonly thing: Thing | null;
  readonly whole?: Group | null;
  readonly implied?: boolean;
  readonly beside?: Group | null;
}

/** A group of which nothing is told yet. */
export function newGroup(id: number, made: NewGroup): Group {
  return {
    id,
    head: made.head,
    sure: made.sure,
    own: new Set([...made.names, ...made.places].map(stemOf)),
    names: [...new Set(made.names)],
    places: [...new Set(made.places)],
    thing: made.thing,
    topic: nameOfThing(made.thing),
    nearby: new Map(),
    told: emptyTold(),
    sentences: [],
    whole: made.whole ?? null,
    parts: [],
    only: made.thing?.only ?? null,
    times: null,
    perUnknown: null,
    carriesOthers: false,
    mateSizes: [],
    mate: null,
    turnsMate: false,
    implied: made.implied ?? false,
    listed: false,
    untouched: false,
    beside: made.beside ?? null,
    bothSides: false,
    summed: false,
    saidPlural: false,
    saidSingular: false,
    saidVaguely: true,
  };
}

export function addGroup(talk: Talk, sentence: SaidSentence, made: NewGroup): Group {
  const group = newGroup(talk.groups.length, made);
  talk.groups.push(group);
  group.whole?.parts.push(group);
  noteSentence(group, sentence);
  return group;
}

export function noteSentence(group: Group, sentence: SaidSentence): void {
  if (group.sentences.includes(sentence.index)) return;
  group.sentences.push(sentence.index);
  for (const { bare } of sentence.tokens) if (!group.nearby.has(stemOf(bare))) group.nearby.set(stemOf(bare), sentence.index);
}

const same = (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other);

/** What was there on one build only turns out to be on others too: what was told of it so far was that build's. */
function widenBuilds(group: Group, build: string): void {
  group.only = null;
  for (const list of Object.values(group.told) as Told<unknown>[][]) {
    list.forEach((told, index) => {
      if (told.build === null) list[index] = { ...told, build };
    });
  }
}

/**
 * Puts a value to groups. What was told before stays, so that a contradiction can be asked about;
 * `replace` says that the speaker corrected it.
 */
export function tell<Field extends FieldName>(
  talk: Talk,
  groups: readonly Group[],
  field: Field,
  value: ValueOf<Field>,
  builds: readonly string[],
  evidence: Evidence,
  options: { readonly replace?: boolean; readonly to?: number } = {},
): void {
  for (const group of groups) {
    if (group.only !== null && builds.length > 0 && !builds.includes(group.only)) widenBuilds(group, group.only);
    const list = group.told[field] as Told<ValueOf<Field>>[];
    for (const build of builds.length === 0 ? [null] : builds) {
      if (options.replace === true) {
        const kept = list.filter((told) => told.build !== build);
        list.length = 0;
        list.push(...kept);
      }
      const known = list.find((told) => told.build === build && same(told.value, value));
      if (known === undefined) list.push({ value, build, evidence });
    }
  }
  talk.tells.push({ groups, field, sentence: evidence.sentence, to: options.to ?? 0 });
}
