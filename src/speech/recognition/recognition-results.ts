/** One way to understand what was said. */
export class LocalSpeechRecognitionAlternative {
  readonly #transcript: string;
  readonly #confidence: number;

  constructor(transcript: string, confidence: number) {
    this.#transcript = transcript;
    this.#confidence = Math.fround(confidence);
  }

  get transcript(): string {
    return this.#transcript;
  }

  /** From 0 to 1. */
  get confidence(): number {
    return this.#confidence;
  }
}

/** One utterance: its alternatives, the most confident first. */
export class LocalSpeechRecognitionResult {
  readonly [index: number]: LocalSpeechRecognitionAlternative;
  readonly #alternatives: readonly LocalSpeechRecognitionAlternative[];
  readonly #isFinal: boolean;

  constructor(alternatives: readonly LocalSpeechRecognitionAlternative[], isFinal: boolean) {
    this.#alternatives = alternatives.toSorted((a, b) => b.confidence - a.confidence);
    this.#isFinal = isFinal;
    defineIndexes(this, this.#alternatives);
  }

  get length(): number {
    return this.#alternatives.length;
  }

  get isFinal(): boolean {
    return this.#isFinal;
  }

  item(index: number): LocalSpeechRecognitionAlternative | null {
    return this.#alternatives[index] ?? null;
  }
}

/** The results of one session: finals first, then what is still open. */
export class LocalSpeechRecognitionResultList {
  readonly [index: number]: LocalSpeechRecognitionResult;
  readonly #results: readonly LocalSpeechRecognitionResult[];

  constructor(results: readonly LocalSpeechRecognitionResult[]) {
    this.#results = [...results];
    defineIndexes(this, this.#results);
  }

  get length(): number {
    return this.#results.length;
  }

  item(index: number): LocalSpeechRecognitionResult | null {
    return this.#results[index] ?? null;
  }
}

function defineIndexes(target: object, items: readonly unknown[]): void {
  items.forEach((value, index) => Object.defineProperty(target, index, { value, enumerable: true }));
}
