/** Where speech is made. The browser's remote voices send the text away. */
export const voiceKinds = ['browser', 'local', 'browser-remote'] as const;
export type VoiceKind = (typeof voiceKinds)[number];

/** Why a voice could not say something. */
export const voiceFaults = [
  /** There is no voice for the language. */
  'no-voice',
  /** The page may not make sound before the person has touched it. */
  'sound-blocked',
  /** It does not begin, or begins and never ends. */
  'voice-stuck',
  'voice-failed',
  'network',
] as const;
export type VoiceFault = (typeof voiceFaults)[number];

export type SayOutcome =
  | { readonly kind: 'ended' }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'failed'; readonly fault: VoiceFault; readonly message: string };

export interface SpeakingSettings {
  /** BCP 47 language tag. */
  readonly language: string;
  /** 1 is the voice's normal rate. */
  readonly rate: number;
  /** From 0 to 1. */
  readonly volume: number;
}

/** What comes out of the loudspeaker, as it comes. */
export type ChunkEvent =
  | { readonly kind: 'begins'; readonly text: string }
  /** The voice has come to this character of it; not every voice tells. */
  | { readonly kind: 'reaches'; readonly character: number }
  | { readonly kind: 'is-over' };

export interface Speaking {
  /** Never rejects, and always resolves. */
  readonly done: Promise<SayOutcome>;
  cancel(): void;
}

export interface Voice {
  speak(text: string, settings: SpeakingSettings, onChunk: (event: ChunkEvent) => void): Speaking;
}
