import { describe, expect, it } from 'vitest';
import { pauseFinder } from '../../../src/app/notes/pause-finder.ts';

/** Plays levels, one every 100 ms; the second at which the note was taken to be over, or null. */
function endOf(levels: readonly (readonly [seconds: number, level: number])[]): number | null {
  const finder = pauseFinder();
  let at = 0;
  for (const [seconds, level] of levels) {
    for (let tick = 0; tick < seconds * 10; tick += 1) {
      at += 100;
      if (finder.hear(level, at)) return at / 1000;
    }
  }
  return null;
}

const hiss = 0.001;
const speech = 0.08;
const compressor = 0.05;

describe('the end of a spoken note', () => {
  it('is a pause after speech, and not the breath in the middle of it', () => {
    expect(
      endOf([
        [1, hiss],
        [3, speech],
        [1.5, hiss],
        [2, speech],
        [5, hiss],
      ]),
    ).toBeCloseTo(7.5 + 2.6, 0);
  });

  it('comes by itself when nobody speaks', () => {
    expect(endOf([[60, hiss]])).toBeCloseTo(10.2, 0);
    expect(endOf([[60, 0]])).toBeCloseTo(10.2, 0);
  });

  it('is found beside a compressor, which is louder than a quiet room will ever be', () => {
    expect(
      endOf([
        [1, compressor],
        [3, 0.2],
        [6, compressor],
      ]),
    ).toBeCloseTo(4 + 2.6, 0);
  });

  it('is found when the compressor starts in the middle of the note', () => {
    // The first of the noise counts as speech; in some seconds it is part of the room.
    const end = endOf([
      [1, hiss],
      [2, speech],
      [200, compressor],
    ]);
    expect(end).not.toBeNull();
    expect(end).toBeLessThan(90);
  });

  it('does not come while somebody speaks on, however long', () => {
    const talk = Array.from({ length: 60 }, () => [
      [1.2, speech],
      [0.6, hiss],
    ]).flat() as [number, number][];
    expect(endOf(talk)).toBeNull();
  });
});
