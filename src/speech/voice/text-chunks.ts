/** A stretch of a text that is spoken in one go. */
export interface TextChunk {
  readonly text: string;
  /** Index of its first character in the whole text. */
  readonly start: number;
}

/** Ends of sentences; a point inside a number is none, because no space follows it. */
const sentenceEnd = /[.!?]+(?=\s|$)|\n+/g;
const clauseEnd = /[.!?;:]+(?=\s|$)|\n+/g;
const comma = /,(?=\s)/g;
const space = /\s+/g;

/**
 * Splits a text at the ends of sentences, and where one is longer than the limit at commas, then between words.
 * `fine` splits at colons and semicolons too: the first sound comes sooner, and pauses fall where they are written.
 */
export function splitText(text: string, limit: number, fine: boolean): TextChunk[] {
  return splitAt(text, 0, limit, fine ? [clauseEnd, comma, space] : [sentenceEnd, clauseEnd, comma, space]);
}

function splitAt(text: string, start: number, limit: number, [mark, ...finer]: readonly RegExp[]): TextChunk[] {
  const whole = trimmed(text, start);
  if (!mark || !whole) return whole ? [whole] : [];
  const pieces = cut(text, mark).map(([from, to]) => ({ from, text: text.slice(from, to) }));
  const gathered = mark === comma || mark === space ? gather(pieces, limit) : pieces;
  return gathered.flatMap((piece) => {
    const chunk = trimmed(piece.text, start + piece.from);
    if (!chunk) return [];
    return chunk.text.length > limit ? splitAt(piece.text, start + piece.from, limit, finer) : [chunk];
  });
}

function cut(text: string, mark: RegExp): [number, number][] {
  const ends = [...text.matchAll(mark)].map((match) => match.index + match[0].length);
  return [0, ...ends].map((from, index) => [from, ends[index] ?? text.length]);
}

/** Joins neighbours again as long as they fit, so that a long sentence does not fall into words. */
function gather(pieces: readonly { from: number; text: string }[], limit: number): { from: number; text: string }[] {
  const gathered: { from: number; text: string }[] = [];
  for (const piece of pieces) {
    const last = gathered.at(-1);
    if (last && last.text.length + piece.text.length <= limit) last.text += piece.text;
    else gathered.push({ ...piece });
  }
  return gathered;
}

function trimmed(text: string, start: number): TextChunk | null {
  const inner = text.trim();
  // A stretch without a letter or digit has no sound.
  if (!/[\p{L}\p{N}]/u.test(inner)) return null;
  return { text: inner, start: start + text.indexOf(inner) };
}
