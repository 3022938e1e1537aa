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
import type { Table, TableCell, TableColumn } from './table.ts';
import { localDay, localTime } from './wording.ts';
import type { ReviewWords } from './words/en.ts';

const text = (label: string): TableColumn => ({ label, kind: 'text' });
const count = (label: string): TableColumn => ({ label, kind: 'count' });
const number = (label: string): TableColumn => ({ label, kind: 'number' });
const time = (label: string): TableColumn => ({ label, kind: 'time' });
const share = (label: string): TableColumn => ({ label, kind: 'share' });

export function stepsTable(
  steps: readonly StepMeasures[],
  procedure: string,
  reference: ReadonlyMap<number, number> | null,
  words: ReviewWords,
): Table {
  const own = words.table;
  return {
    name: `steps-${procedure}`,
    title: own.steps.title,
    columns: [
      text(own.step),
      text(own.what),
      count(own.runs),
      time(own.median),
      time(own.from),
      time(own.to),
      time(own.lowerQuartile),
      time(own.upperQuartile),
      time(own.ninetieth),
      time(own.deviation),
      ...(reference === null ? [] : [time(own.steps.reference)]),
      count(own.outliers),
      time(own.steps.pausesMean),
      time(own.steps.waitsMedian),
      count(own.questions),
      text(own.steps.askedFor),
      count(own.repeats),
      count(own.misheard),
      count(own.refused),
      count(own.stepBacks),
      count(own.undos),
      count(own.stops),
      count(own.skips),
      count(own.failedHolds),
      count(own.leftOut),
      share(own.steps.timeShare),
      share(own.steps.spreadShare),
    ],
    rows: steps.map((step) => [
      step.name.number === '' ? step.name.id : step.name.number,
      step.name.say,
      step.runs,
      ...spreadCells(step.active),
      ...(reference === null ? [] : [reference.get(step.name.step) ?? null]),
      step.outliers,
      step.pausedMean,
      step.waitedMedian,
      step.questions,
      kindsText(step.questionsByKind, words),
      step.repeats,
      step.misheard,
      step.refused,
      step.stepBacks,
      step.undos,
      step.stops,
      step.skips,
      step.holdsFailed,
      step.leftOut,
      step.timeShare,
      step.spreadShare,
    ]),
    note: `${own.steps.note} ${own.interval} ${words.outlierRule} ${own.steps.negative}`,
  };
}

function spreadCells(active: StepMeasures['active']): TableCell[] {
  if (active === null) return [null, null, null, null, null, null, null];
  return [
    active.median,
    active.interval?.low ?? null,
    active.interval?.high ?? null,
    active.lowerQuartile,
    active.upperQuartile,
    active.ninetieth,
    active.deviation,
  ];
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
  return {
    name: `fasteners-${step}`,
    title: own.fasteners.title,
    columns: [
      text(own.group),
      count(own.fasteners.pass),
      text(own.fasteners.position),
      count(own.fasteners.tightened),
      time(own.median),
      time(own.from),
      time(own.to),
      time(own.lowerQuartile),
      time(own.upperQuartile),
      time(own.ninetieth),
      time(own.deviation),
      count(own.fasteners.outOfOrder),
    ],
    rows: fasteners.map((one) => [one.groupName, one.pass, one.positionName, one.tightened, ...spreadCells(one.active), one.outOfOrder]),
    note: `${own.fasteners.note(order === 'written')} ${own.interval}`,
  };
}

export function peopleTable(people: readonly PersonMeasures[], words: ReviewWords): Table {
  const own = words.table;
  return {
    name: 'people',
    title: own.people.title,
    columns: [
      text(own.person),
      text(own.group),
      count(own.runs),
      count(own.people.signed),
      number(own.pace),
      number(own.from),
      number(own.to),
      number(own.people.firstPace),
      number(own.people.latestPace),
      share(own.people.learningRate),
      share(own.people.rateFrom),
      share(own.people.rateTo),
      number(own.people.questionsPerRun),
      number(own.people.repeatsPerRun),
      number(own.people.misheardPerRun),
      count(own.stepBacks),
      count(own.undos),
      count(own.skips),
      count(own.failedHolds),
      time(own.timeAtWork),
    ],
    rows: people.map((one) => [
      one.called,
      one.group,
      one.runs,
      one.signed,
      one.pace,
      one.paceInterval?.low ?? null,
      one.paceInterval?.high ?? null,
      one.firstPace,
      one.latestPace,
      one.rate?.rate ?? null,
      one.rate?.interval.low ?? null,
      one.rate?.interval.high ?? null,
      one.questionsPerRun,
      one.repeatsPerRun,
      one.misheardPerRun,
      one.stepBacks,
      one.undos,
      one.skips,
      one.holdsFailed,
      one.active,
    ]),
    note: own.people.note,
  };
}

