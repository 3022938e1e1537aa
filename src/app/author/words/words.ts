import { useSettings } from '../../settings-context.ts';
import type { Language } from '../../../phrasing/language.ts';
import type { AuthorWords } from './en.ts';
import { authorEn } from './en.ts';
import { authorFr } from './fr.ts';

const all: Readonly<Record<Language, AuthorWords>> = { en: authorEn, fr: authorFr };

export function useAuthorWords(): AuthorWords {
  return all[useSettings().settings.language];
}
