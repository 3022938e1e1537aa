import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { draftOf } from '../../src/drafting/draft.ts';
import { hearTalk } from '../../src/drafting/extract.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { unfounded } from './quoted.ts';
import { compare, scoredFields, type Score, type ScoredField, type TruthRow } from './scoring.ts';

const corpus = join(import.meta.dirname, 'corpus');
const talks = readdirSync(corpus, { recursive: true, encoding: 'utf8' }).filter((file) => /\.(?:vtt|srt|txt)$/.test(file));
const sets = ['known', 'known-2', 'known-3', 'known-4', 'known-5', 'known-6', 'known-7', 'known-8', 'known-9', 'known-10'] as const;
const nothing = () =>
  Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
const sums = () => Object.fromEntries(sets.map((set) => [set, nothing()])) as Record<(typeof sets)[number], ReturnType<typeof nothing>>;
const written = sums();
const heard = sums();
const withoutEvidence: string[] = [];

beforeAll(() => {
  for (const file of talks) {
    const talk = hearTalk(readTranscript(readFileSync(join(corpus, file), 'utf8')));
    const draft = draftOf(talk, { name: file });
    const whole = draftOf(talk, { name: file, holdBack: false });
    withoutEvidence.push(...unfounded(draft).map((told) => `${file}: ${told}`), ...unfounded(whole).map((told) => `${file}: ${told}`));
    const set = sets.find((one) => dirname(file) === one);
    if (set === undefined) continue;
    const truth = JSON.parse(readFileSync(join(corpus, file.replace(/\.\w+$/, '.truth.json')), 'utf8')) as readonly TruthRow[];
    for (const [totals, { groups }] of [
      [written, draft],
      [heard, whole],
    ] as const) {
      const { scores } = compare(truth, groups);
      for (const field of scoredFields) {
        totals[set][field].given += scores[field].given;
        totals[set][field].right += scores[field].right;
        totals[set][field].wanted += scores[field].wanted;
      }
    }
  }
}, 120_000);

// Just below what is reached on the talk-throughs that were read; the aims, 0.95 and 0.9, are for unseen ones.
it.each([
  ['known', 'count', 0.895, 0.865, 0.965],
  ['known', 'size', 0.945, 0.925, 0.975],
  ['known', 'torque', 0.925, 0.895, 0.975],
  ['known-2', 'count', 0.82, 0.775, 0.935],
  ['known-2', 'size', 0.915, 0.89, 0.97],
  ['known-2', 'torque', 0.865, 0.825, 0.96],
  ['known-3', 'count', 0.835, 0.775, 0.88],
  ['known-3', 'size', 0.91, 0.89, 0.96],
  ['known-3', 'torque', 0.885, 0.885, 0.955],
  ['known-4', 'count', 0.875, 0.845, 0.94],
  ['known-4', 'size', 0.89, 0.88, 0.965],
  ['known-4', 'torque', 0.795, 0.76, 0.925],
  ['known-5', 'count', 0.765, 0.7, 0.925],
  ['known-5', 'size', 0.905, 0.84, 0.925],
  ['known-5', 'torque', 0.75, 0.6, 0.9],
  ['known-6', 'count', 0.89, 0.825, 0.925],
  ['known-6', 'size', 0.94, 0.92, 0.955],
  ['known-6', 'torque', 0.875, 0.805, 0.94],
  ['known-7', 'count', 0.935, 0.895, 0.965],
  ['known-7', 'size', 0.99, 0.97, 0.995],
  ['known-7', 'torque', 0.985, 0.98, 0.995],
  ['known-8', 'count', 0.86, 0.85, 0.975],
  ['known-8', 'size', 0.965, 0.94, 0.975],
  ['known-8', 'torque', 0.875, 0.845, 0.94],
  ['known-9', 'count', 0.94, 0.94, 0.94],
  ['known-9', 'size', 0.98, 0.98, 0.98],
  ['known-9', 'torque', 0.975, 0.91, 0.975],
  ['known-10', 'count', 0.805, 0.78, 0.88],
  ['known-10', 'size', 0.88, 0.835, 0.885],
  ['known-10', 'torque', 0.865, 0.73, 0.92],
] as const)(
  'hears in %s of %s %d of all there are, and writes %d, of which %d are right',
  (set, field, heardRecall, writtenRecall, writtenPrecision) => {
    const share = (part: number, all: number) => part / Math.max(1, all);
    expect(share(heard[set][field].right, heard[set][field].wanted)).toBeGreaterThanOrEqual(heardRecall);
    expect(share(written[set][field].right, written[set][field].wanted)).toBeGreaterThanOrEqual(writtenRecall);
    expect(share(written[set][field].right, written[set][field].given)).toBeGreaterThanOrEqual(writtenPrecision);
  },
);

it('quotes for every value of every talk a sentence that says it', () => {
  expect(talks.length).toBeGreaterThan(80);
  expect(withoutEvidence).toEqual([]);
});
