import { useSettings } from '../../settings-context.ts';
import { usePageWords } from '../../words/use-page-words.ts';
import type { ToolsWords } from './en.ts';
import { en } from './en.ts';

const fetchFrench = (): Promise<ToolsWords> => import('./fr.ts').then((module) => module.fr);

export const useToolsWords = (): ToolsWords => usePageWords(useSettings().settings.language, en, fetchFrench);
