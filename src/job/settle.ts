import type { Plan } from '../procedure/plan-types.ts';
import { lineOf } from './plan-index.ts';
import { nextPart, reopenSide } from './progress.ts';
import type { Folded, Work } from './state.ts';
import { stepAt } from './state.ts';

/**
 * Moves on to whatever is open next: through the briefing and the kit, to the first open step of the line at hand,
 * into side procedures and back, and to the close-out when nothing is open. Everything here follows from the work alone,
 * so it is never an event of its own.
 */
export function settle(plan: Plan, work: Work, now: Pick<Folded, 'moment' | 'session'>): Work {
  let settled = work;
  if (
    settled.phase === 'briefing' &&
    plan.cautions.every((caution) => settled.acknowledged.includes(caution.id)) &&
    settled.befores.every((before) => before.answer === 'true' || before.answer === 'left')
  )
    settled = { ...settled, phase: 'kit' };
  if (settled.phase === 'kit' && settled.kit.every((answer) => answer !== null)) settled = { ...settled, phase: 'working' };
  while (settled.phase === 'working') {
    const moved = advance(plan, settled, now);
    if (moved === settled) return settled;
    settled = moved;
  }
  return settled.cursor === null ? settled : { ...settled, cursor: null };
}

/** One move; the same object when there is none to make. */
function advance(plan: Plan, before: Work, now: Pick<Folded, 'moment' | 'session'>): Work {
  const open = openStep(plan, before);
  if (open === null) return leaveLine(before);
  const { index } = open;
  const work = open.openFrom === before.openFrom ? before : { ...before, openFrom: open.openFrom };
  const step = stepAt(plan, index);
  const progress = work.steps.get(index);
  if (progress === undefined) return work;
  if (step.see !== null && !progress.sideDone) {
    const side = plan.sides.find((one) => one.id === step.see);
    // A plan is checked for dangling names before it gets here; a side procedure inside itself would never end.
    if (side === undefined || work.frames.some((frame) => frame.side === side.id))
      return { ...work, steps: work.steps.with(index, { ...progress, sideDone: true }) };
    return { ...reopenSide(plan, work, side.stepIds), frames: [...work.frames, { side: side.id, from: index, planned: true }] };
  }
  const part = nextPart(step, progress, work.acknowledged);
  if (part === null) return { ...work, steps: work.steps.with(index, { ...progress, status: 'done' }) };
  if (part.kind === 'wait' && progress.wait === 'not begun' && step.wait !== null) {
    const timer = { step: step.id, name: step.wait.name, seconds: step.wait.seconds, started: now.moment, session: now.session };
    return { ...work, steps: work.steps.with(index, { ...progress, wait: 'running' }), timers: [...work.timers, timer] };
  }
  const { cursor } = work;
  if (cursor?.step === index && samePart(cursor.part, part)) return work;
  return { ...work, cursor: { step: index, part } };
}

/** The first open step of the line at hand: the side procedure under way, the one step picked at close-out, or the main line. */
function openStep(plan: Plan, work: Work): { readonly index: number; readonly openFrom: number } | null {
  const { openFrom } = work;
  const frame = work.frames.at(-1);
  if (frame === undefined && work.only !== null)
    return work.steps.get(work.only)?.status === 'open' ? { index: work.only, openFrom } : null;
  const line = lineOf(plan, frame?.side ?? null);
  for (let place = frame === undefined ? openFrom : 0; place < line.length; place += 1) {
    const index = line[place] ?? -1;
    if (work.steps.get(index)?.status === 'open') return { index, openFrom: frame === undefined ? place : openFrom };
  }
  return null;
}

/** The line at hand has nothing open: back from the side procedure, back to the close-out, or on to it. */
function leaveLine(work: Work): Work {
  const frame = work.frames.at(-1);
  if (frame !== undefined) {
    const from = work.steps.get(frame.from);
    const steps = frame.planned && from !== undefined ? work.steps.with(frame.from, { ...from, sideDone: true }) : work.steps;
    return { ...work, frames: work.frames.slice(0, -1), steps };
  }
  if (work.only !== null && !work.finishAsked) return { ...work, only: null };
  return { ...work, only: null, phase: 'closing', cursor: null, visit: null };
}

const samePart = (a: object, b: object): boolean => JSON.stringify(a) === JSON.stringify(b);
