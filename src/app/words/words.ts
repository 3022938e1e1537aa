import { createContext, useContext } from 'react';
import type { Language } from '../../phrasing/language.ts';
import type { Words } from './en.ts';
import { en } from './en.ts';

const all: Readonly<Partial<Record<Language, Words>>> = { en };

/** What the screens say in a language. */
export const wordsFor = (language: Language): Words => all[language] ?? en;

export const WordsContext = createContext<Words>(en);

export const useWords = (): Words => useContext(WordsContext);
