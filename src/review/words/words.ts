import type { Language } from '../../phrasing/language.ts';
import type { ReviewWords } from './en.ts';
import { en } from './en.ts';
import { fr } from './fr.ts';

const all: Readonly<Record<Language, ReviewWords>> = { en, fr };

/** What the review says in a language. */
export const reviewWords = (language: Language): ReviewWords => all[language];
