import { describe, expect, it } from 'vitest';
import type { JobEvent } from '../../src/job/events.ts';
import { applyEvent, foldJob, newJob } from '../../src/job/fold.ts';
import type { Folded, JobState } from '../../src/job/state.ts';
import { undoDepth } from '../../src/job/state.ts';
import type { Branch, Plan } from '../../src/procedure/plan-types.ts';
import { fullPlan, makeGroup, makePlan } from './plans.ts';

const moment = { wall: 1_800_000_000_000, offset: 0, mono: 0 };
const record = (...events: readonly JobEvent[]): Folded[] => events.map((event, seq) => ({ seq, session: 's', moment, event }));
const opened: JobEvent = { type: 'opened', procedure: 'p', title: 'A job', revision: 1, build: 'K', person: null, group: null };
const fold = (plan: Plan, ...events: readonly JobEvent[]): JobState => foldJob(plan, record(opened, ...events));
const carriedOut = (...steps: readonly string[]): JobEvent[] => steps.map((step) => ({ type: 'step-carried-out', step }));
const tightened = (step: string, position: number, pass = 0): JobEvent => ({
  type: 'fastener-tightened',
  step,
  group: 'g',
  pass,
  position,
});
const statuses = (job: JobState) => [...job.work.steps].map(({ status }) => status);
const left = { reason: 'no-part', text: null } as const;

/** To the first step of the plan with everything. */
const ready: readonly JobEvent[] = [
  { type: 'caution-acknowledged', caution: 'stands' },
  { type: 'before-answered', before: 'battery', isTrue: true },
  { type: 'before-answered', before: 'mark', isTrue: true },
  { type: 'kit-waved-through' },
];

