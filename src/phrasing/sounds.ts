/** Phones that a recogniser takes for one another, in groups; a phone may be in several. */
export type AlikePhones = readonly (readonly string[])[];

/** The pronunciation of a word, or null where nobody knows it. */
export type Pronounce = (word: string) => readonly string[] | null;

/** How far two phrases are apart. `phones`: edits, where phones that sound alike count half; `share`: of the longer phrase, 0 to 1. */
export interface SoundDistance {
  readonly phones: number;
  readonly share: number;
}

/** Edits of whole phones, with half the price between those that sound alike. Order and length count; stress does not. */
export function soundDistance(one: readonly string[], other: readonly string[], alike: AlikePhones): SoundDistance {
  const fromStart = other.reduce<readonly number[]>((row) => [...row, row.length], [0]);
  const phones = editsToEach(one, other, alike, fromStart).at(-1) ?? 0;
  return { phones, share: phones / Math.max(1, one.length, other.length) };
}

/** The fewest edits, counted as in `soundDistance`, that make of a phrase some stretch of what is longer. */
export function editsWithin(phrase: readonly string[], longer: readonly string[], alike: AlikePhones): number {
  return Math.min(...editsToEach(phrase, longer, alike, [0, ...longer.map(() => 0)]));
}

/** For each place in the other, what it costs to have made of the phrase what ends there. `start`: what it costs to begin at each. */
function editsToEach(phrase: readonly string[], other: readonly string[], alike: AlikePhones, start: readonly number[]): readonly number[] {
  const price = (a: string, b: string) => (a === b ? 0 : alike.some((group) => group.includes(a) && group.includes(b)) ? 0.5 : 1);
  let above = start;
  for (const phone of phrase) {
    const row = [(above[0] ?? 0) + 1];
    for (const [at, facing] of other.entries()) {
      row.push(Math.min((above[at + 1] ?? 0) + 1, (row[at] ?? 0) + 1, (above[at] ?? 0) + price(phone, facing)));
    }
    above = row;
  }
  return above;
}

/** The phones of a phrase, or the words in it that nobody can pronounce. */
export function phonesOf(
  text: string,
  pronounce: Pronounce,
): { readonly ok: true; readonly phones: readonly string[] } | { readonly ok: false; readonly unknown: readonly string[] } {
  const words = text
    .toLowerCase()
    .split(' ')
    .filter((word) => word !== '');
  const spoken = words.map((word) => ({ word, phones: pronounce(word) }));
  const unknown = spoken.filter(({ phones }) => phones === null).map(({ word }) => word);
  return unknown.length > 0 ? { ok: false, unknown } : { ok: true, phones: spoken.flatMap(({ phones }) => phones ?? []) };
}
