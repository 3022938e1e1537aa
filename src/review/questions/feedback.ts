import { duration, listed, localDay, longerOrShorter, many, percent, spokenDuration } from '../wording.ts';
import type { Asking } from './asking.ts';
import { eachRun, fewRuns, isSigned, proceduresSelected, stepLabel } from './asking.ts';
import type { HoldLeftOut } from './holds.ts';
import { holdsLeftOut } from './holds.ts';
import type { Learning } from './learning.ts';
import { learning } from './learning.ts';
import type { PersonMeasures } from './people.ts';
import { peopleMeasures } from './people.ts';
import type { HeatCell, Stuck } from './stuck.ts';
import { heatMap, stuckPeople } from './stuck.ts';
import type { StepName } from './asking.ts';

/** One page for one apprentice. Every line can be read as it stands; `spoken` is the whole in the order to read it aloud. */
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
  readonly spoken: string;
}

const mostLines = 4;

/**
 * What to tell one person. The selection must hold the others too: everything is told beside what is usual, and nobody is ranked.
 * Null when the person has no run in it.
 */
export function feedbackSheet(asking: Asking, person: number): FeedbackSheet | null {
  const { logbook } = asking;
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
    const all = learning(asking, procedure, null, person);
    const curve = all.learners.find((learner) => learner.person === person);
    return curve === undefined || curve.trials.length === 0
      ? []
      : [{ title: all.title, aim: all.aim, curve, sentence: learningSentence(curve, all.aim) }];
  });
  const stuck = procedures.flatMap((procedure) => stuckPeople(asking, procedure)).filter((one) => one.person === person);
  const quick = procedures.flatMap((procedure) => quickSteps(asking, procedure, person));
  const holds = holdsLeftOut(asking).filter((hold) => hold.person === person && (hold.standsOut || hold.left >= 2));
  const good = goodLines(measures, quick).slice(0, mostLines);
  const toDo = toDoLines(holds, stuck).slice(0, mostLines);
  const signed = own.filter((run) => isSigned(logbook, run)).length;
  const cautions = signed < fewRuns ? [`${many(signed, 'signed run')} so far: too few to be sure of anything here.`] : [];
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
    spoken: spokenSheet(measures.called, own.length, good, toDo, curves, cautions),
  };
}

function goodLines(measures: PersonMeasures, quick: readonly { readonly name: StepName; readonly cell: HeatCell }[]): readonly string[] {
  const lines: string[] = [];
  const { firstPace, latestPace } = measures;
  if (firstPace !== null && latestPace !== null && latestPace < firstPace * 0.97)
    lines.push(`Your latest runs were ${longerOrShorter(latestPace / firstPace)} than your first ones.`);
  if (measures.holdsFailed > 0)
    lines.push(`${many(measures.holdsFailed, 'time')} you answered no at a hold point and put it right. That is what hold points are for.`);
  for (const { name, cell } of quick.slice(0, 2))
    lines.push(
      `You are sure at “${stepLabel(name, 60)}”: ${duration(cell.median)}, where your pace elsewhere would give ${duration(cell.expected)}.`,
    );
  if (measures.questionsPerRun > 0)
    lines.push(`You asked ${Number(measures.questionsPerRun.toFixed(1))} questions a run. Keep asking when you are not sure.`);
  return lines;
}

function toDoLines(holds: readonly HoldLeftOut[], stuck: readonly Stuck[]): readonly string[] {
  const lines: string[] = [];
  for (const hold of holds)
    lines.push(
      `You went by the hold point of “${stepLabel(hold.name, 60)}” in ${hold.left} of ${many(hold.of, 'run')}. It is there for safety: answer it every time, or say why it cannot be answered.`,
    );
  for (const { name, cell } of stuck)
    lines.push(
      `“${stepLabel(name, 60)}” takes you ${duration(cell.median)}; your pace elsewhere would give ${duration(cell.expected)}. Ask to be shown it once.`,
    );
  if (lines.length === 0) lines.push('Nothing stands out. Go on as you do.');
  return lines;
}

function learningSentence({ curve, trials, aim }: Learning['learners'][number], aimed: number): string {
  const last = trials.at(-1);
  if (curve === null || last === undefined) return `${many(trials.length, 'run')} so far: too few for a learning curve.`;
  const { rateInterval } = curve;
  const steady = rateInterval.high >= 1 ? ' This may still be chance.' : '';
  const where = aimSentence(aim, aimed, trials.length);
  return `Run ${last.run} took ${duration(last.time)}. Each doubling of runs brings the time to ${percent(curve.rate)} (${percent(rateInterval.low)} to ${percent(rateInterval.high)}).${steady} ${where}`;
}

export function aimSentence(aim: Learning['learners'][number]['aim'], aimed: number, runs: number): string {
  if (aim === null) return '';
  if (aim.kind === 'not in sight') return `On this curve the aim of ${duration(aimed)} is not in sight.`;
  if (aim.run <= runs) return `The aim of ${duration(aimed)} is reached.`;
  const latest = aim.latest === null ? 'or much later' : `at the latest run ${aim.latest}`;
  return `On this curve the aim of ${duration(aimed)} comes at run ${aim.run} (at the earliest ${aim.earliest ?? aim.run}, ${latest}).`;
}

/** Steps where a person is notably quicker than their own pace, with enough runs behind it. */
function quickSteps(asking: Asking, procedure: number, person: number): { readonly name: StepName; readonly cell: HeatCell }[] {
  const map = heatMap(asking, procedure);
  return map.cells
    .filter((cell) => cell.person === person && cell.ratio < 0.8 && cell.expected >= 30)
    .sort((one, other) => one.ratio - other.ratio)
    .flatMap((cell) => map.steps.filter(({ step }) => step === cell.step).map((name) => ({ name, cell })));
}

function spokenSheet(
  called: string,
  runs: number,
  good: readonly string[],
  toDo: readonly string[],
  curves: FeedbackSheet['learning'],
  cautions: readonly string[],
): string {
  const times = curves.flatMap(({ title, curve }) => {
    const last = curve.trials.at(-1);
    return last === undefined ? [] : [`${title}: ${spokenDuration(last.time)} in run ${last.run}`];
  });
  const text = [
    `Feedback for ${called}, from ${many(runs, 'run')}.`,
    ...cautions,
    'What goes well.',
    ...good,
    'What to work on.',
    ...toDo,
    times.length === 0 ? '' : `Your latest times. ${listed(times)}.`,
  ];
  return text
    .filter((line) => line !== '')
    .join(' ')
    .replace(/[“”]/g, '')
    .replace(/(\d) s\b/g, '$1 seconds')
    .replace(/(\d) min\b/g, '$1 minutes')
    .replace(/ %/g, ' percent');
}
