import { describe, expect, it } from 'vitest';
import type { Evidence } from '../../../src/speech/hearing/judge.ts';
import { bothLooks } from '../../../src/speech/hearing/two-looks.ts';

const heard = (text: string, fit: number, lead: number, worstWord = -1): Evidence => ({ text, fit, lead, worstWord, phones: 10 });

describe('two looks at one utterance', () => {
  it('averages fit and lead of what both hold for best', () => {
    const [top, next] = bothLooks(
      [heard('three done', -1, 4), heard('done', -1.4, -4)],
      [heard('three done', -0.5, 8), heard('done', -1.3, -8)],
      0.75,
    );
    expect(top).toMatchObject({ text: 'three done', phones: 10 });
    expect(top?.fit).toBeCloseTo(-0.625);
    expect(top?.lead).toBeCloseTo(7);
    expect(next?.lead).toBeCloseTo(-7);
  });

  it('takes the closer look where the two disagree and it counts for more', () => {
    const first = [heard('done', -1, 2), heard('three done', -1.2, -2)];
    const closer = [heard('three done', -0.5, 6), heard('done', -1.1, -6)];
    expect(bothLooks(first, closer, 0.8)[0]?.text).toBe('three done');
    expect(bothLooks(first, closer, 0.1)[0]?.text).toBe('done');
  });

  it('leaves hardly any lead where each holds another sentence for best', () => {
    const [top] = bothLooks(
      [heard('what size', -1, 3), heard('what else', -1.3, -3)],
      [heard('what else', -1, 3), heard('what size', -1.3, -3)],
      0.5,
    );
    expect(top?.lead).toBeCloseTo(0);
  });

  it('counts a sentence that one of them does not list as behind its last', () => {
    const [top, next] = bothLooks([heard('carry on', -1, 5), heard('carry them', -1.5, -5)], [heard('carry off', -1, Infinity)], 0.6);
    expect(top?.text).toBe('carry on');
    // 0 and 3 behind, against 8 and 0 behind.
    expect(top?.lead).toBeCloseTo(1.4);
    expect(next?.text).toBe('carry off');
  });

  it('makes do with one look where the other heard nothing', () => {
    const [top] = bothLooks([], [heard('skip the step', -0.4, 9)], 0.8);
    expect(top?.text).toBe('skip the step');
    expect(top?.fit).toBeCloseTo(-1.32);
    expect(bothLooks([], [], 0.8)).toEqual([]);
  });

  it('is as sure of a worst word as the surer of the two', () => {
    const [top] = bothLooks([heard('say again', -1, 4, -7)], [heard('say again', -1, 4, -2)], 0.8);
    expect(top?.worstWord).toBe(-2);
  });
});
