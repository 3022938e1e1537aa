import type { JobEvent, Recorded } from '../../job/events.ts';
import type { JobState } from '../../job/state.ts';
import type { LeftOut } from '../../job/state.ts';
import type { Plan, PlannedGroup, PlannedHold, PlannedMeasure, PlannedStep } from '../../procedure/plan-types.ts';
import { millisecondsBetween } from '../formats/times.ts';

export interface GroupFacts {
  readonly step: PlannedStep;
  readonly group: PlannedGroup;
  /** Positions that have been through every pass. */
  readonly finished: number;
  readonly leftOut: readonly { readonly position: string; readonly left: LeftOut }[];
  /** The last fastener's event, or null when none was touched. */
  readonly newest: Recorded | null;
  /** Names of the positions in the order in which the last pass took them; null when that is the planned order as far as it went. */
  readonly otherOrder: readonly string[] | null;
}

export interface MeasureFacts {
  readonly step: PlannedStep;
  readonly measure: PlannedMeasure;
  readonly taken: readonly { readonly value: number; readonly within: boolean; readonly recorded: Recorded }[];
}

export interface HoldFacts {
  readonly step: PlannedStep;
  readonly hold: PlannedHold;
  readonly answers: readonly { readonly passed: boolean; readonly recorded: Recorded }[];
}

type Tightened = Extract<JobEvent, { type: 'fastener-tightened' }>;

/** The events that still stand: not taken back, and not forgotten by a step that was begun afresh. */
export function standing(events: readonly Recorded[]): readonly Recorded[] {
  const undone = new Set(events.flatMap(({ event }) => (event.type === 'undone' ? [event.seq] : [])));
  const left: Recorded[] = [];
  for (const recorded of events) {
    const { event, seq } = recorded;
    if (undone.has(seq)) continue;
    if (event.type === 'step-reopened' && event.fresh) {
      const isForgotten = ({ event: earlier }: Recorded): boolean => isWork(earlier) && earlier.step === event.step;
      left.splice(0, left.length, ...left.filter((earlier) => !isForgotten(earlier)));
    }
    left.push(recorded);
  }
  return left;
}

function isWork(event: JobEvent): event is Extract<JobEvent, { type: 'fastener-tightened' | 'measured' | 'hold-answered' }> {
  return event.type === 'fastener-tightened' || event.type === 'measured' || event.type === 'hold-answered';
}

/** Steps that belong to this job: a side procedure that nothing called for does not. */
function stepsOfJob(plan: Plan, { work }: JobState): readonly PlannedStep[] {
  return plan.steps.filter(({ side }, index) => {
    const progress = work.steps.get(index);
    return side === null || (progress !== undefined && (progress.status !== 'open' || progress.reopened > 0));
  });
}

export function groupFacts(plan: Plan, state: JobState, events: readonly Recorded[]): readonly GroupFacts[] {
  const stands = standing(events);
  return stepsOfJob(plan, state).flatMap((step) =>
    step.groups.map((group, which): GroupFacts => {
      const progress = state.work.steps.get(step.index)?.groups[which];
      const own = stands.filter(({ event }) => event.type === 'fastener-tightened' && event.step === step.id && event.group === group.id);
      return {
        step,
        group,
        finished: progress?.passesDone.filter((done) => done >= group.passes.length).length ?? 0,
        leftOut: group.positions.flatMap(({ name }, position) => {
          const left = progress?.leftOut[position] ?? null;
          return left === null ? [] : [{ position: name, left }];
        }),
        newest: own.at(-1) ?? null,
        otherOrder: otherOrder(
          group,
          own.map(({ event }) => event as Tightened),
        ),
      };
    }),
  );
}

function otherOrder(group: PlannedGroup, tightened: readonly Tightened[]): readonly string[] | null {
  const last = tightened.at(-1)?.pass;
  if (last === undefined) return null;
  const taken = tightened.filter(({ pass }) => pass === last).map(({ position }) => position);
  const planned = (group.passes[last]?.order ?? []).filter((position) => taken.includes(position));
  if (taken.every((position, index) => position === planned[index])) return null;
  return taken.map((position) => group.positions[position]?.name ?? String(position + 1));
}

export function measureFacts(plan: Plan, state: JobState, events: readonly Recorded[]): readonly MeasureFacts[] {
  const stands = standing(events);
  return stepsOfJob(plan, state).flatMap((step) =>
    step.measures.map((measure) => ({
      step,
      measure,
      taken: stands.flatMap((recorded) => {
        const { event } = recorded;
        const isIt = event.type === 'measured' && event.step === step.id && event.measure === measure.id;
        return isIt ? [{ value: event.value, within: event.within, recorded }] : [];
      }),
    })),
  );
}

export function holdFacts(plan: Plan, state: JobState, events: readonly Recorded[]): readonly HoldFacts[] {
  const stands = standing(events);
  return stepsOfJob(plan, state).flatMap((step) =>
    step.holds.map((hold) => ({
      step,
      hold,
      answers: stands.flatMap((recorded) => {
        const { event } = recorded;
        const isIt = event.type === 'hold-answered' && event.step === step.id && event.hold === hold.id;
        return isIt ? [{ passed: event.passed, recorded }] : [];
      }),
    })),
  );
}

/** How long the job took, in milliseconds: from its first event to its signature, or its last so far, and how much of that it was paused or the app was closed. */
export function timeSpent(events: readonly Recorded[]): { readonly whole: number; readonly paused: number } {
  let whole = 0;
  let paused = 0;
  let isPaused = false;
  const signed = events.findIndex(({ event }) => event.type === 'signed');
  for (const [index, recorded] of (signed < 0 ? events : events.slice(0, signed + 1)).entries()) {
    const before = events[index - 1];
    if (before !== undefined) {
      const elapsed = millisecondsBetween(before, recorded);
      whole += elapsed;
      if (isPaused || before.session !== recorded.session) paused += elapsed;
    }
    const { type } = recorded.event;
    if (type === 'paused' || type === 'left-open' || type === 'handed-over') isPaused = true;
    else if (type === 'resumed') isPaused = false;
  }
  return { whole, paused };
}
