import { localDay } from '../wording.ts';
import type { ReviewWords } from '../words/en.ts';
import type { Asking } from './asking.ts';
import { eachRun, fewRuns, isSigned, proceduresSelected, stepLabel, stepName } from './asking.ts';
import type { HoldLeftOut } from './holds.ts';
import { holdsLeftOut } from './holds.ts';
import type { Learning } from './learning.ts';
import { learning } from './learning.ts';
import type { PersonMeasures } from './people.ts';
import { peopleMeasures } from './people.ts';
import type { Heat, HeatCell, Stuck } from './stuck.ts';
import { cellsOfRow, heatOf, stuckPeople } from './stuck.ts';
import type { StepName } from './asking.ts';

/** One page for one apprentice. Every line can be read as it stands; `spoken` is the whole, sentence by sentence, in the order to read it aloud. */
export interface FeedbackSheet {
  readonly person: number;
  readonly called: string;
  readonly group: string | null;
  readonly from: string | null;
  readonly to: string | null;
  readonly runs: number;
  readonly good: readonly string[];
  readonly toDo: readonly string[];
  readonly learning: readonly {
    readonly title: string;
    readonly sentence: string;
    readonly curve: Learning['learners'][number];
    readonly aim: number;
  }[];
  readonly cautions: readonly string[];
  readonly spoken: readonly string[];
}

const mostLines = 4;
const farBeyond = 4;

/**
 * What to tell one person. The selection must hold the others too: everything is told beside what is usual, and nobody is ranked.
 * Null when the person has no run in it.
 */
export function feedbackSheet(asking: Asking, person: number): FeedbackSheet | null {
  const { logbook, words } = asking;
  const { runs } = logbook;
  const measures = peopleMeasures(asking).find((one) => one.person === person);
  if (measures === undefined) return null;
  const own: number[] = [];
  eachRun(asking, (run) => {
    if (runs.person[run] === person) own.push(run);
  });
  const days = own.map((run) => localDay(runs.begun[run] ?? 0, runs.offset[run] ?? 0)).sort();
  const procedures = [...proceduresSelected(asking)].filter((procedure) => own.some((run) => runs.procedure[run] === procedure));
  const curves = procedures.flatMap((procedure) => {
    const all = learning(asking, procedure, null, { only: person });
    const curve = all.learners.find((learner) => learner.person === person);
    return curve === undefined || curve.trials.length === 0
      ? []
      : [{ title: all.title, aim: all.aim, curve, sentence: learningSentence(curve, all.aim, words) }];
  });
  const heats = procedures.map((procedure) => heatOf(asking, procedure));
  const stuck = heats.flatMap((heat) => stuckPeople(asking, heat)).filter((one) => one.person === person);
  const quick = heats.flatMap((heat) => quickSteps(asking, heat, person));
  const holds = holdsLeftOut(asking).filter((hold) => hold.person === person && (hold.standsOut || hold.left >= 2));
  const good = goodLines(measures, quick, words).slice(0, mostLines);
  const toDo = toDoLines(holds, stuck, words).slice(0, mostLines);
  const signed = own.filter((run) => isSigned(logbook, run)).length;
  const cautions = signed < fewRuns ? [words.feedback.fewRuns(signed)] : [];
  return {
    person,
    called: measures.called,
    group: measures.group,
    from: days[0] ?? null,
    to: days.at(-1) ?? null,
    runs: own.length,
    good,
    toDo,
    learning: curves,
    cautions,
    spoken: spokenSheet(measures.called, own.length, good, toDo, curves, cautions, words),
  };
}

function goodLines(
  { firstPace, latestPace, holdsFailed, questionsPerRun }: PersonMeasures,
  quick: readonly { readonly name: StepName; readonly cell: HeatCell }[],
  words: ReviewWords,
): readonly string[] {
  const own = words.feedback;
  const lines: string[] = [];
  if (firstPace !== null && latestPace !== null && latestPace < firstPace * 0.97) lines.push(own.quicker(latestPace / firstPace));
  if (holdsFailed > 0) lines.push(own.holdsFailed(holdsFailed));
  for (const { name, cell } of quick.slice(0, 2)) lines.push(own.sure(quotedStep(name, words), cell.median, cell.expected));
  if (questionsPerRun > 0) lines.push(own.asks(questionsPerRun));
  return lines;
}

function toDoLines(holds: readonly HoldLeftOut[], stuck: readonly Stuck[], words: ReviewWords): readonly string[] {
  const own = words.feedback;
  const lines = [
    ...holds.map((hold) => own.hold(quotedStep(hold.name, words), hold.left, hold.of)),
    ...stuck.map(({ name, cell }) => own.stuck(quotedStep(name, words), cell.median, cell.expected)),
  ];
  return lines.length === 0 ? [own.nothing] : lines;
}

function quotedStep(name: StepName, words: ReviewWords): string {
  return words.quoted(stepLabel(name, 60));
}

function learningSentence({ curve, trials, aim }: Learning['learners'][number], aimed: number, words: ReviewWords): string {
  const last = trials.at(-1);
  if (curve === null || last === undefined) return words.feedback.tooFewForCurve(trials.length);
  const { low, high } = curve.rateInterval;
  return `${words.feedback.curve(last.run, last.time, curve.rate, low, high)} ${aimSentence(aim, aimed, trials.length, words)}`.trimEnd();
}

export function aimSentence(aim: Learning['learners'][number]['aim'], aimed: number, runs: number, words: ReviewWords): string {
  if (aim === null) return '';
  if (aim.kind === 'not in sight') return words.aim.notInSight(aimed);
  if (aim.run <= runs) return words.aim.reached(aimed);
  // So far beyond the runs that were seen, the number would be read as more than it is.
  if (aim.run > farBeyond * runs) return words.aim.farOff(aimed);
  return words.aim.comes(aimed, aim.run, aim.earliest ?? aim.run, aim.latest);
}

/** Steps where a person is notably quicker than their own pace, with enough runs behind it. */
function quickSteps({ logbook }: Asking, heat: Heat, person: number): { readonly name: StepName; readonly cell: HeatCell }[] {
  const row = heat.people.indexOf(person);
  if (row < 0) return [];
  return cellsOfRow(heat, row)
    .filter(({ ratio, expected }) => ratio < 0.8 && expected >= 30)
    .toSorted((one, other) => one.ratio - other.ratio)
    .map((cell) => ({ name: stepName(logbook, cell.step), cell }));
}

function spokenSheet(
  called: string,
  runs: number,
  good: readonly string[],
  toDo: readonly string[],
  curves: FeedbackSheet['learning'],
  cautions: readonly string[],
  words: ReviewWords,
): readonly string[] {
  const own = words.feedback;
  const times = curves.flatMap(({ title, curve }) => {
    const last = curve.trials.at(-1);
    return last === undefined ? [] : [own.spokenTime(title, last.time, last.run)];
  });
  return [
    own.spokenHead(called, runs),
    ...cautions,
    ...(good.length === 0 ? [] : [own.goodHead, ...good]),
    own.toDoHead,
    ...toDo,
    ...(times.length === 0 ? [] : [own.latestTimes, ...times]),
  ].map(own.aloud);
}
