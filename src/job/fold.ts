import type { UndoneThing } from '../phrasing/lines.ts';
import type { Branch, Plan, PlannedStep } from '../procedure/plan-types.ts';
import type { JobEvent } from './events.ts';
import { lineOf, stepIndex } from './plan-index.ts';
import { freshStep, reopenSide } from './progress.ts';
import { Rows } from './rows.ts';
import { settle } from './settle.ts';
import type { Folded, JobState, StepProgress, Work } from './state.ts';
import { stepAt, undoDepth } from './state.ts';
import { openMatters, unansweredMatters } from './matters.ts';

/** The state of a job of which nothing has happened yet. */
export function newJob(plan: Plan): JobState {
  const work: Work = {
    phase: 'briefing',
    acknowledged: [],
    befores: plan.befores.map(() => ({ answer: 'open' })),
    kit: plan.kit.map(() => null),
    steps: Rows.of(plan.steps.map((step) => freshStep(step))),
    openFrom: 0,
    frames: [],
    cursor: null,
    visit: null,
    finishAsked: false,
    only: null,
    timers: [],
    notes: [],
    accepted: {},
  };
  return { opened: null, work, past: [], halt: null, spokenUnit: plan.spokenUnit, signed: null, followedUp: {}, events: 0, last: null };
}

/** The fold: the state of a job after its events, in order. Events that do not fit the plan change nothing. */
export function foldJob(plan: Plan, events: Iterable<Folded>): JobState {
  let state = newJob(plan);
  for (const event of events) state = applyEvent(plan, state, event);
  return state;
}

/** One step of the fold. Total: an event that does not fit the plan or the state changes nothing but the count. */
export function applyEvent(plan: Plan, state: JobState, folded: Folded): JobState {
  const counted: JobState = { ...state, events: state.events + 1, last: { moment: folded.moment, session: folded.session } };
  const { event } = folded;
  if (state.signed !== null) return event.type === 'follow-up-done' ? followUp(plan, counted, event, folded) : counted;
  switch (event.type) {
    case 'opened':
      return { ...counted, opened: event, work: settle(plan, counted.work, folded) };
    case 'unit-chosen':
      return { ...counted, spokenUnit: event.unit };
    case 'paused':
      return { ...counted, halt: { kind: 'paused' } };
    case 'left-open':
      return { ...counted, halt: { kind: 'left open' } };
    case 'handed-over':
      return { ...counted, halt: { kind: 'handed over', way: event.way } };
    case 'stopped':
      return { ...counted, halt: { kind: 'stopped', sign: 0 } };
    case 'resumed':
      return { ...counted, halt: null };
    case 'undone': {
      const newest = state.past.at(-1);
      if (newest?.seq !== event.seq) return counted;
      // A timer that ran out cannot be made to run again by taking back something older.
      return { ...counted, work: newest.work, past: state.past.slice(0, -1) };
    }
    case 'timer-ended':
      return {
        ...counted,
        work: settle(plan, endTimer(plan, counted.work, event.step), folded),
        past: counted.past.map((past) => ({ ...past, work: endTimer(plan, past.work, event.step) })),
      };
    case 'signed':
      return counted.work.phase !== 'closing' || unansweredMatters(plan, counted.work).length > 0
        ? counted
        : { ...counted, signed: { name: event.name, moment: folded.moment }, halt: null };
    case 'follow-up-done':
    case 'step-begun':
    case 'step-finished':
    case 'asked':
    case 'misheard':
    case 'refused':
    case 'clock-jumped':
      return counted;
    default: {
      const changed = change(plan, counted.work, event, folded);
      if (changed === null) {
        if (event.type === 'stop-sign-answered') return answerStopSign(plan, counted, event, folded);
        return counted;
      }
      return remember(counted, settle(plan, changed.work, folded), changed.what, folded.seq);
    }
  }
}

