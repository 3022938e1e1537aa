import { describe, expect, it } from 'vitest';
import { briefingItem, kitItemIndex } from '../../src/job/dialogue.ts';
import { fullPlan, makeGroup, makePlan } from './plans.ts';
import type { Rig } from './rig.ts';
import { atWork, done, rig } from './rig.ts';

const kinds = (lines: readonly { kind: string }[]) => lines.map((line) => line.kind);

describe('before starting', () => {
  it('reads the cautions, asks what must be true and lays out the kit, one thing at a time', async () => {
    const job = await rig(fullPlan());
    expect(kinds(job.heard())).toEqual(['welcome', 'caution']);
    await job.say('done');
    expect(job.heard()).toMatchObject([{ kind: 'before', number: 1, of: 2 }]);
    await job.say('yes', 'yes');
    expect(kinds(job.heard())).toEqual(['before', 'kit-begins', 'kit-item']);
    await job.say('done', 'missing');
    expect(job.heard()).toMatchObject([
      { kind: 'kit-item', number: 2 },
      { kind: 'kit-missing' },
      { kind: 'kit-done', missing: 1 },
      { kind: 'step' },
    ]);
    expect(job.state()).toBe('stating');
  });

  it('has nothing at hand once all of it is answered', async () => {
    const job = await rig(fullPlan());
    const atHand = () => ({ item: briefingItem(job.dialogue().plan, job.dialogue().job), kit: kitItemIndex(job.dialogue().job) });
    await job.say('done', 'yes');
    expect(atHand()).toMatchObject({ item: { kind: 'before', number: 2, of: 2 }, kit: 0 });
    await job.say('yes', 'done');
    expect(atHand()).toEqual({ item: null, kit: 1 });
    await job.say('missing');
    expect(atHand()).toEqual({ item: null, kit: null });
  });

  it('does not go on from a caution without an answer', async () => {
    const job = await rig(fullPlan());
    job.heard();
    await job.say('no', 'skip');
    expect(kinds(job.heard())).toEqual(['caution', 'caution']);
    expect(job.state()).toBe('briefing');
  });

  it('stays at a condition that is not true, and can leave it only with a reason and a yes', async () => {
    const job = await rig(fullPlan());
    await job.say('done', 'no');
    expect(job.heard().at(-1)).toMatchObject({ kind: 'before-not-true' });
    await job.say('skip');
    expect(job.state()).toBe('reasoning');
    await job.say('reason');
    expect(job.state()).toBe('confirming');
    await job.say('yes');
    expect(job.heard().at(-1)).toMatchObject({ kind: 'before', number: 2 });
    expect(job.dialogue().job.work.befores[0]).toMatchObject({ answer: 'left', left: { reason: 'no-tool' } });
  });
});

