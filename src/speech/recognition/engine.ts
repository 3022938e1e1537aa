import type { OwnVoice } from '../hearing/own-voice.ts';
import type { HeardAlternative, HearingGrammar, RejectionReason } from '../hearing/port.ts';
import type { RecognitionErrorCode } from '../ports.ts';

/** What the recogniser tells while a session is open. Times are milliseconds on the page's clock. */
export type EngineEvent =
  | { readonly kind: 'speech-start'; readonly time: number }
  | { readonly kind: 'speech-end'; readonly time: number }
  | { readonly kind: 'partial'; readonly text: string }
  | { readonly kind: 'heard'; readonly alternatives: readonly HeardAlternative[]; readonly from: number; readonly to: number }
  | { readonly kind: 'rejected'; readonly why: RejectionReason; readonly text: string; readonly from: number; readonly to: number }
  /** The microphone or the recogniser went away; nothing follows. */
  | { readonly kind: 'lost'; readonly error: RecognitionErrorCode; readonly message: string };

export interface Refusal {
  readonly kind: 'refused';
  readonly error: RecognitionErrorCode;
  /** For the log. */
  readonly message: string;
}

export type LoadOutcome = { readonly kind: 'loaded' } | Refusal;

/** Sound is being taken. */
export interface OpenEngine {
  readonly kind: 'open';
  /** Takes no more sound; resolves when everything that could be made of the sound so far has been told. */
  finish(): Promise<void>;
  /** Takes no more sound and forgets it; nothing is told after the call. */
  discard(): void;
}

/** The level of the surroundings changed between usable and too loud. Levels in dB full scale. */
export interface Surroundings {
  readonly tooLoud: boolean;
  readonly noise: number;
  readonly speech: number | null;
}

/** The recogniser on this device with its microphone, one session at a time. */
export interface HearingEngine {
  /** Primary language tags that it can hear, lower case. */
  readonly languages: readonly string[];
  /**
   * Fetches the models of a language, one of `languages`, and makes ready; those of another go. Asking again for the same while loading
   * or after success costs nothing; after a failure it tries again.
   */
  load(language: string): Promise<LoadOutcome>;
  /** What may be heard from here on. */
  setGrammar(grammar: HearingGrammar): void;
  /** Listens as it learnt to for one person, or to anybody. What was learnt on another network is not used. */
  useVoice(own: OwnVoice | null): void;
  /** Forgets the utterance under way. */
  forget(): void;
  /** Takes sound from the track, or from the default microphone. */
  open(track: MediaStreamTrack | null, listener: (event: EngineEvent) => void): Promise<OpenEngine | Refusal>;
}
