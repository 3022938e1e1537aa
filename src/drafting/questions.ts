import type { DraftGroup } from './draft.ts';
import type { DraftOutline } from './draft-steps.ts';
import type { Doubt } from './talk.ts';

/** What the talk leaves missing, doubtful or contradictory. A draft is not run before each has an answer. */
export interface OpenQuestion {
  readonly number: number;
  /** The group that it is about, or null for the whole job. */
  readonly about: string | null;
  /** The value that an answer would fill in, as evidence names it: "torque", "torque on build K"; null where it is about none. */
  readonly value: string | null;
  readonly ask: string;
  /** What was heard, as the file would write it, where it is not sure enough to be written: the author takes it or not. */
  readonly heard: string | null;
  /** The sentence that raised it, or null where nothing was said. */
  readonly said: string | null;
  /** Milliseconds from the start of the recording, where known. */
  readonly at: number | null;
}

/** What the file has a key for; a size stands in its drive. */
const filled: ReadonlySet<string> = new Set(['count', 'size', 'drive', 'square', 'torque', 'angle', 'thread']);

/** Below this a value is asked about although it was heard. Our own number. */
const doubtfulBelow = 0.65;

export interface SaidAt {
  readonly said: string;
  readonly at: number | null;
}

/** Numbers the questions from 1: those of the whole job first, then in the order of the talk. */
export function questionsOf(
  groups: readonly DraftGroup[],
  doubts: readonly Doubt[],
  { sides, stages }: Pick<DraftOutline, 'sides' | 'stages'>,
  saidIn: (sentence: number) => SaidAt,
): readonly OpenQuestion[] {
  const asked: Omit<OpenQuestion, 'number'>[] = [];
  const nothingSaid = { heard: null, said: null, at: null };
  asked.push({ about: null, value: 'vehicle', ask: 'Which vehicle is this for?', ...nothingSaid });
  asked.push({ about: null, value: 'author', ask: 'Who answers for this procedure as its author?', ...nothingSaid });
  if (groups.some((group) => group.evidence.some(({ inferred }) => inferred)))
    asked.push({
      about: null,
      value: null,
      ask: 'Sizes were said without the drive and were taken for hex. Is that right for all of them?',
      ...nothingSaid,
    });
  for (const group of groups) {
    const build = group.build === null ? '' : ` on build ${group.build}`;
    const raise = (field: string, ask: string, from: SaidAt | undefined, heard: string | null = null) =>
      asked.push({
        heard,
        about: group.group,
        value: filled.has(field) ? `${field === 'size' ? 'drive' : field}${build}` : null,
        ask: `${group.name}${build}: ${ask}`,
        said: from?.said ?? group.step,
        at: from?.at ?? group.at,
      });
    const from = (field: string) => group.evidence.find((one) => one.field === field);
    const held = (field: string) => group.heldBack.find((one) => one.field === field);
    const open = (field: 'count' | 'size' | 'torque', key: string, ask: string) => raise(key, ask, held(field), held(field)?.text ?? null);
    if (group.count === null) open('count', 'count', 'how many are there?');
    if (group.size === null) open('size', 'drive', 'which drive and size turns them?');
    else if (group.drive === null) raise('drive', `which drive has the size ${group.size}?`, from('size'));
    if (group.torque === null) open('torque', 'torque', 'which torque?');
    else if (group.unit === null) raise('torque', `in which unit is the torque of ${group.torque}?`, from('torque'));
    for (const one of group.evidence) {
      if (!one.inferred && one.confidence < doubtfulBelow) raise(one.field, `is the ${one.field} right as heard?`, one);
    }
  }
  for (const { kind, group, field, evidence, said } of doubts) {
    const ask = {
      unassigned: `which fasteners is "${evidence.words}" for?`,
      contradiction: `which ${field} is right? ${said}`,
      total: `which count is right? ${said}`,
    }[kind];
    const value = group !== null && filled.has(field) ? (field === 'size' ? 'drive' : field) : null;
    asked.push({ about: group === null ? null : String(group.id), value, ask, heard: null, ...saidIn(evidence.sentence) });
  }
  for (const { said, at } of sides)
    asked.push({
      about: null,
      value: null,
      ask: 'Another recording is spoken of here. Which side procedure is meant, and at which step?',
      heard: null,
      said,
      at,
    });
  for (const { measures } of stages.flatMap(({ steps }) => steps))
    for (const { what, said, at } of measures)
      if (what.min === null && what.max === null)
        asked.push({ about: null, value: null, ask: `${what.name}: between which limits?`, heard: null, said, at });
  const unique = asked.filter(
    (one, index) => asked.findIndex((other) => other.about === one.about && other.ask === one.ask && other.said === one.said) === index,
  );
  return unique.map((one, index) => ({ number: index + 1, ...one }));
}
