/** Takes back something that was asked for. Calling it twice does nothing more. */
export type Cancel = () => void;

/** Time as the speech adapters see it, so that tests can turn it by hand. */
export interface Clock {
  /** Milliseconds that only ever go forward. */
  now(): number;
  after(milliseconds: number, run: () => void): Cancel;
}

export const systemClock: Clock = {
  now: () => performance.now(),
  after(milliseconds, run) {
    const timer = setTimeout(run, milliseconds);
    return () => clearTimeout(timer);
  },
};

/** Waits for a promise no longer than a limit; `null` when the limit came first. The promise must not reject. */
export async function within<T>(clock: Clock, milliseconds: number, promise: Promise<T>): Promise<T | null> {
  return new Promise((resolve) => {
    const cancel = clock.after(milliseconds, () => resolve(null));
    void promise.then((value) => {
      cancel();
      resolve(value);
    });
  });
}