describe('an event that does not fit', () => {
  // A record may come from another device, another version, or a file that somebody edited.
  it.each<[string, JobEvent]>([
    ['a condition that the plan does not have', { type: 'before-answered', before: 'x', isTrue: true }],
    ['leaving a condition that the plan does not have', { type: 'before-left', before: 'x', ...left }],
    ['a tool that the kit does not have', { type: 'kit-answered', item: 'x', atHand: true }],
    ['the kit waved through a second time', { type: 'kit-waved-through' }],
    ['a caution acknowledged twice', { type: 'caution-acknowledged', caution: 'stands' }],
    ['a step that the plan does not have', { type: 'step-carried-out', step: 'x' }],
    ['a step skipped that the plan does not have', { type: 'step-skipped', step: 'x', ...left }],
    ['a step opened that the plan does not have', { type: 'step-reopened', step: 'x', fresh: true }],
    ['a look at a step that the plan does not have', { type: 'looked-back', step: 'x' }],
    ['the end of a look that nobody took', { type: 'looked-back', step: null }],
    ['a fastener of another step', { type: 'fastener-tightened', step: 'offer-up', group: 'front', pass: 0, position: 0 }],
    ['a fastener of a group that there is not', { type: 'fastener-tightened', step: 'draw', group: 'x', pass: 0, position: 0 }],
    ['a fastener in its second pass before its first', { type: 'fastener-tightened', step: 'draw', group: 'front', pass: 1, position: 0 }],
    ['a fastener past the last', { type: 'fastener-tightened', step: 'draw', group: 'front', pass: 0, position: 9 }],
    ['a fastener left out past the last', { type: 'fastener-left-out', step: 'draw', group: 'front', position: 9, ...left }],
    ['a fastener left out of a group that there is not', { type: 'fastener-left-out', step: 'draw', group: 'x', position: 0, ...left }],
    ['a value for nothing', { type: 'measured', step: 'draw', measure: 'lash', value: 1, unit: 'mm', within: true }],
    ['a value in no step', { type: 'measured', step: 'x', measure: 'lash', value: 1, unit: 'mm', within: false }],
    ['an answer to nothing', { type: 'hold-answered', step: 'draw', hold: 'free', passed: true }],
    ['an answer in no step', { type: 'hold-answered', step: 'x', hold: 'free', passed: false }],
    ['a stop sign while nothing is stopped', { type: 'stop-sign-answered', step: 'draw', sign: 'binds', felt: true }],
    ['a timer where there is nothing to wait for', { type: 'timer-started', step: 'draw' }],
    ['a timer in no step', { type: 'timer-started', step: 'x' }],
    ['the end of a timer that does not run', { type: 'timer-ended', step: 'seal' }],
    ['a wait cut short that has not begun', { type: 'wait-cut-short', step: 'seal' }],
    ['a matter accepted before the close-out', { type: 'matter-accepted', matter: 'step:draw:open', ...left }],
    ['taking back something else than the newest', { type: 'undone', seq: 2 }],
    ['a signature before the close-out', { type: 'signed', name: 'Alex' }],
    ['a follow-up before the signature', { type: 'follow-up-done', followUp: 'again', name: 'Alex', text: null }],
    ['what was asked', { type: 'asked', intent: 'torque' }],
    ['what was misheard', { type: 'misheard', text: 'mumble' }],
    ['a jump of the clock', { type: 'clock-jumped', milliseconds: 5 }],
  ])('is counted and changes nothing: %s', (_, event) => {
    const plan = fullPlan();
    const before = fold(plan, ...ready);
    const after = applyEvent(plan, before, { seq: before.events, session: 'later', moment, event });
    expect(after).toEqual({ ...before, events: before.events + 1, last: { moment, session: 'later' } });
  });

  it('does nothing twice: a fastener, a step, a check that passed, a fastener left out, a wait', () => {
    const plan = makePlan([
      { id: 'one', groups: [makeGroup('g', 2)] },
      { id: 'two', holds: [{ id: 'h', ask: 'Right?', fail: { kind: 'stay', advice: 'Again.' } }] },
      { id: 'three', groups: [makeGroup('g', 3)], wait: { id: 'w', name: 'skin', seconds: 60, blocks: false } },
    ]);
    const twice = (...events: readonly JobEvent[]) => {
      const last = events.at(-1)!;
      const once = fold(plan, ...events);
      expect(fold(plan, ...events, last).work).toEqual(once.work);
      expect(fold(plan, ...events, last).past).toHaveLength(once.past.length);
    };
    const passed: JobEvent = { type: 'hold-answered', step: 'two', hold: 'h', passed: true };
    twice(tightened('one', 0));
    twice(...carriedOut('one'));
    twice(passed);
    twice({ type: 'fastener-left-out', step: 'one', group: 'g', position: 0, ...left });
    twice({ type: 'step-skipped', step: 'one', ...left });
    twice({ type: 'timer-started', step: 'three' });
    twice({ type: 'finish-asked' });
  });

  it('does not tighten what was left out, nor in a step that is skipped', () => {
    const plan = makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }, { id: 'two' }]);
    const out = fold(plan, { type: 'fastener-left-out', step: 'one', group: 'g', position: 1, ...left }, tightened('one', 1));
    expect(out.work.steps.get(0)?.groups[0]?.passesDone).toEqual([0, 0]);
    const skipped = fold(plan, { type: 'step-skipped', step: 'one', ...left }, tightened('one', 0));
    expect(skipped.work.steps.get(0)?.groups[0]?.passesDone).toEqual([0, 0]);
  });
});

