import { useSettings } from '../../settings-context.ts';
import { usePageWords } from '../../words/use-page-words.ts';
import type { CalculatorWords } from './en.ts';
import { en } from './en.ts';

const fetchFrench = (): Promise<CalculatorWords> => import('./fr.ts').then((module) => module.fr);

export const useCalculatorWords = (): CalculatorWords => usePageWords(useSettings().settings.language, en, fetchFrench);
