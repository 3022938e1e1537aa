import type { QuantitySpan } from './quantities.ts';
import type { Token } from './tokens.ts';

/** What the rules look at: the tokens of a sentence and the quantities among them. */
export interface Sentence {
  readonly tokens: readonly Token[];
  readonly quantities: readonly QuantitySpan[];
}

/** The word at that token, or nothing past either end. */
export const bare = (tokens: readonly Token[], at: number): string => tokens[at]?.bare ?? '';

/** True where punctuation follows the token. */
export const marked = (tokens: readonly Token[], at: number): boolean => (tokens[at]?.mark ?? '') !== '';

/** The quantity that begins at that token. */
export const quantityAt = (sentence: Sentence, at: number): QuantitySpan | null =>
  sentence.quantities.find(({ from }) => from === at) ?? null;

/** So many words from there on, as one string. */
export const phrase = (tokens: readonly Token[], at: number, length: number): string =>
  tokens
    .slice(Math.max(0, at), Math.max(0, at + length))
    .map((token) => token.bare)
    .join(' ');
