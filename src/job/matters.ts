import type { Matter } from '../phrasing/lines.ts';
import type { Plan } from '../procedure/plan-types.ts';
import type { Work } from './state.ts';

/**
 * Everything that is open at close-out, in the order of the work. Each wants an answer before the job can be signed.
 * A matter's id says what is open, so that an answer given to one state of affairs does not cover another.
 */
export function openMatters(plan: Plan, work: Work): readonly Matter[] {
  const matters: Matter[] = [];
  for (const [index, before] of plan.befores.entries()) {
    if (work.befores[index]?.answer !== 'true') matters.push({ id: `before:${before.id}`, kind: 'before', before });
  }
  for (const [index, item] of plan.kit.entries()) {
    if (work.kit[index] === false && (item.kind === 'part' || item.kind === 'support'))
      matters.push({ id: `kit:${item.id}`, kind: 'kit', item });
  }
  for (const [index, step] of plan.steps.entries()) {
    const progress = work.steps.get(index);
    if (progress === undefined) continue;
    // A side procedure that nothing called for is not part of this job.
    const called = step.side === null || progress.status !== 'open' || progress.reopened > 0;
    if (!called) continue;
    const { status } = progress;
    let hasLoose = false;
    for (const [which, group] of step.groups.entries()) {
      const groupProgress = progress.groups[which];
      if (groupProgress === undefined) continue;
      const unfinished = groupProgress.passesDone.filter((done) => done < group.passes.length);
      if (unfinished.length === 0) continue;
      hasLoose = true;
      const untouched = unfinished.filter((done) => done === 0).length;
      const left = groupProgress.leftOut.find((one) => one !== null) ?? progress.left;
      matters.push({
        id: `fasteners:${step.id}:${group.id}:${groupProgress.passesDone.join('.')}`,
        kind: 'fasteners',
        step,
        group,
        untouched,
        unfinished: unfinished.length - untouched,
        reason: left?.reason ?? null,
        said: left?.text ?? null,
      });
    }
    // A step whose fasteners are asked about one group after the other is not asked about once more.
    if (status !== 'done' && !hasLoose)
      matters.push({
        id: `step:${step.id}:${status}`,
        kind: 'step',
        step,
        how: status,
        reason: progress.left?.reason ?? null,
        said: progress.left?.text ?? null,
      });
    for (const [which, planned] of step.measures.entries()) {
      const taken = progress.measures[which];
      const outside = taken?.outside.at(-1);
      // A value within the limits taken afterwards settles it; the ones before it stay on the record.
      if (taken?.value === null && outside !== undefined)
        matters.push({ id: `measure:${step.id}:${planned.id}:${outside}`, kind: 'measure', step, measure: planned, value: outside });
      else if (taken?.value === null && status !== 'open')
        matters.push({ id: `measure:${step.id}:${planned.id}:none`, kind: 'measure', step, measure: planned, value: null });
    }
    for (const [which, planned] of step.holds.entries()) {
      const hold = progress.holds[which];
      if (hold === undefined) continue;
      if (!hold.passed)
        matters.push({
          id: `hold:${step.id}:${planned.id}:never`,
          kind: 'hold',
          step,
          hold: planned,
          how: 'never passed',
          failures: hold.failures,
        });
      else if (hold.failures > 0)
        matters.push({
          id: `hold:${step.id}:${planned.id}:late:${hold.failures}`,
          kind: 'hold',
          step,
          hold: planned,
          how: 'passed late',
          failures: hold.failures,
        });
    }
  }
  for (const timer of work.timers) matters.push({ id: `timer:${timer.step}`, kind: 'timer', name: timer.name, seconds: timer.seconds });
  for (const note of work.notes) {
    if (!note.question) continue;
    matters.push({ id: `note:${note.seq}`, kind: 'note', step: plan.steps.find((step) => step.id === note.step) ?? null, text: note.text });
  }
  return matters;
}

/** The matters that nobody has answered for yet. */
export const unansweredMatters = (plan: Plan, work: Work): readonly Matter[] =>
  openMatters(plan, work).filter((matter) => !Object.hasOwn(work.accepted, matter.id));
