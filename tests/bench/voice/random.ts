/** A small seeded generator (mulberry32): the same clips, noises and order in every run. */
export class Chance {
  private state: number;

  constructor(seed: number | string) {
    this.state =
      typeof seed === 'number' ? seed : [...seed].reduce((sum, letter) => Math.imul(sum ^ letter.charCodeAt(0), 16777619), 2166136261);
  }

  /** From 0 up to 1. */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  pick<T>(list: readonly T[]): T {
    const item = list[Math.floor(this.next() * list.length)];
    if (item === undefined) throw new Error('Nothing to pick from.');
    return item;
  }

  shuffled<T>(list: readonly T[]): T[] {
    return list
      .map((item) => ({ item, key: this.next() }))
      .sort((a, b) => a.key - b.key)
      .map(({ item }) => item);
  }

  /** Normally distributed, mean 0, deviation 1. */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }
}
