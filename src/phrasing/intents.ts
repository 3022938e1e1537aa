import type { TorqueUnit } from '../torque/quantities.ts';

/** Why a step or a fastener is left out. A closed list, so that it can be said from under a vehicle. */
export const reasons = ['no-part', 'no-tool', 'not-fitted', 'cannot-reach', 'damaged', 'told-to', 'do-later', 'other'] as const;
export type Reason = (typeof reasons)[number];

/** What a person can mean. Everything said, tapped, keyed or pressed becomes one of these. */
export type Intent =
  /** One or several fasteners tightened, a step carried out, a kit item at hand, a caution understood. */
  | { readonly type: 'done'; readonly count: number }
  | { readonly type: 'yes' }
  | { readonly type: 'no' }
  /** A measured value; its unit only where one was said. */
  | { readonly type: 'number'; readonly value: number; readonly unit: string | null }
  | { readonly type: 'reason'; readonly reason: Reason; readonly text: string | null }
  /** Leave out the fastener at hand ('this') or the whole step; outside fastening both mean the step. */
  | { readonly type: 'skip'; readonly scope: 'this' | 'step'; readonly reason: Reason | null }
  | { readonly type: 'note'; readonly text: string | null }
  | { readonly type: 'unit'; readonly unit: TorqueUnit | null }
  | { readonly type: 'sign'; readonly name: string }
  | { readonly type: PlainIntentName };

/** The intents that carry nothing but their name. */
export const plainIntents = [
  'repeat',
  'torque',
  'socket',
  'how-many',
  'how-many-left',
  'where',
  'why',
  'caution',
  'tools',
  'which-step',
  'which-next',
  'back',
  'undo',
  'hold-on',
  'carry-on',
  'stop',
  'start-timer',
  'time-left',
  'louder',
  'quieter',
  'slower',
  'faster',
  'help',
  'finish',
  /** A kit item that is not at hand. */
  'missing',
  /** Close-out answers. */
  'do-it-now',
  'accept',
  'leave-open',
  /** A picture from the device's camera, kept with the step. */
  'photo',
  /** The job goes on on another device. */
  'hand-over',
  /** Something that was to be done after the job has been done. */
  'follow-up-done',
] as const;
export type PlainIntentName = (typeof plainIntents)[number];

export type IntentName = Intent['type'];
export const intentNames = [
  'done',
  'yes',
  'no',
  'number',
  'reason',
  'skip',
  'note',
  'unit',
  'sign',
  ...plainIntents,
] as const satisfies readonly IntentName[];

/**
 * The states of the dialogue in which different things may be said.
 * They are the leaf states of the statechart in `job/`, and the names that the recogniser's grammars go by.
 */
export const dialogueStates = [
  /** Cautions and what must be true before starting, one by one. */
  'briefing',
  /** The kit list, item by item. */
  'kit',
  /** A step that is just to be carried out. */
  'stating',
  /** Looking back at an earlier step without changing it. */
  'visiting',
  /** Fasteners, one by one, pass by pass. */
  'fastening',
  /** A hold point: yes or no. */
  'checking',
  /** A value to be measured. */
  'measuring',
  /** A wait that blocks. */
  'waiting',
  /** Something risky was read back and wants a yes. */
  'confirming',
  /** A reason for leaving something out is asked for. */
  'reasoning',
  /** Stopped: what did the hand feel? */
  'diagnosing',
  'paused',
  /** Close-out: each open matter wants an answer. */
  'closing',
  /** Close-out: everything answered; a name is asked for. */
  'signing',
  'closed',
] as const;
export type DialogueState = (typeof dialogueStates)[number];
