import { expect, it } from 'vitest';
import { draftFile } from '../../src/drafting/draft-file.ts';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { parseProcedure } from '../../src/procedure/parse.ts';

const talk = 'The bracket has two 13 millimetre bolts. The pan has four 10 millimetre bolts, eight newton metres.';
const draft = draftFrom(readTranscript(talk), { name: 'practice' });

it('gives every value its sentence', () => {
  expect(draft.groups.flatMap(({ evidence }) => evidence).every(({ said }) => said !== '' && talk.includes(said))).toBe(true);
  expect(draft.groups.map(({ count, torque }) => [count, torque])).toEqual([
    [2, null],
    [4, 8],
  ]);
});

it('asks for a torque that was not said, with numbered questions', () => {
  expect(draft.questions.map(({ number }) => number)).toEqual(draft.questions.map((_, index) => index + 1));
  expect(draft.questions.filter(({ ask }) => ask.endsWith('which torque?'))).toHaveLength(1);
});

it('is refused until every question is answered', () => {
  const whole = draftFile(draft).replace('title:', 'vehicle: Brindle B4\nauthor: A tester\ntitle:');
  const refused = parseProcedure(whole, 'practice.yaml');
  const problems = refused.ok ? [] : refused.problems;
  expect(problems.map(({ path }) => path)).toEqual(draft.questions.map((_, index) => `open questions[${index}].answer`));
  const answered = whole.replace(/^( +)ask: /gm, "$1answer: look it up in the maker's manual\n$1ask: ");
  expect(parseProcedure(answered, 'practice.yaml').ok).toBe(true);
});
