import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { EarconRecipe } from '../../../audio/earcon-recipes.ts';
import { earconRecipes, renderEarcon } from '../../../audio/earcon-recipes.ts';
import type { Sound } from '../../../audio/wav.ts';
import { decodeWav, encodeWav } from '../../../audio/wav.ts';

const names = Object.keys(earconRecipes) as EarconRecipe[];
const fileOf = (name: EarconRecipe) => new Uint8Array(readFileSync(new URL(`../../../audio/earcons/${name}.wav`, import.meta.url)));
const sounds = new Map(names.map((name) => [name, decodeWav(fileOf(name))]));
const soundOf = (name: EarconRecipe): Sound => sounds.get(name)!;

/** Energy at one frequency (Goertzel). */
function energyAt({ samples, sampleRate }: Sound, frequency: number, from = 0, length = samples.length): number {
  const turn = 2 * Math.cos((2 * Math.PI * frequency) / sampleRate);
  let before = 0;
  let last = 0;
  for (let n = from; n < from + length; n++) {
    const weight = 0.5 - 0.5 * Math.cos((2 * Math.PI * (n - from)) / length);
    [before, last] = [last, (samples[n] ?? 0) * weight + turn * last - before];
  }
  // Rounding may leave silence a little below nothing.
  return Math.max(0, before * before + last * last - turn * before * last);
}

function bandEnergy(sound: Sound, low: number, high: number, step = 10): number {
  let sum = 0;
  for (let frequency = low; frequency < high; frequency += step) sum += energyAt(sound, frequency);
  return sum;
}

/** What an ear follows: the loudness in third-octave bands of each 40 ms, every 20 ms. */
function pattern(sound: Sound): number[][] {
  const frame = Math.round(0.04 * sound.sampleRate);
  const edges = Array.from({ length: 9 }, (_, n) => 500 * 2 ** (n / 3));
  return Array.from({ length: 60 }, (_, n) =>
    edges.map((low) => {
      let energy = 0;
      for (let frequency = low; frequency < low * 2 ** (1 / 3); frequency += 25)
        energy += energyAt(sound, frequency, (n * frame) / 2, frame);
      return Math.sqrt(energy);
    }),
  );
}

/** 1 for the same sound, 0 for nothing in common, at the best of the shifts up to 0.2 s. */
function likeness(a: number[][], b: number[][]): number {
  const norm = (rows: number[][]) => Math.sqrt(rows.flat().reduce((sum, x) => sum + x * x, 0));
  const at = (shift: number) =>
    a.reduce((sum, row, n) => sum + row.reduce((inner, x, band) => inner + x * (b[n + shift]?.[band] ?? 0), 0), 0) / (norm(a) * norm(b));
  return Math.max(...Array.from({ length: 21 }, (_, n) => at(n - 10)));
}

describe('the earcons in audio/', () => {
  it.each(names)('%s is what the recipe gives', (name) => {
    expect(Buffer.from(fileOf(name)).equals(Buffer.from(encodeWav(renderEarcon(name))))).toBe(true);
  });

  // MIL-STD-1472E 5.3 prefers 500 to 3000 Hz.
  it.each(names)('%s sounds between 500 and 3000 Hz', (name) => {
    const sound = soundOf(name);
    const inside = bandEnergy(sound, 500, 3000);
    const outside = bandEnergy(sound, 50, 500) + bandEnergy(sound, 3000, 8000);
    expect(outside / (inside + outside)).toBeLessThan(0.05);
  });

  // The same standard: half a second or more, and at most four, where each must be known by itself.
  it('has four that must be known by themselves, each of at least half a second, and two shorter ticks', () => {
    const seconds = (name: EarconRecipe) => soundOf(name).samples.length / soundOf(name).sampleRate;
    const long = names.filter((name) => seconds(name) >= 0.5);
    expect(long.toSorted()).toEqual(['caution', 'not-understood', 'step-complete', 'timer']);
    const ticks = names.filter((name) => !long.includes(name));
    expect(ticks).toHaveLength(2);
    for (const tick of ticks) expect(seconds(tick)).toBeLessThan(0.2);
  });

  it('has no two that are alike', () => {
    const patterns = names.map((name) => ({ name, rows: pattern(soundOf(name)) }));
    for (const [index, a] of patterns.entries()) {
      expect(likeness(a.rows, a.rows)).toBeCloseTo(1, 6);
      for (const b of patterns.slice(index + 1)) expect(likeness(a.rows, b.rows), `${a.name} and ${b.name}`).toBeLessThan(0.5);
    }
  });

  it('is loud and does not clip', () => {
    for (const name of names) {
      const peak = soundOf(name).samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      expect(peak).toBeCloseTo(0.9, 2);
    }
  });
});
