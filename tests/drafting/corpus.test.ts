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
const sets = ['known', 'known-2', 'known-3', 'known-4', 'known-5'] as const;
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
  ['known', 'count', 0.885, 0.835, 0.955],
  ['known', 'size', 0.94, 0.925, 0.965],
  ['known', 'torque', 0.915, 0.865, 0.975],
  ['known-2', 'count', 0.815, 0.77, 0.94],
  ['known-2', 'size', 0.91, 0.895, 0.965],
  ['known-2', 'torque', 0.86, 0.815, 0.955],
  ['known-3', 'count', 0.81, 0.79, 0.88],
  ['known-3', 'size', 0.885, 0.89, 0.96],
  ['known-3', 'torque', 0.88, 0.885, 0.92],
  ['known-4', 'count', 0.82, 0.735, 0.92],
  ['known-4', 'size', 0.845, 0.83, 0.915],
  ['known-4', 'torque', 0.73, 0.625, 0.94],
  ['known-5', 'count', 0.715, 0.665, 0.91],
  ['known-5', 'size', 0.885, 0.805, 0.905],
  ['known-5', 'torque', 0.65, 0.49, 0.815],
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
