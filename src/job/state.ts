import type { UndoneThing } from '../phrasing/lines.ts';
import type { Reason } from '../phrasing/intents.ts';
import type { Plan, PlannedStep } from '../procedure/plan-types.ts';
import type { TorqueUnit } from '../torque/quantities.ts';
import type { HandOverWay, JobEvent, Moment, NoteMedia, Recorded } from './events.ts';
import type { Rows } from './rows.ts';

/** What the fold reads of a recorded event. */
export type Folded = Pick<Recorded, 'seq' | 'session' | 'moment'> & { readonly event: JobEvent };

export interface LeftOut {
  readonly reason: Reason;
  readonly text: string | null;
}

export interface GroupProgress {
  /** For each position, how many passes it has been through. */
  readonly passesDone: readonly number[];
  /** For each position, why it was left out, or null. */
  readonly leftOut: readonly (LeftOut | null)[];
}

export interface MeasureProgress {
  /** The value that counts; null while it is asked for. */
  readonly value: number | null;
  /** Every value taken that was outside the limits, oldest first. */
  readonly outside: readonly number[];
}

export interface HoldProgress {
  readonly passed: boolean;
  readonly failures: number;
}

export interface StepProgress {
  readonly status: 'open' | 'done' | 'skipped' | 'passed-over';
  /** The side procedure that the step begins with has been worked. */
  readonly sideDone: boolean;
  readonly carriedOut: boolean;
  readonly groups: readonly GroupProgress[];
  readonly measures: readonly MeasureProgress[];
  readonly holds: readonly HoldProgress[];
  readonly wait: 'not begun' | 'running' | 'over' | 'cut short';
  readonly left: LeftOut | null;
  /** How often it has been opened anew. */
  readonly reopened: number;
}

export interface RunningTimer {
  readonly step: string;
  readonly name: string;
  readonly seconds: number;
  readonly started: Moment;
  readonly session: string;
}

export interface Note {
  readonly text: string;
  readonly question: boolean;
  readonly recording: string | null;
  readonly media: NoteMedia | null;
  readonly step: string | null;
  readonly seq: number;
}

/** A side procedure under way, and the step to come back to. */
export interface Frame {
  readonly side: string;
  readonly from: number;
  /** True when the step itself begins with it; false when a failed check or a stop sign led there. */
  readonly planned: boolean;
}

/** The piece of a step that is at hand. */
export type Part =
  | { readonly kind: 'caution'; readonly index: number }
  | { readonly kind: 'act' }
  | { readonly kind: 'fastener'; readonly group: number; readonly pass: number; readonly position: number }
  | { readonly kind: 'measure'; readonly index: number }
  | { readonly kind: 'hold'; readonly index: number }
  | { readonly kind: 'wait' };

export interface Cursor {
  readonly step: number;
  readonly part: Part;
}

export type BeforeProgress = { readonly answer: 'open' | 'true' | 'not true' } | { readonly answer: 'left'; readonly left: LeftOut };

/** The part of the state that undo gives back. */
export interface Work {
  readonly phase: 'briefing' | 'kit' | 'working' | 'closing';
  readonly acknowledged: readonly string[];
  readonly befores: readonly BeforeProgress[];
  /** For each kit item: at hand, missing, or null while not asked. */
  readonly kit: readonly (boolean | null)[];
  readonly steps: Rows<StepProgress>;
  /** No step of the main line before this place in it is open, so nobody looks there. */
  readonly openFrom: number;
  readonly frames: readonly Frame[];
  /** Null outside the working phase. */
  readonly cursor: Cursor | null;
  /** A step that is being looked back at. */
  readonly visit: number | null;
  /** Close-out was asked for although steps are open. */
  readonly finishAsked: boolean;
  /** From the close-out, one step is being done now; the close-out comes back after it. */
  readonly only: number | null;
  readonly timers: readonly RunningTimer[];
  readonly notes: readonly Note[];
  readonly accepted: Readonly<Record<string, LeftOut>>;
}

export interface Past {
  readonly work: Work;
  readonly what: UndoneThing;
  readonly seq: number;
}

export type Halt =
  | { readonly kind: 'paused' }
  | { readonly kind: 'left open' }
  | { readonly kind: 'handed over'; readonly way: HandOverWay }
  | { readonly kind: 'stopped'; readonly sign: number };

export interface JobState {
  readonly opened: Extract<JobEvent, { type: 'opened' }> | null;
  readonly work: Work;
  /** What undo can give back, newest last. */
  readonly past: readonly Past[];
  readonly halt: Halt | null;
  readonly spokenUnit: TorqueUnit | null;
  readonly signed: { readonly name: string; readonly moment: Moment } | null;
  /** What was done after the signature, by the follow-up's id. */
  readonly followedUp: Readonly<Record<string, { readonly name: string; readonly text: string | null; readonly moment: Moment }>>;
  /** Events folded so far; the next event's number. */
  readonly events: number;
  readonly last: { readonly moment: Moment; readonly session: string } | null;
}

/** How many things undo remembers; deeper history stays in the log. */
export const undoDepth = 200;

export const stepAt = (plan: Plan, index: number): PlannedStep => {
  const step = plan.steps[index];
  if (step === undefined) throw new RangeError(`step ${index} of ${plan.steps.length}`);
  return step;
};
