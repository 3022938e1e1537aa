/** What a worker tells its page when it cannot go on: it is broken for good, and the page starts a new one. */
export interface Broken {
  readonly kind: 'failed';
  readonly why: 'broken';
  readonly message: string;
}

/** Runs what a worker is asked for, and tells what is thrown instead of letting it end unheard in the worker. */
export function guardedBy(tell: (message: Broken) => void): (run: () => void) => void {
  return (run) => {
    try {
      run();
    } catch (error) {
      tell({ kind: 'failed', why: 'broken', message: String(error) });
    }
  };
}
