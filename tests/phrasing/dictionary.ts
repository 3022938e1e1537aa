import { readFileSync } from 'node:fs';
import type { Language } from '../../src/phrasing/language.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import type { Pronounce } from '../../src/phrasing/sounds.ts';

const folders: Readonly<Record<Language, string>> = { en: 'en-us', fr: 'fr-fr' };

/** The recogniser's own dictionary, with what the language adds to it. */
export function pronouncer(language: Language): Pronounce {
  const ready = loaded.get(language) ?? load(language);
  loaded.set(language, ready);
  return ready;
}

const loaded = new Map<Language, Pronounce>();

function load(language: Language): Pronounce {
  const path = new URL(`../../node_modules/soundswallower/model/${folders[language]}/dict.txt`, import.meta.url);
  const known = new Map<string, readonly string[]>();
  for (const row of readFileSync(path, 'utf8').split('\n')) {
    const [word = '', ...phones] = row.trim().split(/\s+/u);
    if (word !== '' && !word.includes('(')) known.set(word, phones);
  }
  for (const [word, [first = '']] of Object.entries(packFor(language).lexicon.pronunciations)) known.set(word, first.split(' '));
  return (word) => known.get(word) ?? null;
}
