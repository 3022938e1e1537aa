import fc from 'fast-check';
import { expect, it } from 'vitest';
import { draftFile } from '../../src/drafting/draft-file.ts';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';

const drafted = (text: string) => draftFile(draftFrom(readTranscript(text), { name: 'talk' }));

const word = fc.constantFrom(
  ...'the a each both four two 17 13s 47 mil newton metres foot pounds bolts nut plug bracket starter on for and is has no sorry same other side T40 M8 1/2 inch of them ones front rear total , . : ? constructor __proto__ toString'.split(
    ' ',
  ),
);

it('reads any text at all', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (text) => {
      expect(typeof drafted(text)).toBe('string');
    }),
    { numRuns: 150, seed: 1 },
  );
});

it("reads the trade's words in any order", () => {
  fc.assert(
    fc.property(fc.array(word, { maxLength: 60 }), (words) => {
      expect(typeof drafted(words.join(' '))).toBe('string');
    }),
    { numRuns: 250, seed: 2 },
  );
});

const cue = fc.constantFrom(
  '00:00:01.000 --> 00:00:02.000',
  '1',
  '00:00:01,000 --> ',
  '--> 00:00:03.000',
  '99:99:99.999 --> 00:00:00.000',
  'NOTE nothing',
  '<00:00:01.500><c> four bolts',
  '</c><v Someone>17 mil',
  'the bracket has two bolts',
  '',
);

it('reads broken WebVTT and SRT', () => {
  fc.assert(
    fc.property(fc.boolean(), fc.array(cue, { maxLength: 30 }), (vtt, lines) => {
      expect(typeof drafted(`${vtt ? 'WEBVTT\n\n' : ''}${lines.join('\n')}`)).toBe('string');
    }),
    { numRuns: 150, seed: 3 },
  );
});

it('writes a file that lacks only what the talk does not say', () => {
  const text = 'Brackets. Four bolts, 13 mil, 22 newton metres. If one feels tight, stop, back it out. Wait ten minutes.';
  const parsed = parseProcedure(drafted(text), 'talk.yaml');
  const paths = parsed.ok ? [] : parsed.problems.map(({ path }) => path.replace(/\d+/, 'n'));
  expect([...new Set(paths)].sort()).toEqual(['author', 'open questions[n].answer', 'vehicle']);
});