describe('where a check that failed leads', () => {
  const branching = (fail: Branch): Plan =>
    makePlan([
      { id: 'one' },
      { id: 'two', groups: [makeGroup('g', 1)] },
      { id: 'look', holds: [{ id: 'h', ask: 'Right?', fail }] },
      { id: 'four' },
      { id: 'five' },
      { id: 'wipe', side: 'clean' },
      { id: 'check', side: 'clean', holds: [{ id: 'c', ask: 'Clean?', fail: { kind: 'go', step: 'one', advice: null } }] },
      { id: 'leave', side: 'clean' },
    ]);
  const failed: JobEvent = { type: 'hold-answered', step: 'look', hold: 'h', passed: false };
  const worked = [...carriedOut('one'), tightened('two', 0)];

  it('back: opens what lies between anew, and leaves what was skipped skipped', () => {
    const plan = branching({ kind: 'go', step: 'one', advice: null });
    const skipped: JobEvent = { type: 'step-skipped', step: 'two', ...left };
    const back = fold(plan, ...worked, failed);
    expect(statuses(back).slice(0, 5)).toEqual(['open', 'open', 'open', 'open', 'open']);
    expect([...back.work.steps].map(({ reopened }) => reopened)).toEqual([1, 1, 1, 0, 0, 0, 0, 0]);
    expect(back.work.steps.get(1)?.groups[0]?.passesDone).toEqual([0]);
    expect(back.work.steps.get(2)?.holds).toEqual([{ passed: false, failures: 1 }]);
    expect(back.work.cursor?.step).toBe(0);
    const around = fold(plan, ...carriedOut('one'), skipped, failed);
    expect(statuses(around).slice(0, 3)).toEqual(['open', 'skipped', 'open']);
  });

  it('to itself: opens that step alone', () => {
    const itself = fold(branching({ kind: 'go', step: 'look', advice: null }), ...worked, failed);
    expect(statuses(itself).slice(0, 4)).toEqual(['done', 'done', 'open', 'open']);
    expect(itself.work.steps.get(2)?.reopened).toBe(1);
  });

  it('on: passes over what lies between, the step itself included', () => {
    const on = fold(branching({ kind: 'go', step: 'five', advice: null }), ...worked, failed);
    expect(statuses(on)).toEqual(['done', 'done', 'passed-over', 'passed-over', 'open', 'open', 'open', 'open']);
    expect(on.work.cursor?.step).toBe(4);
  });

  it('aside: works the side procedure, and comes back to ask again', () => {
    const plan = branching({ kind: 'see', side: 'clean', advice: null });
    const aside = fold(plan, ...worked, failed);
    expect(aside.work.frames).toEqual([{ side: 'clean', from: 2, planned: false }]);
    expect(aside.work.cursor?.step).toBe(5);
    const clean: JobEvent = { type: 'hold-answered', step: 'check', hold: 'c', passed: true };
    const home = fold(plan, ...worked, failed, ...carriedOut('wipe'), clean, ...carriedOut('leave'));
    expect(home.work.frames).toEqual([]);
    expect(home.work.cursor).toEqual({ step: 2, part: { kind: 'hold', index: 0 } });
    // A second time it is worked from its beginning.
    const again = fold(plan, ...worked, failed, ...carriedOut('wipe'), clean, ...carriedOut('leave'), failed);
    expect(again.work.cursor?.step).toBe(5);
    expect(statuses(again).slice(5)).toEqual(['open', 'open', 'open']);
  });

  it('out of a side procedure: counts from the step that it was to come back to', () => {
    const plan = branching({ kind: 'see', side: 'clean', advice: null });
    const unclean: JobEvent = { type: 'hold-answered', step: 'check', hold: 'c', passed: false };
    const out = fold(plan, ...worked, failed, ...carriedOut('wipe'), unclean);
    expect(out.work.frames).toEqual([]);
    expect([...out.work.steps].map(({ reopened }) => reopened)).toEqual([1, 1, 1, 0, 0, 1, 1, 1]);
    expect(out.work.cursor?.step).toBe(0);
  });

  it('nowhere: stays where the plan names a step or a side procedure that it does not have', () => {
    for (const branch of [{ kind: 'go', step: 'x', advice: null } as const, { kind: 'see', side: 'x', advice: null } as const]) {
      const stayed = fold(branching(branch), ...worked, failed);
      expect(stayed.work.cursor?.step).toBe(2);
      expect(stayed.work.steps.get(2)?.holds).toEqual([{ passed: false, failures: 1 }]);
    }
  });

  it('drops the timers of the steps that are begun anew, and no others', () => {
    const wait = (id: string) => ({ id, name: id, seconds: 600, blocks: false });
    const plan = makePlan([
      { id: 'before', wait: wait('first') },
      { id: 'cool', wait: wait('second') },
      { id: 'look', holds: [{ id: 'h', ask: 'Right?', fail: { kind: 'go', step: 'cool', advice: null } }] },
    ]);
    const back = fold(plan, ...carriedOut('before', 'cool'), failed);
    expect(back.work.timers.map(({ name }) => name)).toEqual(['first']);
  });
});

