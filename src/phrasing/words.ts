import type { ListeningWords } from './language.ts';

/** An utterance as plain words in one spelling: lower case, no punctuation, figures and units apart. */
export function wordsOf(text: string, habits: ListeningWords): readonly string[] {
  const plain = text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[’‘`´]/gu, "'")
    .replace(/(?<=\p{L})-(?=\p{L})/gu, ' ')
    .replace(/(?<=\d)(?=[\p{L}°%µ])/gu, ' ')
    .replace(/[.,](?!\d)|[!?;:"()[\]{}«»…¿¡]/gu, ' ')
    .replace(/(?<![\p{L}\d])\.(?=\d)/gu, '0.')
    .replace(/\s-(?=\s)/gu, ' ')
    .replace(/\s+/gu, ' ')
    .trim();
  const canonical = habits.canonical(plain);
  return canonical === '' ? [] : canonical.split(' ');
}

export function withoutWords(words: readonly string[], unwanted: readonly string[]): readonly string[] {
  return words.filter((word) => !unwanted.includes(word));
}
