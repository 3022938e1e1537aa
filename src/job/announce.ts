import type { Line, Matter } from '../phrasing/lines.ts';
import type { Plan } from '../procedure/plan-types.ts';
import { wrenchRemarks } from '../procedure/wrench-remarks.ts';
import type { Dialogue, Now, Pending } from './dialogue.ts';
import { briefingItem, fastenerAtHand, kitItemIndex, mainSteps, matterAtHand, secondsLeft, stateOfJob } from './dialogue.ts';
import { unansweredMatters } from './matters.ts';
import { mustAcknowledge } from './progress.ts';
import type { JobState, Part } from './state.ts';
import { stepAt } from './state.ts';

/** What to say when the job has moved from one state to another. Nothing when it has not. */
export function announce(plan: Plan, before: JobState, after: JobState): readonly Line[] {
  if (after.signed !== null) return before.signed === null ? signedLines(plan, after) : [];
  if (after.halt !== null) return [];
  const lines: Line[] = [];
  const was = before.work;
  const is = after.work;
  for (const timer of is.timers) {
    if (was.timers.some((one) => one.step === timer.step)) continue;
    const blocks = is.cursor?.part.kind === 'wait' && stepAt(plan, is.cursor.step).id === timer.step;
    lines.push({ kind: 'wait-started', name: timer.name, seconds: timer.seconds, blocks });
  }
  if (was.phase === 'briefing' && (is.phase === 'kit' || is.phase === 'working')) {
    const remarks = wrenchRemarks(plan);
    if (remarks.length > 0) lines.push({ kind: 'wrench-remarks', remarks });
  }
  if (was.phase === 'kit' && is.phase !== 'kit' && is.phase !== 'briefing' && plan.kit.length > 0)
    lines.push({ kind: 'kit-done', missing: is.kit.filter((answer) => answer === false).length });
  if (is.phase === 'working') {
    const entered = was.phase !== 'working' || was.cursor?.step !== is.cursor?.step || was.visit !== is.visit;
    const left = was.frames.length > is.frames.length ? was.frames.at(-1) : undefined;
    const side = plan.sides.find((one) => one.id === left?.side);
    if (side !== undefined && is.cursor !== null) lines.push({ kind: 'side-ends', side, back: stepAt(plan, is.cursor.step) });
    if (is.frames.length > was.frames.length) {
      const begun = plan.sides.find((one) => one.id === is.frames.at(-1)?.side);
      if (begun !== undefined) lines.push({ kind: 'side-begins', side: begun });
    }
    if (entered) lines.push(...stepLines(plan, after));
    else if (is.cursor !== was.cursor) lines.push(...partLines(plan, after, was.cursor?.part ?? null));
    return lines;
  }
  if (is.phase === 'closing' && was.phase !== 'closing') {
    const counts = new Map<Matter['kind'], number>();
    for (const { kind } of unansweredMatters(plan, is)) counts.set(kind, (counts.get(kind) ?? 0) + 1);
    lines.push({ kind: 'closing-begins', open: [...counts].map(([kind, count]) => ({ kind, count })) });
  }
  if (is.phase === 'kit' && was.phase !== 'kit') lines.push({ kind: 'kit-begins', items: plan.kit.length });
  const wanted = phaseLines(plan, after);
  // A note taken in the briefing does not make the same question sound again.
  if (was.phase !== is.phase || JSON.stringify(wanted) !== JSON.stringify(phaseLines(plan, before))) lines.push(...wanted);
  return lines;
}

/** Says again what is wanted now: after "repeat", after a pause, after a restart. */
export function restate(dialogue: Dialogue, now: Now): readonly Line[] {
  const { plan, job, pending } = dialogue;
  if (pending !== null) return [pendingLine(dialogue, pending, now)];
  switch (stateOfJob(plan, job)) {
    case 'closed':
      return [...openFollowUps(plan, job), { kind: 'closed' }];
    case 'paused':
      if (job.halt?.kind === 'handed over') return [{ kind: 'handed-over' }];
      return [{ kind: 'paused' }];
    case 'diagnosing':
      return [stopSignLine(plan, job)];
    case 'briefing':
    case 'kit':
    case 'closing':
    case 'signing':
      return phaseLines(plan, job);
    case 'waiting': {
      const timer = job.work.timers.find((one) => one.step === stepAt(plan, job.work.cursor?.step ?? 0).id);
      return timer === undefined ? stepLines(plan, job) : [{ kind: 'wait-running', name: timer.name, seconds: secondsLeft(timer, now) }];
    }
    default:
      return stepLines(plan, job);
  }
}

/** The stop sign to ask about, or that there are no more. */
export function stopSignLine(plan: Plan, job: JobState): Line {
  const signs = job.work.cursor === null ? [] : stepAt(plan, job.work.cursor.step).stopSigns;
  const sign = job.halt?.kind === 'stopped' ? signs[job.halt.sign] : undefined;
  return sign === undefined ? { kind: 'no-more-stop-signs' } : { kind: 'stop-sign', sign };
}

