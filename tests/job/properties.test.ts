import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DialogueState, Intent } from '../../src/phrasing/intents.ts';
import { dialogueStates, intentNames, reasons } from '../../src/phrasing/intents.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { legalNow, stateOfJob } from '../../src/job/dialogue.ts';
import { applyEvent, foldJob, newJob } from '../../src/job/fold.ts';
import { legalIn } from '../../src/job/legal.ts';
import { unansweredMatters } from '../../src/job/matters.ts';
import type { JobState } from '../../src/job/state.ts';
import type { StepSketch } from './plans.ts';
import { fullPlan, makeGroup, makePlan } from './plans.ts';
import type { Rig } from './rig.ts';
import { rig } from './rig.ts';

type Command = Intent | { readonly type: 'clock'; readonly seconds: number } | { readonly type: 'restart' };

const anyReason = fc.constantFrom(...reasons);
const anyIntent: fc.Arbitrary<Intent> = fc.constantFrom(...intentNames).chain((type): fc.Arbitrary<Intent> => {
  switch (type) {
    case 'done':
      return fc.integer({ min: 1, max: 4 }).map((count) => ({ type, count }));
    case 'number':
      return fc.constantFrom(0.01, 0.1, 0.5).map((value) => ({ type, value, unit: null }));
    case 'reason':
      return anyReason.map((reason) => ({ type, reason, text: null }));
    case 'skip':
      return fc
        .record({ scope: fc.constantFrom('this' as const, 'step' as const), reason: fc.option(anyReason) })
        .map((rest) => ({ type, ...rest }));
    case 'note':
      return fc.constantFrom('a note', 'is this right?').map((text) => ({ type, text }));
    case 'unit':
      return fc.constant({ type, unit: 'lbf·ft' });
    case 'sign':
      return fc.constant({ type, name: 'Sam' });
    case 'yes':
      return fc.constant({ type });
    case 'no':
      return fc.constant({ type });
    default:
      return fc.constant({ type });
  }
});
/** Weighted towards what moves a job along; otherwise random talk would hardly leave the briefing. */
const anyCommand: fc.Arbitrary<Command> = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom<Command>({ type: 'done', count: 1 }, { type: 'yes' }, { type: 'done', count: 2 }) },
  { weight: 6, arbitrary: anyIntent },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 700 }).map((seconds) => ({ type: 'clock' as const, seconds })) },
  { weight: 1, arbitrary: fc.constant<Command>({ type: 'restart' }) },
);

