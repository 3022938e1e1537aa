import type { SynthesisErrorCode, SynthesisLike, TimedLike, UtteranceLike, VoiceLike } from '../../../src/speech/ports.ts';
import type { ManualClock } from './manual-clock.ts';

export class PlainUtterance implements UtteranceLike {
  text: string;
  lang = '';
  voice: VoiceLike | null = null;
  volume = 1;
  rate = 1;
  pitch = 1;
  onstart: ((event: TimedLike) => unknown) | null = null;
  onboundary: ((event: { readonly charIndex: number }) => unknown) | null = null;
  onend: ((event: TimedLike) => unknown) | null = null;
  onerror: ((event: { readonly error: SynthesisErrorCode }) => unknown) | null = null;

  constructor(text: string) {
    this.text = text;
  }
}

export function voice(name: string, lang: string, more: Partial<VoiceLike> = {}): VoiceLike {
  return { voiceURI: name, name, lang, localService: true, default: false, ...more };
}

/** A browser's `speechSynthesis` that keeps to the standard, with what real browsers do wrong to be switched on. */
export class StrictSynthesis implements SynthesisLike {
  voices: VoiceLike[] = [voice('Local', 'en-US', { default: true })];
  paused = false;
  onvoiceschanged: ((event: TimedLike) => unknown) | null = null;
  readonly spoken: PlainUtterance[] = [];
  readonly calls: string[] = [];
  habits = {
    startsAfter: 50 as number | null,
    /** Milliseconds for a letter; null: never ends. */
    letterTakes: 50 as number | null,
    /** So many calls of speak() are lost, as after a cancel() in some browsers. */
    swallows: 0,
    /** Error given instead of a start. */
    error: null as SynthesisErrorCode | null,
    /** Falls silent, without an event, after so many milliseconds of one utterance. */
    silentAfter: Infinity,
    /** Tells of each word as it comes to it. */
    tellsWords: false,
  };
  readonly #clock: ManualClock;
  #queue: PlainUtterance[] = [];
  #current: PlainUtterance | null = null;
  #cancelTimer: () => void = () => undefined;

  constructor(clock: ManualClock) {
    this.#clock = clock;
  }

  get pending(): boolean {
    return this.#queue.length > 0;
  }

  get speaking(): boolean {
    return this.#current !== null;
  }

  getVoices(): VoiceLike[] {
    return this.voices;
  }

  speak(utterance: PlainUtterance): void {
    this.calls.push(`speak ${utterance.text}`);
    this.spoken.push(utterance);
    if (this.habits.swallows-- > 0) return;
    this.#queue.push(utterance);
    this.#next();
  }

  cancel(): void {
    this.calls.push('cancel');
    this.#cancelTimer();
    const dropped = this.#queue;
    const current = this.#current;
    this.#queue = [];
    this.#current = null;
    current?.onerror?.({ error: 'interrupted' });
    for (const utterance of dropped) utterance.onerror?.({ error: 'canceled' });
  }

  pause(): void {
    throw new Error('pause() acts as cancel on Android and must not be used.');
  }

  resume(): void {
    this.calls.push('resume');
    this.paused = false;
  }

  #next(): void {
    if (this.#current || this.paused) return;
    const utterance = this.#queue.shift();
    if (!utterance) return;
    this.#current = utterance;
    const { startsAfter, letterTakes, error, silentAfter } = this.habits;
    if (startsAfter === null) return;
    this.#cancelTimer = this.#clock.after(startsAfter, () => {
      if (error) {
        this.#over(() => utterance.onerror?.({ error }));
        return;
      }
      utterance.onstart?.({ timeStamp: this.#clock.now() });
      if (this.habits.tellsWords && letterTakes !== null) this.#tellWords(utterance, letterTakes);
      if (letterTakes === null || utterance.text.length * letterTakes > silentAfter) return;
      this.#cancelTimer = this.#clock.after(utterance.text.length * letterTakes, () =>
        this.#over(() => utterance.onend?.({ timeStamp: this.#clock.now() })),
      );
    });
  }

  #tellWords(utterance: PlainUtterance, letterTakes: number): void {
    for (const { index } of utterance.text.matchAll(/\S+/g))
      this.#clock.after(index * letterTakes, () => {
        if (this.#current === utterance) utterance.onboundary?.({ charIndex: index });
      });
  }

  #over(tell: () => void): void {
    this.#current = null;
    tell();
    this.#next();
  }
}
