import type { EventHandler } from '../event-handlers.ts';
import { defineEventHandlers } from '../event-handlers.ts';
import { toDOMString } from '../idl-types.ts';
import type { SynthesisErrorCode } from '../ports.ts';
import { LocalSpeechSynthesisVoice } from './synthesis-voice.ts';

/** What every event of an utterance tells. */
export interface UtteranceEvent extends Event {
  readonly utterance: LocalSpeechSynthesisUtterance;
  readonly charIndex: number;
  readonly charLength: number;
  readonly elapsedTime: number;
  readonly name: string;
}

export interface UtteranceErrorEvent extends UtteranceEvent {
  readonly error: SynthesisErrorCode;
}

/** `SpeechSynthesisUtterance` of the Web Speech API: a text and how it is to be spoken. */
export class LocalSpeechSynthesisUtterance extends EventTarget {
  declare onstart: EventHandler<UtteranceEvent>;
  declare onend: EventHandler<UtteranceEvent>;
  declare onerror: EventHandler<UtteranceErrorEvent>;
  declare onpause: EventHandler<UtteranceEvent>;
  declare onresume: EventHandler<UtteranceEvent>;
  declare onmark: EventHandler<UtteranceEvent>;
  declare onboundary: EventHandler<UtteranceEvent>;

  static {
    defineEventHandlers(this.prototype, ['start', 'end', 'error', 'pause', 'resume', 'mark', 'boundary']);
  }

  #text: string;
  #lang = '';
  #voice: LocalSpeechSynthesisVoice | null = null;
  #volume = 1;
  #rate = 1;
  #pitch = 1;

  constructor(...[text]: [] | [string]) {
    super();
    // Web IDL converts an argument that is given, even if it is undefined.
    this.#text = arguments.length === 0 ? '' : toDOMString(text);
  }

  get text(): string {
    return this.#text;
  }

  set text(value: string) {
    this.#text = toDOMString(value);
  }

  get lang(): string {
    return this.#lang;
  }

  set lang(value: string) {
    this.#lang = toDOMString(value);
  }

  get voice(): LocalSpeechSynthesisVoice | null {
    return this.#voice;
  }

  set voice(value: LocalSpeechSynthesisVoice | null) {
    // Web IDL takes undefined for null in a nullable attribute.
    const given: unknown = value ?? null;
    if (given !== null && !(given instanceof LocalSpeechSynthesisVoice)) throw new TypeError('Only a voice of this synthesis fits here.');
    this.#voice = given;
  }

  get volume(): number {
    return this.#volume;
  }

  set volume(value: number) {
    this.#volume = toFloat(value);
  }

  get rate(): number {
    return this.#rate;
  }

  set rate(value: number) {
    this.#rate = toFloat(value);
  }

  get pitch(): number {
    return this.#pitch;
  }

  set pitch(value: number) {
    this.#pitch = toFloat(value);
  }
}

function toFloat(value: number): number {
  const float = Math.fround(value);
  if (!Number.isFinite(float)) throw new TypeError('A finite number is needed.');
  return float;
}
