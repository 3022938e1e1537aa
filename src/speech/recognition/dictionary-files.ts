import { fetchBytes } from '../fetching.ts';
import type { HearingLanguage } from '../hearing/load.ts';
import english from '../hearing/models/dictionary.txt?url';
import french from '../hearing/models/french-words.txt?url';

/** How the words of each language sound, where the recogniser and the echo guard fetch it. */
export const dictionaryFiles: Readonly<Record<HearingLanguage, string>> = { en: english, fr: french };

/** Rejects when it cannot be had. */
export async function fetchDictionary(language: HearingLanguage): Promise<string> {
  return new TextDecoder().decode(await fetchBytes(dictionaryFiles[language], () => undefined));
}