describe('fasteners', () => {
  const twoPasses = () => makePlan([{ id: 'one', groups: [makeGroup('g', 3, [30, 100])] }, { id: 'two' }]);

  it('are counted one by one, pass by pass', async () => {
    const job = await rig(twoPasses());
    expect(kinds(job.heard())).toEqual(['welcome', 'step', 'group']);
    await job.say('done');
    expect(job.heard()).toMatchObject([{ kind: 'next-fastener', place: { pass: 0, position: 1, left: 2 } }]);
    await job.say(done(2));
    expect(job.heard()).toMatchObject([{ kind: 'pass', place: { pass: 1, position: 0, left: 3 } }]);
    await job.say('done', 'done', 'done');
    expect(job.heard().at(-1)).toMatchObject({ kind: 'step', step: { id: 'two' } });
  });

  it('refuses to count more than the pass has left', async () => {
    const job = await rig(twoPasses());
    job.heard();
    await job.say(done(4));
    expect(job.heard()).toEqual([{ kind: 'too-many', said: 4, left: 3 }]);
    expect(job.dialogue().job.past).toHaveLength(0);
  });

  it.each([0, -1, 1.5, Number.NaN])('refuses to count %d of them', async (count) => {
    const job = await rig(twoPasses());
    job.heard();
    await job.say(done(count));
    expect(job.heard()).toEqual([{ kind: 'too-many', said: count, left: 3 }]);
    expect(job.cues.at(-1)).toBe('not-understood');
    expect(job.dialogue().job.past).toHaveLength(0);
  });

  it('are taken back one at a time, even when several were counted at once', async () => {
    const job = await rig(twoPasses());
    await job.say(done(2), 'undo');
    expect(job.dialogue().job.work.steps.get(0)?.groups[0]?.passesDone).toEqual([1, 0, 0]);
    expect(job.said.at(-1)).toMatchObject({ kind: 'next-fastener', place: { position: 1 } });
  });

  it('answers torque, socket, how many left and which next for the fastener at hand', async () => {
    const job = await rig(twoPasses());
    await job.say('done');
    job.heard();
    await job.say('torque', 'socket', 'how-many-left', 'which-next');
    expect(job.heard()).toMatchObject([
      { kind: 'torque', pass: 0 },
      { kind: 'socket' },
      { kind: 'how-many-left', place: { left: 2 } },
      { kind: 'which-next', place: { position: 1 } },
    ]);
  });

  it('can be left out one by one with a reason, after which the others go on', async () => {
    const job = await rig(twoPasses());
    await job.say('skip', 'reason', 'yes');
    expect(job.said.at(-1)).toMatchObject({ kind: 'next-fastener', place: { position: 1, left: 2 } });
    await job.say(done(2), done(2));
    expect(job.dialogue().job.work.steps.get(0)?.status).toBe('done');
  });
});

describe('checks', () => {
  it('reads a measure back before it counts, and takes a corrected number', async () => {
    const plan = makePlan([
      {
        id: 'm',
        measures: [{ id: 'lash', name: 'backlash', unit: 'mm', min: 0.05, max: 0.2, outside: { kind: 'stay', advice: 'Again.' } }],
      },
    ]);
    const job = await rig(plan);
    await job.say({ type: 'number', value: 0.5, unit: null });
    expect(job.said.at(-1)).toMatchObject({ kind: 'measure-read-back', value: 0.5 });
    await job.say({ type: 'number', value: 0.15, unit: 'mm' }, 'yes');
    expect(job.events.filter((one) => one.event.type === 'measured')).toHaveLength(1);
    expect(job.state()).toBe('signing');
  });

  it('does not take a value in another unit', async () => {
    const plan = makePlan([
      { id: 'm', measures: [{ id: 'lash', name: 'backlash', unit: 'mm', min: null, max: 1, outside: { kind: 'stay', advice: 'Again.' } }] },
    ]);
    const job = await rig(plan);
    await job.say({ type: 'number', value: 0.004, unit: 'in' });
    expect(job.said.at(-1)).toMatchObject({ kind: 'measure-wrong-unit', saidUnit: 'in' });
    expect(job.state()).toBe('measuring');
  });

  it('goes back where the procedure says when a measure is outside its limits, and does that work anew', async () => {
    const job = await atWork(fullPlan());
    await job.say('done', 'yes', done(4), done(4), { type: 'number', value: 0.4, unit: null }, 'yes');
    expect(job.said.map((line) => line.kind)).toContain('measure-outside');
    expect(job.said.at(-2)).toMatchObject({ kind: 'step', step: { id: 'draw' } });
    expect(job.dialogue().job.work.steps.get(1)?.groups[0]?.passesDone).toEqual([0, 0, 0, 0]);
    await job.say(done(4), done(4), 'number', 'yes');
    expect(job.state()).toBe('stating');
  });

  it('runs a side procedure when a hold point fails, comes back, and asks again', async () => {
    const plan = makePlan([
      { id: 'turn', holds: [{ id: 'free', ask: 'Free?', fail: { kind: 'see', side: 'clean', advice: null } }] },
      { id: 'wipe', side: 'clean' },
    ]);
    const job = await rig(plan);
    job.heard();
    await job.say('no');
    expect(kinds(job.heard())).toEqual(['hold-failed', 'branch', 'side-begins', 'step']);
    await job.say('done');
    expect(kinds(job.heard())).toEqual(['side-ends', 'step', 'hold']);
    await job.say('yes');
    expect(job.said.at(-1)).toMatchObject({ kind: 'matter', matter: { kind: 'hold', how: 'passed late', failures: 1 } });
  });

  it('asks a hold point again, with the advice, when the procedure says to stay', async () => {
    const plan = makePlan([{ id: 'look', holds: [{ id: 'clean', ask: 'Clean?', fail: { kind: 'stay', advice: 'Wipe again.' } }] }]);
    const job = await rig(plan);
    job.heard();
    await job.say('no');
    expect(kinds(job.heard())).toEqual(['hold-failed', 'branch', 'step', 'hold']);
  });
});

