import type { FairTimes } from './questions/fair-times.ts';
import type { Fasteners } from './questions/fasteners.ts';
import type { GroupComparison } from './questions/group-comparison.ts';
import type { HoldLeftOut } from './questions/holds.ts';
import type { Learning } from './questions/learning.ts';
import type { Orders } from './questions/orders.ts';
import type { PersonMeasures } from './questions/people.ts';
import type { RunLine } from './questions/run-list.ts';
import type { StepMeasures } from './questions/step-measures.ts';
import type { HeatMap, Stuck } from './questions/stuck.ts';
import { latestRuns } from './questions/stuck.ts';
import type { Mark, Timeline } from './questions/timeline.ts';
import type { MonthPace } from './questions/trend.ts';
import type { StepName } from './questions/asking.ts';
import type { Table, TableCell, TableColumn } from './table.ts';
import { localDay, localTime } from './wording.ts';
import type { ReviewWords } from './words/en.ts';

/** A column with what a row has to say in it: one list, so that no cell can slip under another heading. */
interface Field<Row> extends TableColumn {
  readonly cell: (row: Row) => TableCell;
}

type MakeField = <Row>(label: string, cell: (row: Row) => TableCell) => Field<Row>;

const fieldOf =
  (kind: TableColumn['kind']): MakeField =>
  (label, cell) => ({ label, kind, cell });

const text = fieldOf('text');
const day = fieldOf('day');
const count = fieldOf('count');
const number = fieldOf('number');
const time = fieldOf('time');
const share = fieldOf('share');

function tableOf<Row>(
  { name, title, note = null }: Pick<Table, 'name' | 'title'> & Partial<Pick<Table, 'note'>>,
  rows: readonly Row[],
  fields: readonly Field<Row>[],
): Table {
  return {
    name,
    title,
    columns: fields.map(({ label, kind }) => ({ label, kind })),
    rows: rows.map((row) => fields.map(({ cell }) => cell(row))),
    note,
  };
}

/** A step by its number, or its id where no plan came along, and its sentence. */
function stepFields({ table: own }: ReviewWords): readonly Field<{ readonly name: StepName }>[] {
  return [text(own.step, ({ name }) => (name.number === '' ? name.id : name.number)), text(own.what, ({ name }) => name.say)];
}

/** Who, at which step of which procedure. */
function placeFields({ table: own }: ReviewWords): readonly Field<{ readonly called: string; readonly name: StepName }>[] {
  return [
    text(own.person, ({ called }) => called),
    text(own.procedure, ({ name }) => name.procedure),
    text(own.step, ({ name }) => name.number),
    text(own.what, ({ name }) => name.say),
  ];
}

function spreadFields({ table: own }: ReviewWords): readonly Field<{ readonly active: StepMeasures['active'] }>[] {
  return [
    time(own.median, ({ active }) => active?.median ?? null),
    time(own.from, ({ active }) => active?.interval?.low ?? null),
    time(own.to, ({ active }) => active?.interval?.high ?? null),
    time(own.lowerQuartile, ({ active }) => active?.lowerQuartile ?? null),
    time(own.upperQuartile, ({ active }) => active?.upperQuartile ?? null),
    time(own.ninetieth, ({ active }) => active?.ninetieth ?? null),
    time(own.deviation, ({ active }) => active?.deviation ?? null),
  ];
}

export function stepsTable(
  steps: readonly StepMeasures[],
  procedure: string,
  reference: ReadonlyMap<number, number> | null,
  words: ReviewWords,
): Table {
  const own = words.table;
  const note = `${own.steps.note} ${own.interval} ${words.outlierRule} ${own.steps.negative}`;
  return tableOf<StepMeasures>({ name: `steps-${procedure}`, title: own.steps.title, note }, steps, [
    ...stepFields(words),
    count(own.runs, ({ runs }) => runs),
    ...spreadFields(words),
    ...(reference === null ? [] : [time<StepMeasures>(own.steps.reference, ({ name }) => reference.get(name.step) ?? null)]),
    count(own.outliers, ({ outliers }) => outliers),
    time(own.steps.pausesMean, ({ pausedMean }) => pausedMean),
    time(own.steps.waitsMedian, ({ waitedMedian }) => waitedMedian),
    count(own.questions, ({ questions }) => questions),
    text(own.steps.askedFor, ({ questionsByKind }) => kindsText(questionsByKind, words)),
    count(own.repeats, ({ repeats }) => repeats),
    count(own.misheard, ({ misheard }) => misheard),
    count(own.refused, ({ refused }) => refused),
    count(own.stepBacks, ({ stepBacks }) => stepBacks),
    count(own.undos, ({ undos }) => undos),
    count(own.stops, ({ stops }) => stops),
    count(own.skips, ({ skips }) => skips),
    count(own.failedHolds, ({ holdsFailed }) => holdsFailed),
    count(own.leftOut, ({ leftOut }) => leftOut),
    share(own.steps.timeShare, ({ timeShare }) => timeShare),
    share(own.steps.spreadShare, ({ spreadShare }) => spreadShare),
  ]);
}

