import type { Locks } from '../../src/journal/tab-lock.ts';

interface Request {
  readonly name: string;
  readonly grant: () => void;
}

/** Locks as the Web Locks specification has them, for tabs that end: exclusive, first come first served, given up by a signal. */
export class FakeLocks {
  readonly #held = new Set<string>();
  readonly #waiting: Request[] = [];

  /** One tab's view; `end` is what the browser does when the tab goes away. */
  tab(): { readonly locks: Locks; readonly end: () => void } {
    const ends = new Set<() => void>();
    const request = (name: string, options: LockOptions, act: (lock: Lock | null) => unknown): Promise<unknown> => {
      if (options.ifAvailable === true && options.signal !== undefined) throw new DOMException('not together', 'NotSupportedError');
      return new Promise((resolve, reject) => {
        const isGranted = (): void => {
          this.#held.add(name);
          let isOver = false;
          const over = (): void => {
            if (isOver) return;
            isOver = true;
            ends.delete(over);
            this.#held.delete(name);
            this.#next(name);
          };
          ends.add(over);
          void Promise.resolve(act({ name, mode: 'exclusive' })).then(
            (value) => {
              over();
              resolve(value);
            },
            (error: unknown) => {
              over();
              reject(error instanceof Error ? error : new Error(String(error)));
            },
          );
        };
        if (!this.#held.has(name)) isGranted();
        else if (options.ifAvailable === true) resolve(act(null));
        else {
          const entry = { name, grant: isGranted };
          this.#waiting.push(entry);
          options.signal?.addEventListener('abort', () => {
            const place = this.#waiting.indexOf(entry);
            if (place < 0) return;
            this.#waiting.splice(place, 1);
            reject(new DOMException('given up', 'AbortError'));
          });
        }
      });
    };
    return { locks: { request: request as Locks['request'] }, end: () => [...ends].forEach((over) => over()) };
  }

  #next(name: string): void {
    const place = this.#waiting.findIndex((entry) => entry.name === name);
    if (place >= 0) this.#waiting.splice(place, 1)[0]?.grant();
  }
}
