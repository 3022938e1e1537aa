import { stringify } from 'yaml';
import type { Draft, DraftGroup } from './draft.ts';
import type { DraftStage, DraftStep, FromTalk } from './draft-steps.ts';
import { fastenersOf, idOf } from './file-fasteners.ts';

/** A draft as a procedure file in YAML. What is unknown is left out, and the questions stand in it without their answers. */
export function draftFile(draft: Draft): string {
  const builds =
    draft.builds.length === 0
      ? { all: 'every vehicle that the talk is about' }
      : Object.fromEntries(draft.builds.map(({ id, name }) => [id, name]));
  const supplies = (kind: 'part' | 'consumable' | 'support') =>
    draft.supplies
      .filter(({ what }) => what.kind === kind)
      .map(({ what }) => ({ id: what.id, name: what.name, ...(what.single ? { 'single use': true } : {}) }));
  const file = {
    undertray: 1,
    id: slug(draft.name, 'draft'),
    title: short(draft.name.replace(/[-_]+/g, ' ')),
    builds,
    source: `Drafted from the talk-through ${draft.name.slice(0, 120)}. Every value is to be checked against the maker's manual.`,
    revision: 1,
    'open questions': draft.questions.map(({ number, about, value, ask, heard, said, at }) => ({
      number,
      ...(about === null ? {} : { about: idOf(about) }),
      ...(value === null ? {} : { value: short(value) }),
      ask: sentence(ask),
      ...(heard === null ? {} : { heard: short(heard) }),
      ...(said === null ? {} : { said: sentence(said) }),
      ...timed(at),
    })),
    evidence: evidenceOf(draft),
    before: draft.before.map(({ what }, index) => ({ id: `before-${index + 1}`, kind: what.of, check: sentence(what.text) })),
    cautions: draft.cautions.slice(0, 20).map(({ what }) => ({ signal: what.signal, text: sentence(what.text) })),
    parts: supplies('part'),
    consumables: supplies('consumable'),
    supports: supplies('support'),
    stages: stagesOf(draft),
    afterwards: draft.afterwards.map(({ what }, index) => ({ id: `after-${index + 1}`, say: sentence(what.text), after: what.after })),
  };
  return stringify(Object.fromEntries(Object.entries(file).filter(([, value]) => !(Array.isArray(value) && value.length === 0))), {
    lineWidth: 0,
  });
}

function stagesOf(draft: Draft): readonly object[] {
  const ids = new Set<string>();
  const lots = new Map<string, readonly DraftGroup[]>();
  for (const group of draft.groups) lots.set(group.group, [...(lots.get(group.group) ?? []), group]);
  return draft.stages.map(({ title, steps }: DraftStage) => ({
    id: unique(slug(title, 'stage'), ids),
    title: short(title),
    steps: steps.map((step) => stepOf(step, lots)),
  }));
}

function stepOf(step: DraftStep, lots: ReadonlyMap<string, readonly DraftGroup[]>): object {
  const fasteners = step.groups.flatMap((id) => {
    const rows = lots.get(id) ?? [];
    return rows[0] === undefined ? [] : [fastenersOf(rows[0], rows)];
  });
  const { wait, optional, helper, why } = step;
  return {
    id: step.id,
    do: sentence(step.do),
    ...(why === null ? {} : { why: why.what.text.slice(0, 1_500) }),
    ...listed(
      'cautions',
      step.cautions.slice(0, 12).map(({ what }) => ({ signal: what.signal, text: sentence(what.text) })),
    ),
    ...listed('uses', step.uses),
    ...(optional === null ? {} : { optional: sentence(optional.what.text) }),
    ...(helper === null ? {} : { helper: sentence(helper.what.text) }),
    ...listed('fasteners', fasteners),
    ...listed(
      'measure',
      step.measures.map(({ what }, index) => ({
        id: `${step.id}-measure-${index + 1}`,
        name: short(what.name),
        unit: what.unit,
        ...(what.min === null ? {} : { min: what.min }),
        ...(what.max === null ? {} : { max: what.max }),
      })),
    ),
    ...listed(
      'hold',
      step.holds.map(({ what, ifNo }, index) => ({
        id: `${step.id}-check-${index + 1}`,
        ask: sentence(what.ask),
        ...(ifNo === null ? {} : { 'if no': sentence(ifNo) }),
      })),
    ),
    ...listed(
      'stop signs',
      step.stops
        .slice(0, 12)
        .map(({ what }, index) => ({ id: `${step.id}-stop-${index + 1}`, ask: sentence(what.condition), 'if yes': sentence(what.advice) })),
    ),
    ...(wait === null
      ? {}
      : { wait: { id: `${step.id}-wait`, name: short(wait.what.name), for: wait.what.for, blocks: wait.what.blocks } }),
  };
}

const listed = (key: string, list: readonly unknown[]): object => (list.length === 0 ? {} : { [key]: list });

/** Every value and every remark with the sentence that it came from. */
function evidenceOf(draft: Draft): readonly object[] {
  const entry = (of: string, value: string, { said, at, confidence }: Omit<FromTalk<unknown>, 'what'>) => ({
    of,
    value: short(value),
    said: sentence(said),
    ...timed(at),
    confidence: Math.round(confidence * 100) / 100,
  });
  const values = draft.groups.flatMap(({ group, build, evidence }) =>
    evidence.map((one) => entry(idOf(group), build === null ? one.field : `${one.field} on build ${build}`, one)),
  );
  const steps = draft.stages.flatMap(({ steps: all }) =>
    all.flatMap((step) => [
      ...step.cautions.map((one) => entry(step.id, 'caution', one)),
      ...step.stops.map((one) => entry(step.id, 'stop sign', one)),
      ...step.holds.map((one) => entry(step.id, 'check', one)),
      ...step.measures.map((one) => entry(step.id, 'measure', one)),
      ...[step.wait].flatMap((one) => (one === null ? [] : [entry(step.id, 'wait', one)])),
      ...[step.optional].flatMap((one) => (one === null ? [] : [entry(step.id, 'optional', one)])),
      ...[step.helper].flatMap((one) => (one === null ? [] : [entry(step.id, 'helper', one)])),
      ...[step.why].flatMap((one) => (one === null ? [] : [entry(step.id, 'why', one)])),
    ]),
  );
  return [
    ...values,
    ...draft.before.map((one, index) => entry(`before-${index + 1}`, 'before', one)),
    ...draft.cautions.map((one) => entry('cautions', 'caution', one)),
    ...steps,
    ...draft.supplies.map((one) => entry(one.what.id, one.what.kind, one)),
    ...draft.afterwards.map((one, index) => entry(`after-${index + 1}`, 'afterwards', one)),
  ];
}

const timed = (at: number | null): object => (at === null ? {} : { at: clock(at) });

/** As long as the format lets a sentence be, and a name. */
const sentence = (text: string) => (text.length <= 400 ? text : `${text.slice(0, 399)}…`);
const short = (text: string) => text.slice(0, 120);

function slug(name: string, otherwise: string): string {
  const words = name.toLowerCase().match(/[a-z0-9]+/g) ?? [otherwise];
  return words.join('-').slice(0, 56).replace(/-$/, '');
}

function unique(id: string, taken: Set<string>): string {
  let free = id;
  for (let number = 2; taken.has(free); number++) free = `${id}-${number}`;
  taken.add(free);
  return free;
}

/** "1:02:03" from the start of the recording. */
function clock(milliseconds: number): string {
  const seconds = Math.floor(milliseconds / 1000);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}