function followUp(plan: Plan, state: JobState, event: Extract<JobEvent, { type: 'follow-up-done' }>, { moment }: Folded): JobState {
  const isPlanned = plan.followUps.some(({ id }) => id === event.followUp);
  if (!isPlanned || Object.hasOwn(state.followedUp, event.followUp)) return state;
  return { ...state, followedUp: { ...state.followedUp, [event.followUp]: { name: event.name, text: event.text, moment } } };
}

const remember = (state: JobState, work: Work, what: UndoneThing, seq: number): JobState => ({
  ...state,
  work,
  past: [...state.past.slice(-(undoDepth - 1)), { work: state.work, what, seq }],
});

/** The reversible events. Null when the event does not fit. */
function change(plan: Plan, work: Work, event: JobEvent, folded: Folded): { work: Work; what: UndoneThing } | null {
  switch (event.type) {
    case 'caution-acknowledged':
      if (work.acknowledged.includes(event.caution)) return null;
      return { work: { ...work, acknowledged: [...work.acknowledged, event.caution] }, what: 'caution' };
    case 'before-answered': {
      const index = plan.befores.findIndex((before) => before.id === event.before);
      if (index < 0) return null;
      return { work: { ...work, befores: work.befores.with(index, { answer: event.isTrue ? 'true' : 'not true' }) }, what: 'before' };
    }
    case 'before-left': {
      const index = plan.befores.findIndex((before) => before.id === event.before);
      if (index < 0) return null;
      return {
        work: { ...work, befores: work.befores.with(index, { answer: 'left', left: { reason: event.reason, text: event.text } }) },
        what: 'before',
      };
    }
    case 'kit-answered': {
      const index = plan.kit.findIndex((item) => item.id === event.item);
      if (index < 0) return null;
      return { work: { ...work, kit: work.kit.with(index, event.atHand) }, what: 'kit' };
    }
    case 'kit-waved-through':
      return work.phase === 'kit' ? { work: { ...work, phase: 'working' }, what: 'kit' } : null;
    case 'step-carried-out':
      return onStep(plan, work, event.step, 'step', (progress) => (progress.carriedOut ? null : { ...progress, carriedOut: true }));
    case 'fastener-tightened':
      return onStep(plan, work, event.step, 'fastener', (progress, step) => tighten(step, progress, event));
    case 'fastener-left-out':
      return onStep(plan, work, event.step, 'skip', (progress, step) => {
        const index = step.groups.findIndex((group) => group.id === event.group);
        const group = progress.groups[index];
        if (group?.leftOut[event.position] !== null) return null;
        const leftOut = group.leftOut.with(event.position, { reason: event.reason, text: event.text });
        return { ...progress, groups: progress.groups.with(index, { ...group, leftOut }) };
      });
    case 'measured':
      return measure(plan, work, event);
    case 'hold-answered':
      return answerHold(plan, work, event);
    case 'wait-cut-short': {
      const cut = onStep(plan, work, event.step, 'timer', (progress) =>
        progress.wait === 'running' ? { ...progress, wait: 'cut short' } : null,
      );
      return cut && { ...cut, work: { ...cut.work, timers: cut.work.timers.filter((timer) => timer.step !== event.step) } };
    }
    case 'timer-started': {
      const started = onStep(plan, work, event.step, 'timer', (progress, step) =>
        step.wait !== null && progress.wait === 'not begun' ? { ...progress, wait: 'running' } : null,
      );
      const wait = plan.steps[stepIndex(plan, event.step)]?.wait;
      if (started === null || wait === undefined || wait === null) return null;
      const timer = { step: event.step, name: wait.name, seconds: wait.seconds, started: folded.moment, session: folded.session };
      return { ...started, work: { ...started.work, timers: [...started.work.timers, timer] } };
    }
    case 'step-skipped':
      return onStep(plan, work, event.step, 'skip', (progress) =>
        progress.status === 'open' ? { ...progress, status: 'skipped', left: { reason: event.reason, text: event.text } } : null,
      );
    case 'step-reopened':
      return reopen(plan, work, event);
    case 'looked-back': {
      if (event.step === null) return work.visit === null ? null : { work: { ...work, visit: null }, what: 'back' };
      const index = stepIndex(plan, event.step);
      return index < 0 || work.phase !== 'working' ? null : { work: { ...work, visit: index }, what: 'back' };
    }
    case 'noted': {
      const index = work.visit ?? work.cursor?.step ?? null;
      const note = {
        text: event.text,
        question: event.question,
        recording: event.recording,
        media: event.media,
        step: index === null ? null : stepAt(plan, index).id,
        seq: folded.seq,
      };
      return { work: { ...work, notes: [...work.notes, note] }, what: 'note' };
    }
    case 'finish-asked':
      return work.phase === 'closing'
        ? null
        : { work: { ...work, phase: 'closing', finishAsked: true, visit: null, cursor: null }, what: 'finish' };
    case 'matter-accepted':
      if (work.phase !== 'closing' || !openMatters(plan, work).some((matter) => matter.id === event.matter)) return null;
      return {
        work: { ...work, accepted: { ...work.accepted, [event.matter]: { reason: event.reason, text: event.text } } },
        what: 'accept',
      };
    default:
      return null;
  }
}

