import type { Cue } from '../job/decide.ts';
import type { DialogueState, IntentName } from '../phrasing/intents.ts';
import type { FailureCode } from '../phrasing/lines.ts';
import type { Settings } from './settings.ts';

export interface Heard {
  readonly alternatives: readonly { readonly text: string; readonly confidence: number }[];
}

/** What may be said now; the desk makes the recogniser's grammar of it. */
export interface Listening {
  readonly state: DialogueState;
  readonly legal: readonly IntentName[];
  readonly names: readonly string[];
  readonly measureUnit: string | null;
  readonly maxCount: number;
}

export interface SpeechStatus {
  readonly ear: 'off' | 'loading' | 'listening' | 'hearing' | 'waiting' | 'broken';
  readonly earKind: 'browser-on-device' | 'local' | 'browser-remote' | null;
  /** 0 to 1 while loading. */
  readonly progress: number | null;
  readonly voice: 'off' | 'ready' | 'speaking' | 'broken';
  readonly voiceKind: 'browser' | 'local' | 'browser-remote' | null;
}

/** Ear, voice and earcons, as the screens use them. */
export interface SpeechDesk {
  readonly status: () => SpeechStatus;
  readonly subscribe: (listener: () => void) => () => void;
  /** Asks for sound and microphone; call it from a tap or a key, as browsers demand. */
  begin(): Promise<void>;
  speak(text: string, cue: Cue | null): void;
  hush(): void;
  /** Null stops listening. */
  listen(listening: Listening | null): void;
  /** Push to talk: true while the key, pedal or button is down. */
  talk(held: boolean): void;
  apply(settings: Settings): void;
  onHeard(listener: (heard: Heard) => void): () => void;
  /** Something was said that is no command. */
  onRejected(listener: (text: string) => void): () => void;
  onTrouble(listener: (code: FailureCode) => void): () => void;
  end(): void;
}
