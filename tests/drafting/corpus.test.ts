import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { unfounded } from './quoted.ts';
import { compare, scoredFields, type Score, type ScoredField, type TruthRow } from './scoring.ts';

const corpus = join(import.meta.dirname, 'corpus');
const talks = readdirSync(corpus, { recursive: true, encoding: 'utf8' }).filter((file) => /\.(?:vtt|srt|txt)$/.test(file));
const sums = Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
const withoutEvidence: string[] = [];

beforeAll(() => {
  for (const file of talks) {
    const draft = draftFrom(readTranscript(readFileSync(join(corpus, file), 'utf8')), { name: file });
    withoutEvidence.push(...unfounded(draft).map((told) => `${file}: ${told}`));
    if (!file.startsWith('known')) continue;
    const truth = JSON.parse(readFileSync(join(corpus, file.replace(/\.\w+$/, '.truth.json')), 'utf8')) as readonly TruthRow[];
    const { scores } = compare(truth, draft.groups);
    for (const field of scoredFields) {
      sums[field].given += scores[field].given;
      sums[field].right += scores[field].right;
      sums[field].wanted += scores[field].wanted;
    }
  }
}, 120_000);

// Just below what is reached on the talk-throughs that the rules were made with; the aims, 0.95 and 0.9, are for unseen ones.
it.each([
  ['count', 0.925, 0.885],
  ['size', 0.96, 0.94],
  ['torque', 0.955, 0.91],
] as const)('hears the %s with a precision of %d and a recall of %d', (field, precision, recall) => {
  const { given, right, wanted } = sums[field];
  expect(right / given).toBeGreaterThanOrEqual(precision);
  expect(right / wanted).toBeGreaterThanOrEqual(recall);
});

it('quotes for every value of every talk a sentence that says it', () => {
  expect(talks.length).toBeGreaterThan(80);
  expect(withoutEvidence).toEqual([]);
});
