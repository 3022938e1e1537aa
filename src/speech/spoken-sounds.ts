import { alikePhones as alikeInEnglish } from '../phrasing/en/sounds.ts';
import { alikePhones as alikeInFrench } from '../phrasing/fr/sounds.ts';
import { primaryTag } from '../phrasing/language.ts';
import type { AlikePhones } from '../phrasing/sounds.ts';
import { frenchPronunciations } from './hearing/french-pronunciations.ts';
import type { HearingLanguage } from './hearing/load.ts';
import { englishPronunciations, pronounce, type Pronunciations } from './hearing/pronunciations.ts';

/** How words sound in one language, and which of its phones are taken for one another. */
export interface SpokenSounds {
  /** `word`: in lower case. */
  phonesOf(word: string): readonly string[];
  readonly alike: AlikePhones;
}

interface Language {
  readonly pronunciations: (dictionary: string) => Pronunciations;
  readonly alike: AlikePhones;
}

const languages: Readonly<Record<HearingLanguage, Language>> = {
  en: { pronunciations: englishPronunciations, alike: alikeInEnglish },
  fr: { pronunciations: frenchPronunciations, alike: alikeInFrench },
};

/** With the dictionary's words as it has them, and any other by its spelling. `dictionary`: in the form of `hearing/models`. */
export function spokenSounds(language: HearingLanguage, dictionary: string): SpokenSounds {
  const { pronunciations, alike } = languages[language];
  const known = pronunciations(dictionary);
  // Of several ways the first is the commonest.
  return { phonesOf: (word) => pronounce(word, known)[0]?.split(' ') ?? [], alike };
}

/** The sounds of any language by its BCP 47 tag: from spelling alone until its dictionary has come. Unknown languages are read as English. */
export function soundsAsTheyCome(dictionaryOf: (language: HearingLanguage) => Promise<string>): (tag: string) => SpokenSounds {
  const known = new Map<HearingLanguage, SpokenSounds>();
  return (tag) => {
    const language = primaryTag(tag) === 'fr' ? 'fr' : 'en';
    const sounds = known.get(language) ?? spokenSounds(language, '');
    if (!known.has(language)) {
      known.set(language, sounds);
      dictionaryOf(language).then(
        (dictionary) => known.set(language, spokenSounds(language, dictionary)),
        // It is asked for again with the next thing that is said.
        () => known.delete(language),
      );
    }
    return sounds;
  };
}
