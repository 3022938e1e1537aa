import type { OwnVoice } from '../hearing/own-voice.ts';
import type { HearingLanguage } from '../hearing/load.ts';
import type { HearingEvent, HearingGrammar } from '../hearing/port.ts';

/** From the page to the recogniser's worker. */
export type ToHearingWorker =
  | { readonly kind: 'load'; readonly language: HearingLanguage }
  | { readonly kind: 'grammar'; readonly grammar: HearingGrammar }
  /** Listens as it learnt to for one person, or to anybody. */
  | { readonly kind: 'voice'; readonly own: OwnVoice | null }
  /** Sound comes through the port as Float32Array blocks at this rate. */
  | { readonly kind: 'open'; readonly session: number; readonly sampleRate: number; readonly port: MessagePort }
  | { readonly kind: 'finish'; readonly session: number }
  | { readonly kind: 'discard'; readonly session: number }
  | { readonly kind: 'forget' };

/** From the recogniser's worker to the page. */
export type FromHearingWorker =
  /** Bytes fetched so far and to be fetched in all. */
  | { readonly kind: 'progress'; readonly loaded: number; readonly total: number }
  | { readonly kind: 'loaded' }
  | { readonly kind: 'failed'; readonly why: 'network' | 'broken'; readonly message: string }
  /** `since`: the index, in the recogniser's own count, of the first sample of the session. */
  | { readonly kind: 'event'; readonly session: number; readonly event: HearingEvent; readonly since: number }
  | { readonly kind: 'finished'; readonly session: number };

export const hearingSampleRate = 16000;
