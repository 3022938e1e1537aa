import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { unfounded } from './quoted.ts';
import { compare, scoredFields, type Score, type ScoredField, type TruthRow } from './scoring.ts';

const corpus = join(import.meta.dirname, 'corpus');
const talks = readdirSync(corpus, { recursive: true, encoding: 'utf8' }).filter((file) => /\.(?:vtt|srt|txt)$/.test(file));
const sets = ['known', 'known-2'] as const;
const nothing = () =>
  Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
const sums = { known: nothing(), 'known-2': nothing() };
const withoutEvidence: string[] = [];

beforeAll(() => {
  for (const file of talks) {
    const draft = draftFrom(readTranscript(readFileSync(join(corpus, file), 'utf8')), { name: file });
    withoutEvidence.push(...unfounded(draft).map((told) => `${file}: ${told}`));
    const set = sets.find((one) => dirname(file) === one);
    if (set === undefined) continue;
    const truth = JSON.parse(readFileSync(join(corpus, file.replace(/\.\w+$/, '.truth.json')), 'utf8')) as readonly TruthRow[];
    const { scores } = compare(truth, draft.groups);
    for (const field of scoredFields) {
      sums[set][field].given += scores[field].given;
      sums[set][field].right += scores[field].right;
      sums[set][field].wanted += scores[field].wanted;
    }
  }
}, 120_000);

// Just below what is reached on the talk-throughs that the rules were made with; the aims, 0.95 and 0.9, are for unseen ones.
it.each([
  ['known', 'count', 0.93, 0.888],
  ['known', 'size', 0.96, 0.94],
  ['known', 'torque', 0.955, 0.91],
  ['known-2', 'count', 0.905, 0.805],
  ['known-2', 'size', 0.945, 0.9],
  ['known-2', 'torque', 0.925, 0.85],
] as const)('hears in %s the %s with a precision of %d and a recall of %d', (set, field, precision, recall) => {
  const { given, right, wanted } = sums[set][field];
  expect(right / given).toBeGreaterThanOrEqual(precision);
  expect(right / wanted).toBeGreaterThanOrEqual(recall);
});

it('quotes for every value of every talk a sentence that says it', () => {
  expect(talks.length).toBeGreaterThan(80);
  expect(withoutEvidence).toEqual([]);
});
