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
import type { Timeline } from './questions/timeline.ts';
import type { MonthPace } from './questions/trend.ts';
import { outlierRule } from './statistics/outliers.ts';
import type { Table, TableCell, TableColumn } from './table.ts';
import { localDay, localTime } from './wording.ts';

const text = (label: string): TableColumn => ({ label, kind: 'text' });
const count = (label: string): TableColumn => ({ label, kind: 'count' });
const number = (label: string): TableColumn => ({ label, kind: 'number' });
const time = (label: string): TableColumn => ({ label, kind: 'time' });
const share = (label: string): TableColumn => ({ label, kind: 'share' });

const intervalNote =
  'Between “from” and “to” the true median lies with at least 95 % confidence (order statistics). Empty: fewer than six times.';

export function stepsTable(steps: readonly StepMeasures[], procedure: string, reference: ReadonlyMap<number, number> | null): Table {
  return {
    name: `steps-${procedure}`,
    title: 'Every step: how long it takes and what happens at it',
    columns: [
      text('Step'),
      text('What'),
      count('Runs'),
      time('Median'),
      time('From'),
      time('To'),
      time('Lower quartile'),
      time('Upper quartile'),
      time('90th centile'),
      time('Standard deviation'),
      ...(reference === null ? [] : [time('Reference run')]),
      count('Outliers'),
      time('Pauses (mean)'),
      time('Waits (median)'),
      count('Questions'),
      text('Asked for'),
      count('Repeats'),
      count('Misheard'),
      count('Refused'),
      count('Step-backs'),
      count('Undos'),
      count('Stops'),
      count('Skips'),
      count('Failed holds'),
      count('Fasteners left out'),
      share('Share of time'),
      share('Share of spread'),
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
      kindsText(step.questionsByKind),
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
    note: `Active time of runs that carried the step out; pauses and waits are apart. ${intervalNote} ${outlierRule} A negative share of the spread belongs to a step that is short where the whole run is long.`,
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

function kindsText(kinds: Readonly<Record<string, number>>): string {
  return Object.entries(kinds)
    .filter(([kind]) => kind !== 'repeat')
    .sort(([, one], [, other]) => other - one)
    .map(([kind, times]) => `${kind} ${times}`)
    .join(', ');
}

export function fastenersTable({ fasteners, order }: Fasteners, step: string): Table {
  return {
    name: `fasteners-${step}`,
    title: 'Every fastener: how long it takes in each pass, and whether it was in its turn',
    columns: [
      text('Group'),
      count('Pass'),
      text('Position'),
      count('Tightened'),
      time('Median'),
      time('From'),
      time('To'),
      time('Lower quartile'),
      time('Upper quartile'),
      time('90th centile'),
      time('Standard deviation'),
      count('Out of order'),
    ],
    rows: fasteners.map((one) => [one.groupName, one.pass, one.positionName, one.tightened, ...spreadCells(one.active), one.outOfOrder]),
    note: `The time runs from the last piece of work before it. Order is judged by the ${order} one. ${intervalNote}`,
  };
}

export function peopleTable(people: readonly PersonMeasures[]): Table {
  return {
    name: 'people',
    title: 'Every person: pace, learning, questions',
    columns: [
      text('Person'),
      text('Group'),
      count('Runs'),
      count('Signed'),
      number('Pace'),
      number('From'),
      number('To'),
      number('Pace at first'),
      number('Pace of late'),
      share('Learning rate'),
      share('Rate from'),
      share('Rate to'),
      number('Questions a run'),
      number('Repeats a run'),
      number('Misheard a run'),
      count('Step-backs'),
      count('Undos'),
      count('Skips'),
      count('Failed holds'),
      time('Time at work'),
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
    note: 'Pace: a run’s time against the median of all selected runs of the same procedure and build; 1.2 is a fifth longer. Learning rate: what each doubling of runs brings the time to (unit model, 95 % interval).',
  };
}

export function learningTable({ learners, procedure, aim }: Learning): Table {
  return {
    name: `learning-${procedure}`,
    title: 'Every person’s learning curve',
    columns: [
      text('Person'),
      count('Runs'),
      time('First run on the curve'),
      share('Rate'),
      share('From'),
      share('To'),
      number('R²'),
      time('Aim'),
      count('Aim at run'),
      count('Earliest'),
      count('Latest'),
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
    note: 'Unit model: the time of run x is a·x^b, fitted to the logarithms; the rate 2^b is what each doubling of runs brings the time to. Empty: too few runs, or the aim is not in sight within a thousand.',
  };
}

export function trialsTable({ learners, procedure }: Learning): Table {
  return {
    name: `learning-runs-${procedure}`,
    title: 'Every run behind the learning curves',
    columns: [text('Person'), count('Run'), time('Time at work'), time('Curve'), time('From'), time('To')],
    rows: learners.flatMap(({ called, trials, drawn }) =>
      trials.map(({ run, time: taken }) => {
        const curve = drawn[run - 1];
        return [called, run, taken, curve?.time ?? null, curve?.low ?? null, curve?.high ?? null];
      }),
    ),
    note: null,
  };
}

export function heatTable({ people, steps, cells, procedure }: HeatMap): Table {
  const byPlace = new Map(cells.map((cell) => [`${cell.person}/${cell.step}`, cell]));
  return {
    name: `people-by-step-${procedure}`,
    title: 'Person against step: the time taken against the time to be expected',
    columns: [text('Person'), number('Pace'), ...steps.map(({ number: label, id }) => number(label === '' ? id : label))],
    rows: people.map(({ person, called, pace }) => [
      called,
      pace,
      ...steps.map(({ step }) => byPlace.get(`${person}/${step}`)?.ratio ?? null),
    ]),
    note: `Medians of each person’s latest ${latestRuns} runs. 1 is what this person’s pace and this step’s length lead one to expect (median polish of the logarithms); 2 is twice that. Empty: fewer than three runs.`,
  };
}

export function stuckTable(stuck: readonly Stuck[]): Table {
  return {
    name: 'stuck',
    title: 'Who is slow where, beyond their own pace',
    columns: [
      text('Person'),
      text('Procedure'),
      text('Step'),
      text('What'),
      count('Runs'),
      time('Median'),
      time('Expected'),
      number('Ratio'),
      count('Questions and repeats'),
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
    note: `In each person’s latest ${latestRuns} runs. Shown when at least 1.4 times what is to be expected and 20 s more, and clearer than so many comparisons would throw up by chance (rank-sum, false discoveries held to 5 %).`,
  };
}

export function groupsTable(groups: readonly GroupComparison[]): Table {
  return {
    name: 'groups',
    title: 'Group against group, by one figure a person',
    columns: [
      text('Group'),
      count('People'),
      number('Median pace'),
      text('Against'),
      count('People there'),
      number('Median pace there'),
      number('Ratio'),
      number('From'),
      number('To'),
      number('U'),
      number('p, two-sided'),
      text('Test'),
      share('Takes longer in pairs'),
    ],
    rows: groups.map(({ first, second, ranks, ratio }) => [
      first.group ?? 'no group',
      first.people.length,
      first.median,
      second.group ?? 'no group',
      second.people.length,
      second.median,
      ratio?.ratio ?? null,
      ratio?.low ?? null,
      ratio?.high ?? null,
      ranks.u,
      ranks.twoSided,
      ranks.method === 'exact' ? 'rank sum, exact' : 'rank sum, normal approximation',
      ranks.superiority,
    ]),
    note: 'The figure of a person is the median pace of their runs: runs of one person are not independent of each other. A difference does not say why it is there.',
  };
}

export function holdsTable(holds: readonly HoldLeftOut[]): Table {
  return {
    name: 'hold-points-left-out',
    title: 'Hold points that were gone by without a yes',
    columns: [
      text('Person'),
      text('Procedure'),
      text('Step'),
      text('What'),
      count('Left out'),
      count('Of runs'),
      count('Others left out'),
      count('Of others’ runs'),
      number('p'),
      text('Stands out'),
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
      one.standsOut ? 'yes' : 'no',
    ]),
    note: 'p is the chance of so many, were the person like the others (Fisher’s exact test, one-sided). “Stands out” allows for the number of comparisons (false discoveries held to 5 %).',
  };
}

export function fairTable({ steps, procedure }: FairTimes): Table {
  return {
    name: `fair-times-${procedure}`,
    title: 'A fair time for every step, and how far it can be trusted',
    columns: [
      text('Step'),
      text('What'),
      count('Observed'),
      count('Rated'),
      time('Mean'),
      time('Standard deviation'),
      time('Normal time'),
      time('Fair time'),
      count('Needed'),
      count('Still missing'),
      count('Outliers left out'),
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
    note: 'Observed × rating × allowance. Runs that nobody rated count as normal pace. The number needed is (z·s / (h·mean))², rounded up.',
  };
}

export function ordersTable({ steps, moves, procedure }: Orders): Table {
  const label = (place: number): string => steps[place]?.name.number ?? '';
  return {
    name: `orders-${procedure}`,
    title: 'Moves from step to step',
    columns: [text('From'), text('From what'), text('To'), text('To what'), count('Times'), text('Kind')],
    rows: moves
      .toSorted((one, other) => Number(one.kind === 'onward') - Number(other.kind === 'onward') || other.count - one.count)
      .map((move) => [
        label(move.from),
        steps[move.from]?.name.say ?? '',
        label(move.to),
        steps[move.to]?.name.say ?? '',
        move.count,
        moveTexts[move.kind],
      ]),
    note: 'Onward: as written. Aside: into a side procedure or back from one.',
  };
}

const moveTexts = { onward: 'onward', ahead: 'ahead, past a step', back: 'back', aside: 'aside' } as const;

export function runsTable(lines: readonly RunLine[]): Table {
  return {
    name: 'runs',
    title: 'Every run',
    columns: [
      { label: 'Day', kind: 'day' },
      text('Person'),
      text('Group'),
      text('Procedure'),
      text('Build'),
      count('Run'),
      text('Ended'),
      time('Time at work'),
      time('Pauses'),
      time('Waits'),
      number('Pace'),
      text('Outlier'),
      text('Log'),
      text('Job'),
    ],
    rows: lines.map((line) => [
      localDay(line.begun, line.offset),
      line.called,
      line.group,
      line.title,
      line.build,
      line.number,
      line.ending,
      line.active,
      line.paused,
      line.waited,
      line.pace,
      line.isOutlier ? 'yes' : '',
      line.faults.join('; '),
      line.job,
    ]),
    note: outlierRule,
  };
}

export function monthsTable(months: readonly MonthPace[]): Table {
  return {
    name: 'months',
    title: 'Pace month by month',
    columns: [text('Month'), count('Runs'), number('Pace'), number('From'), number('To'), number('Questions a run')],
    rows: months.map((one) => [one.month, one.runs, one.pace, one.interval?.low ?? null, one.interval?.high ?? null, one.questions]),
    note: 'Pace: against the median of all selected runs of the same procedure and build; below 1 is quicker.',
  };
}

export function timelineTable(run: Timeline, called: string): Table {
  return {
    name: `run-${run.job}`,
    title: `${called}, run ${run.number} of ${run.title}, ${localTime(run.begun, run.offset)}: step by step`,
    columns: [text('Step'), text('What'), time('At work'), time('Waiting'), time('Paused'), text('Ended')],
    rows: run.steps.map(({ name, active, waited, paused, how }) => [
      name.number === '' ? name.id : name.number,
      name.say,
      active,
      waited,
      paused,
      how,
    ]),
    note: null,
  };
}

export function marksTable(run: Timeline): Table {
  return {
    name: `run-${run.job}-said`,
    title: 'What was said and done, in turn',
    columns: [time('After'), text('Step'), text('What'), text('Words')],
    rows: run.marks.map(({ at, step, kind, text: words }) => [at, run.steps[step]?.name.number ?? '', kind, words]),
    note: null,
  };
}

export function pairTable(first: Timeline, second: Timeline, called: readonly [string, string]): Table {
  const steps = [
    ...first.steps.map(({ name }) => name),
    ...second.steps.map(({ name }) => name).filter(({ step }) => !first.steps.some((one) => one.name.step === step)),
  ];
  const at = (run: Timeline, step: number): number | null => run.steps.find((one) => one.name.step === step)?.active ?? null;
  return {
    name: 'two-runs',
    title: `${called[0]} beside ${called[1]}, step by step`,
    columns: [text('Step'), text('What'), time(called[0]), time(called[1]), time('Difference')],
    rows: steps.map((name) => {
      const one = at(first, name.step);
      const other = at(second, name.step);
      return [name.number === '' ? name.id : name.number, name.say, one, other, one === null || other === null ? null : other - one];
    }),
    note: null,
  };
}
