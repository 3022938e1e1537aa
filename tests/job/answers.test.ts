import { describe, expect, it } from 'vitest';
import { secondsLeft } from '../../src/job/dialogue.ts';
import { startSession } from '../../src/job/session.ts';
import type { Line } from '../../src/phrasing/lines.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { fullPlan, makeGroup, makePlan } from './plans.ts';
import { atWork, done, rig } from './rig.ts';

const kinds = (lines: readonly Line[]) => lines.map((line) => line.kind);
const wait = (id: string, blocks: boolean, seconds = 600) => ({ id: `${id}-time`, name: id, seconds, blocks });

describe('what is asked on the way', () => {
  it('is answered for every group of a step where no fastener is at hand, and for that one alone where one is', async () => {
    const plan = makePlan([
      { id: 'hang', groups: [makeGroup('upper', 2), makeGroup('lower', 3)] },
      { id: 'wipe', why: 'Grease would hold it off.' },
    ]);
    const job = await rig(plan);
    job.heard();
    await job.say('how-many', 'torque', 'socket');
    expect(job.heard()).toMatchObject([
      { kind: 'how-many', group: { id: 'upper' } },
      { kind: 'torque', group: { id: 'upper' }, pass: 0 },
      { kind: 'socket', group: { id: 'upper' } },
    ]);
    await job.say(done(2), done(3));
    job.heard();
    await job.say('torque', 'how-many-left', 'which-next', 'where', 'why', 'tools', 'caution');
    expect(kinds(job.heard())).toEqual([
      'no-fasteners-here',
      'no-fasteners-here',
      'no-fasteners-here',
      'where',
      'why',
      'tools',
      'no-cautions',
    ]);
    await job.say('back', 'torque');
    expect(job.heard().slice(-2)).toMatchObject([
      { kind: 'torque', group: { id: 'upper' }, pass: null },
      { kind: 'torque', group: { id: 'lower' }, pass: null },
    ]);
    await job.say('how-many-left', 'which-next');
    expect(kinds(job.heard())).toEqual(['how-many', 'how-many', 'how-many', 'how-many']);
  });

  it('tells the cautions of the step, and those of the job where the step has none', async () => {
    const job = await atWork(fullPlan());
    await job.say('caution');
    expect(job.heard()).toMatchObject([{ kind: 'caution', caution: { id: 'stands' }, acknowledge: false }]);
    await job.say('done', 'yes');
    job.heard();
    await job.say('caution');
    expect(job.heard()).toMatchObject([{ kind: 'caution', caution: { id: 'fingers' }, acknowledge: false }]);
  });

  it('tells which step it is and how many of the main line are open, side procedures aside', async () => {
    const job = await atWork(fullPlan());
    await job.say('which-step');
    expect(job.heard()).toMatchObject([{ kind: 'which-step', step: { id: 'offer-up' }, mainSteps: 8, stepsLeft: 8 }]);
    await job.say('done', 'which-step');
    expect(job.heard().at(-1)).toMatchObject({ step: { id: 'draw' }, mainSteps: 8, stepsLeft: 7 });
  });

  it('goes on the record as asked, and changes neither the work nor the question that is open', async () => {
    const job = await rig(makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }]));
    await job.say('skip', 'help');
    expect(job.state()).toBe('reasoning');
    expect(job.said.at(-1)).toMatchObject({ kind: 'help', legal: expect.arrayContaining(['reason', 'no', 'stop']) as unknown });
    expect(job.events.at(-1)?.event).toEqual({ type: 'asked', intent: 'help' });
    await job.say('repeat');
    expect(job.said.at(-1)).toEqual({ kind: 'reason-asked' });
  });
});

describe('how it speaks', () => {
  it('is changed without a word in the record and without losing the question that is open', async () => {
    const job = await rig(makePlan([{ id: 'one' }]));
    await job.say('finish');
    const events = job.events.length;
    await job.say('louder', 'quieter', 'slower', 'faster');
    expect(job.asked).toEqual(['louder', 'quieter', 'slower', 'faster']);
    expect(kinds(job.said.slice(-4))).toEqual(['louder', 'quieter', 'slower', 'faster']);
    expect(job.events).toHaveLength(events);
    expect(job.state()).toBe('confirming');
  });

  it('takes another unit at once', async () => {
    const job = await rig(makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }]));
    await job.say('unit');
    expect(job.said.at(-1)).toEqual({ kind: 'unit-chosen', unit: 'lbf·ft' });
    await job.say('torque');
    expect(job.said.at(-1)).toMatchObject({ kind: 'torque', unit: 'lbf·ft' });
  });
});

