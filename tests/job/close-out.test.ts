import { describe, expect, it } from 'vitest';
import { matterAtHand } from '../../src/job/dialogue.ts';
import { foldJob } from '../../src/job/fold.ts';
import { openMatters, unansweredMatters } from '../../src/job/matters.ts';
import type { Intent } from '../../src/phrasing/intents.ts';
import type { Matter } from '../../src/phrasing/lines.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import type { StepSketch } from './plans.ts';
import { makeGroup, makePlan } from './plans.ts';
import type { Rig } from './rig.ts';
import { done, rig } from './rig.ts';

const stay = { kind: 'stay', advice: 'Again.' } as const;
const bolts: StepSketch = { id: 'bolts', groups: [makeGroup('cover', 2, [50, 100])] };
const gap: StepSketch = { id: 'gap', measures: [{ id: 'gap', name: 'gap', unit: 'mm', min: 0.05, max: 0.2, outside: stay }] };
const turn: StepSketch = { id: 'turn', holds: [{ id: 'free', ask: 'Does it turn freely?', fail: stay }] };
const skipStep: Intent = { type: 'skip', scope: 'step', reason: 'no-tool' };
const tooWide: Intent = { type: 'number', value: 0.5, unit: 'mm' };

interface Row {
  readonly name: string;
  readonly plan: Plan;
  /** What is said until the close-out begins. */
  readonly way: readonly (Intent | Intent['type'])[];
  readonly wanted: (matter: Matter) => boolean;
  /** The work, once "do it now" has led to it; `settles` false where a fact stays to be owned up to. */
  readonly work: (job: Rig) => Promise<void>;
  readonly settles: boolean;
}

const rows: readonly Row[] = [
  {
    name: 'a mark that was not checked',
    plan: makePlan([{ id: 'one' }], { befores: [{ id: 'mark', kind: 'mark', check: 'The flange is marked.' }] }),
    way: ['skip', 'reason', 'yes', 'done'],
    wanted: ({ kind }) => kind === 'before',
    work: async (job) => {
      expect(job.state()).toBe('confirming');
      expect(job.heard()).toMatchObject([{ kind: 'before', before: { id: 'mark' }, number: 1, of: 1 }]);
      await job.say('yes');
    },
    settles: true,
  },
  {
    name: 'a part missing from the kit',
    plan: makePlan([{ id: 'one' }], {
      kit: [{ id: 'gasket', kind: 'part', name: 'gasket', count: 1, steps: ['one'], singleUse: true, owned: null, instead: null }],
    }),
    way: ['missing', 'done'],
    wanted: ({ kind }) => kind === 'kit',
    work: () => Promise.resolve(),
    settles: true,
  },
  {
    name: 'fasteners that nobody touched',
    plan: makePlan([bolts]),
    way: [skipStep, 'yes'],
    wanted: (matter) => matter.kind === 'fasteners' && matter.untouched === 2,
    work: (job) => job.say(done(2), done(2)),
    settles: true,
  },
  {
    name: 'fasteners that are not in their last pass',
    plan: makePlan([bolts]),
    way: [done(2), done(1), skipStep, 'yes'],
    wanted: (matter) => matter.kind === 'fasteners' && matter.untouched === 0 && matter.unfinished === 1,
    work: async (job) => {
      expect(job.state()).toBe('fastening');
      await job.say('done');
    },
    settles: true,
  },
  {
    name: 'one fastener that was left out',
    plan: makePlan([bolts]),
    way: [{ type: 'skip', scope: 'this', reason: 'damaged' }, 'yes', done(1), done(1)],
    wanted: (matter) => matter.kind === 'fasteners' && matter.untouched === 1 && matter.reason === 'damaged',
    work: (job) => job.say('done', 'done'),
    settles: true,
  },
  {
    name: 'a skipped step',
    plan: makePlan([{ id: 'one' }]),
    way: [skipStep, 'yes'],
    wanted: (matter) => matter.kind === 'step' && matter.how === 'skipped' && matter.reason === 'no-tool',
    work: (job) => job.say('done'),
    settles: true,
  },
  {
    name: 'a step that is still open',
    plan: makePlan([{ id: 'one' }]),
    way: ['finish', 'yes'],
    wanted: (matter) => matter.kind === 'step' && matter.how === 'open',
    work: (job) => job.say('done'),
    settles: true,
  },
  {
    name: 'a step that a failed check led past',
    plan: makePlan([
      { ...turn, holds: [{ id: 'free', ask: 'Free?', fail: { kind: 'go', step: 'last', advice: null } }] },
      { id: 'between' },
      { id: 'last' },
    ]),
    way: ['no', 'done'],
    wanted: (matter) => matter.kind === 'step' && matter.how === 'passed-over' && matter.step.id === 'between',
    work: (job) => job.say('done'),
    settles: true,
  },
  {
    name: 'a hold point that was never passed',
    plan: makePlan([turn]),
    way: [skipStep, 'yes'],
    wanted: (matter) => matter.kind === 'hold' && matter.how === 'never passed',
    work: (job) => job.say('yes'),
    settles: true,
  },
  {
    name: 'a hold point that was passed late',
    plan: makePlan([turn]),
    way: ['no', 'yes'],
    wanted: (matter) => matter.kind === 'hold' && matter.how === 'passed late',
    work: (job) => job.say('yes'),
    // Passing once more does not unmake the failure: somebody answers for it.
    settles: false,
  },
  {
    name: 'a measure outside its limits',
    plan: makePlan([gap]),
    way: [tooWide, 'yes', skipStep, 'yes'],
    wanted: (matter) => matter.kind === 'measure' && matter.value === 0.5,
    work: async (job) => {
      expect(job.state()).toBe('measuring');
      await job.say('number', 'yes');
    },
    settles: true,
  },
  {
    name: 'a measure that was not taken',
    plan: makePlan([gap]),
    way: [skipStep, 'yes'],
    wanted: (matter) => matter.kind === 'measure' && matter.value === null,
    work: (job) => job.say('number', 'yes'),
    settles: true,
  },
  {
    name: 'a timer that is running',
    plan: makePlan([{ id: 'cool', wait: { id: 'cooling', name: 'cooling', seconds: 600, blocks: false } }]),
    way: ['done'],
    wanted: ({ kind }) => kind === 'timer',
    work: async (job) => {
      expect(job.heard().at(-1)).toMatchObject({ kind: 'wait-running', seconds: 600 });
      await job.advance(600);
    },
    settles: true,
  },
  {
    name: 'a note with a question',
    plan: makePlan([{ id: 'one' }]),
    way: [{ type: 'note', text: 'Is the seal the right one?' }, 'done'],
    wanted: ({ kind }) => kind === 'note',
    // What is done about a question is to answer it, in words.
    work: async (job) => {
      expect(job.state()).toBe('reasoning');
      await job.say({ type: 'reason', reason: 'other', text: 'it is, by its number' });
    },
    settles: true,
  },
];

