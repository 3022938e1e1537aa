import type { Language } from '../../../phrasing/language.ts';
import { useSettings } from '../../settings-context.ts';
import type { EnrolWords } from './en.ts';
import { en } from './en.ts';
import { fr } from './fr.ts';

const all: Readonly<Record<Language, EnrolWords>> = { en, fr };

export const useEnrolWords = (): EnrolWords => all[useSettings().settings.language];
