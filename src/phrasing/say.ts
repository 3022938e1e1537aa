import { overForeignText } from './foreign-text.ts';
import type { Language, LanguagePack } from './language.ts';
import { isLanguage, languages } from './language.ts';
import type { Line, Spoken } from './lines.ts';
import { packFor } from './packs.ts';

/** What the voice says and the caption shows for a line. */
export function say(line: Line, language: Language): Spoken {
  return packFor(language).say(line);
}

/** The same where the procedure's own texts are in `textLanguage`, a BCP 47 tag: `spokenParts` tells the languages apart. */
export function sayOver(line: Line, pack: LanguagePack, textLanguage: string): Spoken {
  if (isLanguage(textLanguage, pack.language)) return pack.say(line);
  const foreign = languages.find((one) => isLanguage(textLanguage, one));
  const read = foreign === undefined ? (written: string) => written : packFor(foreign).readText;
  return overForeignText({ language: textLanguage, read }, () => pack.say(line));
}
