import { describe, expect, it } from 'vitest';
import type { Cue } from '../../src/job/decide.ts';
import type { Intent } from '../../src/phrasing/intents.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { fullPlan, makeGroup, makePlan } from './plans.ts';
import type { Rig } from './rig.ts';
import { done, rig } from './rig.ts';

/** What is said (or so many seconds that pass), the kinds of lines heard in answer, all of them in order, and the sound. */
type Turn = readonly [Intent | Intent['type'] | number, string, Cue | null | 'silent'];

const reading = (value: number): Intent => ({ type: 'number', value, unit: null });
const wait = (name: string, blocks: boolean) => ({ id: name, name, seconds: 600, blocks });
const stay = { kind: 'stay', advice: 'Again.' } as const;

/** The turns as they went, to be compared as a whole: a word too many under the vehicle is as wrong as one too few. */
async function went(job: Rig, turns: readonly Turn[]): Promise<readonly Turn[]> {
  const heard: Turn[] = [];
  job.heard();
  for (const [said] of turns) {
    const sounds = job.cues.length;
    await (typeof said === 'number' ? job.advance(said) : job.say(said));
    const kinds = job
      .heard()
      .map(({ kind }) => kind)
      .join(' ');
    heard.push([said, kinds, job.cues.length === sounds ? 'silent' : (job.cues.at(-1) ?? null)]);
  }
  return heard;
}

/** Through the briefing and the kit, and so many steps further. */
async function atStep(plan: Plan, ...before: readonly (Intent | Intent['type'])[]): Promise<Rig> {
  const job = await rig(plan);
  while (job.state() === 'briefing' || job.state() === 'kit') await job.say('yes');
  await job.say(...before);
  return job;
}

const toTheSeal = ['done', 'yes', done(4), done(4), reading(0.1), 'yes'] as const;
const toTheTurn = [...toTheSeal, 'done', 'done', 'yes', 'done', done(2)] as const;

