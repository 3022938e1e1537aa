import { stepLabel } from '../review/questions/asking.ts';
import type { Fasteners } from '../review/questions/fasteners.ts';
import type { FeedbackSheet } from '../review/questions/feedback.ts';
import type { Overview } from '../review/questions/overview.ts';
import { groupSentence } from '../review/questions/overview.ts';
import type { PersonMeasures } from '../review/questions/people.ts';
import type { StepMeasures } from '../review/questions/step-measures.ts';
import type { Facts, StepsAnswer } from '../review/review.ts';
import { fastenersTable } from '../review/tables.ts';
import { reviewWords } from '../review/words/words.ts';

/** The terminal speaks English. */
const words = reviewWords('en');
const { clock, duration, percent } = words;
const many = (count: number, one: string, several = `${one}s`): string => `${count} ${count === 1 ? one : several}`;

/** What a trainer should know within a minute, and the tables to look further. */
export function overviewText(
  facts: Facts,
  overview: Overview,
  people: readonly PersonMeasures[],
  steps: readonly StepsAnswer[],
): readonly string[] {
  const codes = new Map(facts.people.map(({ person, code }) => [person, code]));
  return [
    `${many(overview.runs, 'run')}, ${overview.signed} signed, ${many(overview.people, 'person', 'people')}, ${overview.from ?? '?'} to ${overview.to ?? '?'}; ${many(facts.events, 'event')} read.`,
    ...overview.cautions,
    '',
    'WHAT STANDS OUT',
    ...(overview.findings.length === 0 ? [words.overview.nothing] : overview.findings.map(({ text }) => `- ${text}`)),
    '',
    'WHERE TIME GOES',
    overview.timeSentence,
    '',
    'WHO IS STUCK WHERE',
    overview.stuckSentence,
    '',
    'IS IT GETTING BETTER',
    overview.trendSentence,
    ...table(
      ['month', 'runs', 'pace', 'from', 'to', 'questions a run'],
      overview.months.map((one) => [
        one.month,
        String(one.runs),
        number(one.pace),
        number(one.interval?.low),
        number(one.interval?.high),
        number(one.questions, 1),
      ]),
    ),
    ...(overview.groups.length === 0 ? [] : ['', 'GROUP AGAINST GROUP', ...overview.groups.map((group) => groupSentence(group, words))]),
    '',
    'PEOPLE (pace 1 is everybody’s median; the rate is what each doubling of runs brings the time to)',
    ...table(
      ['code', 'person', 'group', 'signed', 'pace', 'first', 'latest', 'rate', 'rate from', 'to', 'questions a run'],
      people.map((one) => [
        codes.get(one.person) ?? '',
        one.called,
        one.group ?? '',
        String(one.signed),
        number(one.pace),
        number(one.firstPace),
        number(one.latestPace),
        share(one.rate?.rate),
        share(one.rate?.interval.low),
        share(one.rate?.interval.high),
        number(one.questionsPerRun, 1),
      ]),
    ),
    ...steps.flatMap((procedure) => [
      '',
      `${procedure.title.toUpperCase()} (${procedure.procedure}, ${many(procedure.runs, 'run')})`,
      ...stepLines(procedure.steps),
    ]),
    '',
    'Medians are of active time, in brackets where the true median lies with at least 95 % confidence; no brackets: fewer than six times.',
    words.outlierRule,
  ];
}

function stepLines(steps: readonly StepMeasures[]): readonly string[] {
  return table(
    ['step', 'id', 'what', 'runs', 'median', '(95 %)', 'quartiles', '90th', 'trouble', 'of time', 'of spread', 'outliers'],
    steps.map((one) => [
      one.name.number,
      one.name.id,
      stepLabel({ number: '', say: one.name.say }, 40),
      String(one.runs),
      seconds(one.active?.median),
      one.active?.interval == null ? '' : `(${clock(one.active.interval.low)}–${clock(one.active.interval.high)})`,
      one.active === null ? '' : `${clock(one.active.lowerQuartile)}–${clock(one.active.upperQuartile)}`,
      seconds(one.active?.ninetieth),
      number(one.trouble, 1),
      percent(one.timeShare),
      share(one.spreadShare),
      String(one.outliers),
    ]),
  );
}

