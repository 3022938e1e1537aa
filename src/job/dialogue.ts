import type { DialogueState, IntentName, Reason } from '../phrasing/intents.ts';
import type { FastenerPlace, Matter } from '../phrasing/lines.ts';
import type { Plan, PlannedBefore, PlannedCaution, PlannedStep } from '../procedure/plan-types.ts';
import type { Moment } from './events.ts';
import { legalIn } from './legal.ts';
import { unansweredMatters } from './matters.ts';
import { leftInPass } from './progress.ts';
import type { JobState } from './state.ts';
import { stepAt } from './state.ts';

/** Something risky that was read back and waits for a yes, or for a reason. It is forgotten when the app dies: nothing was decided. */
export type Pending =
  | { readonly kind: 'skip-step'; readonly step: number; readonly reason: Reason; readonly text: string | null }
  | { readonly kind: 'skip-fastener'; readonly reason: Reason; readonly text: string | null }
  | { readonly kind: 'leave-before'; readonly before: PlannedBefore; readonly reason: Reason; readonly text: string | null }
  | { readonly kind: 'wave-kit'; readonly left: number }
  | { readonly kind: 'finish'; readonly openSteps: number }
  | { readonly kind: 'reopen'; readonly step: number }
  | { readonly kind: 'cut-wait' }
  | { readonly kind: 'measure'; readonly value: number; readonly saidUnit: string | null }
  | { readonly kind: 'sign'; readonly name: string }
  /** Index into the plan's follow-ups. */
  | { readonly kind: 'follow-up'; readonly index: number }
  | { readonly kind: 'check-before'; readonly before: PlannedBefore }
  | { readonly kind: 'reason'; readonly wantedFor: ReasonWanted };

export type ReasonWanted =
  | { readonly kind: 'skip-step'; readonly step: number }
  | { readonly kind: 'skip-fastener' }
  | { readonly kind: 'leave-before'; readonly before: PlannedBefore }
  | { readonly kind: 'accept'; readonly matter: string };

/** All that a decision depends on: the fold, and what was asked a moment ago. */
export interface Dialogue {
  readonly plan: Plan;
  readonly job: JobState;
  readonly pending: Pending | null;
  /** How many utterances in a row were not understood. */
  readonly misses: number;
}

export interface Now {
  readonly moment: Moment;
  readonly session: string;
}

/** The dialogue state that the facts alone call for. */
export function stateOfJob(plan: Plan, job: JobState): DialogueState {
  if (job.signed !== null) return 'closed';
  const { work } = job;
  if (job.halt !== null) return job.halt.kind === 'stopped' && work.phase === 'working' ? 'diagnosing' : 'paused';
  switch (work.phase) {
    case 'briefing':
    case 'kit':
      return work.phase;
    case 'closing':
      return unansweredMatters(plan, work).length > 0 ? 'closing' : 'signing';
    case 'working': {
      if (work.visit !== null) return 'visiting';
      switch (work.cursor?.part.kind) {
        case 'fastener':
          return 'fastening';
        case 'measure':
          return 'measuring';
        case 'hold':
          return 'checking';
        case 'wait':
          return 'waiting';
        case 'act':
        case 'caution':
        case undefined:
          return 'stating';
      }
    }
  }
}

export function stateOf(dialogue: Dialogue): DialogueState {
  if (dialogue.pending === null) return stateOfJob(dialogue.plan, dialogue.job);
  return dialogue.pending.kind === 'reason' ? 'reasoning' : 'confirming';
}

/** What may be said right now: the state's row of the table, less what would have nothing to act on. */
export function legalNow(dialogue: Dialogue): readonly IntentName[] {
  const { job, pending } = dialogue;
  const row = legalIn[stateOf(dialogue)];
  const step = stepAtHand(dialogue.plan, job);
  return row.filter((name) => {
    switch (name) {
      case 'undo':
        return job.past.length > 0;
      case 'time-left':
        return job.work.timers.length > 0;
      case 'start-timer':
        return step?.wait !== undefined && step.wait !== null && job.work.steps.get(step.index)?.wait === 'not begun';
      case 'number':
        return pending === null || pending.kind === 'measure';
      case 'follow-up-done':
        return nextFollowUp(dialogue.plan, job, 0) !== null;
      case 'yes':
        return stateOf(dialogue) !== 'stating' || job.work.cursor?.part.kind === 'caution';
      default:
        return true;
    }
  });
}

/** The step that questions are about: the one looked back at, or the one being worked. */
export function stepAtHand(plan: Plan, job: JobState): PlannedStep | null {
  const index = job.work.visit ?? job.work.cursor?.step ?? null;
  return index === null ? null : stepAt(plan, index);
}

/** The fastener at hand, or null. */
export function fastenerAtHand(plan: Plan, job: JobState): FastenerPlace | null {
  const { cursor, visit } = job.work;
  if (cursor?.part.kind !== 'fastener' || visit !== null) return null;
  const group = stepAt(plan, cursor.step).groups[cursor.part.group];
  const progress = job.work.steps.get(cursor.step)?.groups[cursor.part.group];
  if (group === undefined || progress === undefined) return null;
  return { group, pass: cursor.part.pass, position: cursor.part.position, left: leftInPass(progress, cursor.part.pass) };
}

export type BriefingItem =
  | { readonly kind: 'caution'; readonly caution: PlannedCaution }
  | { readonly kind: 'before'; readonly before: PlannedBefore; readonly number: number; readonly of: number };

/** The caution or the condition at hand in the briefing: cautions first. */
export function briefingItem(plan: Plan, job: JobState): BriefingItem | null {
  const caution = plan.cautions.find((one) => !job.work.acknowledged.includes(one.id));
  if (caution !== undefined) return { kind: 'caution', caution };
  const index = job.work.befores.findIndex((one) => one.answer === 'open' || one.answer === 'not true');
  const before = plan.befores[index];
  return before === undefined ? null : { kind: 'before', before, number: index + 1, of: plan.befores.length };
}

/** The index of the kit item at hand, or null. */
export function kitItemIndex(job: JobState): number | null {
  const index = job.work.kit.indexOf(null);
  return index < 0 ? null : index;
}

/** The close-out matter at hand, and how many there were to answer. */
export function matterAtHand(plan: Plan, job: JobState): { matter: Matter; number: number; of: number } | null {
  const open = unansweredMatters(plan, job.work);
  const matter = open[0];
  const answered = Object.keys(job.work.accepted).length;
  return matter === undefined ? null : { matter, number: answered + 1, of: answered + open.length };
}

/** The first thing from that index on that is to be done after the job and is not on record as done; null when there is none. */
export function nextFollowUp(plan: Plan, job: JobState, from: number): number | null {
  const index = plan.followUps.findIndex(({ id }, at) => at >= from && !Object.hasOwn(job.followedUp, id));
  return index < 0 ? null : index;
}

export const mainSteps = (plan: Plan): readonly PlannedStep[] => plan.steps.filter((step) => step.side === null);

/** Seconds that a timer still has; never below zero. Within one run of the app the monotonic clock counts, across runs the wall's. */
export function secondsLeft(timer: { readonly seconds: number; readonly started: Moment; readonly session: string }, now: Now): number {
  const elapsed = timer.session === now.session ? now.moment.mono - timer.started.mono : now.moment.wall - timer.started.wall;
  return Math.max(0, Math.ceil(timer.seconds - Math.max(0, elapsed) / 1000));
}