const conversations: readonly { readonly name: string; readonly job: () => Promise<Rig>; readonly turns: readonly Turn[] }[] = [
  {
    name: 'the briefing, with a condition that is not true, a note, a mark left out, and that taken back',
    job: () => rig(fullPlan()),
    turns: [
      ['no', 'caution', 'caution'],
      ['yes', 'before', 'heard'],
      ['note', 'noted', 'heard'],
      ['no', 'before-not-true', null],
      ['yes', 'before', 'heard'],
      ['skip', 'reason-asked', null],
      ['reason', 'confirm-leave-before', null],
      ['repeat', 'confirm-leave-before', null],
      ['yes', 'kit-begins kit-item', null],
      ['undo', 'undone before', null],
      ['undo', 'undone before', null],
    ],
  },
  {
    name: 'the kit, with something missing, and answers taken back',
    job: async () => {
      const job = await rig(fullPlan());
      await job.say('yes', 'yes', 'yes');
      return job;
    },
    turns: [
      ['repeat', 'kit-item', null],
      ['yes', 'kit-item', 'heard'],
      ['note', 'noted', 'heard'],
      ['missing', 'kit-missing kit-done step', 'heard'],
      ['undo', 'undone kit-begins kit-item', null],
      ['undo', 'undone', null],
      ['undo', 'undone kit-item', null],
      ['skip', 'confirm-kit-waved', null],
      ['repeat', 'confirm-kit-waved', null],
      ['yes', 'kit-done step', null],
    ],
  },
  {
    name: 'fasteners, with one left out and one taken back',
    job: () => atStep(fullPlan(), 'done'),
    turns: [
      ['no', 'not-now', 'not-understood'],
      ['repeat', 'caution', null],
      ['done', 'step group', 'heard'],
      ['undo', 'undone caution', null],
      ['done', 'step group', 'heard'],
      [done(4), 'pass', 'fastener-counted'],
      ['undo', 'undone pass', null],
      ['done', 'pass', 'fastener-counted'],
      ['done', 'next-fastener', 'fastener-counted'],
      ['skip', 'reason-asked', null],
      ['repeat', 'reason-asked', null],
      ['yes', 'not-now', 'not-understood'],
      ['no', 'dropped step group', null],
      ['skip', 'reason-asked', null],
      ['reason', 'confirm-skip-fastener', null],
      ['repeat', 'confirm-skip-fastener', null],
      ['yes', 'skipped-fastener next-fastener', null],
      ['undo', 'undone next-fastener', null],
      [done(3), 'step measure', 'step-complete'],
    ],
  },
  {
    name: 'a measure, outside its limits and taken back, then within',
    job: () => atStep(fullPlan(), 'done', 'yes', done(4), done(4)),
    turns: [
      [reading(0.4), 'measure-read-back', null],
      ['repeat', 'measure-read-back', null],
      ['no', 'dropped step measure', null],
      [reading(0.4), 'measure-read-back', null],
      ['yes', 'measure-outside branch step group', 'caution'],
      ['undo', 'undone step measure', null],
      [reading(0.1), 'measure-read-back', null],
      ['yes', 'measure-within step', 'step-complete'],
    ],
  },
  {
    name: 'a wait that blocks and runs out while the person rests',
    job: () => atStep(fullPlan(), ...toTheSeal),
    turns: [
      ['done', 'wait-started', 'heard'],
      ['done', 'confirm-cut-wait', null],
      ['repeat', 'confirm-cut-wait', null],
      ['no', 'dropped wait-running', null],
      [300, '', 'silent'],
      ['hold-on', 'paused', null],
      [300, 'wait-over', 'timer'],
      ['repeat', 'paused', null],
      ['carry-on', 'resumed step group', null],
      ['done', 'group', 'fastener-counted'],
      ['undo', 'undone group', null],
    ],
  },
  {
    name: 'a wait cut short',
    job: () => atStep(fullPlan(), ...toTheSeal, 'done', 'done'),
    turns: [
      ['yes', 'step group', null],
      [600, '', 'silent'],
    ],
  },
  {
    name: 'a side procedure, worked twice, with one of its checks failing',
    job: () => atStep(fullPlan(), ...toTheTurn),
    turns: [
      ['done', 'step hold', 'step-complete'],
      ['done', 'not-now', 'not-understood'],
      ['undo', 'undone step', null],
      ['undo', 'undone side-ends step group', null],
      ['done', 'side-begins step', 'step-complete'],
      ['done', 'step hold', 'step-complete'],
      ['no', 'hold-failed branch step hold', 'caution'],
      ['yes', 'hold-passed side-ends step hold', 'step-complete'],
      ['no', 'hold-failed branch side-begins step', 'caution'],
      ['done', 'step hold', 'step-complete'],
      ['yes', 'hold-passed side-ends step hold', 'step-complete'],
      ['yes', 'hold-passed step', 'step-complete'],
    ],
  },
  {
    name: 'a look back, a note on it, and forward again',
    job: () => atStep(makePlan([{ id: 'one' }, { id: 'two' }]), 'done'),
    turns: [
      ['back', 'visiting', null],
      ['repeat', 'visiting', null],
      ['note', 'noted', 'heard'],
      ['do-it-now', 'confirm-reopen', null],
      ['repeat', 'confirm-reopen', null],
      ['no', 'dropped visiting', null],
      ['carry-on', 'step', null],
      ['back', 'visiting', null],
      ['do-it-now', 'confirm-reopen', null],
      ['yes', 'step', null],
      ['done', 'step', 'step-complete'],
    ],
  },
  {
    name: 'a step with cautions of both sorts, stopped and carried on',
    job: () =>
      rig(
        makePlan([
          {
            id: 'one',
            cautions: [
              { id: 'hot', signal: 'CAUTION', text: 'The pipe is hot.' },
              { id: 'spring', signal: 'WARNING', text: 'The spring is loaded.' },
            ],
            groups: [makeGroup('g', 2)],
            holds: [{ id: 'h', ask: 'Does it sit flush?', fail: stay }],
          },
          { id: 'two' },
        ]),
      ),
    turns: [
      ['repeat', 'caution', null],
      ['done', 'caution step group', 'heard'],
      ['stop', 'stopped no-more-stop-signs', 'heard'],
      ['repeat', 'no-more-stop-signs', null],
      ['yes', 'no-more-stop-signs', null],
      ['carry-on', 'resumed caution step group', null],
      [done(2), 'hold', 'fastener-counted'],
      ['no', 'hold-failed branch caution step hold', 'caution'],
      ['yes', 'hold-passed step', 'step-complete'],
    ],
  },
  {
    name: 'an early end, taken back, then the close-out',
    job: () => rig(makePlan([{ id: 'one' }, { id: 'two' }])),
    turns: [
      ['finish', 'confirm-finish', null],
      ['repeat', 'confirm-finish', null],
      ['yes', 'closing-begins matter', null],
      ['undo', 'undone step', null],
      ['finish', 'confirm-finish', null],
      ['yes', 'closing-begins matter', null],
      ['repeat', 'matter', null],
      ['note', 'noted', 'heard'],
      ['do-it-now', 'step', null],
      ['done', 'closing-begins matter', 'step-complete'],
      ['accept', 'reason-asked', null],
      ['no', 'dropped matter', null],
      ['accept', 'reason-asked', null],
      ['reason', 'matter-accepted sign-asked', 'heard'],
      ['undo', 'undone matter', null],
    ],
  },
  {
    name: 'a signature by somebody whom nobody named',
    job: () => rig(makePlan([{ id: 'one' }]), [], null),
    turns: [
      ['done', 'closing-begins sign-asked', 'step-complete'],
      ['repeat', 'sign-asked', null],
      ['yes', 'sign-asked', null],
      [{ type: 'sign', name: ' Robin ' }, 'confirm-sign', null],
      ['repeat', 'confirm-sign', null],
      ['no', 'dropped sign-asked', null],
      [{ type: 'sign', name: 'Robin' }, 'confirm-sign', null],
      ['yes', 'signed closed', 'step-complete'],
      ['repeat', 'closed', null],
    ],
  },
  {
    name: 'two timers beside the work, each told once, and both waited for at the end',
    job: () =>
      rig(
        makePlan([{ id: 'one', wait: wait('first', false) }, { id: 'two', wait: wait('second', false) }, { id: 'three' }, { id: 'four' }]),
      ),
    turns: [
      ['done', 'wait-started step', 'step-complete'],
      ['done', 'wait-started step', 'step-complete'],
      ['done', 'step', 'step-complete'],
      ['done', 'closing-begins matter', 'step-complete'],
      ['do-it-now', 'wait-running', null],
      [599, '', 'silent'],
      [1, 'wait-over wait-over sign-asked', 'timer'],
      ['yes', 'signed closed', 'step-complete'],
    ],
  },
];

