import { useSettings } from '../../settings-context.ts';
import { usePageWords } from '../../words/use-page-words.ts';
import type { EnrolWords } from './en.ts';
import { en } from './en.ts';

const fetchFrench = (): Promise<EnrolWords> => import('./fr.ts').then((module) => module.fr);

export const useEnrolWords = (): EnrolWords => usePageWords(useSettings().settings.language, en, fetchFrench);
