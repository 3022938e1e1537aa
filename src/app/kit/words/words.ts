import type { Language } from '../../../phrasing/language.ts';
import { useSettings } from '../../settings-context.ts';
import type { KitWords } from './en.ts';
import { en } from './en.ts';
import { fr } from './fr.ts';

const all: Readonly<Record<Language, KitWords>> = { en, fr };

export const useKitWords = (): KitWords => all[useSettings().settings.language];
