import { toDOMString } from '../idl-types.ts';

/** A phrase that a recogniser should expect more than others. */
export class LocalSpeechRecognitionPhrase {
  readonly #phrase: string;
  readonly #boost: number;

  /** Boost from 0 (none) to 10; outside that a SyntaxError, as the standard says. */
  constructor(phrase: string, boost = 1) {
    if (arguments.length === 0) throw new TypeError('A phrase is needed.');
    const weight = Math.fround(boost);
    if (!Number.isFinite(weight)) throw new TypeError('A boost is a finite number.');
    if (weight < 0 || weight > 10) throw new DOMException('A boost lies between 0 and 10.', 'SyntaxError');
    this.#phrase = toDOMString(phrase);
    this.#boost = weight;
  }

  get phrase(): string {
    return this.#phrase;
  }

  get boost(): number {
    return this.#boost;
  }
}

/** An array that takes nothing but phrases, as `ObservableArray<SpeechRecognitionPhrase>` in the standard. */
export function phraseArray(): LocalSpeechRecognitionPhrase[] {
  return new Proxy<LocalSpeechRecognitionPhrase[]>([], {
    set(target, property, value, receiver) {
      if (typeof property === 'string' && /^\d+$/.test(property)) requirePhrase(value);
      return Reflect.set(target, property, value, receiver);
    },
    defineProperty(target, property, descriptor) {
      if (typeof property === 'string' && /^\d+$/.test(property) && 'value' in descriptor) requirePhrase(descriptor.value);
      return Reflect.defineProperty(target, property, descriptor);
    },
  });
}

function requirePhrase(value: unknown): void {
  if (!(value instanceof LocalSpeechRecognitionPhrase)) throw new TypeError('Only speech recognition phrases can be listed here.');
}
