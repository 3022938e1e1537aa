import type { Reason, IntentName } from '../phrasing/intents.ts';
import type { TorqueUnit } from '../torque/quantities.ts';

/**
 * What happened, as facts. The state of a job is a fold over these and nothing else.
 * Step, group, measure, hold and side ids are the plan's; `position` and `pass` are indexes into the group's lists.
 */
export type JobEvent =
  | {
      readonly type: 'opened';
      readonly procedure: string;
      readonly title: string;
      readonly revision: number;
      readonly build: string;
      /** Who works, as they gave their name, or null. */
      readonly person: string | null;
      /** The training group or shift, or null. */
      readonly group: string | null;
    }
  | { readonly type: 'caution-acknowledged'; readonly caution: string }
  | { readonly type: 'before-answered'; readonly before: string; readonly isTrue: boolean }
  /** A condition that is not met, or a mark not checked, and the person goes on all the same. */
  | { readonly type: 'before-left'; readonly before: string; readonly reason: Reason; readonly text: string | null }
  | { readonly type: 'kit-answered'; readonly item: string; readonly atHand: boolean }
  /** The rest of the kit list is taken as read. */
  | { readonly type: 'kit-waved-through' }
  | { readonly type: 'step-carried-out'; readonly step: string }
  | { readonly type: 'fastener-tightened'; readonly step: string; readonly group: string; readonly pass: number; readonly position: number }
  | {
      readonly type: 'fastener-left-out';
      readonly step: string;
      readonly group: string;
      readonly position: number;
      readonly reason: Reason;
      readonly text: string | null;
    }
  | {
      readonly type: 'measured';
      readonly step: string;
      readonly measure: string;
      readonly value: number;
      readonly unit: string;
      readonly within: boolean;
    }
  | { readonly type: 'hold-answered'; readonly step: string; readonly hold: string; readonly passed: boolean }
  | { readonly type: 'wait-cut-short'; readonly step: string }
  | { readonly type: 'step-skipped'; readonly step: string; readonly reason: Reason; readonly text: string | null }
  /** `fresh` forgets what was done in it; otherwise only what was left out or failed is asked again. */
  | { readonly type: 'step-reopened'; readonly step: string; readonly fresh: boolean }
  /** Looked back at a step without changing it; null ends the look. */
  | { readonly type: 'looked-back'; readonly step: string | null }
  | { readonly type: 'stopped'; readonly step: string | null }
  | { readonly type: 'stop-sign-answered'; readonly step: string; readonly sign: string; readonly felt: boolean }
  | { readonly type: 'paused' }
  | { readonly type: 'resumed' }
  | { readonly type: 'timer-started'; readonly step: string }
  | { readonly type: 'timer-ended'; readonly step: string }
  | {
      readonly type: 'noted';
      /** Empty where only a recording was kept. */
      readonly text: string;
      readonly question: boolean;
      /** SHA-256 of the recording's contents, or null for a note in words alone. */
      readonly recording: string | null;
      readonly media: NoteMedia | null;
    }
  | { readonly type: 'finish-asked' }
  | { readonly type: 'matter-accepted'; readonly matter: string; readonly reason: Reason; readonly text: string | null }
  | { readonly type: 'left-open' }
  /** Goes on on another device, by file or by codes; whoever carries on first, there or here, takes it up again. */
  | { readonly type: 'handed-over'; readonly way: HandOverWay }
  | { readonly type: 'signed'; readonly name: string }
  /** Something that was to be done after the job has been done. The only event that counts after the signature. */
  | { readonly type: 'follow-up-done'; readonly followUp: string; readonly name: string; readonly text: string | null }
  /** Takes back the newest reversible event that still stands. */
  | { readonly type: 'undone'; readonly seq: number }
  // Markers: they change nothing in the fold but say for the record what the fold did.
  | { readonly type: 'step-begun'; readonly step: string; readonly visit: number }
  | { readonly type: 'step-finished'; readonly step: string; readonly how: 'done' | 'skipped' | 'passed-over' }
  | { readonly type: 'asked'; readonly intent: IntentName }
  | { readonly type: 'misheard'; readonly text: string }
  | { readonly type: 'refused'; readonly intent: IntentName }
  | { readonly type: 'unit-chosen'; readonly unit: TorqueUnit | null }
  | { readonly type: 'clock-jumped'; readonly milliseconds: number };

export type JobEventType = JobEvent['type'];

export const noteMedia = ['audio', 'photo'] as const;
export type NoteMedia = (typeof noteMedia)[number];

export const handOverWays = ['file', 'codes'] as const;
export type HandOverWay = (typeof handOverWays)[number];

/** Milliseconds of two clocks at one moment: the wall's, and one that never runs backward. */
export interface Moment {
  /** Milliseconds since 1970-01-01T00:00Z. */
  readonly wall: number;
  /** Minutes that local time is ahead of UTC. */
  readonly offset: number;
  /** Monotonic milliseconds; comparable only within one `session`. */
  readonly mono: number;
}

/**
 * An event as it is stored and exported: one line of JSON Lines.
 * `hash` is the SHA-256 of the line's other fields in a fixed order, `previous` included, so a changed or missing line shows.
 */
export interface Recorded {
  readonly v: 2;
  readonly job: string;
  /** 0, 1, 2 … without gaps. */
  readonly seq: number;
  readonly moment: Moment;
  /** One run of the app; the monotonic clock starts anew with it. */
  readonly session: string;
  /** The step at hand when it happened, or null outside the steps. */
  readonly step: string | null;
  readonly event: JobEvent;
  /** Hash of the event before; that of the plan for the first. */
  readonly previous: string;
  readonly hash: string;
}

/** An event before the journal has chained it. */
export type Happening = Pick<Recorded, 'moment' | 'step' | 'event'>;
