import { grammarFor } from '../../../phrasing/grammar.ts';
import { dialogueStates, intentNames, type DialogueState } from '../../../phrasing/intents.ts';
import { plainUnits } from '../../../phrasing/measure-units.ts';
import { packFor } from '../../../phrasing/packs.ts';
import { torqueUnits } from '../../../torque/quantities.ts';
import { englishFrom, pronounce, readDictionary } from '../pronunciations.ts';

/**
 * The part of a pronunciation dictionary (CMU format) that the English ear can come to need: every word of every grammar, whatever the unit
 * of a measure, and the names that people sign with. In the same format, in alphabetical order. A word that the dictionary lacks
 * stands in it as the ear would make it up, so that the two agree.
 */
export function neededDictionary(whole: string, names: readonly string[]): string {
  const known = readDictionary(whole);
  const dictionary = englishFrom(known);
  const words = new Set([...grammarWords(), ...names.filter((name) => known.has(name))]);
  return [...words]
    .sort()
    .flatMap((word) => pronounce(word, dictionary).map((phones, index) => `${word}${index === 0 ? '' : `(${index + 1})`}\t${phones}\n`))
    .join('');
}

/** Every word that some grammar of some state can have, but for people's names. */
export function grammarWords(): ReadonlySet<string> {
  const { lexicon } = packFor('en');
  const wish = { legal: intentNames, language: 'en', names: [], maxCount: Infinity } as const;
  const wordsIn = (state: DialogueState, measureUnit: string | null): readonly string[] =>
    grammarFor({ ...wish, state, measureUnit, nameFirst: true }).words;
  return new Set([
    ...dialogueStates.flatMap((state) => wordsIn(state, null)),
    ...[...plainUnits, ...torqueUnits].flatMap((unit) => wordsIn('measuring', unit)),
    ...lexicon.signCarriers.flatMap((carrier) => carrier.toLowerCase().split(' ')),
  ]);
}