/** One step of one procedure. */
export function stepText({
  title,
  measures,
  fasteners,
}: {
  readonly title: string;
  readonly measures: StepMeasures;
  readonly fasteners: Fasteners;
}): readonly string[] {
  const { active, name } = measures;
  const kinds = Object.entries(measures.questionsByKind).sort(([, one], [, other]) => other - one);
  const lines = [
    `${title}: step ${name.number} (${name.id})`,
    name.say,
    '',
    active === null
      ? `${many(measures.runs, 'run')}, none carried it out.`
      : `${many(active.count, 'time')}: median ${duration(active.median)}, quartiles ${duration(active.lowerQuartile)} and ${duration(active.upperQuartile)}, 90th centile ${duration(active.ninetieth)}, standard deviation ${duration(active.deviation)}.`,
    active?.interval == null
      ? 'Too few times to say where the true median lies.'
      : `The true median lies between ${duration(active.interval.low)} and ${duration(active.interval.high)} (${percent(active.interval.confidence)} confidence).`,
    `Pauses take ${duration(measures.pausedMean)} a run on average, waits ${duration(measures.waitedMedian)}; ${many(measures.outliers, 'outlier')}.`,
    `${measures.questions} questions, ${measures.repeats} repeats, ${measures.misheard} misheard, ${measures.refused} refused, ${measures.stepBacks} step-backs, ${measures.undos} undos, ${measures.stops} stops, ${measures.skips} skips, ${measures.holdsFailed} failed holds, ${measures.leftOut} fasteners left out.`,
    kinds.length === 0 ? '' : `Asked for: ${kinds.map(([kind, count]) => `${kind} ${count}`).join(', ')}.`,
    `It takes ${percent(measures.timeShare)} of the time${measures.spreadShare === null ? '' : ` and explains ${percent(measures.spreadShare)} of the spread of the total`}.`,
  ].filter((line, index) => line !== '' || index === 2);
  if (fasteners.fasteners.length === 0) return lines;
  const { columns, rows, title: heading, note } = fastenersTable(fasteners, name.id, words);
  const shown = rows.map((row) =>
    row.map((cell, index) => (typeof cell === 'number' && columns[index]?.kind === 'time' ? clock(cell) : String(cell ?? ''))),
  );
  return [
    ...lines,
    '',
    heading.toUpperCase(),
    ...table(
      columns.map(({ label }) => label.toLowerCase()),
      shown,
    ),
    ...(note === null ? [] : [note]),
  ];
}

/** The feedback sheet for one person. */
export function feedbackText(sheet: FeedbackSheet): readonly string[] {
  return [
    `FEEDBACK FOR ${sheet.called.toUpperCase()}${sheet.group === null ? '' : `, ${sheet.group}`}`,
    `${many(sheet.runs, 'run')}, ${sheet.from ?? '?'} to ${sheet.to ?? '?'}`,
    ...sheet.cautions,
    '',
    'What goes well',
    ...(sheet.good.length === 0 ? ['- Too little to say yet.'] : sheet.good.map((line) => `- ${line}`)),
    '',
    'What to work on',
    ...sheet.toDo.map((line) => `- ${line}`),
    '',
    'How it has gone',
    ...sheet.learning.map(({ title, sentence }) => `- ${title}. ${sentence}`),
  ];
}

function table(heads: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  if (rows.length === 0) return [];
  const widths = heads.map((head, column) => Math.max(head.length, ...rows.map((row) => (row[column] ?? '').length)));
  const isNumber = heads.map((_, column) => rows.every((row) => /^[\d.,:–%() −-]*$/.test(row[column] ?? '')));
  const line = (row: readonly string[]): string =>
    row
      .map((cell, column) => (isNumber[column] === true ? cell.padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0)))
      .join('  ')
      .trimEnd();
  return [line(heads), ...rows.map(line)];
}

function number(value: number | null | undefined, digits = 2): string {
  return value === null || value === undefined || Number.isNaN(value) ? '' : value.toFixed(digits);
}

function share(value: number | null | undefined): string {
  return value === null || value === undefined ? '' : percent(value);
}

function seconds(value: number | undefined): string {
  return value === undefined ? '' : clock(value);
}
