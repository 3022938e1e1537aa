import { describe, expect, it } from 'vitest';
import { defaultOptions } from '../../../src/speech/hearing/hearing.ts';
import { Loudness } from '../../../src/speech/hearing/loudness.ts';

const frame = 0.02;
const tone = (level: number): Float32Array => Float32Array.from({ length: 320 }, (_, i) => Math.SQRT2 * 10 ** (level / 20) * Math.sin(i));

function pass(loudness: Loudness, seconds: number, level: number, isSpeech: boolean) {
  const told: boolean[] = [];
  for (let time = 0; time < seconds; time += frame) {
    loudness.hear(tone(level));
    const event = loudness.frame(isSpeech, frame);
    if (event?.kind === 'surroundings') told.push(event.tooLoud);
  }
  return told;
}

describe('loudness', () => {
  it('says nothing of a quiet place', () => {
    const loudness = new Loudness(defaultOptions.loudness);
    expect(pass(loudness, 5, -60, false)).toEqual([]);
    expect(pass(loudness, 2, -26, true)).toEqual([]);
  });

  it('says that it is too loud when the noise drowns the voice, and again when it does not any more', () => {
    const loudness = new Loudness(defaultOptions.loudness);
    pass(loudness, 2, -60, false);
    pass(loudness, 2, -26, true);
    expect(pass(loudness, 8, -25, false)).toEqual([true]);
    expect(pass(loudness, 8, -60, false)).toEqual([false]);
  });

  it('does not mind a single bang', () => {
    const loudness = new Loudness(defaultOptions.loudness);
    pass(loudness, 2, -60, false);
    pass(loudness, 2, -26, true);
    expect(pass(loudness, 0.5, -10, false)).toEqual([]);
  });

  it('knows a place too loud before anybody has spoken', () => {
    expect(pass(new Loudness(defaultOptions.loudness), 5, -12, false)).toEqual([true]);
  });
});