function kindsText(kinds: Readonly<Record<string, number>>, words: ReviewWords): string {
  return Object.entries(kinds)
    .filter(([kind]) => kind !== 'repeat')
    .sort(([, one], [, other]) => other - one)
    .map(([kind, times]) => `${words.question(kind)} ${times}`)
    .join(', ');
}

export function fastenersTable({ fasteners, order }: Fasteners, step: string, words: ReviewWords): Table {
  const own = words.table;
  const note = `${own.fasteners.note(order === 'written')} ${own.interval}`;
  return tableOf({ name: `fasteners-${step}`, title: own.fasteners.title, note }, fasteners, [
    text(own.group, ({ groupName }) => groupName),
    count(own.fasteners.pass, ({ pass }) => pass),
    text(own.fasteners.position, ({ positionName }) => positionName),
    count(own.fasteners.tightened, ({ tightened }) => tightened),
    ...spreadFields(words),
    count(own.fasteners.outOfOrder, ({ outOfOrder }) => outOfOrder),
  ]);
}

export function peopleTable(people: readonly PersonMeasures[], words: ReviewWords): Table {
  const own = words.table;
  return tableOf({ name: 'people', title: own.people.title, note: own.people.note }, people, [
    text(own.person, ({ called }) => called),
    text(own.group, ({ group }) => group),
    count(own.runs, ({ runs }) => runs),
    count(own.people.signed, ({ signed }) => signed),
    number(own.pace, ({ pace }) => pace),
    number(own.from, ({ paceInterval }) => paceInterval?.low ?? null),
    number(own.to, ({ paceInterval }) => paceInterval?.high ?? null),
    number(own.people.firstPace, ({ firstPace }) => firstPace),
    number(own.people.latestPace, ({ latestPace }) => latestPace),
    share(own.people.learningRate, ({ rate }) => rate?.rate ?? null),
    share(own.people.rateFrom, ({ rate }) => rate?.interval.low ?? null),
    share(own.people.rateTo, ({ rate }) => rate?.interval.high ?? null),
    number(own.people.questionsPerRun, ({ questionsPerRun }) => questionsPerRun),
    number(own.people.repeatsPerRun, ({ repeatsPerRun }) => repeatsPerRun),
    number(own.people.misheardPerRun, ({ misheardPerRun }) => misheardPerRun),
    count(own.stepBacks, ({ stepBacks }) => stepBacks),
    count(own.undos, ({ undos }) => undos),
    count(own.skips, ({ skips }) => skips),
    count(own.failedHolds, ({ holdsFailed }) => holdsFailed),
    time(own.timeAtWork, ({ active }) => active),
  ]);
}

export function learningTable({ learners, procedure, aim }: Learning, words: ReviewWords): Table {
  const own = words.table;
  return tableOf({ name: `learning-${procedure}`, title: own.learning.title, note: own.learning.note }, learners, [
    text(own.person, ({ called }) => called),
    count(own.runs, ({ trials }) => trials.length),
    time(own.learning.first, ({ curve }) => curve?.first ?? null),
    share(own.rate, ({ curve }) => curve?.rate ?? null),
    share(own.from, ({ curve }) => curve?.rateInterval.low ?? null),
    share(own.to, ({ curve }) => curve?.rateInterval.high ?? null),
    number('R²', ({ curve }) => curve?.rSquared ?? null),
    time(own.aim, () => aim),
    count(own.learning.aimAtRun, ({ aim: reached }) => (reached?.kind === 'run' ? reached.run : null)),
    count(own.learning.earliest, ({ aim: reached }) => (reached?.kind === 'run' ? reached.earliest : null)),
    count(own.learning.latest, ({ aim: reached }) => (reached?.kind === 'run' ? reached.latest : null)),
  ]);
}

export function trialsTable({ learners, procedure }: Learning, words: ReviewWords): Table {
  const own = words.table;
  const trials = learners.flatMap(({ called, trials: all, drawn }) =>
    all.map(({ run, time: taken }) => ({ called, run, taken, curve: drawn[run - 1] })),
  );
  return tableOf({ name: `learning-runs-${procedure}`, title: own.trials.title }, trials, [
    text(own.person, ({ called }) => called),
    count(own.run, ({ run }) => run),
    time(own.timeAtWork, ({ taken }) => taken),
    time(own.trials.curve, ({ curve }) => curve?.time ?? null),
    time(own.from, ({ curve }) => curve?.low ?? null),
    time(own.to, ({ curve }) => curve?.high ?? null),
  ]);
}