describe('sounds', () => {
  it('tell a fastener counted from a step finished, without a look at the screen', async () => {
    const job = await rig(makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }, { id: 'two' }, { id: 'three' }]));
    job.cues.length = 0;
    await job.say('done', done(9), 'done', 'done', 'undo');
    expect(job.cues).toEqual(['fastener-counted', 'not-understood', 'step-complete', 'step-complete', null]);
  });

  it('warn where a check failed, and where something went wrong around the job', async () => {
    const plan = makePlan([{ id: 'look', holds: [{ id: 'clean', ask: 'Clean?', fail: { kind: 'stay', advice: 'Wipe again.' } }] }]);
    const job = await rig(plan);
    await job.say('no');
    expect(job.cues.at(-1)).toBe('caution');
    await job.trouble('storage-low');
    expect([job.said.at(-1), job.cues.at(-1)]).toEqual([{ kind: 'failure', code: 'storage-low' }, 'caution']);
    job.failWith('not-stored-blocked');
    await job.say('yes');
    expect([job.said.at(-1), job.cues.at(-1)]).toEqual([{ kind: 'failure', code: 'not-stored-blocked' }, 'caution']);
  });
});

describe('notes', () => {
  it('are asked for where no words came with them, and pictures too, and the question that is open stays open', async () => {
    const job = await rig(makePlan([{ id: 'one' }]));
    await job.say({ type: 'note', text: '  ' }, { type: 'note', text: null }, 'photo');
    expect(job.asked).toEqual(['note', 'note', 'photo']);
    expect(kinds(job.said.slice(-3))).toEqual(['note-asked', 'note-asked', 'photo-asked']);
    expect(job.dialogue().job.work.notes).toEqual([]);
    await job.say({ type: 'note', text: '  the thread is dry ' });
    expect(job.dialogue().job.work.notes).toMatchObject([{ text: 'the thread is dry', question: false, step: 'one', recording: null }]);
  });

  it('are questions when they ask or when they were marked so by hand', async () => {
    const job = await rig(makePlan([{ id: 'one' }]));
    await job.note({ text: 'dry thread', recording: null, media: null, question: true });
    await job.say({ type: 'note', text: 'is it the right way round' });
    expect(job.dialogue().job.work.notes.map(({ question }) => question)).toEqual([true, true]);
  });

  it('belong to the step that is looked back at, and to none before the first', async () => {
    const plan = makePlan([{ id: 'one' }, { id: 'two' }], { befores: [{ id: 'b', kind: 'condition', check: 'It is chocked.' }] });
    const job = await rig(plan);
    await job.say('note', 'yes', 'done', 'back', 'note');
    expect(job.dialogue().job.work.notes.map(({ step }) => step)).toEqual([null, 'one']);
  });
});

describe('what cannot be done now', () => {
  it.each([
    ['undo', 'nothing-to-undo'],
    ['start-timer', 'no-timer-here'],
    ['time-left', 'no-timer-here'],
    ['number', 'not-now'],
    ['accept', 'not-now'],
  ] as const)('says of "%s" what is amiss', async (intent, kind) => {
    const job = await rig(makePlan([{ id: 'one' }]));
    await job.say(intent);
    expect(job.said.at(-1)).toMatchObject({ kind });
    expect(job.cues.at(-1)).toBe('not-understood');
    expect(job.events.at(-1)?.event).toEqual({ type: 'refused', intent });
  });

  it('looks back no further than the first step', async () => {
    const job = await rig(makePlan([{ id: 'one' }, { id: 'two' }]));
    await job.say('back');
    expect(job.said.at(-1)).toEqual({ kind: 'at-the-start' });
    expect(job.state()).toBe('stating');
  });

  it('looks back within the side procedure under way, and not out of it', async () => {
    const plan = makePlan([{ id: 'one' }, { id: 'turn', see: 'clean' }, { id: 'wipe', side: 'clean' }, { id: 'look', side: 'clean' }]);
    const job = await rig(plan);
    await job.say('done', 'back');
    expect(job.said.at(-1)).toEqual({ kind: 'at-the-start' });
    await job.say('done', 'back');
    expect(job.said.at(-1)).toMatchObject({ kind: 'visiting', step: { id: 'wipe' } });
  });

  it('forgets how often it did not understand once it has', async () => {
    const job = await rig(makePlan([{ id: 'one' }, { id: 'two' }]));
    await job.misheard('mumble');
    await job.misheard('x'.repeat(300));
    expect(job.events.at(-1)?.event).toEqual({ type: 'misheard', text: 'x'.repeat(200) });
    await job.say('done');
    await job.misheard('mumble');
    expect(job.said.at(-1)).toMatchObject({ kind: 'not-understood', times: 1 });
  });

  it('tells what was understood and is of no use here', async () => {
    const job = await rig(makePlan([{ id: 'one' }]));
    await job.notNow('sign');
    expect(job.said.at(-1)).toMatchObject({ kind: 'not-now', intent: 'sign' });
  });
});

