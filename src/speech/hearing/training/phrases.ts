/**
 * Writes what can be said to the app in a language, a line each, for texts.py: `tsx phrases.ts en > phrases-en.tsv`.
 * "command<TAB>text" for every wording, "value<TAB>text" for values drawn from the grammar that hears them.
 */
import { dialogueStates } from '../../../phrasing/intents.ts';
import { grammarFor } from '../../../phrasing/grammar.ts';
import { languages } from '../../../phrasing/language.ts';
import { phrasesOf } from '../../../phrasing/lexicon.ts';
import { packFor } from '../../../phrasing/packs.ts';
import { parseJsgf, type Expansion, type Grammar } from '../jsgf.ts';

const values = 9000;
const units = ['N·m', 'N·m', 'N·m', 'mm', 'bar', 'V', '°', 'lbf·ft', null];

const language = languages.find((one) => one === process.argv[2]);
if (language === undefined) throw new Error(`The language is missing; expected one of ${languages.join(', ')}.`);
const { lexicon } = packFor(language);
const commands = dialogueStates.flatMap((state) => phrasesOf(lexicon, state).map(({ text }) => text.toLowerCase()));
for (const text of new Set(commands)) console.log(`command\t${text}`);

let state = 1;
/** The same values in every run (a linear congruential generator; the high bits are the good ones). */
function chance(below: number): number {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return Math.floor((state / 2 ** 32) * below);
}

function drawn(grammar: Grammar, expansion: Expansion): string[] {
  switch (expansion.kind) {
    case 'word':
      return [expansion.word];
    case 'rule': {
      const body = grammar.rules.get(expansion.name);
      return body === undefined ? [] : drawn(grammar, body);
    }
    case 'sequence':
      return expansion.parts.flatMap((part) => drawn(grammar, part));
    case 'choice': {
      const option = expansion.options[chance(expansion.options.length)];
      return option === undefined ? [] : drawn(grammar, option);
    }
    case 'repeat':
      // Long numbers and signs are rare in life.
      return chance(10) < 4 ? drawn(grammar, expansion.of) : [];
  }
}

const wish = { state: 'measuring', legal: ['number'], language, names: [], maxCount: 8, nameFirst: false } as const;
const grammars = units.map((measureUnit) => parseJsgf(grammarFor({ ...wish, measureUnit }).jsgf));
for (let i = 0; i < values; i++) {
  const grammar = grammars[i % grammars.length];
  if (grammar !== undefined) console.log(`value\t${drawn(grammar, { kind: 'rule', name: grammar.start }).join(' ')}`);
}
