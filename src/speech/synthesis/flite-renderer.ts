import type { FromFliteWorker, ToFliteWorker } from './flite-messages.ts';
import type { FliteStyle, Speech } from './flite.ts';
import type { SoundRefusal } from './sound-source.ts';

/** As much of `Worker` as the renderer uses. */
export interface FliteWorker {
  postMessage(message: ToFliteWorker): void;
  terminate(): void;
  onmessage: ((event: { readonly data: FromFliteWorker }) => unknown) | null;
  onerror: ((event: { readonly message: string }) => unknown) | null;
}

export interface FliteRendererDeps {
  readonly makeWorker: () => FliteWorker;
  readonly onProgress: (loaded: number, total: number) => void;
  /** Seconds of speech kept for being said again. */
  readonly cacheSeconds: number;
}

export interface FliteRenderer {
  /** Fetches the voice. Asking again costs nothing; after a failure it tries again. */
  load(): Promise<boolean>;
  readonly isLoaded: boolean;
  render(text: string, style: FliteStyle): Promise<{ readonly kind: 'rendered'; readonly speech: Speech } | SoundRefusal>;
  dispose(): void;
}

/** Speech by Flite in a worker, with what was said before kept at hand: prompts are asked for again and again. */
export function createFliteRenderer(deps: FliteRendererDeps): FliteRenderer {
  let worker: FliteWorker | null = null;
  let loading: Promise<boolean> | null = null;
  let settleLoad: (loaded: boolean) => void = () => undefined;
  let isLoaded = false;
  let asked = 0;
  const waiting = new Map<number, (message: Extract<FromFliteWorker, { id: number }>) => void>();
  const cache = createSpeechCache(deps.cacheSeconds);

  function take(message: FromFliteWorker): void {
    switch (message.kind) {
      case 'progress':
        deps.onProgress(message.loaded, message.total);
        break;
      case 'loaded':
        isLoaded = true;
        settleLoad(true);
        break;
      case 'failed':
        giveUp(message.message);
        break;
      case 'spoken':
      case 'not-spoken':
        waiting.get(message.id)?.(message);
        waiting.delete(message.id);
        break;
    }
  }

  function giveUp(message: string): void {
    worker?.terminate();
    worker = null;
    loading = null;
    isLoaded = false;
    settleLoad(false);
    for (const [id, settle] of waiting) settle({ kind: 'not-spoken', id, message });
    waiting.clear();
  }

  function load(): Promise<boolean> {
    loading ??= new Promise((resolve) => {
      settleLoad = resolve;
      worker = deps.makeWorker();
      worker.onmessage = ({ data }) => take(data);
      worker.onerror = ({ message }) => giveUp(message);
      worker.postMessage({ kind: 'load' });
    });
    return loading;
  }

  return {
    load,
    get isLoaded() {
      return isLoaded;
    },
    async render(text, style) {
      const key = `${style.voice} ${style.rate} ${text}`;
      const known = cache.get(key);
      if (known) return { kind: 'rendered', speech: known };
      if (!(await load()) || !worker) return { kind: 'refused', error: 'synthesis-unavailable', message: 'The voice could not be loaded.' };
      const id = ++asked;
      const answer = await new Promise<Extract<FromFliteWorker, { id: number }>>((resolve) => {
        waiting.set(id, resolve);
        worker?.postMessage({ kind: 'speak', id, text, style });
      });
      if (answer.kind === 'not-spoken') return { kind: 'refused', error: 'synthesis-failed', message: answer.message };
      cache.put(key, answer.speech);
      return { kind: 'rendered', speech: answer.speech };
    },
    dispose() {
      giveUp('Put away.');
    },
  };
}

/** Keeps so many seconds of speech, and lets what was used longest ago go first. */
function createSpeechCache(seconds: number) {
  const kept = new Map<string, Speech>();
  let held = 0;
  const length = (speech: Speech): number => speech.samples.length / speech.sampleRate;
  return {
    get(key: string): Speech | null {
      const speech = kept.get(key);
      if (!speech) return null;
      kept.delete(key);
      kept.set(key, speech);
      return speech;
    },
    put(key: string, speech: Speech): void {
      if (kept.has(key)) return;
      kept.set(key, speech);
      held += length(speech);
      for (const [oldest, other] of kept) {
        if (held <= seconds || oldest === key) break;
        kept.delete(oldest);
        held -= length(other);
      }
    },
  };
}