describe('measures', () => {
  const measuring = (min: number | null, max: number | null): Plan =>
    makePlan([{ id: 'm', measures: [{ id: 'lash', name: 'lash', unit: 'mm', min, max, outside: { kind: 'stay', advice: 'Again.' } }] }]);

  it.each([
    [0.05, 0.2, 0.05, true],
    [0.05, 0.2, 0.2, true],
    [0.05, 0.2, 0.04, false],
    [0.05, 0.2, 0.21, false],
    [null, 0.2, 0, true],
    [null, 0.2, 0.21, false],
    [0.05, null, 9, true],
    [0.05, null, 0.04, false],
  ])('from %s to %s have %d within: %s', async (min, max, value, within) => {
    const job = await rig(measuring(min, max));
    await job.say({ type: 'number', value, unit: 'mm' }, 'yes');
    expect(job.events.find(({ event }) => event.type === 'measured')?.event).toMatchObject({ value, within });
    expect(kinds(job.said)).toContain(within ? 'measure-within' : 'measure-outside');
    expect(job.state()).toBe(within ? 'signing' : 'measuring');
  });

  it('are dropped with a no, and asked for again', async () => {
    const job = await rig(measuring(0, 1));
    await job.say('number', 'no');
    expect(kinds(job.said.slice(-3))).toEqual(['dropped', 'step', 'measure']);
    expect(job.events.some(({ event }) => event.type === 'measured')).toBe(false);
  });
});

describe('skipping', () => {
  it('waves the rest of the kit through with a yes, and says how much that is and what is missing', async () => {
    const job = await rig(fullPlan());
    await job.say('yes', 'yes', 'yes', 'no', 'skip');
    expect(job.said.at(-1)).toEqual({ kind: 'confirm-kit-waved', left: 1 });
    job.heard();
    await job.say('yes');
    expect(job.heard()).toMatchObject([{ kind: 'kit-done', missing: 1 }, { kind: 'step' }]);
  });

  it('leaves out the fastener at hand or the whole step, as it was said, with the reason that came with it', async () => {
    const plan = makePlan([{ id: 'one', groups: [makeGroup('g', 2)] }, { id: 'two' }]);
    const one = await rig(plan);
    await one.say({ type: 'skip', scope: 'this', reason: 'no-part' });
    expect(one.said.at(-1)).toMatchObject({ kind: 'confirm-skip-fastener', reason: 'no-part', place: { position: 0 } });
    const whole = await rig(plan);
    await whole.say({ type: 'skip', scope: 'step', reason: 'no-part' });
    expect(whole.said.at(-1)).toMatchObject({ kind: 'confirm-skip-step', reason: 'no-part', step: { id: 'one' } });
    await whole.say('yes');
    expect(kinds(whole.said.slice(-2))).toEqual(['skipped-step', 'step']);
    await whole.say({ type: 'skip', scope: 'this', reason: 'no-part' });
    expect(whole.said.at(-1)).toMatchObject({ kind: 'confirm-skip-step', step: { id: 'two' } });
  });

  it('says how many steps are open when the end is asked for', async () => {
    const job = await rig(makePlan([{ id: 'one' }, { id: 'two' }, { id: 'three' }, { id: 'aside', side: 'aside' }]));
    await job.say('done', 'finish');
    expect(job.said.at(-1)).toEqual({ kind: 'confirm-finish', openSteps: 2 });
    await job.say('no');
    expect(kinds(job.said.slice(-2))).toEqual(['dropped', 'step']);
  });
});

