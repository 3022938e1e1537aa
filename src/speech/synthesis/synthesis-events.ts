import { toDOMString } from '../idl-types.ts';
import type { SynthesisErrorCode } from '../ports.ts';
import { synthesisErrorCodes } from '../ports.ts';
import type { UtteranceErrorEvent, UtteranceEvent } from './utterance.ts';
import { LocalSpeechSynthesisUtterance } from './utterance.ts';

export interface SpeechSynthesisEventInit extends EventInit {
  readonly utterance: LocalSpeechSynthesisUtterance;
  readonly charIndex?: number;
  readonly charLength?: number;
  readonly elapsedTime?: number;
  readonly name?: string;
}

export class LocalSpeechSynthesisEvent extends Event implements UtteranceEvent {
  readonly #utterance: LocalSpeechSynthesisUtterance;
  readonly #charIndex: number;
  readonly #charLength: number;
  readonly #elapsedTime: number;
  readonly #name: string;

  constructor(type: string, init: SpeechSynthesisEventInit) {
    super(type, init);
    // Callers in plain JavaScript can leave out what the types require.
    if (!((init as Partial<SpeechSynthesisEventInit>).utterance instanceof LocalSpeechSynthesisUtterance)) {
      throw new TypeError('A speech synthesis event needs an utterance.');
    }
    this.#utterance = init.utterance;
    this.#charIndex = (init.charIndex ?? 0) >>> 0;
    this.#charLength = (init.charLength ?? 0) >>> 0;
    this.#elapsedTime = Math.fround(init.elapsedTime ?? 0);
    this.#name = toDOMString(init.name ?? '');
  }

  get utterance(): LocalSpeechSynthesisUtterance {
    return this.#utterance;
  }

  get charIndex(): number {
    return this.#charIndex;
  }

  get charLength(): number {
    return this.#charLength;
  }

  /** Seconds since the utterance began. */
  get elapsedTime(): number {
    return this.#elapsedTime;
  }

  get name(): string {
    return this.#name;
  }
}

export interface SpeechSynthesisErrorEventInit extends SpeechSynthesisEventInit {
  readonly error: SynthesisErrorCode;
}

export class LocalSpeechSynthesisErrorEvent extends LocalSpeechSynthesisEvent implements UtteranceErrorEvent {
  readonly #error: SynthesisErrorCode;

  constructor(type: string, init: SpeechSynthesisErrorEventInit) {
    super(type, init);
    if (!synthesisErrorCodes.includes(init.error)) throw new TypeError('A speech synthesis error needs one of the known codes.');
    this.#error = init.error;
  }

  get error(): SynthesisErrorCode {
    return this.#error;
  }
}