const anyGroup = fc.record({ count: fc.integer({ min: 1, max: 3 }), shares: fc.constantFrom([100], [50, 100]) });
const anyPlan: fc.Arbitrary<Plan> = fc
  .array(
    fc.record({
      groups: fc.array(anyGroup, { maxLength: 2 }),
      measure: fc.boolean(),
      hold: fc.boolean(),
      warning: fc.boolean(),
      wait: fc.constantFrom(null, true, false),
      see: fc.boolean(),
      side: fc.boolean(),
      go: fc.nat(),
      branch: fc.constantFrom('go', 'see', 'stay'),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((sketches) => {
    const main = sketches.filter((sketch, index) => index === 0 || !sketch.side).length;
    const steps = [...sketches.entries()].sort(([a, x], [b, y]) => Number(a > 0 && x.side) - Number(b > 0 && y.side));
    const hasSide = steps.some(([index, sketch]) => index > 0 && sketch.side);
    const asked = steps.map(([index, sketch]): StepSketch => {
      const isSide = index > 0 && sketch.side;
      const branch =
        sketch.branch === 'go'
          ? ({ kind: 'go', step: `s${sketch.go % main}`, advice: null } as const)
          : sketch.branch === 'see' && hasSide
            ? ({ kind: 'see', side: 'aside', advice: null } as const)
            : ({ kind: 'stay', advice: 'Again.' } as const);
      return {
        id: '',
        side: isSide ? 'aside' : null,
        see: sketch.see && hasSide && !isSide ? 'aside' : null,
        cautions: sketch.warning ? [{ id: `warning-${index}`, signal: 'WARNING', text: 'Mind.' }] : [],
        groups: sketch.groups.map((group, which) => makeGroup(`g${which}`, group.count, group.shares)),
        measures: sketch.measure ? [{ id: 'm', name: 'gap', unit: 'mm', min: 0.05, max: 0.2, outside: branch }] : [],
        holds: sketch.hold ? [{ id: 'h', ask: 'Right?', fail: branch }] : [],
        stopSigns: [{ id: 'binds', ask: 'Does it bind?', branch }],
        wait: sketch.wait === null ? null : { id: 'w', name: 'skin', seconds: 600, blocks: sketch.wait },
      };
    });
    return makePlan(asked.map((step, index) => ({ ...step, id: `s${index}` })));
  });

/** Work as undo sees it: the same facts, whatever object holds them. */
const facts = (job: JobState): unknown => JSON.parse(JSON.stringify(job.work));

async function give(job: Rig, command: Command, plan: Plan): Promise<Rig> {
  if (command.type === 'restart') return rig(plan, job.events);
  if (command.type === 'clock') await job.advance(command.seconds);
  else await job.say(command);
  return job;
}

describe.each([
  ['a plan with everything', fc.constant(fullPlan())],
  ['any plan', anyPlan],
])('for random commands on %s', (_, plans) => {
  it('the fold of the stored events is what the dialogue works on, after every command', async () => {
    await fc.assert(
      fc.asyncProperty(plans, fc.array(anyCommand, { maxLength: 80 }), async (plan, commands) => {
        let job = await rig(plan);
        for (const command of commands) {
          job = await give(job, command, plan);
          const { job: seen, pending } = job.dialogue();
          expect(seen).toEqual(foldJob(plan, job.events));
          if (pending === null) expect(job.state()).toBe(stateOfJob(plan, seen));
        }
      }),
      { numRuns: 60 },
    );
  });

  it('undo after anything that it remembers gives back the work as it was', () => {
    return fc.assert(
      fc.asyncProperty(plans, fc.array(anyCommand, { maxLength: 80 }), async (plan, commands) => {
        let job = await rig(plan);
        for (const command of commands) job = await give(job, command, plan);
        let state = newJob(plan);
        for (const event of job.events) {
          const next = applyEvent(plan, state, event);
          const remembered = next.past.at(-1);
          if (remembered?.seq === event.seq && next.signed === null) {
            const undone = applyEvent(plan, next, { ...event, seq: event.seq + 1, event: { type: 'undone', seq: event.seq } });
            expect(facts(undone)).toEqual(facts(state));
          }
          state = next;
        }
      }),
      { numRuns: 60 },
    );
  });

  it('the step at hand is the first open one of its line, counted from the beginning', async () => {
    await fc.assert(
      fc.asyncProperty(plans, fc.array(anyCommand, { maxLength: 80 }), async (plan, commands) => {
        let job = await rig(plan);
        for (const command of commands) {
          job = await give(job, command, plan);
          const { work } = job.dialogue().job;
          if (work.phase !== 'working' || (work.only !== null && work.frames.length === 0)) continue;
          const side = work.frames.at(-1)?.side ?? null;
          const first = plan.steps.findIndex((step, index) => step.side === side && work.steps.get(index)?.status === 'open');
          expect(work.cursor?.step).toBe(first);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('no command closes a job with a fastener that is not tightened and that nobody owned up to', async () => {
    await fc.assert(
      fc.asyncProperty(plans, fc.array(anyCommand, { maxLength: 60 }), async (plan, commands) => {
        let job = await rig(plan);
        for (const command of commands) job = await give(job, command, plan);
        // Whatever was left loose on the way, the job is now pushed to its close as fast as it lets itself be.
        for (let turn = 0; job.state() !== 'closed' && turn < 400; turn += 1) await job.say(turn === 0 ? { type: 'finish' } : onward(job));
        const { job: state } = job.dialogue();
        expect(state.signed).not.toBeNull();
        for (const [index, step] of plan.steps.entries()) {
          const progress = state.work.steps.get(index)!;
          if (step.side !== null && progress.status === 'open' && progress.reopened === 0) continue;
          for (const [which, group] of step.groups.entries()) {
            const loose = progress.groups[which]!.passesDone.some((done) => done < group.passes.length);
            const owned = Object.keys(state.work.accepted).some((id) => id.startsWith(`fasteners:${step.id}:${group.id}:`));
            expect(loose && !owned).toBe(false);
          }
        }
        expect(unansweredMatters(plan, state.work)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('"stop" is taken in every state, and a job can always be brought to its close by voice alone', async () => {
    await fc.assert(
      fc.asyncProperty(plans, fc.array(anyCommand, { maxLength: 40 }), async (plan, commands) => {
        let job = await rig(plan);
        for (const command of commands) job = await give(job, command, plan);
        expect(legalNow(job.dialogue())).toContain('stop');
        for (let turn = 0; job.state() !== 'closed' && turn < 400; turn += 1) await job.say(onward(job));
        expect(job.state()).toBe('closed');
      }),
      { numRuns: 40 },
    );
  });
});

/** What a person would say to get on. */
function onward(job: Rig): Intent {
  const state = job.state();
  switch (state) {
    case 'measuring':
      return { type: 'number', value: 0.1, unit: null };
    case 'reasoning':
      return { type: 'reason', reason: 'other', text: null };
    case 'closing':
      return { type: 'accept' };
    case 'paused':
    case 'visiting':
    case 'diagnosing':
      return { type: 'carry-on' };
    case 'briefing':
    case 'kit':
    case 'checking':
    case 'confirming':
    case 'signing':
      return { type: 'yes' };
    default:
      return { type: 'done', count: 1 };
  }
}

it('reaches every state by voice, and leaves every one but the last by voice', async () => {
  const reached = new Set<DialogueState>();
  const left = new Set<DialogueState>();
  const plan = fullPlan();
  const say = async (job: Rig, intent: Intent) => {
    const before = job.state();
    reached.add(before);
    await job.say(intent);
    if (job.state() !== before) left.add(before);
    reached.add(job.state());
  };
  const job = await rig(plan);
  const detours: Partial<Record<DialogueState, readonly Intent[] | undefined>> = {
    stating: [{ type: 'hold-on' }, { type: 'carry-on' }],
    fastening: [
      { type: 'back' },
      { type: 'carry-on' },
      { type: 'stop' },
      { type: 'carry-on' },
      { type: 'skip', scope: 'this', reason: null },
      { type: 'reason', reason: 'other', text: null },
      { type: 'yes' },
    ],
  };
  for (let turn = 0; job.state() !== 'closed' && turn < 200; turn += 1) {
    const detour = detours[job.state()];
    if (detour !== undefined) {
      detours[job.state()] = undefined;
      for (const intent of detour) await say(job, intent);
    } else await say(job, onward(job));
  }
  expect([...reached].sort()).toEqual([...dialogueStates].sort());
  expect([...left].sort()).toEqual(dialogueStates.filter((state) => state !== 'closed').sort());
});

it('has a row in the table for every state, without repeats', () => {
  for (const state of dialogueStates) expect(new Set(legalIn[state]).size).toBe(legalIn[state].length);
});
