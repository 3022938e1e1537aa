import type { Language } from '../../../phrasing/language.ts';
import { useSettings } from '../../settings-context.ts';
import type { CalculatorWords } from './en.ts';
import { en } from './en.ts';
import { fr } from './fr.ts';

const all: Readonly<Record<Language, CalculatorWords>> = { en, fr };

export const useCalculatorWords = (): CalculatorWords => all[useSettings().settings.language];