const atHand = (job: Rig) => matterAtHand(job.dialogue().plan, job.dialogue().job)?.matter;

/** To the close-out, and through it until the wanted matter is asked about. */
async function closing({ plan, way, wanted }: Row): Promise<{ readonly job: Rig; readonly matter: Matter }> {
  const job = await rig(plan);
  await job.say(...way);
  for (let turns = 0; turns < 10; turns += 1) {
    expect(job.state()).toBe('closing');
    const matter = atHand(job);
    if (matter !== undefined && wanted(matter)) {
      expect(job.heard().at(-1)).toMatchObject({ kind: 'matter', matter: { id: matter.id } });
      return { job, matter };
    }
    await job.say('accept', 'reason');
  }
  throw new Error('the matter was never asked about');
}

const isUnanswered = (job: Rig, { id }: Matter): boolean => {
  const { plan, job: state } = job.dialogue();
  return unansweredMatters(plan, state.work).some((one) => one.id === id);
};

it('has a row for every kind of matter', () => {
  const kinds: Readonly<Record<Matter['kind'], true>> = {
    before: true,
    kit: true,
    fasteners: true,
    step: true,
    hold: true,
    measure: true,
    timer: true,
    note: true,
  };
  const isIn = async (row: Row): Promise<Matter['kind']> => (await closing(row)).matter.kind;
  return expect(Promise.all(rows.map(isIn)).then((found) => [...new Set(found)].sort())).resolves.toEqual(Object.keys(kinds).sort());
});

describe.each(rows)('$name', (row) => {
  it('can be done now', async () => {
    const { job, matter } = await closing(row);
    await job.say('do-it-now');
    await row.work(job);
    expect(['closing', 'signing']).toContain(job.state());
    expect(isUnanswered(job, matter)).toBe(!row.settles);
    expect(job.dialogue().job).toEqual(foldJob(row.plan, job.events));
  });

  it('can be accepted, with a reason, and stays on the record', async () => {
    const { job, matter } = await closing(row);
    await job.say('accept');
    expect(job.state()).toBe('reasoning');
    expect(isUnanswered(job, matter)).toBe(true);
    await job.say({ type: 'reason', reason: 'told-to', text: 'by the trainer' });
    expect(job.events.at(-1)?.event).toEqual({ type: 'matter-accepted', matter: matter.id, reason: 'told-to', text: 'by the trainer' });
    const { plan, job: state } = job.dialogue();
    expect(isUnanswered(job, matter)).toBe(false);
    expect(state.work.accepted[matter.id]).toEqual({ reason: 'told-to', text: 'by the trainer' });
    expect(openMatters(plan, state.work).some(({ id }) => id === matter.id)).toBe(true);
    while (job.state() === 'closing') await job.say('accept', 'reason');
    await job.say('yes');
    expect(job.state()).toBe('closed');
    expect(job.heard()).toContainEqual({ kind: 'signed', name: 'Alex', exceptions: Object.keys(state.work.accepted).length });
  });

  it('can leave the job open, and is asked about again when the job is taken up', async () => {
    const { job, matter } = await closing(row);
    await job.say('leave-open');
    expect(job.state()).toBe('paused');
    expect(job.dialogue().job).toMatchObject({ signed: null, halt: { kind: 'left open' } });
    // On another day, in another run of the app; what was accepted before stays accepted.
    const later = await rig(row.plan, job.events);
    await later.say('carry-on');
    expect(later.state()).toBe('closing');
    expect(atHand(later)?.id).toBe(matter.id);
  });

  it('cannot be signed over, neither by word nor by an event that says so', async () => {
    const { job } = await closing(row);
    await job.say('sign');
    expect(job.events.at(-1)?.event).toEqual({ type: 'refused', intent: 'sign' });
    const [last] = job.events.slice(-1);
    const forged = { ...last!, seq: job.events.length, event: { type: 'signed', name: 'Alex' } } as const;
    expect(foldJob(row.plan, [...job.events, forged]).signed).toBeNull();
  });
});

