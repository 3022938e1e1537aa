import { createContext, useContext, useEffect, useState } from 'react';
import type { Language } from '../../phrasing/language.ts';
import type { Words } from './en.ts';
import { en } from './en.ts';

/** English comes with the page, so that there is always something to say; any other language is fetched when it is chosen. */
const others: Readonly<Record<Exclude<Language, 'en'>, () => Promise<Words>>> = {
  fr: () => import('./fr.ts').then((module) => module.fr),
};

export interface LoadedWords {
  readonly language: Language;
  readonly words: Words;
}

export const loadWords = async (language: Language): Promise<LoadedWords> =>
  language === 'en' ? { language, words: en } : others[language]().then((words) => ({ language, words }));

export const WordsContext = createContext<Words>(en);

export const useWords = (): Words => useContext(WordsContext);

/** The words of the language that was chosen; until they are there, the ones before it. */
export function useWordsOf(language: Language, first: LoadedWords): LoadedWords {
  const [loaded, setLoaded] = useState(first);
  useEffect(() => {
    let current = true;
    void loadWords(language).then((next) => {
      if (current) setLoaded(next);
    });
    return () => {
      current = false;
    };
  }, [language]);
  return loaded;
}
