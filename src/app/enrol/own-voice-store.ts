import { createStore, del, get, set } from 'idb-keyval';
import type { UseStore } from 'idb-keyval';
import type { OwnVoice } from '../../speech/hearing/own-voice.ts';
import presentEar from '../../speech/hearing/models/ear.net?url';

/** How many of the takes that it did not learn from were understood, and how many were taken for something else. */
export interface Score {
  readonly right: number;
  readonly wrong: number;
}

/** What getting used to a person is worth, measured on takes that nothing was learnt from. */
export interface Effect {
  readonly takes: number;
  readonly quiet: { readonly before: Score; readonly after: Score };
  readonly noisy: { readonly before: Score; readonly after: Score };
}

/** The voice that this device has got used to. Kept here and sent nowhere. */
export interface KeptVoice {
  readonly format: 1;
  readonly person: string;
  /** Milliseconds since 1970. */
  readonly when: number;
  readonly own: OwnVoice;
  /** The address of the network that it was learnt on, which changes with its contents. */
  readonly ear: string;
  readonly effect: Effect;
  readonly inUse: boolean;
}

/** Whether what was learnt still counts: another network is another ear. */
export const isOutdated = (voice: KeptVoice): boolean => voice.ear !== presentEar;

export { presentEar };

let opened: UseStore | null = null;
const store = (): UseStore => (opened ??= createStore('undertray-voice', 'own'));
const key = 'own';
const listeners = new Set<() => void>();
const changed = (): void => {
  for (const listener of listeners) listener();
};

/** Null where none is kept, where storage does not answer, and for what this build cannot read; that stays where it is. */
export async function loadVoice(): Promise<KeptVoice | null> {
  const raw = await get<unknown>(key, store()).catch(() => undefined);
  return isKeptVoice(raw) ? raw : null;
}

/** False when there is no room. */
export async function keepVoice(voice: KeptVoice): Promise<boolean> {
  const kept = await set(key, voice, store()).then(
    () => true,
    () => false,
  );
  changed();
  return kept;
}

export async function forgetVoice(): Promise<void> {
  await del(key, store()).catch(() => undefined);
  changed();
}

/** For the ear: what it listens with, now and after each change. */
export const voiceInUse = {
  current: async (): Promise<OwnVoice | null> => {
    const voice = await loadVoice();
    return voice?.inUse === true ? voice.own : null;
  },
  onChange: (listener: () => void): void => void listeners.add(listener),
};

export function onVoiceChange(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function isKeptVoice(raw: unknown): raw is KeptVoice {
  if (typeof raw !== 'object' || raw === null) return false;
  const { format, own } = raw as Partial<KeptVoice>;
  const layer = own?.layer;
  return (
    format === 1 &&
    typeof own?.net === 'string' &&
    layer?.weights instanceof Float32Array &&
    layer.bias instanceof Float32Array &&
    layer.weights.length === layer.rows * layer.width &&
    layer.bias.length === layer.rows
  );
}
