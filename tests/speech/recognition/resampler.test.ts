import { describe, expect, it } from 'vitest';
import { createResampler } from '../../../src/speech/recognition/resampler.ts';

function tone(rate: number, frequency: number, seconds: number): Float32Array {
  return Float32Array.from({ length: Math.round(rate * seconds) }, (_, n) => Math.sin((2 * Math.PI * frequency * n) / rate));
}

function level(samples: Float32Array): number {
  const middle = samples.subarray(200, samples.length - 200);
  return Math.sqrt(middle.reduce((sum, x) => sum + x * x, 0) / middle.length);
}

describe.each([48000, 44100, 32000, 96000, 8000])('from %i Hz to 16 kHz', (rate) => {
  it('keeps the level and the frequency of what fits', () => {
    const input = tone(rate, 1000, 0.5);
    const output = createResampler(rate, 16000).push(input);
    expect(level(output)).toBeCloseTo(Math.SQRT1_2, 2);
    const expected = tone(16000, 1000, 0.5);
    // The delay is constant: the best match at one shift must hold over the whole length.
    const errors = Array.from({ length: 64 }, (_, shift) =>
      output.subarray(1000 + shift, 2000 + shift).reduce((sum, x, n) => sum + Math.abs(x - (expected[1000 + n] ?? 0)), 0),
    );
    // 1 kHz repeats every 16 samples; a fractional delay leaves less than half a sample of shift.
    expect(Math.min(...errors) / 1000).toBeLessThan(0.25);
  });

  it('gives the same whatever the lengths of the blocks', () => {
    const input = tone(rate, 440, 0.2);
    const whole = createResampler(rate, 16000).push(input);
    const resampler = createResampler(rate, 16000);
    const parts: number[] = [];
    for (let start = 0, size = 1; start < input.length; start += size, size = (size * 7 + 3) % 331) {
      parts.push(...resampler.push(input.subarray(start, start + size)));
    }
    expect(parts).toHaveLength(whole.length);
    parts.forEach((value, n) => expect(value).toBeCloseTo(whole[n] ?? NaN, 6));
    expect(whole.length).toBeCloseTo(0.2 * 16000, -2);
  });
});

it.each([48000, 44100, 96000])('lets nothing from above 8 kHz fold back into speech, at %i Hz', (rate) => {
  expect(level(createResampler(rate, 16000).push(tone(rate, 9500, 0.5)))).toBeLessThan(1e-3);
});