export function learningTable({ learners, procedure, aim }: Learning, words: ReviewWords): Table {
  const own = words.table;
  return {
    name: `learning-${procedure}`,
    title: own.learning.title,
    columns: [
      text(own.person),
      count(own.runs),
      time(own.learning.first),
      share(own.rate),
      share(own.from),
      share(own.to),
      number('R²'),
      time(own.aim),
      count(own.learning.aimAtRun),
      count(own.learning.earliest),
      count(own.learning.latest),
    ],
    rows: learners.map(({ called, trials, curve, aim: reached }) => [
      called,
      trials.length,
      curve?.first ?? null,
      curve?.rate ?? null,
      curve?.rateInterval.low ?? null,
      curve?.rateInterval.high ?? null,
      curve?.rSquared ?? null,
      aim,
      reached?.kind === 'run' ? reached.run : null,
      reached?.kind === 'run' ? reached.earliest : null,
      reached?.kind === 'run' ? reached.latest : null,
    ]),
    note: own.learning.note,
  };
}

export function trialsTable({ learners, procedure }: Learning, words: ReviewWords): Table {
  const own = words.table;
  return {
    name: `learning-runs-${procedure}`,
    title: own.trials.title,
    columns: [text(own.person), count(own.run), time(own.timeAtWork), time(own.trials.curve), time(own.from), time(own.to)],
    rows: learners.flatMap(({ called, trials, drawn }) =>
      trials.map(({ run, time: taken }) => {
        const curve = drawn[run - 1];
        return [called, run, taken, curve?.time ?? null, curve?.low ?? null, curve?.high ?? null];
      }),
    ),
    note: null,
  };
}

export function heatTable({ people, steps, cells, procedure }: HeatMap, words: ReviewWords): Table {
  const own = words.table;
  const byPlace = new Map(cells.map((cell) => [`${cell.person}/${cell.step}`, cell]));
  return {
    name: `people-by-step-${procedure}`,
    title: own.heat.title,
    columns: [text(own.person), number(own.pace), ...steps.map(({ number: label, id }) => number(label === '' ? id : label))],
    rows: people.map(({ person, called, pace }) => [
      called,
      pace,
      ...steps.map(({ step }) => byPlace.get(`${person}/${step}`)?.ratio ?? null),
    ]),
    note: own.heat.note(latestRuns),
  };
}

export function stuckTable(stuck: readonly Stuck[], words: ReviewWords): Table {
  const own = words.table;
  return {
    name: 'stuck',
    title: own.stuck.title,
    columns: [
      text(own.person),
      text(own.procedure),
      text(own.step),
      text(own.what),
      count(own.runs),
      time(own.median),
      time(own.stuck.expected),
      number(own.ratio),
      count(own.stuck.questions),
    ],
    rows: stuck.map(({ called, name, cell }) => [
      called,
      name.procedure,
      name.number,
      name.say,
      cell.runs,
      cell.median,
      cell.expected,
      cell.ratio,
      cell.questions,
    ]),
    note: own.stuck.note(latestRuns),
  };
}

export function groupsTable(groups: readonly GroupComparison[], words: ReviewWords): Table {
  const own = words.table;
  return {
    name: 'groups',
    title: own.groups.title,
    columns: [
      text(own.group),
      count(own.groups.people),
      number(own.groups.medianPace),
      text(own.groups.against),
      count(own.groups.peopleThere),
      number(own.groups.paceThere),
      number(own.ratio),
      number(own.from),
      number(own.to),
      number('U'),
      number(own.groups.p),
      text(own.groups.test),
      share(own.groups.longer),
    ],
    rows: groups.map(({ first, second, ranks, ratio }) => [
      first.group ?? words.noGroup,
      first.people.length,
      first.median,
      second.group ?? words.noGroup,
      second.people.length,
      second.median,
      ratio?.ratio ?? null,
      ratio?.low ?? null,
      ratio?.high ?? null,
      ranks.u,
      ranks.twoSided,
      ranks.method === 'exact' ? own.groups.exact : own.groups.normal,
      ranks.superiority,
    ]),
    note: own.groups.note,
  };
}

export function holdsTable(holds: readonly HoldLeftOut[], words: ReviewWords): Table {
  const own = words.table;
  return {
    name: 'hold-points-left-out',
    title: own.holds.title,
    columns: [
      text(own.person),
      text(own.procedure),
      text(own.step),
      text(own.what),
      count(own.holds.left),
      count(own.holds.of),
      count(own.holds.othersLeft),
      count(own.holds.othersOf),
      number('p'),
      text(own.holds.standsOut),
    ],
    rows: holds.map((one) => [
      one.called,
      one.name.procedure,
      one.name.number,
      one.name.say,
      one.left,
      one.of,
      one.othersLeft,
      one.othersOf,
      one.chance,
      one.standsOut ? own.yes : own.no,
    ]),
    note: own.holds.note,
  };
}

