import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { englishPronunciations, pronounce, readDictionary } from '../../../src/speech/hearing/pronunciations.ts';
import { grammarWords, neededDictionary } from '../../../src/speech/hearing/training/dictionary.ts';

const read = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');
const whole = read('node_modules/soundswallower/model/en-us/dict.txt');
const shipped = read('src/speech/hearing/models/dictionary.txt');
const names = read('src/speech/hearing/training/names.txt').trim().split('\n');

describe('the dictionary that ships', () => {
  it('is what training/make-dictionary.mjs makes of the commands of today', () => {
    expect(shipped === neededDictionary(whole, names), 'npx tsx src/speech/hearing/training/make-dictionary.mjs').toBe(true);
  });

  it('has every word of every grammar speak as the whole dictionary does', () => {
    const [before, after] = [englishPronunciations(whole), englishPronunciations(shipped)];
    const words = [...grammarWords()];
    expect(words.length).toBeGreaterThan(300);
    expect(words.filter((word) => pronounce(word, after).join('|') !== pronounce(word, before).join('|'))).toEqual([]);
  });

  it('knows the names that people sign with', () => {
    const dictionary = readDictionary(shipped);
    expect(['robin', 'marsh', 'alex', 'siobhan', 'wilson'].filter((name) => !dictionary.has(name))).toEqual([]);
  });
});
