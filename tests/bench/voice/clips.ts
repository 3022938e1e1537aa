import { speak, type BenchVoice } from './voices.ts';
import { talk } from './talk.ts';
import { Chance } from './random.ts';
import { rate } from './sound.ts';

/** Where spoken clips are kept from run to run. */
export const cache = '.cache/voice';

/** `count` sentences of talk by several voices, with pauses between, as one stream. */
export function talkStream(voices: readonly BenchVoice[], count: number, seed: number): Float32Array {
  const chance = new Chance(seed);
  const parts = talk(count, seed).map((text) => ({ sound: speak(chance.pick(voices), text, cache), pause: chance.between(0.25, 2.2) }));
  const out = new Float32Array(parts.reduce((sum, { sound, pause }) => sum + sound.length + Math.round(pause * rate), 0));
  let at = 0;
  for (const { sound, pause } of parts) {
    out.set(sound, at);
    at += sound.length + Math.round(pause * rate);
  }
  return out;
}
