import type { Language } from './language.ts';
import type { Line, Spoken } from './lines.ts';
import { packFor } from './packs.ts';

/** What the voice says and the caption shows for a line. */
export function say(line: Line, language: Language): Spoken {
  return packFor(language).say(line);
}