function onStep(
  plan: Plan,
  work: Work,
  id: string,
  what: UndoneThing,
  edit: (progress: StepProgress, step: PlannedStep) => StepProgress | null,
): { work: Work; what: UndoneThing } | null {
  const index = stepIndex(plan, id);
  const progress = work.steps.get(index);
  if (progress === undefined) return null;
  const edited = edit(progress, stepAt(plan, index));
  return edited && { work: { ...work, steps: work.steps.with(index, edited) }, what };
}

function tighten(step: PlannedStep, progress: StepProgress, event: Extract<JobEvent, { type: 'fastener-tightened' }>): StepProgress | null {
  const index = step.groups.findIndex((group) => group.id === event.group);
  const group = progress.groups[index];
  if (progress.status !== 'open' || group?.passesDone[event.position] !== event.pass || group.leftOut[event.position] !== null) return null;
  return {
    ...progress,
    groups: progress.groups.with(index, { ...group, passesDone: group.passesDone.with(event.position, event.pass + 1) }),
  };
}

function measure(plan: Plan, work: Work, event: Extract<JobEvent, { type: 'measured' }>): { work: Work; what: UndoneThing } | null {
  const index = stepIndex(plan, event.step);
  const step = plan.steps[index];
  const which = step?.measures.findIndex((one) => one.id === event.measure) ?? -1;
  const planned = step?.measures[which];
  if (planned === undefined) return null;
  const edited = onStep(plan, work, event.step, 'measure', (progress) => {
    const before = progress.measures[which];
    if (before === undefined) return null;
    const outside = event.within ? before.outside : [...before.outside, event.value];
    return { ...progress, measures: progress.measures.with(which, { value: event.within ? event.value : null, outside }) };
  });
  return edited && !event.within ? { ...edited, work: applyBranch(plan, edited.work, index, planned.outside) } : edited;
}

function answerHold(plan: Plan, work: Work, event: Extract<JobEvent, { type: 'hold-answered' }>): { work: Work; what: UndoneThing } | null {
  const index = stepIndex(plan, event.step);
  const step = plan.steps[index];
  const which = step?.holds.findIndex((one) => one.id === event.hold) ?? -1;
  const planned = step?.holds[which];
  if (planned === undefined) return null;
  const edited = onStep(plan, work, event.step, 'hold', (progress) => {
    const before = progress.holds[which];
    if (before === undefined || before.passed) return null;
    return { ...progress, holds: progress.holds.with(which, { passed: event.passed, failures: before.failures + (event.passed ? 0 : 1) }) };
  });
  return edited && !event.passed ? { ...edited, work: applyBranch(plan, edited.work, index, planned.fail) } : edited;
}

