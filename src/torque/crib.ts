import type { Degrees, Millimetres, TorqueUnit } from './quantities.ts';
import { rememberedSquareLimits } from './sockets.ts';
import type { FastenerDrive, SquareDrive, SquareLimits } from './sockets.ts';

/** Everything that one person has to tighten with, filled in once. */
export interface Crib {
  readonly format: 1;
  readonly name: string;
  readonly wrenches: readonly TorqueWrench[];
  readonly adapters: readonly Adapter[];
  readonly sockets: readonly Socket[];
  readonly bits: readonly Bit[];
  readonly extensions: readonly Extension[];
  readonly joints: readonly Joint[];
  readonly drives: readonly Drive[];
  readonly stepAdapters: readonly StepAdapter[];
  readonly angleGauges: readonly AngleGauge[];
  /** Whatever else a procedure may ask for by name. */
  readonly others: readonly OtherTool[];
  readonly rules: CribRules;
}

export interface TorqueWrench {
  readonly id: string;
  readonly name: string;
  /** Lowest and highest marked value, in `unit`. */
  readonly min: number;
  readonly max: number;
  readonly unit: TorqueUnit;
  /** From one mark to the next, in `unit`; null for a display that takes any value. */
  readonly graduation: number | null;
  readonly square: SquareDrive;
  /** Percent of the value set, or the class that gives it. */
  readonly tolerance: number | WrenchClass;
  /** ISO date of the last calibration; null where nobody knows. */
  readonly calibrated: string | null;
  /** Clicks since then. */
  readonly operations: number;
  /** Dropped, or loaded beyond its maximum, since then. */
  readonly suspect: boolean;
  /** From the middle of the square to where the hand pulls, in mm; needed only with an adapter. */
  readonly lever: Millimetres | null;
}

export interface Adapter {
  readonly id: string;
  readonly kind: 'crowfoot' | 'extension';
  /** The fastener's size, or null for one that only carries a socket. */
  readonly size: string | null;
  readonly sizeUnit: 'mm' | 'in' | null;
  readonly square: SquareDrive;
  /** From the middle of the square to the middle of the fastener, in mm. */
  readonly centre: Millimetres;
  /** The angle to the lever that its shape fixes; null when it can be set at any. */
  readonly angle: Degrees | null;
}

export interface Socket {
  readonly id: string;
  readonly kind: Extract<FastenerDrive, 'hex' | 'bihex' | 'square'>;
  readonly size: string;
  readonly sizeUnit: 'mm' | 'in';
  readonly square: SquareDrive;
  readonly deep: boolean;
}

export interface Bit {
  readonly id: string;
  readonly kind: Extract<FastenerDrive, 'socket-head hex' | 'internal serration' | 'slotted' | 'cross-head'>;
  readonly size: string;
  /** Null for numbered sizes, such as T50. */
  readonly sizeUnit: 'mm' | 'in' | null;
  /** Null for a screwdriver. */
  readonly square: SquareDrive | null;
}

export interface Extension {
  readonly id: string;
  readonly length: Millimetres;
  readonly square: SquareDrive;
}

export interface Joint {
  readonly id: string;
  readonly square: SquareDrive;
}

/** A ratchet or a bar: it turns, and does not measure. */
export interface Drive {
  readonly id: string;
  readonly kind: 'ratchet' | 'bar';
  readonly square: SquareDrive;
}

/** From one square to another: `from` sits on the wrench, `to` carries the socket. */
export interface StepAdapter {
  readonly id: string;
  readonly from: SquareDrive;
  readonly to: SquareDrive;
}

export interface AngleGauge {
  readonly id: string;
  readonly name: string;
  readonly square: SquareDrive | null;
}

export interface OtherTool {
  readonly id: string;
  readonly name: string;
}

/** What the person may set otherwise. */
export interface CribRules {
  readonly calibrationMonths: number;
  readonly calibrationOperations: number;
  /** Percent of the maximum under which no accuracy is claimed. */
  readonly usableFrom: number;
  readonly squareLimits: SquareLimits;
}

/**
 * Recalibrate after 12 months or 5000 operations (ISO 6789:2003, second-hand); no accuracy claimed under 20 % of full scale
 * (TM 1-1500-204-23-9, seen); square drives by memory.
 */
export const usualRules: CribRules = {
  calibrationMonths: 12,
  calibrationOperations: 5000,
  usableFrom: 20,
  squareLimits: rememberedSquareLimits,
};

export const emptyCrib: Crib = {
  format: 1,
  name: 'My tools',
  wrenches: [],
  adapters: [],
  sockets: [],
  bits: [],
  extensions: [],
  joints: [],
  drives: [],
  stepAdapters: [],
  angleGauges: [],
  others: [],
  rules: usualRules,
};

/**
 * ISO 6789:2003, permissible deviation in percent up to 10 N·m and above: type I shows the torque, type II clicks at it.
 * Type II class A second-hand, the others memory.
 */
export const wrenchClasses = {
  'I-A': { small: 6, large: 6 },
  'I-B': { small: 6, large: 4 },
  'I-C': { small: 6, large: 4 },
  'I-D': { small: 6, large: 6 },
  'I-E': { small: 6, large: 4 },
  'II-A': { small: 6, large: 4 },
  'II-B': { small: 6, large: 4 },
  'II-C': { small: 6, large: 6 },
  'II-D': { small: 6, large: 4 },
  'II-E': { small: 6, large: 4 },
  'II-F': { small: 6, large: 6 },
  'II-G': { small: 6, large: 6 },
} as const;
export type WrenchClass = keyof typeof wrenchClasses;

/** The crib with so many more clicks on one wrench, counted from what was tightened with it. */
export function countOperations(crib: Crib, wrenchId: string, clicks: number): Crib {
  return withWrench(crib, wrenchId, (wrench) => ({ ...wrench, operations: wrench.operations + clicks }));
}

/** The crib with one wrench back from calibration on that ISO date. */
export function recordCalibration(crib: Crib, wrenchId: string, date: string): Crib {
  return withWrench(crib, wrenchId, (wrench) => ({ ...wrench, calibrated: date, operations: 0, suspect: false }));
}

function withWrench(crib: Crib, id: string, change: (wrench: TorqueWrench) => TorqueWrench): Crib {
  return { ...crib, wrenches: crib.wrenches.map((wrench) => (wrench.id === id ? change(wrench) : wrench)) };
}
