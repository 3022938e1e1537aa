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
  const price = (a: string, b: string) => (a === b ? 0 : alike.some((group) => group.includes(a) && group.includes(b)) ? 0.5 : 1);
  let above = other.reduce<readonly number[]>((row) => [...row, row.length], [0]);
  for (const [index, phone] of one.entries()) {
    const row = [index + 1];
    for (const [at, facing] of other.entries()) {
      row.push(Math.min((above[at + 1] ?? 0) + 1, (row[at] ?? 0) + 1, (above[at] ?? 0) + price(phone, facing)));
    }
    above = row;
  }
  const phones = above.at(-1) ?? 0;
  return { phones, share: phones / Math.max(1, one.length, other.length) };
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
