import { describe, expect, it } from 'vitest';
import { legalIn } from '../../src/job/legal.ts';
import { dialogueStates } from '../../src/phrasing/intents.ts';
import { languages } from '../../src/phrasing/language.ts';
import type { Language } from '../../src/phrasing/language.ts';
import { phrasesOf } from '../../src/phrasing/lexicon.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { say } from '../../src/phrasing/say.ts';
import { wordsOf } from '../../src/phrasing/words.ts';
import { everyLine } from './samples.ts';

// Two phones may lie in one workshop. What stands between two pauses of a prompt is an utterance of its own to the other's ear.

/** Who signs in the samples. */
const signer = 'Ada Lund';

function plainWords(text: string, language: Language): string {
  return wordsOf(text, packFor(language).lexicon.listening).join(' ');
}

/** What an ear listens for in any state, in one spelling. Numbers are left out: to tell them is what the app is for, and a heard one is read back. */
function commandsHeard(language: Language): ReadonlySet<string> {
  const { lexicon } = packFor(language);
  const heard = dialogueStates.flatMap((state) =>
    phrasesOf(lexicon, state)
      .filter(({ intent, heardIn }) => legalIn[state].includes(intent.type) && (heardIn === null || heardIn.includes(state)))
      .map(({ text }) => text),
  );
  const signed = lexicon.signCarriers.map((carrier) => `${carrier} ${signer}`);
  return new Set([...heard, ...signed].map((text) => plainWords(text, language)));
}

describe.each(languages)('what the app says in %s', (language) => {
  const commands = commandsHeard(language);

  function obeyedIn(text: string): readonly string[] {
    const clauses = text.split(/[.?!:;,]+(?=\s|$)/u).filter((clause) => clause.trim() !== '');
    return clauses.filter((clause) => commands.has(plainWords(clause, language)));
  }

  it.each(everyLine.map((line) => [line.kind, line] as const))('holds no command between two pauses: %s', (_, line) => {
    expect(obeyedIn(say(line, language).say)).toEqual([]);
  });

  it('would be found out', () => {
    const { lexicon } = packFor(language);
    expect(obeyedIn(`${lexicon.commands.finish.taught}? Yes or no?`)).toHaveLength(1);
    expect(obeyedIn(`That is the way: ${lexicon.commands['hold-on'].taught}, and so on.`)).toHaveLength(1);
    expect(obeyedIn(`${lexicon.signCarriers[0] ?? ''} ${signer}? Yes or no?`)).toHaveLength(1);
  });
});
