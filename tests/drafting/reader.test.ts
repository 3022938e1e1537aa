import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { talkReader } from '../../src/cli/talk-reader.ts';
import { draftFrom, draftOf, hearAndRead } from '../../src/drafting/draft.ts';
import { hearTalk } from '../../src/drafting/extract.ts';
import { mostNodes, readerFrom } from '../../src/drafting/reader/net.ts';
import { viewOf } from '../../src/drafting/reader/view.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { Matrices } from '../../src/nets/matrices.ts';
import { unfounded } from './quoted.ts';
import { compare, type Score, type TruthRow } from './scoring.ts';

const read = talkReader();
const corpus = join(import.meta.dirname, 'corpus');
const draft = (text: string) => draftFrom(readTranscript(text), { name: 'practice', read });

const plain = `Right, the gearbox crossmember. Four bolts, eighteen mil heads, and they go to fifty-five newton metres.
The drain plug is a 24 and that gets 30 newton metres. Undertray last: ten screws, ten mil, six newton metres.`;

describe('the reader of talks', () => {
  it('reads a plain talk as the rules do', () => {
    const told = draft(plain).groups.map(({ count, size, torque, unit }) => [count, size, torque, unit]);
    expect(told).toEqual([
      [4, '18', 55, 'N·m'],
      [1, '24', 30, 'N·m'],
      [10, '10', 6, 'N·m'],
    ]);
  });

  it('takes a number said again in the unit that it was told in first, and asks for the unit where another fits the head much better', () => {
    const clips = 'The clips have six screws, ten mil heads, nought point nine kilogram metres.';
    const again = draft(`The arms have two nuts, 24 mil, one forty-five newton metres. ${clips} Then the arm nuts again, one forty-five.`);
    expect(again.groups.map(({ torque, unit }) => [torque, unit])).toEqual([
      [145, 'N·m'],
      [0.9, 'kgf·m'],
    ]);
    const bare = draft(`The beam has four bolts, 18 mil, ninety newton metres. ${clips} The arms have two nuts, 24 mil, one forty-five.`);
    expect(bare.groups.map(({ torque, unit }) => [torque, unit])).toEqual([
      [90, 'N·m'],
      [0.9, 'kgf·m'],
      [145, null],
    ]);
    expect(bare.questions.map(({ ask }) => ask)).toContainEqual(expect.stringContaining('in which unit is the torque of 145?'));
  });

  it('gives the same draft each time, whatever it read before', () => {
    const first = JSON.stringify(draft(plain));
    draft('Two bolts, 13, twenty foot-pounds.');
    expect(JSON.stringify(draft(plain))).toBe(first);
  });

  it('takes a talk that says nothing, and one of a single word', () => {
    expect(draft('').groups).toEqual([]);
    expect(draft('Bolts.').groups).toEqual([]);
  });

  it('leaves a talk that is too long for it to the rules', () => {
    const long = readTranscript(Array.from({ length: 500 }, (_, at) => `Bracket ${at}: two bolts, 13 mil, 20 newton metres.`).join('\n'));
    const heard = hearTalk(long);
    expect(viewOf(heard, long.words).nodes.length).toBeGreaterThan(mostNodes);
    expect(JSON.stringify(draftFrom(long, { name: 'long', read }))).toBe(JSON.stringify(draftOf(heard, { name: 'long' })));
  });

  it('says what is wrong with a file that is no net, or lacks a part', () => {
    expect(() => readerFrom(new TextEncoder().encode('EAR1, but not a talk'), new Matrices())).toThrow(
      /expected a file that begins with RDR1/,
    );
    const header = new TextEncoder().encode(
      '{"width":4,"heads":1,"windows":[],"pairWidth":4,"nodeBlocks":0,"suffixes":1,"vocabulary":[],"rarity":{},"arrays":[]}',
    );
    const file = new Uint8Array(8 + header.length);
    file.set(new TextEncoder().encode('RDR1'));
    new DataView(file.buffer).setUint32(4, header.length, true);
    file.set(header, 8);
    expect(() => readerFrom(file, new Matrices())).toThrow(/lacks word/);
  });
});

function addTo(sum: Score, more: Score): void {
  for (const key of ['given', 'right', 'wanted'] as const) sum[key] += more[key];
}

function expectAtLeast({ given, right, wanted }: Score, precision: number, recall: number): void {
  expect(right / given).toBeGreaterThanOrEqual(precision);
  expect(right / wanted).toBeGreaterThanOrEqual(recall);
}

describe('on talk that no rule was written for', () => {
  const sets = ['held-out-9', 'held-out-10', 'held-out-11', 'held-out-12'] as const;
  /** Nothing of these was read, fitted or chosen by; of the other one talk was looked at and limits were set on it. */
  const unread = ['held-out-9', 'held-out-10', 'held-out-12'] as const;
  const fields = ['count', 'size', 'torque'] as const;
  const scores = new Map<string, Record<(typeof fields)[number], Score>>();
  const withoutEvidence: string[] = [];

  beforeAll(() => {
    for (const set of sets) {
      const sums = Object.fromEntries(fields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<
        (typeof fields)[number],
        Score
      >;
      scores.set(set, sums);
      for (const file of readdirSync(join(corpus, set)).filter((one) => /\.(?:vtt|srt|txt)$/.test(one))) {
        const heard = hearAndRead(readTranscript(readFileSync(join(corpus, set, file), 'utf8')), read);
        const drafted = draftOf(heard, { name: file });
        withoutEvidence.push(...unfounded(drafted).map((told) => `${file}: ${told}`));
        withoutEvidence.push(...unfounded(draftOf(heard, { name: file, holdBack: false })).map((told) => `${file}, all: ${told}`));
        const truth = JSON.parse(readFileSync(join(corpus, set, file.replace(/\.\w+$/, '.truth.json')), 'utf8')) as readonly TruthRow[];
        const compared = compare(truth, drafted.groups);
        for (const field of fields) addTo(sums[field], compared.scores[field]);
      }
    }
  }, 120_000);

  // Just below what is reached.
  it.each([
    ['held-out-9', 'count', 0.95, 0.95],
    ['held-out-9', 'size', 0.99, 0.97],
    ['held-out-9', 'torque', 0.97, 0.95],
    ['held-out-10', 'count', 0.93, 0.92],
    ['held-out-10', 'size', 0.95, 0.95],
    ['held-out-10', 'torque', 0.9, 0.87],
    ['held-out-11', 'count', 0.91, 0.88],
    ['held-out-11', 'size', 0.96, 0.94],
    ['held-out-11', 'torque', 0.95, 0.92],
    ['held-out-12', 'count', 0.96, 0.93],
    ['held-out-12', 'size', 0.96, 0.93],
    ['held-out-12', 'torque', 0.97, 0.94],
  ] as const)('writes of %s no %s but what is right in %d, and of all there are %d', (set, field, precision, recall) => {
    expectAtLeast(scores.get(set)![field], precision, recall);
  });

  it.each(fields)('writes no %s of what nobody read but what is right in 0.95, and of all there are 0.9', (field) => {
    const sum = { given: 0, right: 0, wanted: 0 };
    for (const set of unread) addTo(sum, scores.get(set)![field]);
    expectAtLeast(sum, 0.95, 0.9);
  });

  it('quotes for every value a sentence that says it', () => {
    expect(withoutEvidence).toEqual([]);
  });
});
