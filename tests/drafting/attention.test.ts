import { expect, it } from 'vitest';
import { attend, shares } from '../../src/drafting/reader/attention.ts';
import { Matrices } from '../../src/nets/matrices.ts';
import { seeded } from '../fuzz/mutate.ts';

const [width, heads] = [8, 2];
const size = width / heads;

it.each([
  [1, 3],
  [70, 5],
  [200, 40],
  [130, 130],
])('looks at %d columns as plain loops do, %d to each side', (many, reach) => {
  const random = seeded(many);
  const qkv = Array.from({ length: many }, () => Float32Array.from({ length: 3 * width }, () => random() * 4 - 2));
  const speak = (at: number, other: number, bias: Float32Array) => bias.set([(at - other) / 50, (at % 3) / 2]);
  const seen = attend(new Matrices(), qkv, reach, heads, speak);
  qkv.forEach((own, at) => {
    for (let head = 0; head < heads; head++) {
      const [first, last] = [Math.max(0, at - reach), Math.min(many - 1, at + reach)];
      const near = qkv.slice(first, last + 1);
      const bias = new Float32Array(heads);
      const scores = near.map((theirs, index) => {
        speak(at, first + index, bias);
        let score = 0;
        for (let k = head * size; k < (head + 1) * size; k++) score += own[k]! * theirs[width + k]!;
        return score / Math.sqrt(size) + bias[head]!;
      });
      const parts = shares(Float32Array.from(scores));
      for (let k = head * size; k < (head + 1) * size; k++)
        expect(seen[at]![k]).toBeCloseTo(
          near.reduce((sum, theirs, index) => sum + parts[index]! * theirs[2 * width + k]!, 0),
          4,
        );
    }
  });
});
