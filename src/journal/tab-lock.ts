/** The part of the Web Locks API that is used (W3C); `navigator.locks` in the browser. */
export type Locks = Pick<LockManager, 'request'>;

/** Which jobs this tab may write. A lock ends with its tab, however the tab ends. */
export interface TabLocks {
  /** True when this tab holds the job now; false when another one does. Never waits for the other. */
  take(job: string): Promise<boolean>;
  /** Resolves to true once this tab holds the job, to false when given up. */
  wait(job: string, givenUp?: AbortSignal): Promise<boolean>;
  holds(job: string): boolean;
  release(job: string): void;
}

/**
 * Without Web Locks (a page that is not in a secure context has none) every tab may try; the journal then finds out
 * at the first event that another one was quicker, since no number can be stored twice.
 */
export function tabLocks(locks: Locks | null): TabLocks {
  const held = new Map<string, () => void>();

  function hold(job: string): Promise<void> {
    return new Promise((release) => held.set(job, release));
  }

  async function ask(job: string, options: LockOptions): Promise<boolean> {
    if (held.has(job)) return true;
    if (locks === null) {
      void hold(job);
      return true;
    }
    return new Promise((resolve, reject) => {
      const until = locks.request(`undertray:job:${job}`, options, (lock) => {
        if (lock === null) {
          resolve(false);
          return undefined;
        }
        const released = hold(job);
        resolve(true);
        return released;
      });
      until.catch((error: unknown) => {
        // Another tab may take a lock by force, and waiting may be given up: both mean that it is not this tab's.
        held.delete(job);
        if (error instanceof DOMException && error.name === 'AbortError') resolve(false);
        else reject(error instanceof Error ? error : new Error(String(error)));
      });
    });
  }

  return {
    take: (job) => ask(job, { ifAvailable: true }),
    wait: (job, givenUp) => ask(job, givenUp === undefined ? {} : { signal: givenUp }),
    holds: (job) => held.has(job),
    release: (job) => {
      held.get(job)?.();
      held.delete(job);
    },
  };
}
