import { useEffect } from 'react';

/** Keeps the screen on. The browser drops the lock whenever the page is hidden, so it is asked for again on return. */
export function useWakeLock(active: boolean): void {
  useEffect(() => {
    const wake = (navigator as { readonly wakeLock?: WakeLock }).wakeLock;
    if (!active || wake === undefined) return;
    let lock: WakeLockSentinel | null = null;
    let over = false;
    const ask = () => {
      if (document.visibilityState !== 'visible' || over) return;
      // Refused on low battery: the job goes on all the same.
      wake.request('screen').then(
        (granted) => {
          if (over) void granted.release();
          else lock = granted;
        },
        () => undefined,
      );
    };
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', ask);
      void lock?.release();
    };
  }, [active]);
}
