import { describe, expect, it } from 'vitest';
import { fuzz } from './fuzz.ts';
import { mutated, seeded } from './mutate.ts';
import type { Target } from './targets.ts';
import { targets } from './targets.ts';

const noClock = () => 0;

it.each(targets.map((target) => [target.name, target] as const))('%s, changed in twenty ways, do no harm', (_, target) => {
  expect(fuzz([target], { inputs: 20, seed: 20_260_101, processorTime: noClock }).findings).toEqual([]);
});

describe('the fuzzer itself', () => {
  const finds = (use: Target['use'], processorTime = noClock) =>
    fuzz([{ name: 'planted', share: 1, seeds: ['a text to change'], use }], { inputs: 400, seed: 1, processorTime }).findings.map(
      ({ what }) => what,
    );

  it('finds a planted crash, hang, leak and prototype', () => {
    expect(
      finds(() => {
        throw new Error('planted');
      })[0],
    ).toContain('planted');
    let clock = 0;
    expect(
      finds(
        () => [],
        () => (clock += 1500),
      )[0],
    ).toContain('took 1500 ms');
    expect(finds((text) => [`<p>${text}</p>`])).toContain('markup came through');
    expect(
      finds(() => {
        Object.defineProperty(Object.prototype, 'planted', { value: 1, configurable: true });
        return [];
      }),
    ).toEqual(['a prototype was changed']);
    Reflect.deleteProperty(Object.prototype, 'planted');
  });

  it('makes the same inputs of the same seed', () => {
    const inputs = (seed: number) => {
      const random = seeded(seed);
      return Array.from({ length: 5 }, () => mutated('some text', ['other'], random));
    };
    expect(inputs(7)).toEqual(inputs(7));
    expect(inputs(7)).not.toEqual(inputs(8));
  });
});
