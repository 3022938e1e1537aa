import fc from 'fast-check';
import { expect, it } from 'vitest';
import { idMaker } from '../../../src/app/author/form/kinds.ts';
import { leastChange } from '../../../src/app/author/text/least-change.ts';

it('finds the one piece in which two texts differ', () => {
  expect(leastChange('count: 2\n', 'count: 12\n')).toEqual({ from: 7, to: 7, insert: '1' });
  expect(leastChange('aaa', 'aa')).toEqual({ from: 2, to: 3, insert: '' });
  fc.assert(
    fc.property(fc.string(), fc.string(), fc.string(), fc.string(), (head, old, next, tail) => {
      const [before, after] = [head + old + tail, head + next + tail];
      const { from, to, insert } = leastChange(before, after);
      expect(before.slice(0, from) + insert + before.slice(to)).toBe(after);
      expect(insert.length).toBeLessThanOrEqual(next.length);
    }),
  );
});

it('makes ids that the text does not have, and none twice', () => {
  const newId = idMaker('- id: step-1\n- id: step-2-left\n- id: step-3\n');
  expect([newId('step'), newId('step'), newId('stage')]).toEqual(['step-2', 'step-4', 'stage-1']);
});
