import { addMonths } from './calendar.ts';
import { wrenchClasses } from './crib.ts';
import type { Crib, CribRules, StepAdapter, TorqueWrench, WrenchClass } from './crib.ts';
import { armFactor } from './lever.ts';
import { parseNumber, tidy } from './numbers.ts';
import type { Degrees, Millimetres, Torque, TorqueBand, TorqueUnit } from './quantities.ts';
import { read, unread } from './reading.ts';
import type { Reading } from './reading.ts';
import { squareBears } from './sockets.ts';
import type { SquareDrive } from './sockets.ts';
import { convert, parseTorqueUnit, toNewtonMetres } from './units.ts';

/** What the choice depends on beside the target. */
export interface WrenchTask {
  /** The crowfoot or angled extension between square and fastener; null for a straight socket, on however long an extension bar. */
  readonly adapter: { readonly centre: Millimetres; readonly angle: Degrees } | null;
  /** The square that the socket takes; null where any does. */
  readonly square: SquareDrive | null;
  /** ISO date. */
  readonly today: string;
}

export type WrenchWarning =
  | { readonly code: 'calibration-overdue'; readonly calibrated: string; readonly due: string }
  | { readonly code: 'operations-overdue'; readonly operations: number; readonly limit: number }
  | { readonly code: 'calibration-unknown' }
  | { readonly code: 'suspect' }
  /** Under the share of its maximum from which accuracy is claimed. */
  | { readonly code: 'under-usable-range'; readonly percentOfMax: number; readonly usableFrom: number }
  /** The source gives no band, and rounding to a mark strays further than the wrench itself may. */
  | { readonly code: 'rounding-beyond-tolerance'; readonly deviation: number; readonly tolerance: number }
  /** What the wrench may stray leads out of the source's band. */
  | { readonly code: 'spread-outside-band'; readonly low: Torque; readonly high: Torque }
  /** More than the person's own limit for the square that the socket takes. */
  | { readonly code: 'square-overloaded'; readonly square: SquareDrive; readonly limit: Torque }
  /** A mark is more than a tenth of the torque (TM 1-1500-204-23-9). */
  | { readonly code: 'coarse-graduation'; readonly graduation: Torque };

export type WrenchReason =
  | { readonly code: 'no-wrench' }
  | { readonly code: 'under-range'; readonly wrench: string; readonly needed: Torque; readonly min: Torque }
  | { readonly code: 'over-range'; readonly wrench: string; readonly needed: Torque; readonly max: Torque }
  | { readonly code: 'rounding-outside-band'; readonly wrench: string; readonly nearest: Torque; readonly deviation: number }
  | { readonly code: 'square-differs'; readonly wrench: string; readonly has: SquareDrive; readonly needs: SquareDrive }
  | { readonly code: 'lever-unknown'; readonly wrench: string }
  | { readonly code: 'arm-impossible'; readonly wrench: string };

export interface WrenchFit {
  readonly fits: true;
  readonly wrench: TorqueWrench;
  /** On a mark, in the wrench's own unit. */
  readonly set: Torque;
  /** Before rounding to a mark, in the wrench's own unit. */
  readonly exact: Torque;
  /** At the fastener, in the unit of the target: with the wrench true, and at the ends of its tolerance. */
  readonly achieved: { readonly nominal: Torque; readonly low: Torque; readonly high: Torque };
  /** Percent by which the nominal misses the target, with its sign. */
  readonly deviation: number;
  readonly percentOfMax: number;
  /** Whether an adapter changes the setting. */
  readonly corrected: boolean;
  /** What brings the wrench's square to the socket's, where they differ. */
  readonly stepAdapter: StepAdapter | null;
  readonly warnings: readonly WrenchWarning[];
}

export type WrenchChoice = WrenchFit | { readonly fits: false; readonly reasons: readonly WrenchReason[] };

/** A torque wrench of ordinary class is ±4 % of what it reads (ISO 6789:2003 type II class A above 10 N·m, second-hand). */
export const ordinaryTolerance = 4;

/**
 * The best of the person's wrenches for a torque: one without anything to warn of; then one that works between 30 and 80 % of its
 * range (TM 1-1500-204-23-9), judged after the adapter correction; then the one whose mark is nearest. When none will do, why each will not.
 */
export function chooseWrench(target: Torque, band: TorqueBand | null, crib: Crib, task: WrenchTask): WrenchChoice {
  const tried = crib.wrenches.map((wrench) => tryWrench(wrench, target, band, crib, task));
  const fits = tried.filter((choice) => choice.fits);
  const [first, ...others] = fits;
  if (first) return others.reduce((best, fit) => (isBetter(fit, best) ? fit : best), first);
  const reasons = tried.flatMap((choice) => (choice.fits ? [] : choice.reasons));
  return { fits: false, reasons: reasons.length > 0 ? reasons : [{ code: 'no-wrench' }] };
}

