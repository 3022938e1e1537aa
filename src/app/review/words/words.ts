import type { Language } from '../../../phrasing/language.ts';
import type { ReviewWords } from '../../../review/words/en.ts';
import { reviewWords } from '../../../review/words/words.ts';
import { useSettings } from '../../settings-context.ts';
import type { PageWords } from './en.ts';
import { en } from './en.ts';
import { fr } from './fr.ts';

/** What the review's screens say, and what the review itself says, in one language. */
export interface Wording {
  readonly language: Language;
  readonly page: PageWords;
  readonly own: ReviewWords;
}

const all: Readonly<Record<Language, Wording>> = {
  en: { language: 'en', page: en, own: reviewWords('en') },
  fr: { language: 'fr', page: fr, own: reviewWords('fr') },
};

export const useWording = (): Wording => all[useSettings().settings.language];
