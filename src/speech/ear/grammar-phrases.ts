import type { HearingGrammar } from '../hearing/port.ts';

/** The whole phrases of a grammar, for a recogniser that takes hints: alternatives without a reference to another rule. */
export function phrasesInGrammar({ jsgf }: HearingGrammar): readonly string[] {
  const publicRule = /public\s*<[^>]*>\s*=\s*([^;]*);/u.exec(jsgf)?.[1] ?? '';
  const phrases = publicRule
    .replace(/\[[^\]]*\]/gu, ' ')
    .split(/[|()]/u)
    .map((phrase) => phrase.replace(/\s+/gu, ' ').trim())
    .filter((phrase) => phrase !== '' && !/[<>*+]/u.test(phrase));
  return [...new Set(phrases)];
}
