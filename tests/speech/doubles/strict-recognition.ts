import type {
  AvailabilityStatus,
  PhraseLike,
  RecognitionErrorCode,
  RecognitionErrorLike,
  RecognitionLike,
  RecognitionOptions,
  ResultEventLike,
  ResultListLike,
  TimedLike,
} from '../../../src/speech/ports.ts';
import type { ManualClock } from './manual-clock.ts';

interface Told {
  readonly text: string;
  readonly confidence: number;
  readonly isFinal: boolean;
}

/**
 * A browser's `SpeechRecognition` that does what the standard says and no more: it throws on a second start,
 * gives no event but through the test, and keeps every object it ever made so that a test can let an old one speak.
 * `habits` switches on what real browsers do wrong.
 */
export function strictRecognition(clock: ManualClock) {
  const made: Recognition[] = [];
  const habits = {
    /** `start()` gives `start` by itself after so many milliseconds; null: it stays silent. */
    startsAfter: 0 as number | null,
    /** Errors give `end` after them. */
    endsAfterError: true,
    /** `stop()` and `abort()` give `end`. */
    endsWhenTold: true,
    refusesPhrases: false,
    availability: 'available' as AvailabilityStatus,
    installs: true,
    installed: [] as RecognitionOptions[],
  };

  class Recognition implements RecognitionLike {
    lang = '';
    continuous = false;
    interimResults = false;
    maxAlternatives = 1;
    processLocally = false;
    phrases: PhraseLike[] = [];
    onstart: ((event: TimedLike) => unknown) | null = null;
    onspeechstart: ((event: TimedLike) => unknown) | null = null;
    onspeechend: ((event: TimedLike) => unknown) | null = null;
    onresult: ((event: ResultEventLike) => unknown) | null = null;
    onnomatch: ((event: ResultEventLike) => unknown) | null = null;
    onerror: ((event: RecognitionErrorLike) => unknown) | null = null;
    onend: ((event: TimedLike) => unknown) | null = null;
    running = false;
    calls: string[] = [];
    #told: Told[] = [];

    constructor() {
      made.push(this);
    }

    static available(_options: RecognitionOptions): Promise<AvailabilityStatus> {
      return Promise.resolve(habits.availability);
    }

    static install(options: RecognitionOptions): Promise<boolean> {
      habits.installed.push(options);
      if (habits.installs) habits.availability = 'available';
      return Promise.resolve(habits.installs);
    }

    start(): void {
      this.calls.push('start');
      if (this.running || made.some((other) => other !== this && other.running)) {
        throw new DOMException('recognition has already started', 'InvalidStateError');
      }
      this.running = true;
      if (habits.refusesPhrases && this.phrases.length > 0) clock.after(0, () => this.fail('phrases-not-supported'));
      else if (habits.startsAfter !== null) clock.after(habits.startsAfter, () => this.begin());
    }

    stop(): void {
      this.calls.push('stop');
      if (this.running && habits.endsWhenTold) clock.after(0, () => this.end());
    }

    abort(): void {
      this.calls.push('abort');
      if (this.running && habits.endsWhenTold) clock.after(0, () => this.end());
    }

    begin(): void {
      if (this.running) this.onstart?.(this.#time());
    }

    speechStart(timeStamp = clock.now()): void {
      this.onspeechstart?.({ timeStamp });
    }

    interim(text: string): void {
      this.#told = [...this.#told.filter(({ isFinal }) => isFinal), { text, confidence: 0, isFinal: false }];
      this.#tell(this.#told.length - 1);
    }

    final(text: string, confidence = 0.9): void {
      this.#told = [...this.#told.filter(({ isFinal }) => isFinal), { text, confidence, isFinal: true }];
      this.#tell(this.#told.length - 1);
    }

    /** Tells the last final again under the same index, as browsers sometimes do. */
    repeatLast(): void {
      this.#tell(this.#told.length - 1);
    }

    noMatch(): void {
      this.onnomatch?.({ resultIndex: 0, results: null, ...this.#time() });
    }

    fail(error: RecognitionErrorCode): void {
      this.onerror?.({ error, message: '' });
      if (habits.endsAfterError) clock.after(0, () => this.end());
    }

    end(): void {
      if (!this.running) return;
      this.running = false;
      this.onend?.(this.#time());
    }

    #tell(resultIndex: number): void {
      const told = [...this.#told];
      const results: ResultListLike = {
        length: told.length,
        item: (index) => {
          const entry = told[index];
          return entry
            ? {
                length: 1,
                isFinal: entry.isFinal,
                item: (alternative) => (alternative === 0 ? { transcript: entry.text, confidence: entry.confidence } : null),
              }
            : null;
        },
      };
      this.onresult?.({ resultIndex, results, ...this.#time() });
    }

    #time(): TimedLike {
      return { timeStamp: clock.now() };
    }
  }

  return {
    Recognition,
    made,
    habits,
    get last(): Recognition {
      const last = made.at(-1);
      if (!last) throw new Error('No recognition was made.');
      return last;
    },
  };
}
