import { useSettings } from '../../settings-context.ts';
import { usePageWords } from '../../words/use-page-words.ts';
import type { KitWords } from './en.ts';
import { en } from './en.ts';

const fetchFrench = (): Promise<KitWords> => import('./fr.ts').then((module) => module.fr);

export const useKitWords = (): KitWords => usePageWords(useSettings().settings.language, en, fetchFrench);
