import { readFileSync } from 'node:fs';
import { legalIn } from '../../../src/job/legal.ts';
import { grammarFor } from '../../../src/phrasing/grammar.ts';
import { dialogueStates } from '../../../src/phrasing/intents.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { readDictionary } from '../../../src/speech/hearing/pronunciations.ts';

const pack = packFor('fr');

/** Every word that a French grammar can hold, but for people's names. */
export function frenchVocabulary(): readonly string[] {
  const words = new Set<string>();
  for (const state of dialogueStates) {
    for (const measureUnit of [null, ...Object.keys(pack.units.heard)]) {
      const wish = { state, legal: legalIn[state], language: 'fr', names: [], measureUnit, maxCount: 8, nameFirst: true } as const;
      for (const word of grammarFor(wish).words) words.add(word);
    }
  }
  return [...words].sort();
}

const ownWays: Readonly<Record<string, readonly string[]>> = pack.lexicon.pronunciations;

/** What src/speech/hearing/models/french-words.txt must hold: our own pronunciations first, else those of soundswallower's French dictionary. */
export function frenchWordList(): { readonly text: string; readonly unknown: readonly string[] } {
  const path = new URL('../../../node_modules/soundswallower/model/fr-fr/dict.txt', import.meta.url);
  const dictionary = readDictionary(readFileSync(path, 'utf8'));
  const unknown: string[] = [];
  const lines = frenchVocabulary().flatMap((word) => {
    const ways = ownWays[word] ?? dictionary.get(word);
    if (ways === undefined) unknown.push(word);
    return [...new Set(ways ?? [])].map((phones, index) => `${index === 0 ? word : `${word}(${index + 1})`} ${phones}\n`);
  });
  return { text: lines.join(''), unknown };
}
