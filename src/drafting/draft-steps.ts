import type { Heard } from './extract.ts';
import type { Group } from './groups.ts';
import { outlineOf, type Noted, type OutlineStep } from './outline.ts';
import type { Remark } from './remarks.ts';
import { suppliesOf, type Supply } from './supplies.ts';

/** Something drafted from one sentence, with the sentence and how sure the rule that read it is (our own scale, 0 to 1). */
export interface FromTalk<What> {
  readonly what: What;
  readonly said: string;
  readonly at: number | null;
  readonly confidence: number;
}

type Of<Kind extends Remark['kind']> = FromTalk<Extract<Remark, { kind: Kind }>>;

export interface DraftStep {
  readonly id: string;
  readonly do: string;
  readonly said: string;
  readonly at: number | null;
  /** The groups of fasteners worked in it. */
  readonly groups: readonly string[];
  readonly cautions: readonly Of<'caution'>[];
  readonly stops: readonly Of<'stop'>[];
  readonly holds: readonly (Of<'hold'> & { readonly ifNo: string | null })[];
  readonly measures: readonly Of<'measure'>[];
  readonly wait: Of<'wait'> | null;
  readonly optional: Of<'optional'> | null;
  readonly helper: Of<'helper'> | null;
  readonly why: Of<'why'> | null;
  /** Parts, consumables and supports that it takes. */
  readonly uses: readonly string[];
}

export interface DraftStage {
  readonly title: string;
  readonly steps: readonly DraftStep[];
}

/** The talk in order, beside its values. */
export interface DraftOutline {
  readonly before: readonly Of<'before'>[];
  readonly cautions: readonly Of<'caution'>[];
  readonly stages: readonly DraftStage[];
  readonly afterwards: readonly Of<'afterwards'>[];
  readonly sides: readonly Of<'side'>[];
  readonly supplies: readonly FromTalk<Supply>[];
}

/** How sure each kind of reading is; measured by nobody, set by how often its words mean something else. */
const sureness: Readonly<Record<Remark['kind'], number>> = {
  chatter: 0,
  caution: 0.7,
  before: 0.7,
  stop: 0.85,
  hold: 0.75,
  ifNo: 0.7,
  measure: 0.7,
  wait: 0.8,
  optional: 0.7,
  side: 0.6,
  helper: 0.75,
  afterwards: 0.8,
  why: 0.6,
};

/** The stages, steps and remarks of a talk, as plain data. */
export function outlined(heard: Heard, nameOf: (group: Group) => string): DraftOutline {
  const { sentences } = heard;
  const outline = outlineOf(sentences, heard.groups, heard.thingsOf, nameOf);
  const said = (sentence: number) => ({ said: sentences[sentence]?.text ?? '', at: sentences[sentence]?.at ?? null });
  const from = <Kind extends Remark['kind']>(noted: Noted<Kind>): Of<Kind> => ({
    what: noted,
    ...said(noted.sentence),
    confidence: sureness[noted.kind],
  });
  const supplies = suppliesOf(sentences);
  let number = 0;
  const stepFrom = (step: OutlineStep): DraftStep => ({
    id: `step-${++number}`,
    do: step.do,
    ...said(step.sentence),
    groups: step.groups.map(({ id }) => String(id)),
    cautions: step.cautions.map(from),
    stops: step.stops.map(from),
    holds: step.holds.map((hold) => ({ ...from(hold), ifNo: hold.ifNo })),
    measures: step.measures.map(from),
    wait: step.wait === null ? null : from(step.wait),
    optional: step.optional === null ? null : from(step.optional),
    helper: step.helper === null ? null : from(step.helper),
    why: step.why === null ? null : from(step.why),
    uses: supplies.filter(({ sentence }) => isAt(step, sentence)).map(({ id }) => id),
  });
  return {
    before: outline.before.map(from),
    cautions: outline.cautions.map(from),
    stages: outline.stages.map(({ title, steps }) => ({ title, steps: steps.map(stepFrom) })),
    afterwards: outline.afterwards.map(from),
    sides: outline.sides.map(from),
    supplies: supplies.map((supply) => ({ what: supply, ...said(supply.sentence), confidence: 0.7 })),
  };
}

const isAt = (step: OutlineStep, sentence: number) =>
  step.sentence === sentence || step.groups.some((group) => group.sentences.includes(sentence));
