import { studentQuantile } from '../statistics/distributions.ts';
import { exponentOfRate } from '../statistics/learning-curve.ts';
import { medianOf } from '../statistics/quantiles.ts';
import { localDay } from '../wording.ts';
import type { ReviewWords } from '../words/en.ts';
import type { Asking, StepName } from './asking.ts';
import { eachRun, fewRuns, isSigned, proceduresSelected, stepLabel } from './asking.ts';
import type { GroupComparison } from './group-comparison.ts';
import { compareGroups } from './group-comparison.ts';
import type { HardStep } from './hard-steps.ts';
import { hardSteps } from './hard-steps.ts';
import type { HoldLeftOut } from './holds.ts';
import { holdsLeftOut } from './holds.ts';
import type { PersonMeasures } from './people.ts';
import { peopleMeasures } from './people.ts';
import type { StepMeasures } from './step-measures.ts';
import { stepCounts, withTimes } from './step-measures.ts';
import type { Stuck } from './stuck.ts';
import { heatOf, stuckPeople } from './stuck.ts';
import type { MonthPace } from './trend.ts';
import { paceByMonth } from './trend.ts';

/** Where a finding can be looked into. */
type FindingPlace =
  | { readonly view: 'steps'; readonly procedure: string; readonly step: string }
  | { readonly view: 'people'; readonly procedure: string | null }
  | { readonly view: 'sheet'; readonly person: number }
  | { readonly view: 'groups' }
  | { readonly view: 'learning'; readonly procedure: string | null };

export interface Finding {
  readonly kind: 'hold point' | 'hard step' | 'stuck' | 'group' | 'fast learner' | 'slow learner';
  readonly text: string;
  readonly place: FindingPlace;
}

/** What a trainer should know within a minute. */
export interface Overview {
  readonly runs: number;
  readonly signed: number;
  readonly people: number;
  readonly from: string | null;
  readonly to: string | null;
  readonly cautions: readonly string[];
  readonly findings: readonly Finding[];
  readonly timeSentence: string;
  /** The steps that take most of the time, at most eight. */
  readonly time: readonly StepMeasures[];
  readonly stuckSentence: string;
  readonly stuck: readonly Stuck[];
  readonly trendSentence: string;
  readonly months: readonly MonthPace[];
  /** Everybody's learning together. */
  readonly rate: { readonly median: number; readonly people: number } | null;
  readonly hard: readonly HardStep[];
  readonly holds: readonly HoldLeftOut[];
  readonly groups: readonly GroupComparison[];
}

/** Modified z-scores beyond this are outliers (Iglewicz and Hoaglin 1993). */
const farOff = 3.5;

export function overview(asking: Asking): Overview {
  const { logbook, words } = asking;
  const steps = stepCounts(asking);
  const people = peopleMeasures(asking);
  const procedures = [...proceduresSelected(asking)];
  const stuck = procedures
    .flatMap((procedure) => stuckPeople(asking, heatOf(asking, procedure)))
    .sort((one, other) => lost(other) - lost(one));
  const holds = holdsLeftOut(asking).filter(({ standsOut }) => standsOut);
  const hard = hardSteps(steps);
  const groups = compareGroups(people);
  const months = paceByMonth(asking);
  const rates = people.flatMap(({ rate }) => (rate === null ? [] : [rate.rate]));
  let first = Infinity;
  let last = -Infinity;
  let signed = 0;
  eachRun(asking, (run) => {
    if (isSigned(logbook, run)) signed += 1;
    const local = (logbook.runs.begun[run] ?? 0) + (logbook.runs.offset[run] ?? 0) * 60_000;
    first = Math.min(first, local);
    last = Math.max(last, local);
  });
  const time = withTimes(asking, steps.toSorted((one, other) => other.timeShare - one.timeShare).slice(0, 8));
  const where: Where = {
    words,
    step: (name) => `${quotedStep(name, words)}${procedures.length > 1 ? ` (${titleOf(logbook, name)})` : ''}`,
  };
  return {
    runs: asking.selection.count,
    signed,
    people: people.length,
    from: first === Infinity ? null : localDay(first, 0),
    to: first === Infinity ? null : localDay(last, 0),
    cautions: cautionsFor(asking, signed, people),
    findings: [
      ...holds.slice(0, 3).map((hold) => holdFinding(hold, where)),
      ...hard.slice(0, 2).map((step) => hardFinding(step, where)),
      ...stuck.slice(0, 3).map((one) => stuckFinding(one, where)),
      ...groups.flatMap((group) => groupFinding(group, words)).slice(0, 2),
      ...people.flatMap((person) => learnerFinding(person, rates, words)),
    ],
    timeSentence: timeSentence(time, words),
    time,
    stuckSentence: stuckSentence(stuck, words),
    stuck: stuck.slice(0, 10),
    trendSentence: trendSentence(months, rates, people, words),
    months,
    rate: rates.length === 0 ? null : { median: medianOf(rates), people: rates.length },
    hard,
    holds,
    groups,
  };
}

function lost({ cell }: Stuck): number {
  return cell.median - cell.expected;
}

