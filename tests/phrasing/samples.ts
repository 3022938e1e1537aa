import type { Line, LineKind, Matter } from '../../src/phrasing/lines.ts';
import { failureCodes } from '../../src/phrasing/lines.ts';
import { reasons } from '../../src/phrasing/intents.ts';
import type { PlannedGroup, PlannedMeasure, PlannedPass, PlannedStep } from '../../src/procedure/plan-types.ts';
import type { Degrees } from '../../src/torque/quantities.ts';

export function pass(parts: Partial<PlannedPass> = {}): PlannedPass {
  return { kind: 'torque', torque: { value: 90, unit: 'N·m' }, angle: null, share: null, order: [0, 1, 2], setting: null, ...parts };
}

/** Three bolts in three passes: snug, 60 %, 100 %. */
export function group(parts: Partial<PlannedGroup> = {}): PlannedGroup {
  return {
    id: 'carrier-bolts',
    name: 'carrier bolt',
    thread: 'M12x1.75',
    propertyClass: '10.9',
    condition: 'threads oiled',
    singleUse: false,
    positions: [
      { name: 'number 1', clock: 12, x: 0.5, y: 0 },
      { name: 'number 2', clock: 4, x: 0.9, y: 0.8 },
      { name: 'front left', clock: null, x: 0.1, y: 0.8 },
    ],
    tool: {
      kind: 'hex',
      size: '17',
      sizeUnit: 'mm',
      square: '1/2',
      reach: [{ kind: 'extension', length: 150 }, { kind: 'universal joint' }],
    },
    torque: { value: 90, unit: 'N·m' },
    band: { minus: 5, plus: 5 },
    angle: null,
    pattern: 'cross',
    passes: [pass({ kind: 'seat', torque: null }), pass({ torque: { value: 54, unit: 'N·m' }, share: 60 }), pass({ share: 100 })],
    ...parts,
  };
}

export function measure(parts: Partial<PlannedMeasure> = {}): PlannedMeasure {
  return { id: 'gap', name: 'flange gap', unit: 'mm', min: 1.8, max: 2.2, outside: { kind: 'stay', advice: 'Start again.' }, ...parts };
}

export function step(parts: Partial<PlannedStep> = {}): PlannedStep {
  return {
    id: 'tighten',
    index: 11,
    number: '13',
    stage: { id: 'mount', title: 'Mount the unit', number: 2 },
    side: null,
    say: 'Tighten the eight carrier bolts crosswise.',
    why: 'Crosswise passes close the gap evenly.',
    where: 'Under the crossmember.',
    picture: null,
    cautions: [],
    groups: [group()],
    measures: [measure()],
    holds: [],
    stopSigns: [],
    wait: null,
    optional: 'Only on build K.',
    helper: 'Steadies the housing.',
    see: null,
    tools: ['feeler gauges'],
    ...parts,
  };
}

const place = { group: group(), pass: 1, position: 1, left: 2 };
const hold = { id: 'turns', ask: 'Does it turn freely?', fail: { kind: 'stay', advice: 'Loosen it.' } } as const;
const before = { id: 'stands', kind: 'support', check: 'The van stands on four stands.' } as const;
const item = {
  id: 'socket',
  kind: 'socket',
  name: '17 mm socket, 1/2 drive',
  count: 2,
  steps: [],
  singleUse: false,
  owned: false,
  instead: 'the 11/16 in socket',
} as const;
const caution = { id: 'c', signal: 'WARNING', text: 'Parts above 60 °C burn.' } as const;

const matters: readonly Matter[] = [
  { id: 'a', kind: 'fasteners', step: step(), group: group(), untouched: 2, unfinished: 13, reason: 'no-tool', said: null },
  { id: 'b', kind: 'step', step: step(), how: 'skipped', reason: 'do-later', said: 'the sealant has not come' },
  { id: 'c', kind: 'step', step: step(), how: 'open', reason: null, said: null },
  { id: 'd', kind: 'step', step: step(), how: 'passed-over', reason: null, said: null },
  { id: 'e', kind: 'hold', step: step(), hold, how: 'never passed', failures: 0 },
  { id: 'f', kind: 'hold', step: step(), hold, how: 'passed late', failures: 2 },
  { id: 'g', kind: 'measure', step: step(), measure: measure(), value: 2.5 },
  { id: 'h', kind: 'measure', step: step(), measure: measure(), value: null },
  { id: 'i', kind: 'timer', name: 'curing', seconds: 90 },
  { id: 'j', kind: 'note', step: step(), text: 'Is the seal right?' },
  { id: 'k', kind: 'note', step: null, text: 'Is the seal right?' },
  { id: 'l', kind: 'before', before },
  { id: 'm', kind: 'kit', item },
];

