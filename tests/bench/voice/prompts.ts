import { say } from '../../../src/phrasing/say.ts';
import { splitText } from '../../../src/speech/voice/text-chunks.ts';
import { everyLine } from '../../phrasing/samples.ts';
import { cache } from './clips.ts';
import { speak, type BenchVoice } from './voices.ts';

/** A prompt of the app's own, in the stretches in which it is said. */
export interface Prompt {
  readonly text: string;
  readonly chunks: readonly { readonly text: string; readonly sound: Float32Array }[];
}

/** As the local voice splits them: see `src/speech/synthesis/local-speech-synthesis.ts`. */
const chunkLength = 80;

/** Every kind of line that the app can say, spoken by a voice. */
export function prompts(voice: BenchVoice): Prompt[] {
  const texts = new Set(everyLine.map((line) => say(line, 'en').say));
  return [...texts].map((text) => ({
    text,
    chunks: splitText(text, chunkLength, true).map((chunk) => ({ text: chunk.text, sound: speak(voice, chunk.text, cache) })),
  }));
}