describe('stopping', () => {
  it('before the work pauses, and twice changes nothing', async () => {
    const job = await rig(fullPlan());
    await job.say('stop');
    expect([job.said.at(-1), job.cues.at(-1), job.state()]).toEqual([{ kind: 'stopped' }, 'heard', 'paused']);
    const events = job.events.length;
    await job.say('stop');
    expect(job.said.at(-1)).toEqual({ kind: 'stopped' });
    expect(job.events).toHaveLength(events);
  });

  it('goes through the signs one by one, and says when there are no more', async () => {
    const job = await atWork(fullPlan());
    await job.say('done', 'yes', 'stop');
    job.heard();
    await job.say('no', 'no', 'no');
    expect(job.heard()).toMatchObject([
      { kind: 'stop-sign', sign: { id: 'clicks-early' } },
      { kind: 'no-more-stop-signs' },
      { kind: 'no-more-stop-signs' },
    ]);
    await job.say('carry-on');
    expect(kinds(job.heard())).toEqual(['resumed', 'step', 'group']);
  });

  it('asks for the sign again when the job is taken up where it stood', async () => {
    const job = await atWork(fullPlan());
    await job.say('done', 'yes', 'stop');
    const later = await rig(fullPlan(), job.events);
    expect(later.heard()).toMatchObject([{ kind: 'welcome-back' }, { kind: 'stop-sign', sign: { id: 'binds' } }]);
  });
});

describe('timers', () => {
  const at = (wall: number, mono: number, session = 'now') => ({ moment: { wall, offset: 0, mono }, session });
  const timer = { seconds: 60, started: { wall: 1000, offset: 0, mono: 5000 }, session: 'now' };

  it('count by the clock that nobody sets, and by the wall clock in another run', () => {
    expect(secondsLeft(timer, at(99_000_000, 15_000))).toBe(50);
    expect(secondsLeft(timer, at(11_000, 99_000_000, 'later'))).toBe(50);
  });

  it('have a second left until it is over, none after that, and never more than they began with', () => {
    expect(secondsLeft(timer, at(0, 64_999))).toBe(1);
    expect(secondsLeft(timer, at(0, 65_000))).toBe(0);
    expect(secondsLeft(timer, at(0, 900_000))).toBe(0);
    expect(secondsLeft(timer, at(-500_000, 0, 'later'))).toBe(60);
  });

  it('are said to block only where the next step waits for them', async () => {
    const blocking = await rig(makePlan([{ id: 'seal', wait: wait('skin', true) }, { id: 'next' }]));
    await blocking.say('done');
    expect(blocking.said.at(-1)).toEqual({ kind: 'wait-started', name: 'skin', seconds: 600, blocks: true });
    const beside = await rig(makePlan([{ id: 'cool', wait: wait('cooling', false) }, { id: 'next' }]));
    beside.heard();
    await beside.say('done');
    expect(beside.heard()).toMatchObject([
      { kind: 'wait-started', blocks: false },
      { kind: 'step', step: { id: 'next' } },
    ]);
  });

  it('can be started before the step is done, once, and ring once', async () => {
    const job = await rig(makePlan([{ id: 'cool', groups: [makeGroup('g', 2)], wait: wait('cooling', false, 60) }, { id: 'next' }]));
    await job.say('start-timer');
    expect([job.said.at(-1)?.kind, job.cues.at(-1)]).toEqual(['wait-started', 'timer']);
    await job.say('start-timer');
    expect(job.said.at(-1)).toEqual({ kind: 'no-timer-here' });
    await job.advance(60);
    expect([job.said.at(-1), job.cues.at(-1)]).toEqual([{ kind: 'wait-over', name: 'cooling' }, 'timer']);
    const said = job.said.length;
    await job.advance(60);
    expect(job.said).toHaveLength(said);
  });

  it('that end while they are asked about take the question with them, and leave any other', async () => {
    const plan = makePlan([{ id: 'seal', wait: wait('skin', true) }, { id: 'next' }]);
    const cutting = await rig(plan);
    await cutting.say('done', 'done');
    expect(cutting.state()).toBe('confirming');
    await cutting.advance(600);
    expect(cutting.state()).toBe('stating');
    const finishing = await rig(plan);
    await finishing.say('done', 'finish');
    await finishing.advance(600);
    expect(finishing.state()).toBe('confirming');
  });

  it('tell how long is left while they block', async () => {
    const job = await rig(makePlan([{ id: 'seal', wait: wait('skin', true) }, { id: 'next' }]));
    await job.say('done');
    await job.advance(90);
    await job.say('repeat', 'time-left');
    expect(job.said.slice(-2)).toEqual([
      { kind: 'wait-running', name: 'skin', seconds: 510 },
      { kind: 'time-left', timers: [{ name: 'skin', seconds: 510 }] },
    ]);
  });
});

