import { medianOf } from '../statistics/quantiles.ts';
import type { SharedRate } from '../statistics/learning-curve.ts';
import { chance, duration, listed, localDay, longerOrShorter, many, percent } from '../wording.ts';
import type { Asking } from './asking.ts';
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
import { stepMeasures } from './step-measures.ts';
import type { Stuck } from './stuck.ts';
import { stuckPeople } from './stuck.ts';
import type { MonthPace } from './trend.ts';
import { paceByMonth } from './trend.ts';

/** Where a finding can be looked into. */
export type FindingPlace =
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
  const { logbook } = asking;
  const steps = stepMeasures(asking);
  const people = peopleMeasures(asking);
  const procedures = [...proceduresSelected(asking)];
  const stuck = procedures.flatMap((procedure) => stuckPeople(asking, procedure)).sort((one, other) => lost(other) - lost(one));
  const holds = holdsLeftOut(asking).filter(({ standsOut }) => standsOut);
  const hard = hardSteps(steps);
  const groups = compareGroups(asking);
  const months = paceByMonth(asking);
  const rates = people.flatMap(({ rate }) => (rate === null ? [] : [rate.rate]));
  const days: number[] = [];
  let signed = 0;
  eachRun(asking, (run) => {
    if (isSigned(logbook, run)) signed += 1;
    days.push(run);
  });
  const dayOf = (run: number): string => localDay(logbook.runs.begun[run] ?? 0, logbook.runs.offset[run] ?? 0);
  const span = days.map(dayOf).sort();
  const time = steps.toSorted((one, other) => other.timeShare - one.timeShare).slice(0, 8);
  const several = procedures.length > 1;
  return {
    runs: asking.selection.count,
    signed,
    people: people.length,
    from: span[0] ?? null,
    to: span.at(-1) ?? null,
    cautions: cautionsFor(asking, signed, people),
    findings: [
      ...holds.slice(0, 3).map((hold) => holdFinding(hold, several)),
      ...hard.slice(0, 2).map((step) => hardFinding(step)),
      ...stuck.slice(0, 3).map((one) => stuckFinding(one)),
      ...groups.filter(isClear).slice(0, 2).map(groupFinding),
      ...people.filter(({ rateDistance }) => Math.abs(rateDistance ?? 0) > farOff).map((person) => learnerFinding(person, rates)),
    ],
    timeSentence: timeSentence(time),
    time,
    stuckSentence: stuckSentence(stuck),
    stuck: stuck.slice(0, 10),
    trendSentence: trendSentence(months, rates, people),
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

function cautionsFor({ selection }: Asking, signed: number, people: readonly PersonMeasures[]): readonly string[] {
  const cautions: string[] = [];
  if (selection.count === 0) return ['No run fits these filters.'];
  if (signed < fewRuns)
    cautions.push(
      `Only ${many(signed, 'signed run')}: too few for an interval around a median. Take everything here as a first impression.`,
    );
  else if (signed < 20) cautions.push(`${signed} signed runs: the intervals are wide. A difference has to be large to show.`);
  const few = people.filter((person) => person.signed < fewRuns).length;
  if (signed >= fewRuns && few > 0)
    cautions.push(
      `${many(few, 'person has', 'people have')} fewer than ${fewRuns} signed runs: nothing firm can be said of them one by one.`,
    );
  if (selection.excluded > 0) cautions.push(`${many(selection.excluded, 'run')} left out by you.`);
  return cautions;
}

function timeSentence(time: readonly StepMeasures[]): string {
  const top = time.slice(0, 3).filter(({ timeShare }) => timeShare > 0);
  if (top.length === 0) return 'No time on steps yet.';
  const together = top.reduce((sum, { timeShare }) => sum + timeShare, 0);
  return `${percent(together)} of all time at work goes into ${many(top.length, 'step')}: ${listed(top.map(({ name }) => `“${stepLabel(name, 44)}”`))}.`;
}

function stuckSentence(stuck: readonly Stuck[]): string {
  if (stuck.length === 0) return 'Nobody stands out at any step beyond their own pace.';
  const people = new Set(stuck.map(({ person }) => person)).size;
  return `${many(people, 'person is', 'people are')} slow at ${many(stuck.length, 'step')} beyond their own pace and the step’s length, in their latest runs.`;
}

function trendSentence(months: readonly MonthPace[], rates: readonly number[], people: readonly PersonMeasures[]): string {
  const first = months[0];
  const last = months.at(-1);
  if (first === undefined || last === undefined || first === last) return 'One month or less: too short to say whether it gets better.';
  const ratio = last.pace / first.pace;
  const isApart =
    first.interval !== null &&
    last.interval !== null &&
    (last.interval.high < first.interval.low || last.interval.low > first.interval.high);
  const how = isApart ? '' : ' The intervals of the two months overlap, so this may be chance.';
  const rate =
    rates.length < 2
      ? ''
      : ` At each doubling of somebody’s runs the time comes down to ${percent(medianOf(rates))} (middle of ${many(people.length, 'person', 'people')}).`;
  return `A run in ${last.month} was ${longerOrShorter(ratio)} than one in ${first.month}, at equal procedure and build.${how}${rate}`;
}

function holdFinding(hold: HoldLeftOut, several: boolean): Finding {
  const others =
    hold.othersOf === 0
      ? ''
      : ` Of the others’ ${hold.othersOf} runs it was ${hold.othersLeft === 0 ? 'never' : `${hold.othersLeft}`} left out.`;
  const where = several ? ` (${hold.name.procedure})` : '';
  return {
    kind: 'hold point',
    text: `${hold.called} went by the hold point of “${stepLabel(hold.name, 44)}”${where} in ${hold.left} of ${many(hold.of, 'run')}.${others}`,
    place: { view: 'sheet', person: hold.person },
  };
}

function hardFinding({ measures, ratio }: HardStep): Finding {
  const spread = measures.spreadShare === null ? '' : ` It explains ${percent(measures.spreadShare)} of the spread of the totals.`;
  return {
    kind: 'hard step',
    text: `“${stepLabel(measures.name, 44)}” is hard: ${Number(measures.trouble.toFixed(1))} questions, repeats and second looks a run, ${Number(ratio.toFixed(1))} times what its amount of work leads one to expect.${spread}`,
    place: { view: 'steps', procedure: measures.name.procedure, step: measures.name.id },
  };
}

function stuckFinding({ called, name, cell, person }: Stuck): Finding {
  return {
    kind: 'stuck',
    text: `${called} is stuck at “${stepLabel(name, 44)}”: ${duration(cell.median)} in the latest ${many(cell.runs, 'run')}, where their own pace would give ${duration(cell.expected)}.`,
    place: { view: 'sheet', person },
  };
}

/** Clear enough to be named on the first page: by the test and by the interval of the difference. */
function isClear({ ranks, ratio }: GroupComparison): boolean {
  return ranks.twoSided < 0.05 && ratio !== null && ratio.low > 1;
}

export function groupSentence({ first, second, ranks, ratio }: GroupComparison): string {
  const one = first.group ?? 'No group';
  const other = second.group ?? 'no group';
  const size =
    ratio === null
      ? ''
      : `, typically ${longerOrShorter(ratio.ratio)} (the data fit anything from ${longerOrShorter(ratio.low)} to ${longerOrShorter(ratio.high)})`;
  const test = `Were the groups alike, chance alone would give a difference this large ${chance(ranks.twoSided)} (${ranks.method === 'exact' ? 'exact' : 'normal approximation to the'} rank-sum test on one figure a person)`;
  const pairs = `of two people picked from each, the one from ${one} takes longer ${Math.round(ranks.superiority * 100)} times in 100`;
  return `${one} against ${other}: ${many(first.people.length, 'person', 'people')} and ${second.people.length}${size}; ${pairs}. ${test}. That does not say why.`;
}

function groupFinding(comparison: GroupComparison): Finding {
  const { first, second, ratio } = comparison;
  const size = ratio === null ? 'longer' : `${longerOrShorter(ratio.ratio)} (${percent(ratio.low - 1)} to ${percent(ratio.high - 1)})`;
  return {
    kind: 'group',
    text: `${first.group ?? 'No group'} takes ${size} than ${second.group ?? 'no group'}, person by person. That does not say why.`,
    place: { view: 'groups' },
  };
}

function learnerFinding(person: PersonMeasures, rates: readonly number[]): Finding {
  const isFast = (person.rateDistance ?? 0) < 0;
  const rate: SharedRate | null = person.rate;
  const own =
    rate === null
      ? ''
      : `each doubling of runs brings the time to ${percent(rate.rate)} (${percent(rate.interval.low)} to ${percent(rate.interval.high)})`;
  return {
    kind: isFast ? 'fast learner' : 'slow learner',
    text: `${person.called} learns far ${isFast ? 'faster' : 'more slowly'} than the others: ${own}, against ${percent(medianOf(rates))} in the middle.`,
    place: { view: 'learning', procedure: null },
  };
}