function phaseLines(plan: Plan, job: JobState): readonly Line[] {
  switch (job.work.phase) {
    case 'briefing': {
      const item = briefingItem(plan, job);
      if (item === null) return [];
      return [item.kind === 'caution' ? { kind: 'caution', caution: item.caution, acknowledge: true } : item];
    }
    case 'kit': {
      const index = kitItemIndex(job);
      const item = index === null ? undefined : plan.kit[index];
      return item === undefined || index === null ? [] : [{ kind: 'kit-item', item, number: index + 1, of: plan.kit.length }];
    }
    case 'closing': {
      const at = matterAtHand(plan, job);
      return [at === null ? { kind: 'sign-asked', name: job.opened?.person ?? null } : { kind: 'matter', ...at }];
    }
    case 'working':
      return stepLines(plan, job);
  }
}

/** A step from its beginning: a warning that wants an answer comes first and alone. */
function stepLines(plan: Plan, job: JobState): readonly Line[] {
  const { cursor, visit } = job.work;
  if (visit !== null) return [{ kind: 'visiting', step: stepAt(plan, visit) }];
  if (cursor === null) return [];
  if (cursor.part.kind === 'caution') return partLines(plan, job, null);
  const step = stepAt(plan, cursor.step);
  const read: readonly Line[] = step.cautions
    .filter((caution) => !mustAcknowledge(caution.signal))
    .map((caution) => ({ kind: 'caution', caution, acknowledge: false }));
  return [...read, { kind: 'step', step, mainSteps: mainSteps(plan).length }, ...partLines(plan, job, null)];
}

/** The piece of the step at hand; `from` is the piece before it, null when the step begins. */
function partLines(plan: Plan, job: JobState, from: Part | null): readonly Line[] {
  const { cursor } = job.work;
  if (cursor === null) return [];
  const step = stepAt(plan, cursor.step);
  const { part } = cursor;
  if (from?.kind === 'caution' && part.kind !== 'caution') return stepLines(plan, job);
  switch (part.kind) {
    case 'caution': {
      const caution = step.cautions[part.index];
      return caution === undefined ? [] : [{ kind: 'caution', caution, acknowledge: true }];
    }
    case 'act':
    case 'wait':
      return [];
    case 'fastener': {
      const place = fastenerAtHand(plan, job);
      if (place === null) return [];
      if (from?.kind !== 'fastener' || from.group !== part.group) return [{ kind: 'group', place, unit: job.spokenUnit }];
      if (from.pass !== part.pass) return [{ kind: 'pass', place, unit: job.spokenUnit }];
      return [{ kind: 'next-fastener', place }];
    }
    case 'measure': {
      const measure = step.measures[part.index];
      return measure === undefined ? [] : [{ kind: 'measure', measure }];
    }
    case 'hold': {
      const hold = step.holds[part.index];
      return hold === undefined ? [] : [{ kind: 'hold', hold }];
    }
  }
}

/** The question that a pending decision asks. */
export function pendingLine(dialogue: Dialogue, pending: Pending, now: Now): Line {
  const { plan, job } = dialogue;
  switch (pending.kind) {
    case 'reason':
      return { kind: 'reason-asked' };
    case 'skip-step':
      return { kind: 'confirm-skip-step', step: stepAt(plan, pending.step), reason: pending.reason, text: pending.text };
    case 'skip-fastener': {
      const place = fastenerAtHand(plan, job);
      return place === null
        ? { kind: 'no-fasteners-here' }
        : { kind: 'confirm-skip-fastener', place, reason: pending.reason, text: pending.text };
    }
    case 'leave-before':
      return { kind: 'confirm-leave-before', before: pending.before, reason: pending.reason, text: pending.text };
    case 'wave-kit':
      return { kind: 'confirm-kit-waved', left: pending.left };
    case 'finish':
      return { kind: 'confirm-finish', openSteps: pending.openSteps };
    case 'reopen':
      return { kind: 'confirm-reopen', step: stepAt(plan, pending.step) };
    case 'cut-wait': {
      const timer = job.work.timers.find((one) => one.step === stepAt(plan, job.work.cursor?.step ?? 0).id);
      return { kind: 'confirm-cut-wait', name: timer?.name ?? '', seconds: timer === undefined ? 0 : secondsLeft(timer, now) };
    }
    case 'measure': {
      const { cursor } = job.work;
      const measure = cursor?.part.kind === 'measure' ? stepAt(plan, cursor.step).measures[cursor.part.index] : undefined;
      return measure === undefined
        ? { kind: 'dropped' }
        : { kind: 'measure-read-back', measure, value: pending.value, saidUnit: pending.saidUnit };
    }
    case 'sign':
      return { kind: 'confirm-sign', name: pending.name };
    case 'follow-up': {
      const followUp = plan.followUps[pending.index];
      return followUp === undefined ? { kind: 'dropped' } : { kind: 'confirm-follow-up', followUp };
    }
    case 'check-before':
      return { kind: 'before', before: pending.before, number: 1, of: 1 };
  }
}

function signedLines(plan: Plan, job: JobState): readonly Line[] {
  if (job.signed === null) return [];
  const exceptions = Object.keys(job.work.accepted).length;
  return [{ kind: 'signed', name: job.signed.name, exceptions }, ...openFollowUps(plan, job), { kind: 'closed' }];
}

function openFollowUps(plan: Plan, job: JobState): readonly Line[] {
  const open = plan.followUps.filter(({ id }) => !Object.hasOwn(job.followedUp, id));
  return open.map((followUp) => ({ kind: 'follow-up', followUp }));
}