describe('the clocks of the device', () => {
  it('are told when they jump, and the jump is kept while the job is open', async () => {
    const job = await rig(makePlan([{ id: 'one' }]));
    await job.say('finish');
    await job.clockChanged('clock-changed', -3_600_000);
    expect(job.said.at(-1)).toEqual({ kind: 'failure', code: 'clock-changed' });
    expect(job.events.at(-1)?.event).toEqual({ type: 'clock-jumped', milliseconds: -3_600_000 });
    expect(job.state()).toBe('confirming');
    const events = job.events.length;
    await job.clockChanged('slept', 0);
    expect([job.said.at(-1), job.events.length]).toEqual([{ kind: 'failure', code: 'slept' }, events]);
    await job.say('no', 'done', 'yes');
    expect(job.state()).toBe('closed');
    const closed = job.events.length;
    await job.clockChanged('clock-changed', 5000);
    expect(job.events).toHaveLength(closed);
  });
});

describe('signing', () => {
  it('takes the name of whoever opened the job with a yes, and needs one', async () => {
    const known = await rig(makePlan([{ id: 'one' }]));
    await known.say('done');
    expect(known.said.at(-1)).toEqual({ kind: 'sign-asked', name: 'Alex' });
    await known.say('yes');
    expect(known.dialogue().job.signed?.name).toBe('Alex');
    expect(known.cues.at(-1)).toBe('step-complete');
    const unknown = await rig(makePlan([{ id: 'one' }]), [], null);
    await unknown.say('done', 'yes', { type: 'sign', name: '   ' });
    expect(unknown.said.slice(-2)).toEqual([
      { kind: 'sign-asked', name: null },
      { kind: 'sign-asked', name: null },
    ]);
    expect(unknown.state()).toBe('signing');
  });

  it('can wait for another day', async () => {
    const job = await rig(makePlan([{ id: 'one' }]));
    await job.say('done', 'leave-open');
    expect([job.said.at(-1), job.state()]).toEqual([{ kind: 'left-open' }, 'paused']);
  });
});

it('says when a store throws that nothing was stored, and goes on', async () => {
  const said: Line[] = [];
  const session = startSession(makePlan([{ id: 'one' }]), [], {
    store: () => Promise.reject(new Error('the database is gone')),
    now: () => ({ moment: { wall: 0, offset: 0, mono: 0 }, session: 's' }),
    say: (lines) => said.push(...lines),
    set: () => undefined,
    wants: () => undefined,
    changed: () => undefined,
  });
  await session.begin({ person: null, group: null });
  expect(said).toEqual([{ kind: 'failure', code: 'not-stored-blocked' }]);
  session.end();
  await session.trouble('storage-low');
  expect(said).toHaveLength(1);
});

it('takes the next word only when the one before is stored and answered', async () => {
  const heard: string[] = [];
  const stores: (() => void)[] = [];
  let stored = 0;
  const session = startSession(makePlan([{ id: 'one' }, { id: 'two' }]), [], {
    store: (happenings) =>
      new Promise((resolve) => {
        stores.push(() => {
          const events = happenings.map(({ moment, event }) => ({ seq: stored++, session: 's', moment, event }));
          resolve({ ok: true, events });
        });
      }),
    now: () => ({ moment: { wall: 0, offset: 0, mono: 0 }, session: 's' }),
    say: (lines) => heard.push(...kinds(lines)),
    set: () => undefined,
    wants: () => undefined,
    changed: () => heard.push('changed'),
  });
  const all = Promise.all([session.begin({ person: null, group: null }), session.intent(done(1)), session.intent({ type: 'repeat' })]);
  const settled = async () => {
    for (let turns = 0; turns < 20; turns += 1) await Promise.resolve();
  };
  await settled();
  expect([heard, stores.length]).toEqual([[], 1]);
  stores[0]?.();
  await settled();
  expect([heard, stores.length]).toEqual([['welcome', 'step', 'changed'], 2]);
  stores[1]?.();
  await settled();
  stores[2]?.();
  await all;
  expect(heard.slice(3)).toEqual(['step', 'changed', 'step', 'changed']);
});
