import type { Language } from '../../../phrasing/language.ts';
import { useSettings } from '../../settings-context.ts';
import type { ToolsWords } from './en.ts';
import { en } from './en.ts';
import { fr } from './fr.ts';

const all: Readonly<Record<Language, ToolsWords>> = { en, fr };

export const useToolsWords = (): ToolsWords => all[useSettings().settings.language];