describe('a step opened anew', () => {
  const plan = () =>
    makePlan([
      {
        id: 'one',
        groups: [makeGroup('g', 2)],
        measures: [{ id: 'm', name: 'gap', unit: 'mm', min: 0, max: 1, outside: { kind: 'stay', advice: 'Again.' } }],
        holds: [{ id: 'h', ask: 'Right?', fail: { kind: 'stay', advice: 'Again.' } }],
      },
      { id: 'two' },
    ]);
  const worked: readonly JobEvent[] = [
    ...carriedOut('one'),
    tightened('one', 0),
    { type: 'fastener-left-out', step: 'one', group: 'g', position: 1, ...left },
    { type: 'measured', step: 'one', measure: 'm', value: 2, unit: 'mm', within: false },
    { type: 'measured', step: 'one', measure: 'm', value: 0.5, unit: 'mm', within: true },
    { type: 'hold-answered', step: 'one', hold: 'h', passed: false },
    { type: 'hold-answered', step: 'one', hold: 'h', passed: true },
  ];

  it('from the beginning keeps only what failed', () => {
    const job = fold(plan(), ...worked, { type: 'step-reopened', step: 'one', fresh: true });
    expect(job.work.steps.get(0)).toEqual({
      status: 'open',
      sideDone: false,
      carriedOut: false,
      groups: [{ passesDone: [0, 0], leftOut: [null, null] }],
      measures: [{ value: null, outside: [2] }],
      holds: [{ passed: false, failures: 1 }],
      wait: 'not begun',
      left: null,
      reopened: 1,
    });
  });

  it('for what is missing asks for that and for the checks, and for nothing that is done', () => {
    const job = fold(plan(), ...worked, { type: 'step-reopened', step: 'one', fresh: false });
    expect(job.work.steps.get(0)).toMatchObject({
      status: 'open',
      carriedOut: true,
      groups: [{ passesDone: [1, 0], leftOut: [null, null] }],
      measures: [{ value: 0.5, outside: [2] }],
      holds: [{ passed: false, failures: 1 }],
      reopened: 1,
    });
    expect(job.work.cursor).toEqual({ step: 0, part: { kind: 'fastener', group: 0, pass: 0, position: 1 } });
  });

  it('of a side procedure is the one to do, and the main line is not looked through again for it', () => {
    const aside = makePlan([{ id: 'one' }, { id: 'turn', see: 'clean' }, { id: 'last' }, { id: 'wipe', side: 'clean' }]);
    const closing = fold(aside, ...carriedOut('one'), { type: 'step-skipped', step: 'wipe', ...left }, ...carriedOut('turn', 'last'));
    expect(closing.work.phase).toBe('closing');
    const again = fold(aside, ...carriedOut('one'), { type: 'step-skipped', step: 'wipe', ...left }, ...carriedOut('turn', 'last'), {
      type: 'step-reopened',
      step: 'wipe',
      fresh: false,
    });
    expect(again.work.cursor).toEqual({ step: 3, part: { kind: 'act' } });
    expect(again.work.openFrom).toBe(closing.work.openFrom);
  });

  it('from the close-out comes back to the close-out, not to the steps behind it', () => {
    const finished = fold(plan(), { type: 'finish-asked' }, { type: 'step-reopened', step: 'two', fresh: false });
    expect([finished.work.phase, finished.work.cursor?.step]).toEqual(['working', 1]);
    expect(
      fold(plan(), { type: 'finish-asked' }, { type: 'step-reopened', step: 'two', fresh: false }, ...carriedOut('two')).work,
    ).toMatchObject({
      phase: 'closing',
      only: null,
      cursor: null,
    });
  });
});

