import { describe, expect, it } from 'vitest';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { compare, type TruthRow } from './scoring.ts';

const told = (talk: string) => draftFrom(readTranscript(talk), { name: 'talk' }).groups;
const pan = told('The pan has four 10 millimetre bolts, eight foot-pounds.');
const scores = (truth: readonly TruthRow[], groups = pan) => compare(truth, groups).scores;

describe('one entry and its group', () => {
  it('judges only the fields that the entry has', () => {
    const { count, size, torque } = scores([{ match: 'pan bolts', count: 4 }]);
    expect([count, size, torque]).toEqual([
      { given: 1, right: 1, wanted: 1 },
      { given: 0, right: 0, wanted: 0 },
      { given: 0, right: 0, wanted: 0 },
    ]);
  });

  it('takes null for "nothing was said"', () => {
    expect(scores([{ match: 'pan bolts', count: null }]).count).toEqual({ given: 1, right: 0, wanted: 0 });
  });

  it.each(['ft-lb', 'lbf·ft', 'foot pounds', 'lb ft'])('knows foot-pounds written as %s', (unit) => {
    expect(scores([{ match: 'pan bolts', torque: 8, unit }]).unit).toEqual({ given: 1, right: 1, wanted: 1 });
  });

  it.each([
    ['9/16', 'inch'],
    [0.5625, 'in'],
  ])('knows a size written as %s %s', (size, sizeUnit) => {
    const groups = told('The pan has four nine-sixteenths bolts.');
    expect(scores([{ match: 'pan bolts', size, sizeUnit }], groups).size).toEqual({ given: 1, right: 1, wanted: 1 });
  });

  it('takes the middle of a range, or both of its ends', () => {
    const groups = told('The pan has four bolts, 13 millimetre, 20 to 30 newton metres.');
    expect(scores([{ match: 'pan bolts', torque: 25, unit: 'Nm' }], groups).torque.right).toBe(1);
    expect(scores([{ match: 'pan bolts', torque: '20-30', unit: 'Nm' }], groups).torque.right).toBe(1);
    expect(scores([{ match: 'pan bolts', torque: 30, unit: 'Nm' }], groups).torque.right).toBe(0);
  });
});

it('counts a group that no entry names as wrong', () => {
  const groups = told('The pan has four 10 millimetre bolts. The starter has two 13 millimetre bolts.');
  expect(scores([{ match: 'pan bolts', count: 4, size: 10, sizeUnit: 'mm' }], groups).size).toEqual({ given: 2, right: 1, wanted: 1 });
});

it('adds the counts of fasteners alike that are two entries and one group', () => {
  const truth = [
    { match: 'pan bolts front', count: 1, size: 10, sizeUnit: 'mm', torque: 8, unit: 'ft-lb' },
    { match: 'pan bolts rear', count: 3, size: 10, sizeUnit: 'mm', torque: 8, unit: 'ft-lb' },
  ];
  expect(scores(truth).count).toEqual({ given: 2, right: 2, wanted: 2 });
  expect(scores(truth.map((row) => ({ ...row, count: 3 }))).count.right).toBe(0);
});

it('adds the counts of fasteners alike that are one entry and two groups', () => {
  const groups = pan.flatMap((group) => [
    { ...group, group: 'a', name: 'pan bolt, front', count: 1 },
    { ...group, group: 'b', name: 'pan bolt, rear', count: 3 },
  ]);
  expect(scores([{ match: 'pan bolts', count: 4 }], groups).count).toEqual({ given: 1, right: 1, wanted: 1 });
  expect(scores([{ match: 'pan bolts', count: 6 }], groups).count.right).toBe(0);
});