export function heatTable({ people, steps, cells, procedure }: HeatMap, words: ReviewWords): Table {
  const own = words.table;
  const byPlace = new Map(cells.map((cell) => [`${cell.person}/${cell.step}`, cell]));
  return tableOf<HeatMap['people'][number]>(
    { name: `people-by-step-${procedure}`, title: own.heat.title, note: own.heat.note(latestRuns) },
    people,
    [
      text(own.person, ({ called }) => called),
      number(own.pace, ({ pace }) => pace),
      ...steps.map(({ step, number: label, id }) =>
        number<HeatMap['people'][number]>(label === '' ? id : label, ({ person }) => byPlace.get(`${person}/${step}`)?.ratio ?? null),
      ),
    ],
  );
}

export function stuckTable(stuck: readonly Stuck[], words: ReviewWords): Table {
  const own = words.table;
  return tableOf<Stuck>({ name: 'stuck', title: own.stuck.title, note: own.stuck.note(latestRuns) }, stuck, [
    ...placeFields(words),
    count(own.runs, ({ cell }) => cell.runs),
    time(own.median, ({ cell }) => cell.median),
    time(own.stuck.expected, ({ cell }) => cell.expected),
    number(own.ratio, ({ cell }) => cell.ratio),
    count(own.stuck.questions, ({ cell }) => cell.questions),
  ]);
}

export function groupsTable(groups: readonly GroupComparison[], words: ReviewWords): Table {
  const own = words.table;
  return tableOf({ name: 'groups', title: own.groups.title, note: own.groups.note }, groups, [
    text(own.group, ({ first }) => first.group ?? words.noGroup),
    count(own.groups.people, ({ first }) => first.people.length),
    number(own.groups.medianPace, ({ first }) => first.median),
    text(own.groups.against, ({ second }) => second.group ?? words.noGroup),
    count(own.groups.peopleThere, ({ second }) => second.people.length),
    number(own.groups.paceThere, ({ second }) => second.median),
    number(own.ratio, ({ ratio }) => ratio?.ratio ?? null),
    number(own.from, ({ ratio }) => ratio?.low ?? null),
    number(own.to, ({ ratio }) => ratio?.high ?? null),
    number('U', ({ ranks }) => ranks.u),
    number(own.groups.p, ({ ranks }) => ranks.twoSided),
    text(own.groups.test, ({ ranks }) => (ranks.method === 'exact' ? own.groups.exact : own.groups.normal)),
    share(own.groups.longer, ({ ranks }) => ranks.superiority),
  ]);
}

export function holdsTable(holds: readonly HoldLeftOut[], words: ReviewWords): Table {
  const own = words.table;
  return tableOf<HoldLeftOut>({ name: 'hold-points-left-out', title: own.holds.title, note: own.holds.note }, holds, [
    ...placeFields(words),
    count(own.holds.left, ({ left }) => left),
    count(own.holds.of, ({ of }) => of),
    count(own.holds.othersLeft, ({ othersLeft }) => othersLeft),
    count(own.holds.othersOf, ({ othersOf }) => othersOf),
    number('p', ({ chance }) => chance),
    text(own.holds.standsOut, ({ standsOut }) => (standsOut ? own.yes : own.no)),
  ]);
}

export function fairTable({ steps, procedure }: FairTimes, words: ReviewWords): Table {
  const own = words.table;
  return tableOf<FairTimes['steps'][number]>({ name: `fair-times-${procedure}`, title: own.fair.title, note: own.fair.note }, steps, [
    ...stepFields(words),
    count(own.fair.observed, ({ observed }) => observed),
    count(own.fair.rated, ({ rated }) => rated),
    time(own.fair.mean, ({ mean }) => mean),
    time(own.deviation, ({ deviation }) => deviation),
    time(own.fair.normal, ({ normal }) => normal),
    time(own.fair.fair, ({ standard }) => standard),
    count(own.fair.needed, ({ needed }) => (Number.isNaN(needed) ? null : Math.ceil(needed))),
    count(own.fair.missing, ({ missing }) => missing),
    count(own.fair.withoutOutliers, ({ outliersLeftOut }) => outliersLeftOut),
  ]);
}

