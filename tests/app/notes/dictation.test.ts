import { afterEach, describe, expect, it, vi } from 'vitest';
import { dictationFor, openDictation } from '../../../src/app/notes/dictation.ts';
import type { Heard, SpeechStatus } from '../../../src/app/speech-desk.ts';

interface Told {
  readonly text: string;
  readonly isFinal: boolean;
}

/** A browser's recognition as the standard has it: results in a list that grows, final or not, and an end after `stop`. */
function recognition({ available = 'available', ends = true, starts = true } = {}) {
  const made: { lang: string; processLocally?: boolean; tell: (...told: readonly Told[]) => void }[] = [];
  class Recognition {
    lang = '';
    continuous = false;
    interimResults = true;
    processLocally?: boolean;
    onresult: ((event: { resultIndex: number; results: unknown }) => void) | null = null;
    onend: (() => void) | null = null;
    onerror: (() => void) | null = null;
    #results: Told[] = [];
    constructor() {
      made.push(this);
    }
    static available(): Promise<string> {
      return Promise.resolve(available);
    }
    start(): void {
      if (!starts) throw new DOMException('recognition has already started', 'InvalidStateError');
    }
    stop(): void {
      if (ends) this.onend?.();
    }
    tell(...told: readonly Told[]): void {
      const from = this.#results.length;
      this.#results = [...this.#results.filter(({ isFinal }) => isFinal), ...told];
      const results = this.#results.map(({ text, isFinal }) => ({ isFinal, 0: { transcript: text } }));
      this.onresult?.({ resultIndex: Math.min(from, results.length - told.length), results });
    }
  }
  vi.stubGlobal('SpeechRecognition', Recognition);
  return made;
}

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe('writing down a spoken note', () => {
  it('gives the final words in their order, and none that were taken back', async () => {
    const made = recognition();
    const dictation = await openDictation('fr', false);
    expect(made[0]).toMatchObject({ lang: 'fr-FR', processLocally: true });
    made[0]!.tell({ text: 'le filet', isFinal: false });
    made[0]!.tell({ text: ' le filet est rouillé ', isFinal: true });
    made[0]!.tell({ text: 'à gauche', isFinal: true });
    expect(await dictation!.finish()).toBe('le filet est rouillé à gauche');
  });

  it('sends no voice away that the person has not allowed to go', async () => {
    const made = recognition({ available: 'downloadable' });
    expect(await openDictation('en', false)).toBeNull();
    expect(made).toEqual([]);
    expect(await openDictation('en', true)).not.toBeNull();
    expect(made[0]!.processLocally).toBeUndefined();
  });

  it('is not there where the browser has none, or has one at work already', async () => {
    expect(await openDictation('en', true)).toBeNull();
    recognition({ starts: false });
    expect(await openDictation('en', true)).toBeNull();
  });

  it('does not wait for ever for a recognition that forgets to end', async () => {
    vi.useFakeTimers();
    const made = recognition({ ends: false });
    const dictation = await openDictation('en', true);
    made[0]!.tell({ text: 'rusty', isFinal: true });
    const finished = dictation!.finish();
    await vi.advanceTimersByTimeAsync(2_000);
    expect(await finished).toBe('rusty');
  });

  it('takes the words of the ear where that is the browser’s own, and leaves it running', async () => {
    const made = recognition();
    const listeners = new Set<(heard: Heard) => void>();
    const hearing = (earKind: SpeechStatus['earKind'], ear: SpeechStatus['ear'] = 'listening') => ({
      status: (): SpeechStatus => ({ ear, earKind, progress: null, voice: 'ready', voiceKind: null }),
      onHeard: (listener: (heard: Heard) => void) => {
        listeners.add(listener);
        return () => listeners.delete(listener);
      },
    });
    const dictation = await dictationFor(hearing('browser-on-device'), 'en', false);
    for (const text of ['the thread', 'is rusty'])
      for (const listener of listeners)
        listener({
          alternatives: [
            { text, confidence: 1 },
            { text: 'else', confidence: 0.1 },
          ],
        });
    expect(await dictation!.finish()).toBe('the thread is rusty');
    expect(listeners.size).toBe(0);
    expect(made).toEqual([]);
    await dictationFor(hearing('local'), 'en', false);
    await dictationFor(hearing('browser-on-device', 'off'), 'en', false);
    expect(made).toHaveLength(2);
  });
});
