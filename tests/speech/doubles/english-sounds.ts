import { readFileSync } from 'node:fs';
import { spokenSounds } from '../../../src/speech/spoken-sounds.ts';

/** The sounds of English words, from the dictionary that ships. */
export const englishSounds = spokenSounds(
  'en',
  readFileSync(new URL('../../../src/speech/hearing/models/dictionary.txt', import.meta.url), 'utf8'),
);
