import type { EarFault, EarKind } from './ear/ear.ts';
import type { VoiceFault, VoiceKind } from './voice/voice.ts';

/** How a person makes themselves heard. */
export const waysToListen = ['open', 'name-first', 'held', 'off'] as const;
export type WayToListen = (typeof waysToListen)[number];

export interface EarState {
  readonly status:
    | 'off'
    /** Fetching models. */
    | 'loading'
    /** Ready, and at rest. */
    | 'ready'
    /** Asked to listen, and not listening yet: the recogniser starts or the person is asked for the microphone. */
    | 'starting'
    | 'listening'
    /** Somebody is speaking. */
    | 'hearing'
    /** Listens while the key is held. */
    | 'waiting-for-key'
    | 'broken';
  readonly kind: EarKind | null;
  /** 0 to 1 while loading. */
  readonly progress: number | null;
  /** Whether what the microphone picks up may be sent to a service elsewhere. */
  readonly audioLeavesDevice: boolean;
  readonly fault: EarFault | 'no-ear' | null;
  /** What it sounds like so far. */
  readonly hearing: string | null;
  readonly tooLoud: boolean;
}

export interface VoiceState {
  readonly status: 'off' | 'ready' | 'speaking' | 'broken';
  readonly kind: VoiceKind | null;
  /** 0 to 1 while the local voice is being fetched. */
  readonly progress: number | null;
  readonly fault: VoiceFault | null;
  /** What is being said. */
  readonly saying: string | null;
}

export interface SpeechState {
  readonly ear: EarState;
  readonly voice: VoiceState;
}

export type SpeechActivity = 'idle' | 'loading' | 'listening' | 'speaking' | 'broken';

/** The state in one word: what the person has to know first. */
export function activityOf({ ear, voice }: SpeechState): SpeechActivity {
  if (voice.status === 'speaking') return 'speaking';
  if (ear.status === 'broken' || voice.status === 'broken') return 'broken';
  if (ear.status === 'loading' || ear.status === 'starting') return 'loading';
  return ear.status === 'listening' || ear.status === 'hearing' ? 'listening' : 'idle';
}

export const silentState: SpeechState = {
  ear: { status: 'off', kind: null, progress: null, audioLeavesDevice: false, fault: null, hearing: null, tooLoud: false },
  voice: { status: 'off', kind: null, progress: null, fault: null, saying: null },
};
