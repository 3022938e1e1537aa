import { speak, type BenchVoice } from '../../bench/voice/voices.ts';
import { NoiseBank, type Condition } from '../../bench/voice/conditions.ts';

/** A voice that the network never heard, and one of another kind. */
export const slt: BenchVoice = { name: 'flite slt', kind: 'natural', use: 'test', program: 'flite', voice: 'slt' };
export const linda: BenchVoice = { name: 'espeak linda', kind: 'formant', use: 'test', program: 'espeak-ng', voice: 'en-us+linda' };

const cache = '.cache/voice';
const bank = new NoiseBank(() => []);

/** A text spoken by a voice, without quiet around it. */
export const spoken = (voice: BenchVoice, text: string): Float32Array => speak(voice, text, cache);

/** The same with quiet, or the condition's noise, before and after it. */
export const inRoom = (sound: Float32Array, condition: Condition = { name: 'clean', level: null }): Float32Array =>
  bank.mix(sound, condition, 16000, 'test');

export function joined(...parts: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

export const quiet = (seconds: number): Float32Array => new Float32Array(Math.round(seconds * 16000));
