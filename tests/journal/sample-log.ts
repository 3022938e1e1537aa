import type { Happening, JobEvent } from '../../src/job/events.ts';
import { storedJob } from '../../src/journal/book.ts';
import { chainAfter, startOf } from '../../src/journal/chain.ts';
import type { StoredJob } from '../../src/journal/port.ts';
import { recordedLine } from '../../src/journal/record.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { happening, opened, sampleHappenings, samplePlan } from './sample.ts';

export function jobOf(job: string, happenings: readonly Happening[], plan: Plan = samplePlan): StoredJob {
  return storedJob(job, plan, chainAfter(startOf(plan), happenings, { job, session: 'session-1' }).map(recordedLine));
}

export const sampleJob = jobOf('3f1c0c3e-8a5b-4a37-9d55-0d8f5a0f6c21', sampleHappenings);

/** One event of each type, which need not make a sensible job. */
const oneEach: { readonly [Type in JobEvent['type']]: Extract<JobEvent, { readonly type: Type }> } = {
  opened: opened.event as Extract<JobEvent, { type: 'opened' }>,
  'caution-acknowledged': { type: 'caution-acknowledged', caution: 'pinch' },
  'before-answered': { type: 'before-answered', before: 'clamped', isTrue: false },
  'before-left': { type: 'before-left', before: 'clamped', reason: 'told-to', text: 'the trainer said so' },
  'kit-answered': { type: 'kit-answered', item: 'socket-16', atHand: false },
  'kit-waved-through': { type: 'kit-waved-through' },
  'step-carried-out': { type: 'step-carried-out', step: 'place' },
  'fastener-tightened': { type: 'fastener-tightened', step: 'bolts', group: 'flange-bolts', pass: 1, position: 2 },
  'fastener-left-out': {
    type: 'fastener-left-out',
    step: 'bolts',
    group: 'flange-bolts',
    position: 3,
    reason: 'other',
    text: 'a thread is gone',
  },
  measured: { type: 'measured', step: 'gap', measure: 'gap-width', value: 0.25, unit: 'mm', within: true },
  'hold-answered': { type: 'hold-answered', step: 'gap', hold: 'flush', passed: false },
  'wait-cut-short': { type: 'wait-cut-short', step: 'gap' },
  'step-skipped': { type: 'step-skipped', step: 'gap', reason: 'do-later', text: null },
  'step-reopened': { type: 'step-reopened', step: 'gap', fresh: true },
  'looked-back': { type: 'looked-back', step: null },
  stopped: { type: 'stopped', step: 'bolts' },
  'stop-sign-answered': { type: 'stop-sign-answered', step: 'bolts', sign: 'binds', felt: true },
  paused: { type: 'paused' },
  resumed: { type: 'resumed' },
  'timer-started': { type: 'timer-started', step: 'gap' },
  'timer-ended': { type: 'timer-ended', step: 'gap' },
  noted: { type: 'noted', text: '', question: false, recording: 'recording-1', media: 'audio' },
  'handed-over': { type: 'handed-over', way: 'codes' },
  'follow-up-done': { type: 'follow-up-done', followUp: 'again', name: 'Wren Ashdown', text: null },
  'finish-asked': { type: 'finish-asked' },
  'matter-accepted': { type: 'matter-accepted', matter: 'step:gap:skipped', reason: 'do-later', text: null },
  'left-open': { type: 'left-open' },
  signed: { type: 'signed', name: 'Wren "the wrench" Ashdown' },
  undone: { type: 'undone', seq: 4 },
  'step-begun': { type: 'step-begun', step: 'unknown to the plan', visit: 2 },
  'step-finished': { type: 'step-finished', step: 'gap', how: 'passed-over' },
  asked: { type: 'asked', intent: 'why' },
  misheard: { type: 'misheard', text: 'the radio' },
  refused: { type: 'refused', intent: 'finish' },
  'unit-chosen': { type: 'unit-chosen', unit: 'lbf·ft' },
  'clock-jumped': { type: 'clock-jumped', milliseconds: -3_600_000 },
};

export const everyEvent = jobOf(
  'every event',
  Object.values(oneEach).map((event, index) => happening(event, index * 7, 'bolts')),
);