/** What one wrench would be set to, or why it will not do. */
export function tryWrench(
  wrench: TorqueWrench,
  target: Torque,
  band: TorqueBand | null,
  crib: Pick<Crib, 'stepAdapters' | 'rules'>,
  task: WrenchTask,
): WrenchChoice {
  const stepAdapter = crib.stepAdapters.find(({ from, to }) => from === wrench.square && to === task.square) ?? null;
  if (task.square !== null && wrench.square !== task.square && stepAdapter === null) {
    return misfit({ code: 'square-differs', wrench: wrench.name, has: wrench.square, needs: task.square });
  }
  const factor = factorOf(wrench, task);
  if (typeof factor !== 'number') return misfit({ code: factor, wrench: wrench.name });
  const exact = { value: convert(target, wrench.unit).value * factor, unit: wrench.unit };
  const inUnit = (value: number): Torque => ({ value, unit: wrench.unit });
  if (exact.value < wrench.min * (1 - rangeSlack)) {
    return misfit({ code: 'under-range', wrench: wrench.name, needed: exact, min: inUnit(wrench.min) });
  }
  if (exact.value > wrench.max * (1 + rangeSlack)) {
    return misfit({ code: 'over-range', wrench: wrench.name, needed: exact, max: inUnit(wrench.max) });
  }
  const atFastener = (setting: number): Torque => ({ value: convert(inUnit(setting / factor), target.unit).value, unit: target.unit });
  const marks = marksAround(wrench, exact.value).map((mark) => {
    const nominal = atFastener(mark);
    return { mark, nominal, deviation: (nominal.value / target.value - 1) * 100, inBand: band === null || isWithin(nominal, target, band) };
  });
  const [best] = marks.sort((a, b) => Number(b.inBand) - Number(a.inBand) || Math.abs(a.deviation) - Math.abs(b.deviation));
  if (!best?.inBand) {
    return misfit({
      code: 'rounding-outside-band',
      wrench: wrench.name,
      nearest: inUnit(best?.mark ?? wrench.min),
      deviation: best?.deviation ?? 0,
    });
  }
  const tolerance = tolerancePercent(wrench.tolerance, inUnit(best.mark));
  const achieved = {
    nominal: best.nominal,
    low: atFastener(best.mark * (1 - tolerance / 100)),
    high: atFastener(best.mark * (1 + tolerance / 100)),
  };
  const percentOfMax = (best.mark / wrench.max) * 100;
  const warnings = [
    ...calibrationWarnings(wrench, crib.rules, task.today),
    ...settingWarnings(wrench, best.mark, percentOfMax, crib.rules),
    ...bandWarnings(target, band, achieved, best.deviation, tolerance),
    ...squareWarnings(target, task.square ?? wrench.square, crib.rules),
  ];
  return {
    fits: true,
    wrench,
    set: inUnit(best.mark),
    exact,
    achieved,
    deviation: best.deviation,
    percentOfMax,
    corrected: factor !== 1,
    stepAdapter,
    warnings,
  };
}

/** What the wrench may stray, in percent of what it reads: its own figure, or its class's, which is wider up to 10 N·m. */
export function tolerancePercent(tolerance: number | WrenchClass, reading: Torque): number {
  if (typeof tolerance === 'number') return tolerance;
  const { small, large } = wrenchClasses[tolerance];
  return toNewtonMetres(reading) <= 10 ? small : large;
}

/** The nearest mark of a scale: whole multiples of the graduation. A display without one takes four figures. */
export function roundToGraduation(value: number, graduation: number | null): number {
  return graduation === null ? Number(value.toPrecision(4)) : tidy(Math.round(value / graduation) * graduation);
}

/** What speaks against a wrench whatever it is set to. */
export function calibrationWarnings(wrench: TorqueWrench, rules: CribRules, today: string): readonly WrenchWarning[] {
  const warnings: WrenchWarning[] = [];
  if (wrench.suspect) warnings.push({ code: 'suspect' });
  if (wrench.calibrated === null) warnings.push({ code: 'calibration-unknown' });
  else {
    const due = addMonths(wrench.calibrated, rules.calibrationMonths);
    if (today > due) warnings.push({ code: 'calibration-overdue', calibrated: wrench.calibrated, due });
  }
  if (wrench.operations >= rules.calibrationOperations) {
    warnings.push({ code: 'operations-overdue', operations: wrench.operations, limit: rules.calibrationOperations });
  }
  return warnings;
}

/** Reads a wrench's range as it is printed on its shaft: "40-200/5", "40–200 N·m", "5 to 25/0.5 lbf·ft". */
export function parseWrenchRange(
  text: string,
  unitWhereNone: TorqueUnit,
): Reading<
  Pick<TorqueWrench, 'min' | 'max' | 'graduation' | 'unit'>,
  'not-a-range' | 'range-upside-down' | 'graduation-too-wide' | 'unknown-unit'
