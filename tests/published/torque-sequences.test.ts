import { describe, expect, it } from 'vitest';
import { makePasses, parseStages, usualStages } from '../../src/torque/passes.ts';
import { starOrder } from '../../src/torque/sequences.ts';

describe('star orders, positions numbered clockwise', () => {
  // The legacy orders of ASME PCC-1 and the five-stud wheel's, from memory, but for 12, which was seen second-hand.
  it.each([
    [4, [1, 3, 2, 4]],
    [5, [1, 3, 5, 2, 4]],
    [8, [1, 5, 3, 7, 2, 6, 4, 8]],
    [12, [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]],
    [16, [1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16]],
    [20, [1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19]],
    [24, [1, 13, 7, 19, 4, 16, 10, 22, 2, 14, 8, 20, 5, 17, 11, 23, 3, 15, 9, 21, 6, 18, 12, 24]],
  ])('for %d', (count, positions) => {
    expect(starOrder(count).map((index) => index + 1)).toEqual(positions);
  });
});

describe('passes', () => {
  it('go by about 30, 60 to 70 and 100 percent, then once round (ASME PCC-1 practice, second-hand)', () => {
    const shares = usualStages.map((stage) => (stage.kind === 'share' ? stage.percent : stage.kind));
    expect(shares[0]).toBe(30);
    expect(shares[1]).toBeGreaterThanOrEqual(60);
    expect(shares[1]).toBeLessThanOrEqual(70);
    expect(shares.slice(2)).toEqual([100, 'check']);
  });

  // Torque then angle, seen in service data.
  it.each([
    ['25 N·m + 100°', [25, 100]],
    ['30 N·m + 155°', [30, 155]],
    ['20 N·m → 40 N·m → +60° → +80°', [20, 40, 60, 80]],
  ])('take %s', (text, values) => {
    const stages = parseStages(text);
    if (!stages.ok) throw new Error(stages.problem.code);
    const made = makePasses(stages.value, null, [0], [0]);
    if (!made.ok) throw new Error(made.problems[0]?.code);
    expect(made.passes.map(({ torque, angle }) => torque?.value ?? angle)).toEqual(values);
  });
});
