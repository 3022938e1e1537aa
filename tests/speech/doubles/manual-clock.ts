import type { Clock } from '../../../src/speech/clock.ts';

/** A clock that goes only when told to. Timers run in the order of their time. */
export class ManualClock implements Clock {
  #now = 0;
  #timers: { at: number; run: () => void }[] = [];

  now(): number {
    return this.#now;
  }

  after(milliseconds: number, run: () => void): () => void {
    const timer = { at: this.#now + Math.max(0, milliseconds), run };
    this.#timers.push(timer);
    return () => {
      this.#timers = this.#timers.filter((other) => other !== timer);
    };
  }

  get pending(): number {
    return this.#timers.length;
  }

  /** Goes on by so many milliseconds; promises settle before the first timer and after each. */
  async advance(milliseconds: number): Promise<void> {
    const end = this.#now + milliseconds;
    await settle();
    for (;;) {
      const next = this.#timers.filter(({ at }) => at <= end).toSorted((a, b) => a.at - b.at)[0];
      if (!next) break;
      this.#timers = this.#timers.filter((timer) => timer !== next);
      this.#now = next.at;
      next.run();
      await settle();
    }
    this.#now = end;
    await settle();
  }
}

/** Lets promises that are already resolved run to their ends, however long their chains. */
export async function settle(): Promise<void> {
  await new Promise<void>((resolve) => setImmediate(resolve));
}
