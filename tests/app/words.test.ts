import { describe, expect, it } from 'vitest';
import { en } from '../../src/app/words/en.ts';
import { fr } from '../../src/app/words/fr.ts';
import { typesetWords } from '../../src/app/words/typeset-words.ts';

/** Every text of a set of words by its path; functions are called with the same plain values on both sides. */
function textsOf(words: unknown, path = ''): readonly (readonly [string, string])[] {
  if (typeof words === 'string') return [[path, words]];
  if (typeof words === 'function') return textsOf((words as (...of: unknown[]) => unknown)('2', '3', '4'), path);
  if (typeof words === 'object' && words !== null)
    return Object.entries(words).flatMap(([key, value]) => textsOf(value, path === '' ? key : `${path}.${key}`));
  throw new Error(`${path} is neither a text nor a function that makes one`);
}

/** The same in both languages: names, symbols, and words that are spelled alike. */
const alike = ['name', 'work.final', 'work.noteText', 'work.passKinds.angle', 'work.signals.DANGER'];

describe('the words of the screens', () => {
  it('are all there in French, and none was left in English', () => {
    const english = new Map(textsOf(en));
    const french = new Map(textsOf(fr));
    expect([...french.keys()].sort()).toEqual([...english.keys()].sort());
    const same = [...french].filter(([path, text]) => text === english.get(path) && !alike.includes(path)).map(([path]) => path);
    expect(same).toEqual([]);
  });

  it('do not break a French line before its signs', () => {
    const loose = textsOf(fr).filter(([, text]) => / [?!;:»]|« /u.test(text));
    expect(loose).toEqual([]);
  });
});

describe('typesetting words', () => {
  it('reaches into functions, lists and what is nested', () => {
    const set = typesetWords({ a: 'Quoi ?', list: ['Oui !', { b: (n: number) => `« ${n} »` }] });
    expect(set.a).toBe('Quoi\u00a0?');
    const second = set.list[1];
    expect(set.list[0]).toBe('Oui\u00a0!');
    expect(typeof second === 'object' ? second.b(3) : null).toBe('«\u00a03\u00a0»');
  });
});
