import type { Happening, JobEvent, Moment } from '../../src/job/events.ts';
import type { Plan, PlannedGroup, PlannedStep } from '../../src/procedure/plan-types.ts';

/** Everything here is invented: a bench exercise on a Brindle B4. */

const stay = { kind: 'stay', advice: 'Stop and ask the trainer.' } as const;

const flangeBolts: PlannedGroup = {
  id: 'flange-bolts',
  name: 'Flange bolts, "upper" & <lower>',
  thread: 'M10x1.5',
  propertyClass: '8.8',
  condition: 'dry',
  singleUse: false,
  positions: ['one', 'two', 'three', 'four'].map((name, index) => ({ name, clock: 3 * (index + 1), x: 0.5, y: index / 4 })),
  tool: { kind: 'hex', size: '16', sizeUnit: 'mm', square: '1/2', reach: [{ kind: 'extension', length: 150 }] },
  torque: { value: 47, unit: 'N·m' },
  band: { minus: 2, plus: 2 },
  angle: null,
  pattern: 'cross',
  passes: [
    { kind: 'seat', torque: null, angle: null, share: null, order: [0, 2, 1, 3], setting: null },
    {
      kind: 'torque',
      torque: { value: 47, unit: 'N·m' },
      angle: null,
      share: 100,
      order: [0, 2, 1, 3],
      setting: { fits: true, wrench: 'Long 40-200', set: { value: 47, unit: 'N·m' }, corrected: false, warnings: [] },
    },
  ],
};

function step(id: string, index: number, say: string, more: Partial<PlannedStep> = {}): PlannedStep {
  return {
    id,
    index,
    number: String(index + 1),
    stage: { id: 'bench', title: 'At the bench', number: 1 },
    side: null,
    say,
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
    ...more,
  };
}

export const samplePlan: Plan = {
  format: 1,
  procedure: {
    id: 'flange-exercise',
    title: 'Eight-bolt flange; bench exercise',
    vehicle: 'Brindle B4',
    revision: 3,
    language: 'en',
    source: 'Invented for the training workshop.',
    author: 'A. Example',
  },
  build: { id: 'K', name: 'Build K' },
  spokenUnit: null,
  befores: [{ id: 'clamped', kind: 'support', check: 'The flange is clamped to the bench.' }],
  cautions: [{ id: 'pinch', signal: 'CAUTION', text: 'Fingers can be pinched between the faces.' }],
  kit: [
    { id: 'socket-16', kind: 'socket', name: '16 mm socket', count: 1, steps: ['bolts'], singleUse: false, owned: null, instead: null },
  ],
  steps: [
    step('place', 0, 'Place the cover on the flange.'),
    step('bolts', 1, 'Tighten the four flange bolts.', { groups: [flangeBolts] }),
    step('gap', 2, 'Measure the gap at the edge.', {
      measures: [{ id: 'gap-width', name: 'Gap', unit: 'mm', min: 0.1, max: 0.3, outside: stay }],
      holds: [{ id: 'flush', ask: 'Is the cover flush all round?', fail: stay }],
    }),
  ],
  sides: [],
  followUps: [
    { id: 'again', say: 'Check the bolts again.', after: { kind: 'time', hours: 24 } },
    {
      id: 'after-distance',
      say: 'Check the bolts again after running in, gently; no haste.',
      after: { kind: 'distance', value: 50, unit: 'km' },
    },
  ],
};

/** Twelve minutes past eight on a spring morning in a zone two hours ahead. */
export const start = Date.UTC(2031, 3, 14, 6, 12, 0);

export function at(seconds: number, offset = 120): Moment {
  return { wall: start + seconds * 1000, offset, mono: 500 + seconds * 1000 };
}

export function happening(event: JobEvent, seconds: number, step: string | null = null): Happening {
  return { moment: at(seconds), step, event };
}

export const opened: Happening = happening(
  {
    type: 'opened',
    procedure: 'flange-exercise',
    title: 'Eight-bolt flange; bench exercise',
    revision: 3,
    build: 'K',
    person: 'Wren Ashdown',
    group: 'spring',
  },
  0,
);

function tightened(pass: number, position: number, seconds: number): Happening {
  return happening({ type: 'fastener-tightened', step: 'bolts', group: 'flange-bolts', pass, position }, seconds, 'bolts');
}

/** A whole short job, from the first caution to the signature. */
export const sampleHappenings: readonly Happening[] = [
  opened,
  happening({ type: 'caution-acknowledged', caution: 'pinch' }, 4),
  happening({ type: 'before-answered', before: 'clamped', isTrue: true }, 7),
  happening({ type: 'kit-waved-through' }, 9),
  happening({ type: 'step-begun', step: 'place', visit: 1 }, 9, 'place'),
  happening({ type: 'step-carried-out', step: 'place' }, 20, 'place'),
  happening({ type: 'step-finished', step: 'place', how: 'done' }, 20, 'place'),
  happening({ type: 'step-begun', step: 'bolts', visit: 1 }, 20, 'bolts'),
  tightened(0, 0, 30),
  tightened(0, 2, 36),
  tightened(0, 1, 43),
  happening({ type: 'asked', intent: 'torque' }, 46, 'bolts'),
  tightened(0, 3, 50),
  happening({ type: 'misheard', text: 'the "radio", loud\r\nand <clear>' }, 55, 'bolts'),
  tightened(1, 0, 60),
  tightened(1, 2, 70),
  happening({ type: 'paused' }, 72, 'bolts'),
  happening({ type: 'resumed' }, 132, 'bolts'),
  tightened(1, 1, 140),
  happening(
    { type: 'noted', text: '=SUM(A1) was chalked, on the "cover"; why?\nÄ 🔧', question: true, recording: null, media: null },
    145,
    'bolts',
  ),
  happening({ type: 'fastener-left-out', step: 'bolts', group: 'flange-bolts', position: 3, reason: 'no-part', text: null }, 150, 'bolts'),
  happening({ type: 'step-finished', step: 'bolts', how: 'done' }, 150, 'bolts'),
  happening({ type: 'step-begun', step: 'gap', visit: 1 }, 150, 'gap'),
  happening({ type: 'measured', step: 'gap', measure: 'gap-width', value: 0.35, unit: 'mm', within: false }, 170, 'gap'),
  happening({ type: 'measured', step: 'gap', measure: 'gap-width', value: 0.2, unit: 'mm', within: true }, 190, 'gap'),
  happening({ type: 'hold-answered', step: 'gap', hold: 'flush', passed: true }, 200, 'gap'),
  happening({ type: 'step-finished', step: 'gap', how: 'done' }, 200, 'gap'),
  happening({ type: 'finish-asked' }, 205),
  happening({ type: 'matter-accepted', matter: 'fasteners:bolts:flange-bolts:2.2.2.1', reason: 'no-part', text: null }, 210),
  happening({ type: 'matter-accepted', matter: 'note:19', reason: 'other', text: 'asked & answered' }, 215),
  happening({ type: 'signed', name: 'Wren Ashdown' }, 220),
];