describe('what is heard in answer, and nothing else', () => {
  it.each(conversations)('$name', async ({ job, turns }) => {
    expect(await went(await job(), turns)).toEqual(turns);
  });
});

describe('a timer', () => {
  const plan = () => makePlan([{ id: 'cool', wait: wait('cooling', false) }, { id: 'seal', wait: wait('skin', true) }, { id: 'next' }]);

  it('of a step done anew runs its whole time: the one that ran for the first go is over with it', async () => {
    const job = await rig(plan());
    await job.say('done');
    await job.advance(400);
    await job.say('back', 'do-it-now', 'yes');
    expect(job.dialogue().job.work.timers).toEqual([]);
    await job.say('done');
    await job.advance(200);
    expect(job.dialogue().job.work.timers).toMatchObject([{ step: 'cool' }]);
    await job.advance(400);
    expect(job.said.at(-1)).toEqual({ kind: 'wait-over', name: 'cooling' });
  });

  it('of a side procedure worked anew runs its whole time', async () => {
    const job = await rig(
      makePlan([
        { id: 'turn', see: 'clean', holds: [{ id: 'free', ask: 'Free?', fail: { kind: 'see', side: 'clean', advice: null } }] },
        { id: 'soak', side: 'clean', wait: wait('soaking', false) },
      ]),
    );
    await job.say('done');
    await job.advance(400);
    await job.say('no', 'done');
    await job.advance(200);
    expect(job.dialogue().job.work.timers).toHaveLength(1);
    await job.advance(400);
    expect(job.dialogue().job.work.timers).toEqual([]);
  });

  it('beside the work is not said to block while another one does', async () => {
    const job = await rig(plan());
    await job.say('done', 'done', 'back', 'do-it-now', 'yes', 'done');
    expect(job.state()).toBe('waiting');
    const started = job.said.filter((line) => line.kind === 'wait-started').map(({ name, blocks }) => [name, blocks]);
    expect(started).toEqual([
      ['cooling', false],
      ['skin', true],
      ['cooling', false],
    ]);
    // Asked again, the one that blocks is told, not the one beside it.
    await job.advance(100);
    await job.say('repeat', 'done');
    expect(job.said.slice(-2)).toMatchObject([
      { kind: 'wait-running', name: 'skin', seconds: 500 },
      { kind: 'confirm-cut-wait', name: 'skin', seconds: 500 },
    ]);
    await job.say('yes');
    expect(job.dialogue().job.work.timers.map(({ name }) => name)).toEqual(['cooling']);
  });

  it('that ends is one among others', async () => {
    const job = await rig(
      makePlan([
        { id: 'one', wait: wait('first', false) },
        { id: 'two', wait: { ...wait('second', false), seconds: 60 } },
        { id: 'three' },
      ]),
    );
    await job.say('done', 'done');
    await job.advance(60);
    const { work } = job.dialogue().job;
    expect(work.timers.map(({ name }) => name)).toEqual(['first']);
    expect([...work.steps].map((step) => step.wait)).toEqual(['running', 'over', 'not begun']);
  });
});
