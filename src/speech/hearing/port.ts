import type { DialogueState } from '../../phrasing/intents.ts';
import type { OwnVoice } from './own-voice.ts';

/** What may be heard now. Built by `phrasing/` from the intents legal in one state. */
export interface HearingGrammar {
  readonly state: DialogueState;
  readonly language: 'en' | 'fr';
  /** A closed grammar in JSGF (Java Speech Grammar Format 1.0), one public rule. */
  readonly jsgf: string;
  /** Every word that the grammar can produce, lower case, for trimming the dictionary. */
  readonly words: readonly string[];
  /** Phrases for which a false alarm costs work or safety: heard only with a better score. */
  readonly risky: readonly string[];
  /** Phrases that a longer one of another meaning begins with: after them more quiet is waited for. Absent: after all that can go on. */
  readonly openEnded?: readonly string[];
  /** True when an utterance counts only after the name ("undertray"). */
  readonly nameFirst: boolean;
  /** True while the app itself speaks: its sentences are looked for amid the other speech, and count the moment they are over. */
  readonly overOwnVoice?: boolean;
}

export type HearingEvent =
  /** Somebody began to speak; sample index since the start of the stream. */
  | { readonly kind: 'speech-start'; readonly at: number }
  | { readonly kind: 'speech-end'; readonly at: number }
  /** What it sounds like so far; may change. */
  | { readonly kind: 'partial'; readonly text: string }
  /** Best first; confidence 0 to 1. `from` and `to` are sample indexes. */
  | { readonly kind: 'heard'; readonly alternatives: readonly HeardAlternative[]; readonly from: number; readonly to: number }
  | { readonly kind: 'rejected'; readonly why: RejectionReason; readonly text: string; readonly from: number; readonly to: number }
  /** Said when the surroundings change from usable to too loud or back. Levels in dB full scale. */
  | { readonly kind: 'surroundings'; readonly tooLoud: boolean; readonly noise: number; readonly speech: number | null };

export interface HeardAlternative {
  readonly text: string;
  readonly confidence: number;
}

export type RejectionReason = 'not-a-command' | 'unclear' | 'too-long' | 'too-short' | 'no-name' | 'too-quiet';

/** The recogniser itself: no DOM, no microphone, no clock. 16 kHz mono samples go in, events come out. */
export interface Hearing {
  setGrammar(grammar: HearingGrammar): void;
  /** Listens as it learnt to for one person, or to anybody again. False when it was learnt on another network, and is not used. */
  useVoice(own: OwnVoice | null): boolean;
  /** Samples from -1 to 1; any length. Events come back in order. */
  push(samples: Float32Array): HearingEvent[];
  /** Ends the current utterance at once, as when a key that was held is let go. */
  flush(): HearingEvent[];
  /** Forgets the utterance under way without a result. */
  reset(): void;
  dispose(): void;
}
