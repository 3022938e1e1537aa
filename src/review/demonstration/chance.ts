/** Repeatable chance: the same seed gives the same workshop. */
export interface Chance {
  /** From 0 up to before 1. */
  share(): number;
  between(low: number, high: number): number;
  happens(probability: number): boolean;
  /** Standard normal. */
  normal(): number;
  pick<Item>(items: readonly Item[]): Item;
  hex(digits: number): string;
}

/** A counter through a 32-bit mixing function (two multiplications, three shifts). Good enough to play with, not for secrets. */
export function makeChance(seed: number): Chance {
  let state = seed >>> 0;
  const mixed = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let value = state;
    value = Math.imul(value ^ (value >>> 16), 0x21f0aaad);
    value = Math.imul(value ^ (value >>> 15), 0x735a2d97);
    return (value ^ (value >>> 15)) >>> 0;
  };
  const share = (): number => (mixed() * 2 ** 21 + (mixed() >>> 11)) / 2 ** 53;
  return {
    share,
    between: (low, high) => low + (high - low) * share(),
    happens: (probability) => share() < probability,
    normal: () => Math.sqrt(-2 * Math.log(1 - share())) * Math.cos(2 * Math.PI * share()),
    pick(items) {
      const item = items[Math.floor(share() * items.length)];
      if (item === undefined) throw new RangeError('nothing to pick from');
      return item;
    },
    hex: (digits) => Array.from({ length: digits }, () => Math.floor(share() * 16).toString(16)).join(''),
  };
}
