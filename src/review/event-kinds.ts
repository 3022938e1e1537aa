import type { JobEventType } from '../job/events.ts';

/** Every event type, so that a column can hold its place in this list. */
export const eventKinds = [
  'opened',
  'caution-acknowledged',
  'before-answered',
  'before-left',
  'kit-answered',
  'kit-waved-through',
  'step-carried-out',
  'fastener-tightened',
  'fastener-left-out',
  'measured',
  'hold-answered',
  'wait-cut-short',
  'step-skipped',
  'step-reopened',
  'looked-back',
  'stopped',
  'stop-sign-answered',
  'paused',
  'resumed',
  'timer-started',
  'timer-ended',
  'noted',
  'finish-asked',
  'matter-accepted',
  'left-open',
  'signed',
  'handed-over',
  'follow-up-done',
  'undone',
  'step-begun',
  'step-finished',
  'asked',
  'misheard',
  'refused',
  'unit-chosen',
  'clock-jumped',
] as const satisfies readonly JobEventType[];

type Forgotten = Exclude<JobEventType, (typeof eventKinds)[number]>;
/** Does not compile when the job core knows an event that is missing above. */
export const noneForgotten: [Forgotten] extends [never] ? true : Forgotten = true;

/** An event of a type that this build does not know: it still tells the time and the step. */
export const unknownKind = eventKinds.length;

export const kindOf = Object.fromEntries(eventKinds.map((type, index) => [type, index])) as Readonly<
  Record<(typeof eventKinds)[number], number>
>;

export const finishes = ['done', 'skipped', 'passed-over'] as const;
