import type { Component } from './items.ts';
import type { Group } from './groups.ts';
import { orderOf } from './step-text.ts';
import { plain, remarksOf, sentenceOf, type Remark } from './remarks.ts';
import type { SaidSentence } from './sentences.ts';

/** Something that was said, with the sentence that it was said in. */
export type Noted<Kind extends Remark['kind']> = Extract<Remark, { kind: Kind }> & { readonly sentence: number };

export interface OutlineStep {
  readonly sentence: number;
  do: string;
  readonly groups: Group[];
  readonly cautions: Noted<'caution'>[];
  readonly stops: Noted<'stop'>[];
  readonly holds: (Noted<'hold'> & { ifNo: string | null })[];
  readonly measures: Noted<'measure'>[];
  wait: Noted<'wait'> | null;
  optional: Noted<'optional'> | null;
  helper: Noted<'helper'> | null;
  why: Noted<'why'> | null;
}

export interface OutlineStage {
  readonly title: string;
  readonly steps: OutlineStep[];
}

/** The talk in order: what comes before the work, the work in stages, and what comes after. */
export interface Outline {
  readonly before: readonly Noted<'before'>[];
  readonly cautions: readonly Noted<'caution'>[];
  readonly stages: readonly OutlineStage[];
  readonly afterwards: readonly Noted<'afterwards'>[];
  /** Mentions of other recordings: perhaps side procedures. */
  readonly sides: readonly Noted<'side'>[];
}

export type ThingsOf = (sentence: SaidSentence) => readonly Component[];

/** How many fasteners' torques told one after the other make a list that is read out at the end. */
const listLength = 4;

/** Puts the sentences of a talk in their places. */
export function outlineOf(
  sentences: readonly SaidSentence[],
  groups: readonly Group[],
  thingsOf: ThingsOf,
  nameOf: (group: Group) => string,
): Outline {
  const homes = homesOf(groups);
  const turns = turnsOf(sentences, thingsOf);
  const firstWork = Math.min(sentences.length, ...groups.flatMap(({ sentences: said }) => said));
  const before: Noted<'before'>[] = [];
  const cautions: Noted<'caution'>[] = [];
  const afterwards: Noted<'afterwards'>[] = [];
  const sides: Noted<'side'>[] = [];
  const stages: { title: string; steps: OutlineStep[] }[] = [];
  let lastHold: (Noted<'hold'> & { ifNo: string | null }) | null = null;

  const currentStep = (): OutlineStep | null => stages.at(-1)?.steps.at(-1) ?? null;
  const addStep = (sentence: number, text: string): OutlineStep => {
    if (stages.length === 0) stages.push({ title: 'Start', steps: [] });
    const step: OutlineStep = {
      sentence,
      do: text,
      groups: [],
      cautions: [],
      stops: [],
      holds: [],
      measures: [],
      wait: null,
      optional: null,
      helper: null,
      why: null,
    };
    stages.at(-1)?.steps.push(step);
    return step;
  };

  for (const sentence of sentences) {
    const here = homes.get(sentence.index) ?? [];
    const remarks = remarksOf(sentence, sentence.index <= firstWork).map((remark) => ({ ...remark, sentence: sentence.index }));
    if (remarks.some(({ kind }) => kind === 'chatter') && here.length === 0) continue;
    const turn = turns.get(sentence.index);
    if (turn !== undefined && stages.at(-1)?.title !== turn) stages.push({ title: turn, steps: [] });
    const early = sentence.index <= firstWork && here.length === 0;
    const rest = remarks.filter((remark): remark is Noted<Remark['kind']> => {
      if (remark.kind === 'before') before.push(remark);
      else if (remark.kind === 'afterwards') afterwards.push(remark);
      else if (remark.kind === 'side') sides.push(remark);
      else if (remark.kind === 'caution' && (early || currentStep() === null)) cautions.push(remark);
      else return true;
      return false;
    });
    const order =
      rest.length < remarks.length || rest.some(({ kind }) => /^(?:stop|hold|ifNo|measure)$/.test(kind)) ? null : orderOf(sentence);
    if (here.length > 0) {
      const values = sentence.quantities.length > 0;
      const step = addStep(sentence.index, order !== null && !values && order.length <= 160 ? order : tighten(here, nameOf));
      step.groups.push(...here);
    } else if (order !== null && order.length <= 300 && !sentence.quantities.some(({ kind }) => kind === 'torque'))
      addStep(sentence.index, order);
    const wanted = rest.filter(({ kind }) => /^(?:caution|stop|hold|measure|wait|optional|helper|why|ifNo)$/.test(kind));
    if (wanted.length === 0) continue;
    const step = currentStep() ?? addStep(sentence.index, sentenceOf(sentence.text).slice(0, 300));
    for (const remark of wanted) lastHold = putRemark(step, remark, lastHold);
  }
  return { before, cautions, stages: stages.filter(({ steps }) => steps.length > 0), afterwards, sides };
}

