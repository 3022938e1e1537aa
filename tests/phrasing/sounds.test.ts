import { describe, expect, it } from 'vitest';
import { legalIn } from '../../src/job/legal.ts';
import { alikePhones as alikeInEnglish } from '../../src/phrasing/en/sounds.ts';
import { alikePhones as alikeInFrench } from '../../src/phrasing/fr/sounds.ts';
import { dialogueStates } from '../../src/phrasing/intents.ts';
import type { DialogueState } from '../../src/phrasing/intents.ts';
import type { Language } from '../../src/phrasing/language.ts';
import { languages } from '../../src/phrasing/language.ts';
import { phrasesOf } from '../../src/phrasing/lexicon.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import { editsWithin, phonesOf, soundDistance } from '../../src/phrasing/sounds.ts';
import type { AlikePhones, SoundDistance } from '../../src/phrasing/sounds.ts';
import { pronouncer } from './dictionary.ts';

const alike: Readonly<Record<Language, AlikePhones>> = { en: alikeInEnglish, fr: alikeInFrench };

/** No more than eight are counted aloud; what is skipped and why is read back, and so is a number of its own. */
function heard(language: Language, state: DialogueState) {
  const pronounce = pronouncer(language);
  return phrasesOf(packFor(language).lexicon, state)
    .filter(({ intent, heardIn }) => legalIn[state].includes(intent.type) && (heardIn === null || heardIn.includes(state)))
    .filter(({ intent }) => !(intent.type === 'done' && intent.count > 8) && !(intent.type === 'skip' && intent.reason !== null))
    .flatMap((phrase) => {
      const spoken = phonesOf(phrase.text, pronounce);
      return spoken.ok ? [{ ...phrase, phones: spoken.phones }] : [];
    });
}

const measured = new Map<string, SoundDistance>();

/** Most pairs come up in several states. */
function apart(
  language: Language,
  one: { text: string; phones: readonly string[] },
  other: { text: string; phones: readonly string[] },
): SoundDistance {
  const key = `${language} ${one.text}|${other.text}`;
  const distance = measured.get(key) ?? soundDistance(one.phones, other.phones, alike[language]);
  measured.set(key, distance);
  return distance;
}

describe.each(languages)('phrases in %s that may be said at the same moment', (language) => {
  it.each(dialogueStates)('are far enough apart by sound while %s', (state) => {
    const phrases = heard(language, state);
    const close: string[] = [];
    for (const [index, one] of phrases.entries()) {
      for (const other of phrases.slice(index + 1)) {
        if (JSON.stringify(one.intent) === JSON.stringify(other.intent)) continue;
        const { phones, share } = apart(language, one, other);
        const sameKind = one.intent.type === other.intent.type;
        const taught = one.taught && other.taught;
        // Counts can only differ by their number, which is one phone here and there; what is said next tells which was heard.
        const least = one.intent.type === 'done' && sameKind ? 1 : 2;
        if (phones < least || (taught && !sameKind && (phones < 2.5 || share < 0.4)))
          close.push(`${one.text} / ${other.text}: ${phones} phones, ${share.toFixed(2)}`);
      }
    }
    expect(close).toEqual([]);
  });

  // The ear takes "newton metre" and "newton metres" for one sentence (speech/hearing/hearing.ts).
  it.each(dialogueStates)('mean the same where they differ by a last s only, while %s', (state) => {
    const singular = (text: string): string => text.toLowerCase().replaceAll(/s(?= |$)/gu, '');
    const meanings = new Map<string, string>();
    for (const { text, intent } of heard(language, state)) {
      const meaning = JSON.stringify(intent);
      expect(meanings.get(singular(text)) ?? meaning, text).toBe(meaning);
      meanings.set(singular(text), meaning);
    }
  });
});

describe('the distance of sounds', () => {
  const between = (one: string, other: string) => soundDistance(one.split(' '), other.split(' '), alikeInEnglish);

  it('is nothing for the same, and the same both ways', () => {
    expect(between('D AH N', 'D AH N')).toEqual({ phones: 0, share: 0 });
    expect(between('D AH N', 'S T AA P')).toEqual(between('S T AA P', 'D AH N'));
  });

  it('counts phones that sound alike half', () => {
    expect(between('D AH N', 'T AH N').phones).toBe(0.5);
    expect(between('D AH N', 'S AH N').phones).toBe(1);
    expect(between('D AH N', 'AH N').phones).toBe(1);
  });

  it('finds a phrase in what is longer, exactly or nearly', () => {
    const within = (phrase: string, longer: string) => editsWithin(phrase.split(' '), longer.split(' '), alikeInEnglish);
    expect(within('S T AA P', 'DH EH N S T AA P IH T')).toBe(0);
    expect(within('S T AA P', 'B AH F AO R Y UW S T AA R T')).toBe(1);
    expect(within('S T AA P', 'S AA K AH T')).toBe(1.5);
    expect(within('S T AA P', 'AA P')).toBe(2);
    expect(editsWithin(['S', 'T'], [], alikeInEnglish)).toBe(2);
  });

  it('knows what share of the longer phrase that is, either way round', () => {
    expect(between('D AH N', 'S AH')).toEqual({ phones: 2, share: 2 / 3 });
    expect(between('S AH', 'D AH N')).toEqual({ phones: 2, share: 2 / 3 });
    expect(soundDistance([], [], alikeInEnglish)).toEqual({ phones: 0, share: 0 });
    expect(soundDistance([], ['D', 'AH'], alikeInEnglish)).toEqual({ phones: 2, share: 1 });
    expect(soundDistance(['D', 'AH'], [], alikeInEnglish)).toEqual({ phones: 2, share: 1 });
  });

  it('takes the cheapest way, wherever a phone is missing or too many', () => {
    expect(between('S T AA P', 'T AA P').phones).toBe(1);
    expect(between('T AA P', 'S T AA P').phones).toBe(1);
    expect(between('S T AA P', 'S T P').phones).toBe(1);
    expect(between('S T AA P', 'S T AA').phones).toBe(1);
    expect(between('AA S', 'S AA').phones).toBe(2);
  });

  it('finds the pairs that recognisers are known to confuse closer than others', () => {
    const pronounce = pronouncer('en');
    const apart = (one: string, other: string) => {
      const [a, b] = [phonesOf(one, pronounce), phonesOf(other, pronounce)];
      if (!a.ok || !b.ok) throw new Error('not in the dictionary');
      return soundDistance(a.phones, b.phones, alikeInEnglish).share;
    };
    expect(apart('fifteen', 'fifty')).toBeLessThan(apart('fifteen', 'twelve'));
    expect(apart('thirteen', 'thirty')).toBeLessThan(apart('thirteen', 'twenty'));
  });

  it('says which words nobody can pronounce', () => {
    expect(phonesOf('what xyzzy', pronouncer('en'))).toEqual({ ok: false, unknown: ['xyzzy'] });
  });
});
