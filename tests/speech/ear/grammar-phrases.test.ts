import { expect, it } from 'vitest';
import { grammarFor } from '../../../src/phrasing/grammar.ts';
import { phrasesInGrammar } from '../../../src/speech/ear/grammar-phrases.ts';

it('finds the phrases that may be said in a state, and leaves numbers to the recogniser', () => {
  const grammar = grammarFor({
    state: 'measuring',
    legal: ['number', 'repeat', 'stop'],
    language: 'en',
    names: [],
    measureUnit: 'mm',
    maxCount: 1,
    nameFirst: false,
  });
  const phrases = phrasesInGrammar(grammar);
  expect(phrases).toContain('say again');
  expect(phrases.some((phrase) => phrase.includes('stop'))).toBe(true);
  expect(phrases.some((phrase) => /[<>()[\]|]/.test(phrase))).toBe(false);
});

it('takes the name apart from what is said after it', () => {
  const jsgf = '#JSGF V1.0;\ngrammar working;\npublic <command> = undertray (what torque | step done) | stop;';
  const grammar = { state: 'stating', language: 'en', jsgf, words: [], risky: [], nameFirst: true } as const;
  expect(phrasesInGrammar(grammar)).toEqual(['undertray', 'what torque', 'step done', 'stop']);
});
