import { english } from './en/pack.ts';
import type { Language, LanguagePack } from './language.ts';

const packs: Readonly<Record<Language, LanguagePack>> = { en: english, fr: english };

export function packFor(language: Language): LanguagePack {
  return packs[language];
}
