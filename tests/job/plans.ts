import type { Plan, PlannedGroup, PlannedStep } from '../../src/procedure/plan-types.ts';

const tool = { kind: 'hex', size: '13', sizeUnit: 'mm', square: '1/2', reach: [] } as const;

/** A group of fasteners on a circle, tightened in the written order in as many passes as shares are given. */
export function makeGroup(id: string, count: number, shares: readonly number[] = [100]): PlannedGroup {
  const order = Array.from({ length: count }, (_, index) => index);
  return {
    id,
    name: `${id} bolts`,
    thread: 'M8',
    propertyClass: '8.8',
    condition: null,
    singleUse: false,
    positions: order.map((index) => ({ name: `bolt ${index + 1}`, clock: null, x: 0.5, y: 0.5 })),
    tool,
    torque: { value: 20, unit: 'N·m' },
    band: null,
    angle: null,
    pattern: 'listed',
    passes: shares.map((share) => ({
      kind: 'torque',
      torque: { value: (20 * share) / 100, unit: 'N·m' },
      angle: null,
      share,
      order,
      setting: null,
    })),
  };
}

export type StepSketch = { readonly id: string } & Partial<Omit<PlannedStep, 'index' | 'number' | 'id'>>;

/** A plan from step sketches: the main line first, then the side procedures' steps (those with `side`). */
export function makePlan(sketches: readonly StepSketch[], rest: Partial<Plan> = {}): Plan {
  const steps = sketches.map((sketch, index): PlannedStep => ({
    stage: { id: 'stage', title: 'The stage', number: 1 },
    side: null,
    say: `Do ${sketch.id}.`,
    why: null,
    where: null,
    picture: null,
    cautions: [],
    groups: [],
    measures: [],
    holds: [],
    stopSigns: [],
    wait: null,
    optional: null,
    helper: null,
    see: null,
    tools: [],
    ...sketch,
    index,
    number: String(index + 1),
  }));
  const sideIds = [...new Set(steps.flatMap((step) => step.side ?? []))];
  return {
    format: 1,
    procedure: { id: 'p', title: 'A job', vehicle: 'invented', revision: 1, language: 'en', source: 'invented', author: 'nobody' },
    build: { id: 'K', name: 'build K' },
    spokenUnit: null,
    befores: [],
    cautions: [],
    kit: [],
    steps,
    sides: sideIds.map((id) => ({ id, title: `Side ${id}`, stepIds: steps.filter((step) => step.side === id).map((step) => step.id) })),
    followUps: [],
    ...rest,
  };
}

/** Everything that a procedure can ask for, in few steps. */
export const fullPlan = (): Plan =>
  makePlan(
    [
      { id: 'offer-up' },
      {
        id: 'draw',
        cautions: [{ id: 'fingers', signal: 'WARNING', text: 'Keep fingers out of the joint.' }],
        groups: [makeGroup('front', 4, [30, 100])],
        stopSigns: [
          { id: 'binds', ask: 'Does it bind before it is flush?', branch: { kind: 'see', side: 'clean', advice: 'Back it off.' } },
          { id: 'clicks-early', ask: 'Did the wrench click at once?', branch: { kind: 'stay', advice: 'Check the setting.' } },
        ],
      },
      {
        id: 'backlash',
        measures: [
          { id: 'lash', name: 'backlash', unit: 'mm', min: 0.05, max: 0.2, outside: { kind: 'go', step: 'draw', advice: 'Set it again.' } },
        ],
      },
      { id: 'seal', wait: { id: 'skin', name: 'sealant skin', seconds: 600, blocks: true } },
      { id: 'awkward', optional: 'Not reachable on every vehicle.', groups: [makeGroup('upper', 1), makeGroup('lower', 2)] },
      {
        id: 'turn',
        see: 'clean',
        holds: [{ id: 'free', ask: 'Does it turn freely?', fail: { kind: 'see', side: 'clean', advice: null } }],
      },
      { id: 'cool', wait: { id: 'cooling', name: 'cooling', seconds: 60, blocks: false } },
      { id: 'lower' },
      { id: 'wipe', side: 'clean' },
      { id: 'look', side: 'clean', holds: [{ id: 'clean', ask: 'Is it clean?', fail: { kind: 'stay', advice: 'Wipe again.' } }] },
    ],
    {
      cautions: [{ id: 'stands', signal: 'DANGER', text: 'Never work under a load on a jack alone.' }],
      befores: [
        { id: 'battery', kind: 'condition', check: 'The battery is disconnected.' },
        { id: 'mark', kind: 'mark', check: 'The flange is marked.' },
      ],
      kit: [
        { id: 'socket-13', kind: 'socket', name: '13 mm socket', count: 1, steps: ['draw'], singleUse: false, owned: null, instead: null },
        { id: 'gasket', kind: 'part', name: 'gasket', count: 1, steps: ['seal'], singleUse: true, owned: null, instead: null },
      ],
      followUps: [{ id: 'again', say: 'Check the torque again.', after: { kind: 'distance', value: 50, unit: 'km' } }],
    },
  );