type Samples = { readonly [Kind in LineKind]: readonly Extract<Line, { kind: Kind }>[] };

const samples: Samples = {
  welcome: [{ kind: 'welcome', title: 'Refit the axle', build: 'short wheelbase', source: 'Invented for training.', steps: 41 }],
  'welcome-back': [{ kind: 'welcome-back', title: 'Refit the axle' }],
  caution: [
    { kind: 'caution', caution, acknowledge: true },
    { kind: 'caution', caution: { ...caution, signal: 'NOTICE' }, acknowledge: false },
  ],
  before: [{ kind: 'before', before, number: 1, of: 6 }],
  'before-not-true': [{ kind: 'before-not-true', before }],
  'wrench-remarks': [
    {
      kind: 'wrench-remarks',
      remarks: [
        {
          kind: 'mind',
          wrench: 'Long 40-200',
          note: { code: 'calibration-overdue', calibrated: '2024-03-01', due: '2025-03-01' },
          steps: ['4', '7'],
        },
      ],
    },
    {
      kind: 'wrench-remarks',
      remarks: [
        { kind: 'none-fits', torque: { value: 9, unit: 'N·m' }, fastener: 'cover bolt', reasons: [{ code: 'no-wrench' }], steps: ['3'] },
        {
          kind: 'none-fits',
          torque: { value: 300, unit: 'N·m' },
          fastener: 'hub nut',
          reasons: [{ code: 'over-range', wrench: 'Long', needed: { value: 300, unit: 'N·m' }, max: { value: 200, unit: 'N·m' } }],
          steps: ['3'],
        },
        { kind: 'mind', wrench: 'Short', note: { code: 'suspect' }, steps: ['1'] },
        { kind: 'mind', wrench: 'Short', note: { code: 'calibration-unknown' }, steps: ['1'] },
      ],
    },
  ],
  'kit-begins': [{ kind: 'kit-begins', items: 14 }],
  'kit-item': [
    { kind: 'kit-item', item, number: 10, of: 14 },
    { kind: 'kit-item', item: { ...item, count: 1, owned: null, instead: null }, number: 14, of: 14 },
    { kind: 'kit-item', item: { ...item, instead: null }, number: 3, of: 14 },
  ],
  'kit-missing': [{ kind: 'kit-missing', item }],
  'confirm-kit-waved': [{ kind: 'confirm-kit-waved', left: 13 }],
  'confirm-leave-before': [{ kind: 'confirm-leave-before', before, reason: 'told-to', text: null }],
  'kit-done': [
    { kind: 'kit-done', missing: 0 },
    { kind: 'kit-done', missing: 2 },
  ],
  step: [
    { kind: 'step', step: step(), mainSteps: 41 },
    { kind: 'step', step: step({ number: 'A3', helper: null, optional: null }), mainSteps: 41 },
  ],
  'step-done': [{ kind: 'step-done', step: step() }],
  'side-begins': [{ kind: 'side-begins', side: { id: 's', title: 'Renew the seal', stepIds: [] } }],
  'side-ends': [{ kind: 'side-ends', side: { id: 's', title: 'Renew the seal', stepIds: [] }, back: step() }],
  visiting: [{ kind: 'visiting', step: step() }],
  'visit-over': [{ kind: 'visit-over', step: step() }],
  'at-the-start': [{ kind: 'at-the-start' }],
  group: [
    { kind: 'group', place, unit: null },
    { kind: 'group', place: { ...place, pass: 0, group: group({ singleUse: true }) }, unit: 'lbf·ft' },
  ],
  pass: [{ kind: 'pass', place, unit: null }],
  'next-fastener': [{ kind: 'next-fastener', place }],
  'too-many': [{ kind: 'too-many', said: 5, left: 2 }],
  torque: [
    { kind: 'torque', group: group(), pass: null, unit: null },
    { kind: 'torque', group: group(), pass: 0, unit: null },
    { kind: 'torque', group: group(), pass: 1, unit: null },
    { kind: 'torque', group: group(), pass: 2, unit: 'lbf·ft' },
    { kind: 'torque', group: group({ torque: null, band: null, passes: [pass({ kind: 'seat', torque: null })] }), pass: 0, unit: null },
    {
      kind: 'torque',
      group: group({ angle: 90 as Degrees, passes: [pass(), pass({ kind: 'angle', torque: null, angle: 90 as Degrees })] }),
      pass: 1,
      unit: null,
    },
    { kind: 'torque', group: group({ passes: [pass({ kind: 'draw', torque: null }), pass({ kind: 'check' })] }), pass: 1, unit: null },
  ],
  socket: [{ kind: 'socket', group: group() }],
  'how-many': [{ kind: 'how-many', group: group() }],
  'how-many-left': [{ kind: 'how-many-left', place }],
  'which-next': [{ kind: 'which-next', place }],
  where: [
    { kind: 'where', step: step(), place },
    { kind: 'where', step: step({ where: null }), place: null },
  ],
  why: [
    { kind: 'why', step: step() },
    { kind: 'why', step: step({ why: null }) },
  ],
  tools: [
    { kind: 'tools', step: step() },
    { kind: 'tools', step: step({ groups: [], tools: [] }) },
  ],
  'which-step': [{ kind: 'which-step', step: step(), mainSteps: 41, stepsLeft: 29 }],
  'no-cautions': [{ kind: 'no-cautions' }],
  'no-fasteners-here': [{ kind: 'no-fasteners-here' }],
  'time-left': [
    { kind: 'time-left', timers: [] },
    { kind: 'time-left', timers: [{ name: 'curing', seconds: 150 }] },
  ],
  'no-timer-here': [{ kind: 'no-timer-here' }],
  hold: [{ kind: 'hold', hold }],
  'hold-passed': [{ kind: 'hold-passed' }],
  'hold-failed': [{ kind: 'hold-failed', hold }],
  measure: [
    { kind: 'measure', measure: measure() },
    { kind: 'measure', measure: measure({ min: null }) },
    { kind: 'measure', measure: measure({ max: null }) },
    { kind: 'measure', measure: measure({ min: null, max: null }) },
  ],
  'measure-read-back': [{ kind: 'measure-read-back', measure: measure(), value: 15, saidUnit: null }],
  'measure-wrong-unit': [{ kind: 'measure-wrong-unit', measure: measure(), saidUnit: 'in' }],
  'measure-within': [{ kind: 'measure-within', measure: measure(), value: 2 }],
  'measure-outside': [{ kind: 'measure-outside', measure: measure(), value: 13 }],
  branch: [
    { kind: 'branch', branch: { kind: 'go', step: 'x', advice: 'Loosen all.' }, target: step(), reopened: 3 },
    { kind: 'branch', branch: { kind: 'stay', advice: 'Ask your trainer.' }, target: null, reopened: 0 },
  ],
  stopped: [{ kind: 'stopped' }],
  'stop-sign': [{ kind: 'stop-sign', sign: { id: 'b', ask: 'Does it bind?', branch: { kind: 'stay', advice: 'Loosen.' } } }],
  'no-more-stop-signs': [{ kind: 'no-more-stop-signs' }],
  'wait-started': [
    { kind: 'wait-started', name: 'curing', seconds: 600, blocks: true },
    { kind: 'wait-started', name: 'curing', seconds: 1800, blocks: false },
  ],
  'wait-over': [{ kind: 'wait-over', name: 'curing' }],
  'wait-running': [{ kind: 'wait-running', name: 'curing', seconds: 61 }],
  'confirm-skip-step': reasons.map((reason) => ({ kind: 'confirm-skip-step', step: step(), reason, text: null })),
  'confirm-skip-fastener': [{ kind: 'confirm-skip-fastener', place, reason: 'other', text: 'The stud is bent' }],
  'confirm-finish': [
    { kind: 'confirm-finish', openSteps: 0 },
    { kind: 'confirm-finish', openSteps: 3 },
  ],
  'confirm-reopen': [{ kind: 'confirm-reopen', step: step() }],
  'confirm-cut-wait': [{ kind: 'confirm-cut-wait', name: 'curing', seconds: 150 }],
  'confirm-sign': [{ kind: 'confirm-sign', name: 'Ada Lund' }],
  'reason-asked': [{ kind: 'reason-asked' }],
  'skipped-step': [{ kind: 'skipped-step', step: step() }],
  'skipped-fastener': [{ kind: 'skipped-fastener' }],
  dropped: [{ kind: 'dropped' }],
  undone: [{ kind: 'undone', what: 'fastener' }],
  'nothing-to-undo': [{ kind: 'nothing-to-undo' }],
  paused: [{ kind: 'paused' }],
  resumed: [{ kind: 'resumed' }],
  'note-asked': [{ kind: 'note-asked' }],
  'photo-asked': [{ kind: 'photo-asked' }],
  noted: [
    { kind: 'noted', text: 'The thread is rusty.', media: null },
    { kind: 'noted', text: '', media: 'audio' },
    { kind: 'noted', text: '', media: 'photo' },
  ],
  'unit-chosen': [
    { kind: 'unit-chosen', unit: 'lbf·ft' },
    { kind: 'unit-chosen', unit: null },
  ],
  help: [{ kind: 'help', legal: ['done', 'torque', 'socket', 'stop', 'reason', 'number', 'sign'] }],
  'not-understood': [1, 2, 3].map((times) => ({ kind: 'not-understood', legal: ['done', 'torque', 'socket', 'stop'], times })),
  'not-now': [{ kind: 'not-now', intent: 'accept', legal: ['done', 'torque'] }],
  louder: [{ kind: 'louder' }],
  quieter: [{ kind: 'quieter' }],
  slower: [{ kind: 'slower' }],
  faster: [{ kind: 'faster' }],
  'closing-begins': [
    { kind: 'closing-begins', open: [] },
    { kind: 'closing-begins', open: [{ kind: 'note', count: 1 }] },
    {
      kind: 'closing-begins',
      open: (['before', 'kit', 'fasteners', 'step', 'hold', 'measure', 'timer', 'note'] as const).map((kind, index) => ({
        kind,
        count: index + 1,
      })),
    },
  ],
  matter: matters.map((matter, index) => ({ kind: 'matter', matter, number: index + 1, of: matters.length })),
  'matter-accepted': [{ kind: 'matter-accepted' }],
  'left-open': [{ kind: 'left-open' }],
  'hand-over-begins': [{ kind: 'hand-over-begins' }],
  'handed-over': [{ kind: 'handed-over' }],
  'sign-asked': [
    { kind: 'sign-asked', name: 'Ada Lund' },
    { kind: 'sign-asked', name: null },
  ],
  signed: [
    { kind: 'signed', name: 'Ada Lund', exceptions: 0 },
    { kind: 'signed', name: 'Ada Lund', exceptions: 2 },
  ],
  'follow-up': [
    { kind: 'follow-up', followUp: { id: 'a', say: 'Check the wheel bolts.', after: { kind: 'distance', value: 50, unit: 'km' } } },
    { kind: 'follow-up', followUp: { id: 'b', say: 'Look again.', after: { kind: 'time', hours: 48 } } },
    { kind: 'follow-up', followUp: { id: 'c', say: 'Look again.', after: { kind: 'time', hours: 13 } } },
    { kind: 'follow-up', followUp: { id: 'd', say: 'Look again.', after: { kind: 'count', count: 5, of: 'heat cycles' } } },
  ],
  'confirm-follow-up': [
    { kind: 'confirm-follow-up', followUp: { id: 'a', say: 'Check the wheel bolts.', after: { kind: 'distance', value: 50, unit: 'km' } } },
  ],
  'follow-up-logged': [
    { kind: 'follow-up-logged', left: 0 },
    { kind: 'follow-up-logged', left: 3 },
  ],
  closed: [{ kind: 'closed' }],
  failure: failureCodes.map((code) => ({ kind: 'failure', code })),
};

/** At least one line of every kind there is. */
export const everyLine: readonly Line[] = Object.values(samples).flat();
