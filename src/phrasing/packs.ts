import { english } from './en/pack.ts';
import { french } from './fr/pack.ts';
import type { Language, LanguagePack } from './language.ts';

const packs: Readonly<Record<Language, LanguagePack>> = { en: english, fr: french };

export function packFor(language: Language): LanguagePack {
  return packs[language];
}
