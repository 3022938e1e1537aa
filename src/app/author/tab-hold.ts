import { useEffect, useState } from 'react';

export type Hold = 'asking' | 'mine' | 'other-tab';

/**
 * One tab writes a procedure, others look on. Without Web Locks
 * (a page that is not in a secure context has none) every tab may write.
 */
export function useTabHold(name: string): Hold {
  const [hold, setHold] = useState<Hold>('asking');
  useEffect(() => {
    // The types promise it, but a page that is not in a secure context has none.
    const locks = (navigator as { readonly locks?: LockManager }).locks ?? null;
    if (locks === null) {
      setHold('mine');
      return;
    }
    const givenUp = new AbortController();
    let release: () => void = () => undefined;
    const keep = () => {
      if (givenUp.signal.aborted) return Promise.resolve();
      setHold('mine');
      return new Promise<void>((resolve) => {
        release = resolve;
      });
    };
    const lock = `undertray:author:${name}`;
    const ask = async () => {
      const taken = await locks.request(lock, { ifAvailable: true }, async (granted) => {
        if (granted === null) return false;
        await keep();
        return true;
      });
      if (taken || givenUp.signal.aborted) return;
      setHold('other-tab');
      await locks.request(lock, { signal: givenUp.signal }, keep);
    };
    ask().catch((error: unknown) => {
      if (!givenUp.signal.aborted) throw error;
    });
    return () => {
      givenUp.abort();
      release();
    };
  }, [name]);
  return hold;
}