function putRemark(step: OutlineStep, remark: Noted<Remark['kind']>, lastHold: (Noted<'hold'> & { ifNo: string | null }) | null) {
  switch (remark.kind) {
    case 'caution':
      step.cautions.push(remark);
      return lastHold;
    case 'stop':
      step.stops.push(remark);
      return lastHold;
    case 'hold': {
      const hold = { ...remark, ifNo: null };
      step.holds.push(hold);
      return hold;
    }
    case 'ifNo':
      if (lastHold !== null) lastHold.ifNo = remark.advice;
      return null;
    case 'measure':
      step.measures.push(remark);
      return lastHold;
    case 'wait':
      step.wait ??= remark;
      return lastHold;
    case 'optional':
      step.optional ??= remark;
      return lastHold;
    case 'helper':
      step.helper ??= remark;
      return lastHold;
    case 'why':
      step.why ??= remark;
      return lastHold;
    default:
      return lastHold;
  }
}

/** The sentence at which each group is worked: where its torque is told, unless torques are read out as a list at the end. */
function homesOf(groups: readonly Group[]): ReadonlyMap<number, readonly Group[]> {
  const told = groups.map((group) => ({
    group,
    first: Math.min(...group.sentences),
    torque: group.told.torque.at(-1)?.evidence.sentence ?? group.told.size.at(-1)?.evidence.sentence ?? null,
  }));
  const late = told.filter(({ first, torque }) => torque !== null && torque - first >= 6);
  const isList = (sentence: number) =>
    late.filter(({ torque }) => torque !== null && Math.abs(torque - sentence) <= listLength).length >= listLength;
  const homes = new Map<number, Group[]>();
  for (const { group, first, torque } of told) {
    const home = torque === null || (late.some((one) => one.group === group) && isList(torque)) ? first : torque;
    homes.set(home, [...(homes.get(home) ?? []), group]);
  }
  return homes;
}

function tighten(groups: readonly Group[], nameOf: (group: Group) => string): string {
  const names = groups.map((group) => {
    const count = group.told.count.at(-1)?.value ?? null;
    const name = nameOf(group);
    // A bearing stands for what holds it.
    if (group.head === null && count !== 1 && count !== null && !/s$/.test(name)) return `${name} fasteners`;
    return count === 1 ? name : /(?:s|x|ch)$/.test(name) ? name : name.replace(/^([^,]+)/, '$1s');
  });
  const all = [...new Set(names)].join(' and the ');
  const snug = groups.every((group) => group.told.torque.length === 0);
  return sentenceOf(`${snug ? 'Fit' : 'Tighten'} the ${all}`).slice(0, 400);
}

const turning =
  /^(?:(?:so|okay|ok|alright|all right|right|and|well|oh)[,.]? )*(?:next|now|first|finally|last|lastly|moving on|move on|on to|onto|let's (?:move|do|talk)|then (?:the|it's|we)|once (?:that|it|they|those)|with (?:that|those)|that's the|last of all|first of all)\b/i;

/** How a sentence turns the talk: by a spoken transition ("next, the starter"), by a heading ("Starter."), or not at all. */
function turnOf(sentence: SaidSentence, things: readonly Component[]): { readonly title: string; readonly spoken: boolean } | null {
  const [thing] = things.filter((one) => !one.inPlace && one.isPart);
  if (thing === undefined || thing.words.length > 6) return null;
  const spoken = turning.test(plain(sentence.text)) && thing.from <= 10;
  const heading =
    sentence.tokens.length - (thing.to - thing.from) <= 2 || (thing.from <= 2 && /[:.]/.test(sentence.tokens[thing.to - 1]?.mark ?? ''));
  return spoken || heading ? { title: titleOf(thing.words), spoken } : null;
}

/** The sentences at which stages begin. Headings count only where nobody says "next" and "now the". */
function turnsOf(sentences: readonly SaidSentence[], thingsOf: ThingsOf): ReadonlyMap<number, string> {
  const turns = sentences.flatMap((sentence) => {
    const turn = turnOf(sentence, thingsOf(sentence));
    return turn === null ? [] : [{ ...turn, sentence: sentence.index }];
  });
  const spoken = turns.filter((turn) => turn.spoken);
  return new Map((spoken.length >= 2 ? spoken : turns).map(({ sentence, title }) => [sentence, title]));
}

const titleOf = (words: readonly string[]) => {
  const text = words.join(' ');
  return (text.charAt(0).toUpperCase() + text.slice(1)).slice(0, 120);
};
