import type { RejectionReason } from '../hearing/port.ts';
import { toDOMString } from '../idl-types.ts';
import type { RecognitionErrorCode } from '../ports.ts';
import { recognitionErrorCodes } from '../ports.ts';
import { LocalSpeechRecognitionResultList } from './recognition-results.ts';

export interface SpeechRecognitionEventInit extends EventInit {
  readonly resultIndex?: number;
  readonly results: LocalSpeechRecognitionResultList;
}

export class LocalSpeechRecognitionEvent extends Event {
  readonly #resultIndex: number;
  readonly #results: LocalSpeechRecognitionResultList;

  constructor(type: string, init: SpeechRecognitionEventInit) {
    super(type, init);
    // Callers in plain JavaScript can leave out what the types require.
    if (!((init as Partial<SpeechRecognitionEventInit>).results instanceof LocalSpeechRecognitionResultList)) {
      throw new TypeError('A speech recognition event needs results.');
    }
    this.#resultIndex = (init.resultIndex ?? 0) >>> 0;
    this.#results = init.results;
  }

  /** The lowest index in `results` that has changed. */
  get resultIndex(): number {
    return this.#resultIndex;
  }

  get results(): LocalSpeechRecognitionResultList {
    return this.#results;
  }
}

/** A `nomatch` event that also says why nothing matched, which the standard leaves open. */
export class LocalNoMatchEvent extends LocalSpeechRecognitionEvent {
  readonly why: RejectionReason;

  constructor(init: SpeechRecognitionEventInit, why: RejectionReason) {
    super('nomatch', init);
    this.why = why;
  }
}

export interface SpeechRecognitionErrorEventInit extends EventInit {
  readonly error: RecognitionErrorCode;
  readonly message?: string;
}

export class LocalSpeechRecognitionErrorEvent extends Event {
  readonly #error: RecognitionErrorCode;
  readonly #message: string;

  constructor(type: string, init: SpeechRecognitionErrorEventInit) {
    super(type, init);
    if (!recognitionErrorCodes.includes(init.error)) throw new TypeError('A speech recognition error needs one of the known codes.');
    this.#error = init.error;
    this.#message = toDOMString(init.message ?? '');
  }

  get error(): RecognitionErrorCode {
    return this.#error;
  }

  /** For the log; never shown to the person. */
  get message(): string {
    return this.#message;
  }
}
