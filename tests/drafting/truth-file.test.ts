import { expect, it } from 'vitest';
import { readTruth } from './truth-file.ts';

it('takes entries with any of the fields', () => {
  expect(readTruth('[{"match": "sump bolts", "count": 4, "size": "9/16", "torque": [5, 7]}, {"match": "plug", "torque": "5-7"}]').ok).toBe(
    true,
  );
});

it.each([
  ['{', 'not JSON'],
  ['{}', 'expected a list'],
  ['[4]', 'entry 1: expected an object'],
  ['[{"count": 4}]', 'entry 1: expected "match"'],
  ['[{"match": "a"}, {"match": "b", "count": 1.5}]', 'entry 2: count: expected a whole number, found 1.5'],
  ['[{"match": "a", "torque": "much"}]', 'entry 1: torque: expected a number'],
  ['[{"match": "a", "colour": 1}]', 'unknown field "colour"'],
])('says what is wrong with %s', (text, problem) => {
  const read = readTruth(text);
  expect(read.ok ? '' : read.problem).toContain(problem);
});
