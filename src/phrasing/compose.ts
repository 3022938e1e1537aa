import type { Spoken } from './lines.ts';

/** A piece of a line: words that are the same aloud and on the screen, or a pair that differs. */
export type Part = string | Spoken | null;

/**
 * Template for lines. What is written out goes to the voice and the caption alike, so that the two cannot drift apart;
 * a part that reads otherwise than it sounds ("47 N·m") comes in as a pair.
 */
export function line(strings: TemplateStringsArray, ...parts: readonly Part[]): Spoken {
  let say = strings[0] ?? '';
  let show = say;
  for (const [index, part] of parts.entries()) {
    const after = strings[index + 1] ?? '';
    say += (typeof part === 'string' ? part : (part?.say ?? '')) + after;
    show += (typeof part === 'string' ? part : (part?.show ?? '')) + after;
  }
  return { say, show };
}

/** Puts whole sentences in a row, each with its capital and its full stop. Null and empty ones drop out. */
export function sentences(...parts: readonly Part[]): Spoken {
  const present = parts.filter((part) => part !== null).map((part) => (typeof part === 'string' ? { say: part, show: part } : part));
  return {
    say: present
      .map(({ say }) => asSentence(say))
      .filter((text) => text !== '')
      .join(' '),
    show: present
      .map(({ show }) => asSentence(show))
      .filter((text) => text !== '')
      .join(' '),
  };
}

/** "a, b or c" in either form. */
export function listed(parts: readonly Part[], lastJoiner: string): Spoken {
  return parts.reduce<Spoken>(
    (before, part, index) => {
      if (index === 0) return line`${part}`;
      return index === parts.length - 1 ? line`${before} ${lastJoiner} ${part}` : line`${before}, ${part}`;
    },
    { say: '', show: '' },
  );
}

function asSentence(text: string): string {
  const tidy = text
    .replace(/\s+/gu, ' ')
    .replace(/ (?=[,.])/gu, '')
    .replace(/,(?=[,.;:])/gu, '')
    .replace(/([.?!:])\.(?!\.)/gu, '$1')
    .trim();
  if (tidy === '') return '';
  const ended = /[.?!…]["”»)\ue001]*$/u.test(tidy) ? tidy : `${tidy.replace(/[,:;]$/u, '')}.`;
  return ended
    .replace(/^\p{Ll}/u, (letter) => letter.toUpperCase())
    .replace(/([.?!] )(\p{Ll})/gu, (_, end: string, letter: string) => end + letter.toUpperCase());
}
