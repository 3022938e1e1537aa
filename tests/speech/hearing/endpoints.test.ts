import { describe, expect, it } from 'vitest';
import { Endpoints } from '../../../src/speech/hearing/endpoints.ts';
import { defaultOptions } from '../../../src/speech/hearing/hearing.ts';

const follow = (chances: readonly number[]): Endpoints => {
  const ends = new Endpoints(defaultOptions.endpoints);
  for (const chance of chances) ends.push(chance);
  return ends;
};
const many = (count: number, chance: number): number[] => Array.from({ length: count }, () => chance);

describe('endpoints', () => {
  it('begin with the first frame that may be speech, once enough of them surely are', () => {
    const ends = follow([...many(10, 0), 0.4, 0.5, ...many(3, 0.9)]);
    expect(ends.start).toBe(10);
  });

  it('do not begin with a click', () => {
    expect(follow([...many(10, 0), 0.9, 0.9, ...many(10, 0.1)]).start).toBeNull();
  });

  it('count the quiet since the last frame that was speech', () => {
    const ends = follow([...many(5, 0.9), 0.4, ...many(7, 0.1)]);
    expect(ends.lastVoiced).toBe(5);
    expect(ends.quiet).toBe(7);
  });

  it('look for the next beginning only after the last utterance is closed', () => {
    const ends = follow([...many(5, 0.9), ...many(30, 0)]);
    expect(ends.start).toBe(0);
    ends.close();
    expect(ends.start).toBeNull();
    for (const chance of many(4, 0.9)) ends.push(chance);
    expect(ends.start).toBe(35);
  });
});