function cautionsFor({ selection, words }: Asking, signed: number, people: readonly PersonMeasures[]): readonly string[] {
  const own = words.overview;
  if (selection.count === 0) return [own.noRun];
  const cautions: string[] = [];
  if (signed < fewRuns) cautions.push(own.fewSigned(signed));
  else if (signed < 20) cautions.push(own.someSigned(signed));
  const few = people.filter((person) => person.signed < fewRuns).length;
  if (signed >= fewRuns && few > 0) cautions.push(own.fewEach(few, fewRuns));
  if (selection.excluded > 0) cautions.push(own.leftOut(selection.excluded));
  return cautions;
}

function timeSentence(time: readonly StepMeasures[], words: ReviewWords): string {
  const top = time.slice(0, 3).filter(({ timeShare }) => timeShare > 0);
  if (top.length === 0) return words.overview.noTime;
  const together = top.reduce((sum, { timeShare }) => sum + timeShare, 0);
  return words.overview.time(
    together,
    top.map(({ name }) => quotedStep(name, words)),
  );
}

function stuckSentence(stuck: readonly Stuck[], words: ReviewWords): string {
  if (stuck.length === 0) return words.overview.nobodyStuck;
  return words.overview.stuck(new Set(stuck.map(({ person }) => person)).size, stuck.length);
}

function trendSentence(
  months: readonly MonthPace[],
  rates: readonly number[],
  people: readonly PersonMeasures[],
  words: ReviewWords,
): string {
  const own = words.overview;
  const first = months[0];
  const last = months.at(-1);
  if (first === undefined || last === undefined || first === last) return own.oneMonth;
  const isApart =
    first.interval !== null &&
    last.interval !== null &&
    (last.interval.high < first.interval.low || last.interval.low > first.interval.high);
  const ratio = last.pace / first.pace;
  const isEven = Math.abs(ratio - 1) < 0.005;
  const sentences = [isEven ? own.even(last.month, first.month) : own.trend(last.month, first.month, ratio)];
  if (first.interval === null || last.interval === null) sentences.push(own.tooFewInMonth);
  else if (!isApart && !isEven) sentences.push(own.mayBeChance);
  if (rates.length >= 2) sentences.push(own.rate(medianOf(rates), people.length));
  return sentences.join(' ');
}

/** How findings name a step: with its procedure where several were looked at. */
interface Where {
  readonly words: ReviewWords;
  readonly step: (name: StepName) => string;
}

function titleOf({ procedures }: Asking['logbook'], name: StepName): string {
  return procedures.find(({ id }) => id === name.procedure)?.title ?? name.procedure;
}

function quotedStep(name: StepName, words: ReviewWords): string {
  return words.quoted(stepLabel(name, 44));
}

function holdFinding(hold: HoldLeftOut, where: Where): Finding {
  const { left, of, othersLeft, othersOf } = hold;
  return {
    kind: 'hold point',
    text: where.words.finding.hold(hold.called, where.step(hold.name), left, of, othersLeft, othersOf),
    place: { view: 'sheet', person: hold.person },
  };
}

function hardFinding({ measures, ratio }: HardStep, where: Where): Finding {
  const { name, trouble, spreadShare } = measures;
  return {
    kind: 'hard step',
    text: where.words.finding.hard(where.step(name), trouble, ratio, spreadShare),
    place: { view: 'steps', procedure: name.procedure, step: name.id },
  };
}

function stuckFinding({ called, name, cell, person }: Stuck, where: Where): Finding {
  return {
    kind: 'stuck',
    text: where.words.finding.stuck(called, where.step(name), cell.median, cell.runs, cell.expected),
    place: { view: 'sheet', person },
  };
}

/** Clear enough to be named on the first page: by the test and by the interval of the difference. */
export function groupFinding({ first, second, ranks, ratio }: GroupComparison, words: ReviewWords): Finding[] {
  if (ratio === null || ratio.low <= 1 || ranks.twoSided >= 0.05) return [];
  return [{ kind: 'group', text: words.finding.group(first.group, second.group, ratio), place: { view: 'groups' } }];
}

export function groupSentence({ first, second, ranks, ratio }: GroupComparison, words: ReviewWords): string {
  return words.groupSentence(
    first.group,
    second.group,
    [first.people.length, second.people.length],
    ratio,
    ranks.superiority,
    ranks.twoSided,
    ranks.method === 'exact',
  );
}

/**
 * Far from the others, and with an interval that keeps clear of their middle. One of many is always the slowest: the interval is as wide as it must
 * be for all of them together to be missed one time in twenty (Bonferroni).
 */
function learnerFinding({ called, rate, rateDistance }: PersonMeasures, rates: readonly number[], words: ReviewWords): Finding[] {
  if (rate === null || rateDistance === null || Math.abs(rateDistance) <= farOff) return [];
  const isFast = rateDistance < 0;
  const { low, high } = rate.interval;
  const middle = medianOf(rates);
  const reach = studentQuantile(1 - 0.025 / rates.length, rate.freedom) * rate.error;
  if (Math.abs(rate.exponent - exponentOfRate(middle)) <= reach) return [];
  return [
    {
      kind: isFast ? 'fast learner' : 'slow learner',
      text: words.finding.learner(called, isFast, { rate: rate.rate, low, high }, middle),
      place: { view: 'learning', procedure: null },
    },
  ];
}
