import type { OwnVoice, Take } from '../hearing/own-voice.ts';
import type { HearingGrammar } from '../hearing/port.ts';

/** A take to be heard again, with what may be heard in its place. */
export interface TrialTake extends Take {
  readonly grammar: HearingGrammar;
}

/** From the page to the worker that gets used to one person. */
export type ToEnrolment =
  | { readonly kind: 'load' }
  /** Sound comes through the port as Float32Array blocks at this rate. */
  | { readonly kind: 'open'; readonly sampleRate: number; readonly port: MessagePort }
  /** Waits for this to be said. */
  | { readonly kind: 'ask'; readonly text: string }
  /** Pays no heed to the sound, as while the app itself speaks. */
  | { readonly kind: 'rest' }
  /** Learns from some takes, and tries on others what it is worth. */
  | { readonly kind: 'learn'; readonly takes: readonly Take[]; readonly trials: readonly TrialTake[] };

/** What was heard of the trial takes, in their order; null where nothing was. */
export type HeardTakes = readonly (string | null)[];

/** From the worker to the page. */
export type FromEnrolment =
  | { readonly kind: 'progress'; readonly loaded: number; readonly total: number }
  | { readonly kind: 'loaded' }
  | { readonly kind: 'failed'; readonly why: 'network' | 'broken'; readonly message: string }
  /** It was said; 16 kHz samples with a little quiet around them. */
  | { readonly kind: 'take'; readonly text: string; readonly sound: Float32Array }
  /** Something was said that sounds otherwise, or too faintly, too briefly or at too great a length. */
  | { readonly kind: 'unlike'; readonly text: string }
  | { readonly kind: 'learnt'; readonly own: OwnVoice; readonly before: Tried; readonly after: Tried };

/** The trial takes as they were said, and with noise mixed in. */
export interface Tried {
  readonly quiet: HeardTakes;
  readonly noisy: HeardTakes;
}
