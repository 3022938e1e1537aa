import { fileURLToPath } from 'node:url';
import createModule from 'soundswallower';
import { beforeAll, describe, expect, it } from 'vitest';
import { legalIn } from '../../src/job/legal.ts';
import { grammarFor } from '../../src/phrasing/grammar.ts';
import type { GrammarWish } from '../../src/phrasing/grammar.ts';
import { dialogueStates } from '../../src/phrasing/intents.ts';
import type { DialogueState } from '../../src/phrasing/intents.ts';
import { languages } from '../../src/phrasing/language.ts';
import { phrasesOf, taughtForm } from '../../src/phrasing/lexicon.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import type { HearingGrammar } from '../../src/speech/hearing/port.ts';
import { pronouncer } from './dictionary.ts';

function grammar(state: DialogueState, parts: Partial<GrammarWish> = {}): HearingGrammar {
  return grammarFor({
    state,
    legal: legalIn[state],
    language: 'en',
    names: [],
    measureUnit: 'mm',
    maxCount: 8,
    nameFirst: false,
    ...parts,
  });
}

describe.each(languages)('grammars in %s', (language) => {
  const pronounce = pronouncer(language);

  it.each(dialogueStates)('have only words that can be pronounced while %s', (state) => {
    expect(grammar(state, { language }).words.filter((word) => pronounce(word) === null)).toEqual([]);
  });

  it.each(dialogueStates)('teach two words or more while %s, and hear what they teach', (state) => {
    const { lexicon } = packFor(language);
    const { jsgf } = grammar(state, { language });
    for (const name of legalIn[state]) {
      const taught = taughtForm(lexicon, name, state);
      if (name === 'number') continue;
      if (name !== 'reason' && name !== 'sign') expect(jsgf, taught).toContain(taught.toLowerCase());
      if (name !== 'reason') expect(taught.split(/[ ']/u).length, taught).toBeGreaterThan(1);
    }
  });

  it('list every word that can be heard', () => {
    const { words, jsgf } = grammar('measuring', { language });
    const inRules = jsgf
      .split('\n')
      .slice(2)
      .flatMap((rule) =>
        rule
          .slice(rule.indexOf('=') + 1)
          .replace(/<[^>]*>/gu, ' ')
          .split(/[^\p{L}\p{M}']+/u),
      )
      .filter((word) => word !== '');
    expect([...new Set(inRules)].sort()).toEqual(words);
  });

  it('mark what is risky, and a yes where it confirms', () => {
    const { lexicon } = packFor(language);
    const phrases = phrasesOf(lexicon, 'confirming').filter(
      ({ intent, heardIn }) => intent.type === 'yes' && (heardIn === null || heardIn.includes('confirming')),
    );
    expect(grammar('confirming', { language }).risky).toEqual([...new Set(phrases.map(({ text }) => text.toLowerCase()))]);
    const skip = lexicon.scopes.step.taught.toLowerCase();
    expect(grammar('fastening', { language }).risky).toContain(skip);
    expect(grammar('checking', { language }).risky).not.toContain(lexicon.commands.yes.taught.toLowerCase());
  });
});

describe('the grammar of a state', () => {
  it('has only what is legal', () => {
    expect(grammar('reasoning').jsgf).not.toContain('torque');
    expect(grammar('fastening').jsgf).toContain('what torque');
  });

  it('counts no further than there are fasteners, and never past eight', () => {
    expect(grammar('fastening', { maxCount: 3 }).jsgf).toContain('three done');
    expect(grammar('fastening', { maxCount: 3 }).jsgf).not.toContain('four done');
    expect(grammar('fastening', { maxCount: 40 }).jsgf).not.toContain('nine done');
  });

  it('holds numbers in a carrier or before the unit', () => {
    const { jsgf } = grammar('measuring');
    expect(jsgf).toContain('<value> = <carrier> <number> [<measure>] | <number> <measure>;');
    expect(jsgf).toMatch(/<measure> = millimetre \| millimetres/u);
    expect(grammar('measuring', { measureUnit: 'clicks' }).jsgf).toContain('<value> = <carrier> <number>;');
    expect(grammar('fastening').jsgf).not.toContain('<number>');
  });

  it('hears single words only where they are unmistakable', () => {
    const commands = (state: DialogueState) =>
      grammar(state)
        .jsgf.split('\n')[2]
        ?.replace(/^public <command> = |;$/gu, '')
        .split(' | ') ?? [];
    expect(commands('fastening').filter((text) => !text.includes(' '))).toEqual([
      'done',
      'repeat',
      'torque',
      'socket',
      'undo',
      'stop',
      'help',
    ]);
    expect(commands('confirming').filter((text) => !text.includes(' '))).toEqual([
      'yes',
      'correct',
      'affirmative',
      'no',
      'negative',
      'repeat',
      'stop',
      'help',
      '<value>',
    ]);
  });

  it('wants the name first for everything but stop', () => {
    expect(grammar('closed', { nameFirst: true }).jsgf).toMatch(/public <command> = undertray \(.*\) \| stop stop.*;/u);
  });

  it('leaves the name out where it is not asked for, so that noise finds one phrase less to become', () => {
    const open = grammar('closed');
    expect(open.jsgf).not.toContain('undertray');
    expect(open.words).not.toContain('undertray');
  });

  it('keeps to the taught wordings and to "stop" for what is heard over the app’s own voice', () => {
    const { jsgf } = grammar('fastening', { legal: ['stop', 'hold-on'], overOwnVoice: true });
    for (const text of ['hold on', 'stop stop', 'stop']) expect(jsgf).toMatch(new RegExp(`[=|] ${text}( \\||;)`, 'u'));
    expect(jsgf).not.toContain('moment');
  });

  it('marks what could go on and mean something else', () => {
    const { openEnded } = grammar('stating');
    expect(openEnded).toEqual(expect.arrayContaining(['how many', 'torque']));
    // "what torque is it" asks the same as "what torque".
    expect(openEnded).not.toContain('what torque');
    expect(grammar('signing', { names: ['Robin', 'Robin Marsh'] }).openEnded).toContain('sign as robin');
  });

  it('takes the names of those who may sign', () => {
    const { jsgf, words, risky } = grammar('signing', { names: ['Ada Lund'] });
    expect(jsgf).toContain('sign as ada lund');
    expect(words).toContain('lund');
    expect(risky).toContain('sign as ada lund');
  });

  it('cannot be broken by a name', () => {
    expect(grammar('signing', { names: ['A); <x> = b; ('] }).jsgf).toContain('sign as a x b');
  });
});

describe('the recogniser', () => {
  const decoders = new Map<string, { set_grammar(jsgf: string): void; add_words(...words: [string, string][]): void }>();

  beforeAll(async () => {
    const module = await createModule();
    for (const [language, folder] of [
      ['en', 'en-us'],
      ['fr', 'fr-fr'],
    ] as const) {
      const decoder = new module.Decoder({
        hmm: fileURLToPath(new URL(`../../node_modules/soundswallower/model/${folder}`, import.meta.url)),
        loglevel: 'FATAL',
      });
      await decoder.initialize();
      // It takes no second pronunciation of a word that it knows; the app's French dictionary has ours instead of its own.
      const unknown = Object.entries(packFor(language).lexicon.pronunciations).filter(
        ([word]) => (decoder.lookup_word(word) as string | null) === null,
      );
      decoder.add_words(...unknown.map(([word, [phones = '']]): [string, string] => [word, phones]));
      decoders.set(language, decoder);
    }
  }, 60_000);

  it.each(languages.flatMap((language) => dialogueStates.map((state) => [language, state] as const)))(
    'loads every grammar: %s, %s',
    (language, state) => {
      for (const nameFirst of [false, true]) {
        expect(() => decoders.get(language)?.set_grammar(grammar(state, { language, nameFirst }).jsgf)).not.toThrow();
      }
    },
  );
});
