import type { SynthesisErrorCode } from '../ports.ts';
import type { LocalSpeechSynthesisVoice } from './synthesis-voice.ts';

export interface SoundRefusal {
  readonly kind: 'refused';
  readonly error: SynthesisErrorCode;
  /** For the log. */
  readonly message: string;
}

/** Sound under way. */
export interface PlayingSound {
  pause(): void;
  resume(): void;
  /** Silent at once; `onOver` is not called any more. */
  stop(): void;
}

/** Speech that is ready to be heard. */
export interface PreparedSound {
  readonly kind: 'prepared';
  /** Volume from 0 to 1. `onBegun` and `onOver` are called once each at most, in this order; a refusal says why nothing could be heard. */
  play(volume: number, onBegun: () => void, onOver: (refusal: SoundRefusal | null) => void): PlayingSound;
}

export interface SoundStyle {
  readonly voice: LocalSpeechSynthesisVoice;
  /** 1 is the voice's normal rate. */
  readonly rate: number;
  /** 1 is the voice's normal pitch. */
  readonly pitch: number;
}

/** Turns short texts into sound. */
export interface SoundSource {
  readonly voices: readonly LocalSpeechSynthesisVoice[];
  prepare(text: string, style: SoundStyle): Promise<PreparedSound | SoundRefusal>;
}