export function ordersTable({ steps, moves, procedure }: Orders, words: ReviewWords): Table {
  const own = words.table;
  const sorted = moves.toSorted((one, other) => Number(one.kind === 'onward') - Number(other.kind === 'onward') || other.count - one.count);
  return tableOf({ name: `orders-${procedure}`, title: own.orders.title, note: own.orders.note }, sorted, [
    text(own.from, ({ from }) => steps[from]?.name.number ?? ''),
    text(own.orders.fromWhat, ({ from }) => steps[from]?.name.say ?? ''),
    text(own.to, ({ to }) => steps[to]?.name.number ?? ''),
    text(own.orders.toWhat, ({ to }) => steps[to]?.name.say ?? ''),
    count(own.orders.times, (move) => move.count),
    text(own.orders.kind, ({ kind }) => own.orders.kinds[kind]),
  ]);
}

export function runsTable(lines: readonly RunLine[], words: ReviewWords): Table {
  const own = words.table;
  return tableOf({ name: 'runs', title: own.runList.title, note: words.outlierRule }, lines, [
    day(own.day, ({ begun, offset }) => localDay(begun, offset)),
    text(own.person, ({ called }) => called),
    text(own.group, ({ group }) => group),
    text(own.procedure, ({ title }) => title),
    text(own.build, ({ build }) => build),
    count(own.run, (line) => line.number),
    text(own.ended, ({ ending }) => words.ending[ending]),
    time(own.timeAtWork, ({ active }) => active),
    time(own.pauses, ({ paused }) => paused),
    time(own.waits, ({ waited }) => waited),
    number(own.pace, ({ pace }) => pace),
    text(own.runList.outlier, ({ isOutlier }) => (isOutlier ? own.yes : '')),
    text(own.runList.log, ({ faults }) => faults.map((fault) => words.runFault[fault]).join('; ')),
    text(own.job, ({ job }) => job),
  ]);
}

export function monthsTable(months: readonly MonthPace[], words: ReviewWords): Table {
  const own = words.table;
  return tableOf({ name: 'months', title: own.months.title, note: own.months.note }, months, [
    text(own.months.month, ({ month }) => month),
    count(own.runs, ({ runs }) => runs),
    number(own.pace, ({ pace }) => pace),
    number(own.from, ({ interval }) => interval?.low ?? null),
    number(own.to, ({ interval }) => interval?.high ?? null),
    number(own.people.questionsPerRun, ({ questions }) => questions),
  ]);
}

export function timelineTable(run: Timeline, called: string, words: ReviewWords): Table {
  const own = words.table;
  const title = own.timeline.title(called, run.number, run.title, localTime(run.begun, run.offset));
  return tableOf<Timeline['steps'][number]>({ name: `run-${run.job}`, title }, run.steps, [
    ...stepFields(words),
    time(own.atWork, ({ active }) => active),
    time(own.timeline.waiting, ({ waited }) => waited),
    time(own.timeline.paused, ({ paused }) => paused),
    text(own.ended, ({ how }) => words.how[how]),
  ]);
}

export function marksTable(run: Timeline, words: ReviewWords): Table {
  const own = words.table;
  return tableOf({ name: `run-${run.job}-said`, title: own.marks.title }, run.marks, [
    time(own.marks.after, ({ at }) => at),
    text(own.step, ({ step }) => run.steps[step]?.name.number ?? ''),
    text(own.what, ({ kind }) => words.mark[kind]),
    text(own.marks.words, (mark) => markText(mark, words)),
  ]);
}

export function pairTable(first: Timeline, second: Timeline, called: readonly [string, string], words: ReviewWords): Table {
  const own = words.table;
  const names = [
    ...first.steps.map(({ name }) => name),
    ...second.steps.map(({ name }) => name).filter(({ step }) => !first.steps.some((one) => one.name.step === step)),
  ];
  const at = (run: Timeline, step: number): number | null => run.steps.find((one) => one.name.step === step)?.active ?? null;
  const steps = names.map((name) => ({ name, one: at(first, name.step), other: at(second, name.step) }));
  return tableOf<(typeof steps)[number]>({ name: 'two-runs', title: own.pair.title(called[0], called[1]) }, steps, [
    ...stepFields(words),
    time(called[0], ({ one }) => one),
    time(called[1], ({ other }) => other),
    time(own.pair.difference, ({ one, other }) => (one === null || other === null ? null : other - one)),
  ]);
}

/** What was asked, the reason given or the words said, in the reader's language where they are ours. */
export function markText({ kind, text: said }: Mark, words: ReviewWords): string {
  if (said === '') return '';
  if (kind === 'asked' || kind === 'refused') return words.question(said);
  return kind === 'skipped' ? words.reason(said) : said;
}