describe('stop', () => {
  it('asks for the stop signs of the step and branches as the procedure says', async () => {
    const job = await atWork(fullPlan());
    await job.say('done', 'yes');
    job.heard();
    await job.say('stop');
    expect(job.state()).toBe('diagnosing');
    expect(job.heard()).toMatchObject([{ kind: 'stopped' }, { kind: 'stop-sign', sign: { id: 'binds' } }]);
    await job.say('yes');
    expect(kinds(job.heard())).toEqual(['branch', 'side-begins', 'step']);
  });

  it('stays stopped on advice, until the person carries on', async () => {
    const job = await atWork(fullPlan());
    await job.say('done', 'yes', 'stop', 'no', 'yes');
    expect(job.state()).toBe('diagnosing');
    await job.say('carry-on');
    expect(job.state()).toBe('fastening');
  });

  it('works in every state, also while something is asked', async () => {
    const job = await atWork(fullPlan());
    await job.say('skip');
    expect(job.state()).toBe('reasoning');
    await job.say('stop');
    expect(job.state()).toBe('diagnosing');
    expect(job.dialogue().pending).toBeNull();
  });
});

describe('waits', () => {
  it('a wait that blocks holds the next step until its time is over', async () => {
    const job = await rig(makePlan([{ id: 'seal', wait: { id: 'w', name: 'skin', seconds: 600, blocks: true } }, { id: 'next' }]));
    await job.say('done');
    expect(job.state()).toBe('waiting');
    await job.advance(599);
    expect(job.state()).toBe('waiting');
    await job.advance(1);
    expect(job.said.at(-1)).toMatchObject({ kind: 'step', step: { id: 'next' } });
  });

  it('can be cut short only with a yes', async () => {
    const job = await rig(makePlan([{ id: 'seal', wait: { id: 'w', name: 'skin', seconds: 600, blocks: true } }, { id: 'next' }]));
    await job.say('done', 'done');
    expect(job.said.at(-1)).toMatchObject({ kind: 'confirm-cut-wait', seconds: 600 });
    await job.say('yes');
    expect(job.dialogue().job.work.steps.get(0)?.wait).toBe('cut short');
  });

  it('a wait beside the work rings when it is over, wherever the person is by then', async () => {
    const job = await rig(makePlan([{ id: 'cool', wait: { id: 'w', name: 'cooling', seconds: 60, blocks: false } }, { id: 'next' }]));
    await job.say('done', 'time-left');
    expect(job.said.at(-1)).toMatchObject({ kind: 'time-left', timers: [{ name: 'cooling', seconds: 60 }] });
    await job.advance(61);
    expect(job.said.at(-1)).toEqual({ kind: 'wait-over', name: 'cooling' });
  });

  it('counts by the wall clock across a restart', async () => {
    const plan = makePlan([{ id: 'seal', wait: { id: 'w', name: 'skin', seconds: 600, blocks: true } }, { id: 'next' }]);
    const first = await rig(plan);
    await first.say('done');
    const second = await rig(plan, first.events);
    expect(second.said.map((line) => line.kind)).toEqual(['welcome-back', 'wait-running']);
    await second.advance(600);
    expect(second.state()).toBe('stating');
  });
});

