import { expect, it } from 'vitest';
import { sentencesOf } from '../../src/drafting/sentences.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';

const cut = (text: string) => sentencesOf(readTranscript(text)).map((sentence) => sentence.text);

it.each([
  ['a subject with its verb', "they're thirteen millimeter | the pan has six tens"],
  ['a name that is counted at once', 'those are forty seven foot pounds | hanger bearing two thirteens'],
  ['an order', 'run them in by hand | start all six before you tighten any of them'],
  ['a word that opens', 'you push them in till they click | now the mount has two nuts'],
  ['a place and what is there', "fifty nine foot pounds on them | at the front of the diff there's the long bolt"],
  ['a name said twice', "let's do the steering | steering shaft has one bolt"],
  ['a word of place that no name goes on with', 'eighty nine for the through bolt | rear mount is two nuts'],
])('cuts captions without punctuation before %s', (_, text) => {
  expect(cut(text.replace(' | ', ' '))).toEqual(text.split(' | '));
});

it.each([
  'the nuts on the outside are thirty two',
  'you got four bolts on the left side of the case',
  'those are fifteen no wait thirteen millimeter',
  'the two at the bottom that go into the pan',
  'it takes six ten millimeter bolts',
])('leaves "%s" whole', (text) => {
  expect(cut(text)).toEqual([text]);
});

it.each([
  ['what comes back', "so putting it back my dad's on the forklift"],
  ['each after what was counted', "there's two clamps with one nut each fifteen"],
  ['the ones of a number', 'the rears are twenty ones fronts are a hundred'],
])('keeps %s together', (_, text) => {
  const [first] = cut(text);
  expect(first).toMatch(/back|each|ones/);
});

it('leaves out who speaks, and nothing that only looks so', () => {
  const words = (text: string) => sentencesOf(readTranscript(text)).map(({ tokens }) => tokens.map(({ bare }) => bare).join(' '));
  const talk = 'Otto: Two bolts. Ines: What size? Otto: Thirteen. Ines: And the torque? Otto: Twenty. Ines: Right.';
  expect(words(talk)).toEqual(['two bolts', 'what size', 'thirteen', 'and the torque', 'twenty', 'right']);
  expect(words('Mount: two bolts. Mount: one nut. Mount: one stud.')).toEqual(['mount two bolts', 'mount one nut', 'mount one stud']);
});