function answerStopSign(plan: Plan, state: JobState, event: Extract<JobEvent, { type: 'stop-sign-answered' }>, folded: Folded): JobState {
  const index = stepIndex(plan, event.step);
  const sign = plan.steps[index]?.stopSigns.find((one) => one.id === event.sign);
  if (state.halt?.kind !== 'stopped' || sign === undefined) return state;
  if (!event.felt) return { ...state, halt: { ...state.halt, sign: state.halt.sign + 1 } };
  const moved = sign.branch.kind !== 'stay';
  const work = moved ? settle(plan, applyBranch(plan, state.work, index, sign.branch), folded) : state.work;
  // Advice to stay keeps the job stopped: the person says when it is right again.
  const halt = moved ? null : { ...state.halt, sign: stepAt(plan, index).stopSigns.length };
  return moved ? { ...remember(state, work, 'stop-sign', folded.seq), halt } : { ...state, halt };
}

function reopen(plan: Plan, work: Work, event: Extract<JobEvent, { type: 'step-reopened' }>): { work: Work; what: UndoneThing } | null {
  const index = stepIndex(plan, event.step);
  const progress = work.steps.get(index);
  if (progress === undefined) return null;
  const step = stepAt(plan, index);
  const opened: StepProgress = event.fresh
    ? freshStep(step, progress)
    : {
        ...progress,
        status: 'open',
        left: null,
        reopened: progress.reopened + 1,
        groups: progress.groups.map((group) => ({ ...group, leftOut: group.leftOut.map(() => null) })),
        holds: progress.holds.map((hold) => ({ ...hold, passed: false })),
      };
  const only = work.phase === 'closing' ? index : work.only;
  // What is done anew waits anew: the time that ran for the first go says nothing about the second.
  const timers = event.fresh ? work.timers.filter((timer) => timer.step !== event.step) : work.timers;
  const steps = work.steps.with(index, opened);
  return {
    work: { ...work, steps, openFrom: openFromNow(plan, work, index), only, timers, visit: null, phase: 'working' },
    what: 'reopen',
  };
}

/** Where to look for open steps of the main line from now on, when the one at that index may be open again. */
function openFromNow(plan: Plan, work: Work, index: number): number {
  const place = lineOf(plan, null).indexOf(index);
  return place < 0 ? work.openFrom : Math.min(work.openFrom, place);
}

function endTimer(plan: Plan, work: Work, id: string): Work {
  const index = stepIndex(plan, id);
  const progress = work.steps.get(index);
  if (progress?.wait !== 'running') return work;
  return {
    ...work,
    timers: work.timers.filter((timer) => timer.step !== id),
    steps: work.steps.with(index, { ...progress, wait: 'over' }),
  };
}

/** Where a failed check, a measure outside its limits or a stop sign leads, as the procedure says. */
function applyBranch(plan: Plan, work: Work, from: number, branch: Branch): Work {
  switch (branch.kind) {
    case 'stay':
      return work;
    case 'see': {
      const side = plan.sides.find((one) => one.id === branch.side);
      if (side === undefined) return work;
      return { ...reopenSide(plan, work, side.stepIds), frames: [...work.frames, { side: side.id, from, planned: false }], visit: null };
    }
    case 'go': {
      const target = stepIndex(plan, branch.step);
      if (target < 0) return work;
      const sameLine = stepAt(plan, target).side === stepAt(plan, from).side;
      // Leaving a side procedure for the main line: count from the step that it was to come back to.
      const here = sameLine ? from : (work.frames[0]?.from ?? from);
      const back = target <= here;
      const steps = work.steps.map((progress, index) => {
        if (plan.steps[index]?.side !== stepAt(plan, target).side) return progress;
        if (back)
          return index >= target && index <= here && progress.status !== 'skipped' ? freshStep(stepAt(plan, index), progress) : progress;
        return index >= here && index < target && progress.status === 'open' ? { ...progress, status: 'passed-over' as const } : progress;
      });
      const frames = sameLine ? work.frames : [];
      return {
        ...work,
        steps,
        openFrom: openFromNow(plan, work, target),
        frames,
        timers: work.timers.filter((timer) => steps.get(stepIndex(plan, timer.step))?.wait === 'running'),
        visit: null,
      };
    }
  }
}