describe('storing', () => {
  it('does nothing and says so when an event cannot be stored', async () => {
    const job = await rig(makePlan([{ id: 'one' }, { id: 'two' }]));
    job.failWith('not-stored-disk-full');
    job.heard();
    const before = job.dialogue().job;
    await job.say('done');
    expect(job.heard()).toEqual([{ kind: 'failure', code: 'not-stored-disk-full' }]);
    expect(job.dialogue().job).toBe(before);
    job.failWith(null);
    await job.say('done');
    expect(job.said.at(-1)).toMatchObject({ kind: 'step', step: { id: 'two' } });
  });

  it('resumes at the same fastener of the same pass', async () => {
    const plan = makePlan([{ id: 'one', groups: [makeGroup('g', 4, [30, 100])] }]);
    const first = await rig(plan);
    await first.say(done(4), 'done');
    const second = await rig(plan, first.events);
    expect(second.said.at(-1)).toMatchObject({ kind: 'group', place: { pass: 1, position: 1, left: 3 } });
  });
});

describe('looking back', () => {
  it('shows the step before, answers about it, and returns to the work', async () => {
    const job = await rig(makePlan([{ id: 'one', groups: [makeGroup('g', 1)] }, { id: 'two' }, { id: 'three' }]));
    await job.say('done', 'done', 'back', 'back');
    expect(job.said.at(-1)).toMatchObject({ kind: 'visiting', step: { id: 'one' } });
    await job.say('torque');
    expect(job.said.at(-1)).toMatchObject({ kind: 'torque', group: { id: 'g' } });
    await job.say('carry-on');
    expect(job.said.at(-1)).toMatchObject({ kind: 'step', step: { id: 'three' } });
  });

  it('can open the step anew with a yes, and comes back to where the work was', async () => {
    const job = await rig(makePlan([{ id: 'one' }, { id: 'two' }]));
    await job.say('done', 'back', 'do-it-now', 'yes');
    expect(job.said.at(-1)).toMatchObject({ kind: 'step', step: { id: 'one' } });
    await job.say('done');
    expect(job.said.at(-1)).toMatchObject({ kind: 'step', step: { id: 'two' } });
  });
});

describe('close-out', () => {
  it('asks about each open matter, and signs only when all are answered', async () => {
    const job = await rig(makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }, { id: 'two' }]));
    await job.say('done', { type: 'skip', scope: 'step', reason: 'cannot-reach' }, 'yes', 'done');
    expect(job.state()).toBe('closing');
    expect(job.dialogue().job.work.accepted).toEqual({});
    await job.say('yes');
    expect(job.state()).toBe('closing');
    await job.say('accept', 'reason');
    expect(job.state()).toBe('signing');
    await job.say('yes');
    expect(job.state()).toBe('closed');
    expect(job.said.at(-1)).toEqual({ kind: 'closed' });
  });

  it('can do an open matter at once and then comes back to the close-out', async () => {
    const job = await rig(makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }, { id: 'two' }]));
    await job.say('done', 'finish', 'yes');
    expect(job.state()).toBe('closing');
    await job.say('do-it-now');
    expect(job.said.at(-1)).toMatchObject({ kind: 'group', place: { position: 1 } });
    await job.say('done');
    expect(job.state()).toBe('closing');
    expect(job.said.at(-1)).toMatchObject({ kind: 'matter', matter: { kind: 'step', step: { id: 'two' }, how: 'open' } });
  });

  it('can be left open and taken up again', async () => {
    const plan = makePlan([{ id: 'one' }, { id: 'two' }]);
    const job = await rig(plan);
    await job.say('finish', 'yes', 'leave-open');
    expect(job.state()).toBe('paused');
    const later = await rig(plan, job.events);
    await later.say('carry-on');
    expect(later.state()).toBe('closing');
  });

  it('signs under a name given by voice after reading it back', async () => {
    const job = await rig(makePlan([{ id: 'one' }]), [], null);
    await job.say('done');
    expect(job.said.at(-1)).toEqual({ kind: 'sign-asked', name: null });
    await job.say({ type: 'sign', name: 'Robin' });
    expect(job.said.at(-1)).toEqual({ kind: 'confirm-sign', name: 'Robin' });
    await job.say('yes');
    expect(job.dialogue().job.signed?.name).toBe('Robin');
  });
});

