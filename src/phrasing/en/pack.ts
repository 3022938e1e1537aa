import type { LanguagePack } from '../language.ts';
import { closeOut } from './close-out-lines.ts';
import { lexicon } from './lexicon.ts';
import { say } from './lines.ts';
import { numbers } from './numbers.ts';
import { readText } from './text.ts';
import { tools } from './tool-speech.ts';
import { units } from './units.ts';

export const english: LanguagePack = { language: 'en', say, readText, numbers, units, lexicon, tools, closeOut };
