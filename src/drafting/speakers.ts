import { fastenerHead } from './fastener-words.ts';
import { isPart } from './parts.ts';
import type { Token } from './tokens.ts';
import { tellingApart } from './word-classes.ts';

/** A name is a speaker's mark where it opens so many sentences with a colon. Our own number. */
const turns = 3;

/** "Otto: box is up.": the marks of who speaks are no part of what is said. */
export function withoutSpeakers(tokens: readonly Token[]): readonly Token[] {
  const marks = tokens.filter((_, at) => mayBeMark(tokens, at));
  if (marks.length < turns) return tokens;
  const often = new Set(marks.map(({ bare }) => bare).filter((bare) => marks.filter((one) => one.bare === bare).length >= turns));
  return tokens.filter((token, at) => !(mayBeMark(tokens, at) && often.has(token.bare)));
}

function mayBeMark(tokens: readonly Token[], at: number): boolean {
  const token = tokens[at];
  const before = tokens[at - 1];
  if (token?.mark !== ':' || !token.capital || (before !== undefined && !/[.?!…]/.test(before.mark))) return false;
  return !/^\d/.test(token.bare) && !isPart(token.bare) && fastenerHead(tokens, at) === null && !tellingApart.has(token.bare);
}