it('says how much is open of each kind before it reads out the first', async () => {
  const job = await rig(makePlan([bolts, { id: 'wipe' }, turn, { id: 'last' }]));
  await job.say(done(2), skipStep, 'yes', skipStep, 'yes', 'no', 'yes', { type: 'note', text: 'is it right?' }, skipStep, 'yes');
  expect(job.heard().slice(-2)).toMatchObject([
    {
      kind: 'closing-begins',
      open: [
        { kind: 'fasteners', count: 1 },
        { kind: 'step', count: 2 },
        { kind: 'hold', count: 1 },
        { kind: 'note', count: 1 },
      ],
    },
    { kind: 'matter', number: 1, of: 5 },
  ]);
});

it("reads a reason out in the person's own words", async () => {
  const job = await rig(makePlan([{ id: 'one' }]));
  await job.say(
    { type: 'skip', scope: 'step', reason: null },
    { type: 'reason', reason: 'other', text: 'the sealant has not come' },
    'yes',
  );
  expect(job.said.at(-1)).toMatchObject({ kind: 'matter', matter: { kind: 'step', reason: 'other', said: 'the sealant has not come' } });
});

it('asks once about a step that is open, not about each measure in it too, and about nothing in what is done', async () => {
  const measured: StepSketch = { ...gap, id: 'measured', measures: [{ ...gap.measures![0]!, id: 'first' }] };
  const job = await rig(makePlan([measured, gap, { ...turn, id: 'wipe', side: 'clean' }]));
  await job.say('number', 'yes', 'finish', 'yes');
  const { plan, job: state } = job.dialogue();
  expect(openMatters(plan, state.work)).toMatchObject([{ kind: 'step', how: 'open', step: { id: 'gap' } }]);
});

it('asks about no tool that is missing and no condition that is true, and about every side procedure that was called for', async () => {
  const item = (id: string, kind: 'socket' | 'support' | 'part') =>
    ({ id, kind, name: id, count: 1, steps: ['turn'], singleUse: false, owned: null, instead: null }) as const;
  const plan = makePlan(
    [
      { ...turn, holds: [{ id: 'free', ask: 'Free?', fail: { kind: 'see', side: 'clean', advice: null } }] },
      { id: 'wipe', side: 'clean' },
      { id: 'never', side: 'other' },
    ],
    {
      befores: [
        { id: 'chocked', kind: 'condition', check: 'It is chocked.' },
        { id: 'cold', kind: 'condition', check: 'It is cold.' },
      ],
      kit: [item('socket', 'socket'), item('stands', 'support'), item('gasket', 'part'), item('seal', 'part')],
    },
  );
  const job = await rig(plan);
  await job.say('yes', { type: 'skip', scope: 'this', reason: 'do-later' }, 'yes', 'missing', 'missing', 'done', 'missing');
  await job.say('no', { type: 'skip', scope: 'step', reason: 'no-tool' }, 'yes', 'yes');
  expect(openMatters(plan, job.dialogue().job.work).map(({ id }) => id)).toEqual([
    'before:cold',
    'kit:stands',
    'kit:seal',
    'hold:turn:free:late:1',
    'step:wipe:skipped',
  ]);
});

it('says of each matter which it is of how many, those that were answered included', async () => {
  const job = await rig(makePlan([{ id: 'one' }, { id: 'two' }, { id: 'three' }]));
  await job.say('finish', 'yes');
  expect(job.heard().at(-1)).toMatchObject({ kind: 'matter', number: 1, of: 3 });
  await job.say('accept', 'reason');
  expect(job.heard().at(-1)).toMatchObject({ kind: 'matter', number: 2, of: 3, matter: { step: { id: 'two' } } });
});
