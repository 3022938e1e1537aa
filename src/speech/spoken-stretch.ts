import type { SpokenSounds } from './spoken-sounds.ts';

/** A text on its way out of the loudspeaker: which of its phones sound when, as far as its voice tells. Times in milliseconds. */
export interface SpokenStretch {
  readonly from: number;
  /** Infinity until it is over. */
  readonly to: number;
  /** What begins at this character is being said now. */
  reaches(character: number, at: number): void;
  ends(at: number): void;
  /** The phones that can have sounded between two times. */
  phonesBetween(from: number, to: number): readonly string[];
}

/**
 * Milliseconds that a voice takes for a phone at its normal rate, pauses counted in. Of 261 clauses by the app's own voice nine in ten
 * take 78 to 152; single figures take longest.
 */
const quickest = 60;
const slowest = 150;

/** A place in the phones, and when it was reached. */
interface Mark {
  readonly phone: number;
  readonly at: number;
}

interface Moments {
  readonly from: number;
  readonly to: number;
}

export function createSpokenStretch(text: string, at: number, rate: number, sounds: SpokenSounds): SpokenStretch {
  const phones: string[] = [];
  /** Where each word begins among the characters, and among the phones. */
  const words: { readonly character: number; readonly phone: number }[] = [];
  for (const { word, character } of wordsIn(text)) {
    words.push({ character, phone: phones.length });
    phones.push(...sounds.phonesOf(word));
  }
  const marks: Mark[] = [{ phone: 0, at }];
  let to = Infinity;

  /** Between which times a phone can have sounded. */
  function momentsOf(phone: number): Moments {
    const index = marks.findLastIndex((one) => one.phone <= phone);
    const before = marks[index] ?? { phone: 0, at };
    const after = marks[index + 1] ?? (to < Infinity ? { phone: phones.length, at: to } : null);
    const place = phone - before.phone;
    const longest = { from: before.at + (place * quickest) / rate, to: before.at + ((place + 1) * slowest) / rate };
    if (after === null) return longest;
    const each = (after.at - before.at) / (after.phone - before.phone);
    // What was broken off took too little time for all of it.
    if (each < quickest / rate) return { from: longest.from, to: Math.min(longest.to, after.at) };
    return { from: before.at + place * each, to: before.at + (place + 1) * each };
  }

  return {
    from: at,
    get to() {
      return to;
    },
    reaches(character, when) {
      const phone = words.find((word) => word.character >= character)?.phone ?? phones.length;
      // Voices have told of words out of turn; the first mark stands for the beginning anyway.
      if (phone > (marks.at(-1)?.phone ?? 0)) marks.push({ phone, at: when });
    },
    ends(when) {
      to = Math.min(to, when);
    },
    phonesBetween(from, until) {
      return phones.filter((_, phone) => {
        const moments = momentsOf(phone);
        return moments.from <= Math.min(until, to) && moments.to >= from;
      });
    },
  };
}

/** The words of a text in lower case, each with its first character's place. */
export function wordsIn(text: string): readonly { readonly word: string; readonly character: number }[] {
  return [...text.matchAll(/[\p{L}\p{N}'’]+/gu)].map(({ 0: word, index }) => ({
    word: word.toLowerCase().replaceAll('’', "'"),
    character: index,
  }));
}