export function fairTable({ steps, procedure }: FairTimes, words: ReviewWords): Table {
  const own = words.table;
  return {
    name: `fair-times-${procedure}`,
    title: own.fair.title,
    columns: [
      text(own.step),
      text(own.what),
      count(own.fair.observed),
      count(own.fair.rated),
      time(own.fair.mean),
      time(own.deviation),
      time(own.fair.normal),
      time(own.fair.fair),
      count(own.fair.needed),
      count(own.fair.missing),
      count(own.fair.withoutOutliers),
    ],
    rows: steps.map((one) => [
      one.name.number === '' ? one.name.id : one.name.number,
      one.name.say,
      one.observed,
      one.rated,
      one.mean,
      one.deviation,
      one.normal,
      one.standard,
      Number.isNaN(one.needed) ? null : Math.ceil(one.needed),
      one.missing,
      one.outliersLeftOut,
    ]),
    note: own.fair.note,
  };
}

export function ordersTable({ steps, moves, procedure }: Orders, words: ReviewWords): Table {
  const own = words.table;
  const label = (place: number): string => steps[place]?.name.number ?? '';
  return {
    name: `orders-${procedure}`,
    title: own.orders.title,
    columns: [
      text(own.from),
      text(own.orders.fromWhat),
      text(own.to),
      text(own.orders.toWhat),
      count(own.orders.times),
      text(own.orders.kind),
    ],
    rows: moves
      .toSorted((one, other) => Number(one.kind === 'onward') - Number(other.kind === 'onward') || other.count - one.count)
      .map((move) => [
        label(move.from),
        steps[move.from]?.name.say ?? '',
        label(move.to),
        steps[move.to]?.name.say ?? '',
        move.count,
        own.orders.kinds[move.kind],
      ]),
    note: own.orders.note,
  };
}

export function runsTable(lines: readonly RunLine[], words: ReviewWords): Table {
  const own = words.table;
  return {
    name: 'runs',
    title: own.runList.title,
    columns: [
      { label: own.day, kind: 'day' },
      text(own.person),
      text(own.group),
      text(own.procedure),
      text(own.build),
      count(own.run),
      text(own.ended),
      time(own.timeAtWork),
      time(own.pauses),
      time(own.waits),
      number(own.pace),
      text(own.runList.outlier),
      text(own.runList.log),
      text(own.job),
    ],
    rows: lines.map((line) => [
      localDay(line.begun, line.offset),
      line.called,
      line.group,
      line.title,
      line.build,
      line.number,
      words.ending[line.ending],
      line.active,
      line.paused,
      line.waited,
      line.pace,
      line.isOutlier ? own.yes : '',
      line.faults.map((fault) => words.runFault[fault]).join('; '),
      line.job,
    ]),
    note: words.outlierRule,
  };
}

export function monthsTable(months: readonly MonthPace[], words: ReviewWords): Table {
  const own = words.table;
  return {
    name: 'months',
    title: own.months.title,
    columns: [
      text(own.months.month),
      count(own.runs),
      number(own.pace),
      number(own.from),
      number(own.to),
      number(own.people.questionsPerRun),
    ],
    rows: months.map((one) => [one.month, one.runs, one.pace, one.interval?.low ?? null, one.interval?.high ?? null, one.questions]),
    note: own.months.note,
  };
}

export function timelineTable(run: Timeline, called: string, words: ReviewWords): Table {
  const own = words.table;
  return {
    name: `run-${run.job}`,
    title: own.timeline.title(called, run.number, run.title, localTime(run.begun, run.offset)),
    columns: [text(own.step), text(own.what), time(own.atWork), time(own.timeline.waiting), time(own.timeline.paused), text(own.ended)],
    rows: run.steps.map(({ name, active, waited, paused, how }) => [
      name.number === '' ? name.id : name.number,
      name.say,
      active,
      waited,
      paused,
      words.how[how],
    ]),
    note: null,
  };
}

export function marksTable(run: Timeline, words: ReviewWords): Table {
  const own = words.table;
  return {
    name: `run-${run.job}-said`,
    title: own.marks.title,
    columns: [time(own.marks.after), text(own.step), text(own.what), text(own.marks.words)],
    rows: run.marks.map((mark) => [mark.at, run.steps[mark.step]?.name.number ?? '', words.mark[mark.kind], markText(mark, words)]),
    note: null,
  };
}

export function pairTable(first: Timeline, second: Timeline, called: readonly [string, string], words: ReviewWords): Table {
  const own = words.table;
  const steps = [
    ...first.steps.map(({ name }) => name),
    ...second.steps.map(({ name }) => name).filter(({ step }) => !first.steps.some((one) => one.name.step === step)),
  ];
  const at = (run: Timeline, step: number): number | null => run.steps.find((one) => one.name.step === step)?.active ?? null;
  return {
    name: 'two-runs',
    title: own.pair.title(called[0], called[1]),
    columns: [text(own.step), text(own.what), time(called[0]), time(called[1]), time(own.pair.difference)],
    rows: steps.map((name) => {
      const one = at(first, name.step);
      const other = at(second, name.step);
      return [name.number === '' ? name.id : name.number, name.say, one, other, one === null || other === null ? null : other - one];
    }),
    note: null,
  };
}

/** What was asked, the reason given or the words said, in the reader's language where they are ours. */
export function markText({ kind, text: said }: Mark, words: ReviewWords): string {
  if (said === '') return '';
  if (kind === 'asked' || kind === 'refused') return words.question(said);
  return kind === 'skipped' ? words.reason(said) : said;
}