describe('what is remembered', () => {
  it('is the newest so many things, each with what it was', () => {
    const plan = makePlan([{ id: 'one', groups: [makeGroup('g', undoDepth + 20)] }]);
    const job = fold(plan, ...Array.from({ length: undoDepth + 10 }, (_, position) => tightened('one', position)));
    expect(job.past).toHaveLength(undoDepth);
    expect(job.past.at(-1)).toMatchObject({ what: 'fastener', seq: undoDepth + 10 });
    expect(job.past[0]).toMatchObject({ seq: 11 });
  });

  it('does not let a timer run again that ran out in the meantime', () => {
    const plan = makePlan([{ id: 'cool', wait: { id: 'w', name: 'cooling', seconds: 60, blocks: false } }, { id: 'two' }, { id: 'three' }]);
    const job = fold(plan, ...carriedOut('cool', 'two'), { type: 'timer-ended', step: 'cool' }, { type: 'undone', seq: 2 });
    expect(job.work.timers).toEqual([]);
    expect(job.work.steps.get(0)?.wait).toBe('over');
    expect(job.work.cursor?.step).toBe(1);
  });

  it('leaves pauses and units alone', () => {
    const plan = makePlan([{ id: 'one' }, { id: 'two' }]);
    const job = fold(plan, ...carriedOut('one'), { type: 'unit-chosen', unit: 'lbf·ft' }, { type: 'paused' }, { type: 'undone', seq: 1 });
    expect(job).toMatchObject({ spokenUnit: 'lbf·ft', halt: { kind: 'paused' }, past: [] });
    expect(job.work.cursor?.step).toBe(0);
  });

  it('is of its kind', () => {
    const plan = fullPlan();
    const what = (...events: readonly JobEvent[]) => fold(plan, ...events).past.map((past) => past.what);
    expect(what(...ready)).toEqual(['caution', 'before', 'before', 'kit']);
    expect(what({ type: 'before-left', before: 'mark', ...left })).toEqual(['before']);
    expect(what({ type: 'kit-answered', item: 'gasket', atHand: false })).toEqual(['kit']);
    expect(what(...ready, { type: 'step-skipped', step: 'offer-up', ...left }).at(-1)).toBe('skip');
    expect(what(...ready, { type: 'looked-back', step: 'draw' }, { type: 'looked-back', step: null }).slice(-2)).toEqual(['back', 'back']);
    expect(what({ type: 'noted', text: 'a', question: false, recording: null, media: null })).toEqual(['note']);
    expect(what(...ready, { type: 'finish-asked' }).at(-1)).toBe('finish');
    expect(what(...ready, { type: 'finish-asked' }, { type: 'matter-accepted', matter: 'step:lower:open', ...left }).at(-1)).toBe('accept');
  });
});

describe('stopped', () => {
  const stopped: readonly JobEvent[] = [...ready, ...carriedOut('offer-up'), { type: 'stopped', step: 'draw' }];
  const answered = (sign: string, felt: boolean): JobEvent => ({ type: 'stop-sign-answered', step: 'draw', sign, felt });

  it('moves to the next sign with a no, and to none with advice to stay', () => {
    expect(fold(fullPlan(), ...stopped).halt).toEqual({ kind: 'stopped', sign: 0 });
    expect(fold(fullPlan(), ...stopped, answered('binds', false)).halt).toEqual({ kind: 'stopped', sign: 1 });
    const stays = fold(fullPlan(), ...stopped, answered('clicks-early', true));
    expect(stays.halt).toEqual({ kind: 'stopped', sign: 2 });
    expect(stays.past.at(-1)?.what).not.toBe('stop-sign');
  });

  it('goes where the sign leads, and that can be taken back', () => {
    const moved = fold(fullPlan(), ...stopped, answered('binds', true));
    expect(moved.halt).toBeNull();
    expect(moved.past.at(-1)?.what).toBe('stop-sign');
    expect(moved.work.frames).toEqual([{ side: 'clean', from: 1, planned: false }]);
  });

  it('takes no sign that the step does not have', () => {
    const before = fold(fullPlan(), ...stopped);
    expect(fold(fullPlan(), ...stopped, answered('x', true)).halt).toEqual(before.halt);
  });

  it('starts from nothing before the record is opened', () => {
    const job = newJob(fullPlan());
    expect(job).toMatchObject({ opened: null, halt: null, signed: null, events: 0, last: null, past: [] });
    expect(job.work).toMatchObject({
      phase: 'briefing',
      befores: [{ answer: 'open' }, { answer: 'open' }],
      kit: [null, null],
      openFrom: 0,
    });
    expect(statuses(job).every((status) => status === 'open')).toBe(true);
  });
});
