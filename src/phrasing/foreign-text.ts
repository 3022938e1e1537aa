/** A piece of what is said, all in one language. */
export interface SpokenPart {
  readonly text: string;
  /** The language tag of an author's text in another language than the lines; null for the lines' own. */
  readonly language: string | null;
}

interface ForeignReader {
  readonly language: string;
  readonly read: (written: string) => string;
}

// Private-use characters, which no text to be read aloud holds: around a foreign text, and after its language tag.
const opens = '\ue000';
const closes = '\ue001';
const tagEnds = '\ue002';

/**
 * Set for the length of one call of `overForeignText`: that authors' texts are not in the language of the lines. Every line of every pack
 * would have to pass it down to the one function that reads texts; a call is synchronous, so this cannot be seen from outside.
 */
let reader: ForeignReader | null = null;

/** Makes a line whose authors' texts are in another language: they come out as that language reads them, and marked. */
export function overForeignText<T>(foreign: ForeignReader, make: () => T): T {
  const before = reader;
  reader = foreign;
  try {
    return make();
  } finally {
    reader = before;
  }
}

export const isForeignText = (): boolean => reader !== null;

/** An author's text as it is said: by the language of the lines, or marked as another's. */
export function readAloud(written: string, read: (written: string) => string): string {
  if (reader === null) return read(written);
  const { language, read: foreign } = reader;
  return `${opens}${language}${tagEnds}${foreign(written.replace(/[\ue000-\ue002]/gu, ''))}${closes}`;
}

/** What is said, cut where the language changes. One part for a line that is all in one language. */
export function spokenParts(say: string): readonly SpokenPart[] {
  const parts = say.split(/(\ue000[^\ue001]*\ue001)/u).map((piece): SpokenPart => {
    const end = piece.indexOf(tagEnds);
    return piece.startsWith(opens) && end > 0
      ? { text: piece.slice(end + 1, -1), language: piece.slice(1, end) }
      : { text: piece, language: null };
  });
  // A full stop on its own is nothing to say.
  return parts.map((part) => ({ ...part, text: part.text.trim() })).filter(({ text }) => /[\p{L}\p{N}]/u.test(text));
}