it('offers everything again at the third utterance in a row that it did not understand', async () => {
  const job = await atWork(fullPlan());
  await job.misheard('mumble');
  await job.misheard('mumble');
  expect(kinds(job.heard())).toEqual(['not-understood', 'not-understood']);
  await job.misheard('mumble');
  expect(kinds(job.heard())).toEqual(['not-understood', 'step']);
});

describe('the record', () => {
  const markers = (job: Rig) =>
    job.events.map(({ event }) => event).filter(({ type }) => type === 'step-begun' || type === 'step-finished');

  it('tells which steps began and how they ended, once each', async () => {
    const job = await rig(makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }, { id: 'two' }, { id: 'three' }]));
    await job.say('done', 'done', { type: 'skip', scope: 'step', reason: null }, 'reason', 'yes');
    expect(markers(job)).toEqual([
      { type: 'step-begun', step: 'one', visit: 0 },
      { type: 'step-finished', step: 'one', how: 'done' },
      { type: 'step-begun', step: 'two', visit: 0 },
      { type: 'step-finished', step: 'two', how: 'skipped' },
      { type: 'step-begun', step: 'three', visit: 0 },
    ]);
  });

  it('tells that a step was begun anew', async () => {
    const job = await rig(makePlan([{ id: 'one' }, { id: 'two' }]));
    await job.say('done', 'back', 'do-it-now', 'yes');
    expect(markers(job)).toEqual([
      { type: 'step-begun', step: 'one', visit: 0 },
      { type: 'step-finished', step: 'one', how: 'done' },
      { type: 'step-begun', step: 'two', visit: 0 },
      { type: 'step-begun', step: 'one', visit: 1 },
    ]);
  });
});

describe('a wait', () => {
  const wait = { id: 'w', name: 'the wait', seconds: 600, blocks: false };

  it('can be started whatever the step asks at the moment', async () => {
    for (const asks of [
      {},
      { groups: [makeGroup('g', 1)] },
      { holds: [{ id: 'h', ask: 'Is it free?', fail: { kind: 'stay', advice: 'Wait.' } }] },
      { measures: [{ id: 'm', name: 'gap', unit: 'mm', min: 1, max: 2, outside: { kind: 'stay', advice: 'Again.' } }] },
    ] as const) {
      const job = await rig(makePlan([{ id: 'one', wait, ...asks }, { id: 'two' }]));
      await job.say('start-timer');
      expect(job.events.some(({ event }) => event.type === 'timer-started' && event.step === 'one')).toBe(true);
      expect(job.dialogue().job.work.timers).toHaveLength(1);
    }
  });

  it('goes on while a side procedure is worked anew', async () => {
    const plan = makePlan([
      { id: 'one', wait },
      { id: 'two', see: 'clean' },
      { id: 'three', see: 'clean' },
      { id: 'wipe', side: 'clean' },
    ]);
    const job = await rig(plan);
    await job.say('start-timer', 'done');
    for (let steps = 0; steps < 4; steps++) {
      expect(job.dialogue().job.work.timers.map(({ step }) => step)).toEqual(['one']);
      await job.say('done');
    }
  });
});
