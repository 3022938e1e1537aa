import type { AimReached, LearningCurve, SharedRate, Trial } from '../statistics/learning-curve.ts';
import { curveUpTo, fitLearningCurve, fitSharedRate, runReachingAim } from '../statistics/learning-curve.ts';
import { medianOf } from '../statistics/quantiles.ts';
import type { Asking } from './asking.ts';
import { eachRun, isSigned } from './asking.ts';

/** One person's runs of one procedure, signed ones only: seconds of active time against the number of the run. */
export interface Learner {
  readonly person: number;
  readonly called: string;
  readonly trials: readonly (Trial & { readonly job: string })[];
  readonly curve: LearningCurve | null;
  /** The curve drawn: a point a run, with where it may lie. Empty beyond so many people as were asked for. */
  readonly drawn: readonly { readonly run: number; readonly time: number; readonly low: number; readonly high: number }[];
  /** The run at which the curve reaches the aim; null without a curve. */
  readonly aim: AimReached | null;
}

export interface Learning {
  readonly procedure: string;
  readonly title: string;
  /** Seconds. */
  readonly aim: number;
  readonly learners: readonly Learner[];
  /** The rate that all share, each with a level of their own; null with too few runs. */
  readonly shared: SharedRate | null;
}

/**
 * Learning curves for one procedure, or for one person at it. Without an aim it is the time that the quickest quarter of all runs kept.
 * `drawn` is for how many people, from the first by name, the curve is laid out point by point.
 */
export function learning(
  asking: Asking,
  procedure: number,
  aim: number | null,
  { only = null, drawn = Infinity }: { readonly only?: number | null; readonly drawn?: number } = {},
): Learning {
  const { logbook } = asking;
  const byPerson = trialsByPerson(asking, procedure);
  const all = Float64Array.from([...byPerson.values()].flat().map(({ time }) => time)).sort();
  const aimed = aim ?? all[Math.floor(all.length / 4)] ?? 0;
  const shown = [...byPerson]
    .filter(([person]) => only === null || person === only)
    .map(([person, trials]) => ({ person, called: asking.nameOf(person), trials }))
    .sort((one, other) => (one.called < other.called ? -1 : 1));
  const learners = shown.map(({ person, called, trials }, place): Learner => {
    const curve = fitLearningCurve(trials);
    const last = Math.max(2, ...trials.map(({ run }) => run));
    return {
      person,
      called,
      trials,
      curve,
      drawn: curve === null || place >= drawn ? [] : curveUpTo(curve, last),
      aim: curve === null ? null : runReachingAim(curve, aimed),
    };
  });
  return {
    procedure: logbook.procedures[procedure]?.id ?? '',
    title: logbook.procedures[procedure]?.title ?? '',
    aim: aimed,
    learners,
    shared: fitSharedRate([...byPerson.values()]),
  };
}

function trialsByPerson({ logbook, selection }: Asking, procedure: number): ReadonlyMap<number, (Trial & { readonly job: string })[]> {
  const { runs } = logbook;
  const byPerson = new Map<number, (Trial & { readonly job: string })[]>();
  eachRun({ logbook, selection }, (run) => {
    if (runs.procedure[run] !== procedure || !isSigned(logbook, run) || (runs.active[run] ?? 0) <= 0) return;
    const trial = { run: runs.number[run] ?? 1, time: (runs.active[run] ?? 0) / 1000, job: runs.job[run] ?? '' };
    const person = runs.person[run] ?? 0;
    const trials = byPerson.get(person);
    if (trials === undefined) byPerson.set(person, [trial]);
    else trials.push(trial);
  });
  for (const trials of byPerson.values()) trials.sort((one, other) => one.run - other.run);
  return byPerson;
}

/** How quickly a person learns over all procedures, set beside the others. */
export interface RateOfPerson {
  readonly person: number;
  readonly shared: SharedRate;
  /**
   * How far it lies from the others' middle, in their own spread (median absolute deviation, brought to the scale of a standard
   * deviation). Below −3 the person learns far faster than the rest, above 3 far slower.
   */
  readonly distance: number;
}

/** Rates of everybody with enough runs. A build is a level of its own: one may simply take longer. */
export function ratesOfPeople({ logbook, selection }: Pick<Asking, 'logbook' | 'selection'>): readonly RateOfPerson[] {
  const { runs } = logbook;
  const series = new Map<number, Map<number, Trial[]>>();
  eachRun({ logbook, selection }, (run) => {
    if (!isSigned(logbook, run) || (runs.active[run] ?? 0) <= 0) return;
    const person = runs.person[run] ?? 0;
    const key = (runs.procedure[run] ?? 0) * 65_536 + (runs.build[run] ?? 0);
    const own = series.get(person) ?? new Map<number, Trial[]>();
    series.set(person, own);
    const trials = own.get(key) ?? [];
    own.set(key, trials);
    trials.push({ run: runs.number[run] ?? 1, time: runs.active[run] ?? 0 });
  });
  const rates = [...series].flatMap(([person, own]) => {
    const shared = fitSharedRate([...own.values()]);
    return shared === null ? [] : [{ person, shared }];
  });
  if (rates.length === 0) return [];
  const middle = medianOf(rates.map(({ shared }) => shared.exponent));
  const spread = 1.4826 * medianOf(rates.map(({ shared }) => Math.abs(shared.exponent - middle)));
  return rates.map(({ person, shared }) => ({ person, shared, distance: spread === 0 ? 0 : (shared.exponent - middle) / spread }));
}