> {
  const match = /^\s*([\d.,]+)\s*(?:-|–|to)\s*([\d.,]+)\s*(?:\/\s*([\d.,]+))?\s*(\D.*)?$/su.exec(text.slice(0, 80));
  const [min, max] = [parseNumber(match?.[1] ?? ''), parseNumber(match?.[2] ?? '')];
  const step = match?.[3] === undefined ? null : parseNumber(match[3]);
  if (!min.ok || !max.ok || step?.ok === false) return unread('not-a-range', text, 'a range and its graduation, such as 40-200/5');
  if (!(min.value < max.value)) return unread('range-upside-down', text, 'the lower value first');
  const graduation = step === null ? null : step.value;
  if (graduation !== null && !(graduation > 0 && graduation <= max.value - min.value)) {
    return unread('graduation-too-wide', text, 'a graduation above zero that fits into the range');
  }
  const unit = match?.[4] === undefined ? read(unitWhereNone) : parseTorqueUnit(match[4]);
  return unit.ok
    ? read({ min: min.value, max: max.value, graduation, unit: unit.value })
    : unread('unknown-unit', text, unit.problem.expected);
}

/** Room for the last digits of a double, so that 40 lbf·ft is not under a range that begins at 40. */
const rangeSlack = 1e-9;

function misfit(reason: WrenchReason): WrenchChoice {
  return { fits: false, reasons: [reason] };
}

function factorOf(wrench: TorqueWrench, { adapter }: WrenchTask): number | 'lever-unknown' | 'arm-impossible' {
  if (adapter === null) return 1;
  // Square to the lever, an adapter changes nothing, however long the lever is.
  if (wrench.lever === null) return adapter.centre === 0 || Math.abs(adapter.angle % 180) === 90 ? 1 : 'lever-unknown';
  return armFactor({ lever: wrench.lever, ...adapter }) ?? 'arm-impossible';
}

function marksAround(wrench: TorqueWrench, exact: number): number[] {
  const clamp = (value: number) => Math.min(wrench.max, Math.max(wrench.min, value));
  if (wrench.graduation === null) return [clamp(roundToGraduation(exact, null))];
  const steps = exact / wrench.graduation;
  const nearest = Math.round(steps);
  const around = Math.abs(steps - nearest) < rangeSlack ? [nearest] : [Math.floor(steps), Math.ceil(steps)];
  const graduation = wrench.graduation;
  return [...new Set(around.map((step) => clamp(tidy(step * graduation))))];
}

function isWithin(nominal: Torque, target: Torque, band: TorqueBand): boolean {
  const slack = target.value * 1e-9;
  return nominal.value >= target.value - band.minus - slack && nominal.value <= target.value + band.plus + slack;
}

function settingWarnings(wrench: TorqueWrench, mark: number, percentOfMax: number, rules: CribRules): readonly WrenchWarning[] {
  const warnings: WrenchWarning[] = [];
  if (percentOfMax < rules.usableFrom) warnings.push({ code: 'under-usable-range', percentOfMax, usableFrom: rules.usableFrom });
  if (wrench.graduation !== null && wrench.graduation > mark / 10) {
    warnings.push({ code: 'coarse-graduation', graduation: { value: wrench.graduation, unit: wrench.unit } });
  }
  return warnings;
}

function bandWarnings(
  target: Torque,
  band: TorqueBand | null,
  achieved: WrenchFit['achieved'],
  deviation: number,
  tolerance: number,
): readonly WrenchWarning[] {
  if (band === null) return Math.abs(deviation) > tolerance ? [{ code: 'rounding-beyond-tolerance', deviation, tolerance }] : [];
  const stays = isWithin(achieved.low, target, band) && isWithin(achieved.high, target, band);
  return stays ? [] : [{ code: 'spread-outside-band', low: achieved.low, high: achieved.high }];
}

function squareWarnings(target: Torque, square: SquareDrive, { squareLimits }: CribRules): readonly WrenchWarning[] {
  const limit = squareLimits[square];
  if (limit === null || squareBears(square, target, squareLimits) !== false) return [];
  return [{ code: 'square-overloaded', square, limit: { value: limit, unit: 'N·m' } }];
}

function isBetter(one: WrenchFit, other: WrenchFit): boolean {
  const difference = rank(one)
    .map((value, index) => value - (rank(other)[index] ?? 0))
    .find((value) => Math.abs(value) > 1e-9);
  return difference === undefined ? one.wrench.id < other.wrench.id : difference < 0;
}

function rank(fit: WrenchFit): readonly number[] {
  const outside = Math.max(0, 30 - fit.percentOfMax, fit.percentOfMax - 80);
  return [
    fit.warnings.length,
    outside,
    fit.stepAdapter === null ? 0 : 1,
    Math.abs(fit.deviation),
    tolerancePercent(fit.wrench.tolerance, fit.set),
  ];
}
