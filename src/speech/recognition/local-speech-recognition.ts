import { primaryTag } from '../../phrasing/language.ts';
import type { Clock } from '../clock.ts';
import type { EventHandler } from '../event-handlers.ts';
import { defineEventHandlers } from '../event-handlers.ts';
import { toBoolean, toDOMString } from '../idl-types.ts';
import type { AvailabilityStatus, RecognitionOptions } from '../ports.ts';
import { recognitionQualities } from '../ports.ts';
import type { HearingEngine } from './engine.ts';
import { LocalSpeechGrammarList } from './grammar-list.ts';
import type { LocalSpeechRecognitionErrorEvent, LocalSpeechRecognitionEvent } from './recognition-events.ts';
import { LocalSpeechRecognitionPhrase, phraseArray } from './recognition-phrases.ts';
import type { Session } from './recognition-session.ts';
import { startSession } from './recognition-session.ts';

export interface LocalRecognitionDeps {
  readonly engine: HearingEngine;
  readonly clock: Clock;
  /** How long a one-shot session waits for somebody to speak, in milliseconds. */
  readonly noSpeechAfter: number;
  /** The language of the document, used while `lang` is empty. */
  readonly documentLanguage: () => string;
}

/** `SpeechRecognition` of the Web Speech API over the recogniser on this device. Made by `bindLocalSpeechRecognition`. */
export class LocalSpeechRecognition extends EventTarget {
  declare onaudiostart: EventHandler;
  declare onsoundstart: EventHandler;
  declare onspeechstart: EventHandler;
  declare onspeechend: EventHandler;
  declare onsoundend: EventHandler;
  declare onaudioend: EventHandler;
  declare onresult: EventHandler<LocalSpeechRecognitionEvent>;
  declare onnomatch: EventHandler<LocalSpeechRecognitionEvent>;
  declare onerror: EventHandler<LocalSpeechRecognitionErrorEvent>;
  declare onstart: EventHandler;
  declare onend: EventHandler;

  static {
    defineEventHandlers(this.prototype, [
      'audiostart',
      'soundstart',
      'speechstart',
      'speechend',
      'soundend',
      'audioend',
      'result',
      'nomatch',
      'error',
      'start',
      'end',
    ]);
  }

  readonly #deps: LocalRecognitionDeps;
  readonly #phrases = phraseArray();
  #session: Session | null = null;
  #grammars = new LocalSpeechGrammarList();
  #lang = '';
  #continuous = false;
  #interimResults = false;
  #unspokenPunctuation = false;
  #maxAlternatives = 1;
  #processLocally = false;

  constructor(deps: LocalRecognitionDeps) {
    super();
    this.#deps = deps;
  }

  get grammars(): LocalSpeechGrammarList {
    return this.#grammars;
  }

  set grammars(value: LocalSpeechGrammarList) {
    if (!(value instanceof LocalSpeechGrammarList)) throw new TypeError('Only a speech grammar list fits here.');
    this.#grammars = value;
  }

  get lang(): string {
    return this.#lang;
  }

  set lang(value: string) {
    this.#lang = toDOMString(value);
  }

  get continuous(): boolean {
    return this.#continuous;
  }

  set continuous(value: boolean) {
    this.#continuous = toBoolean(value);
  }

  get interimResults(): boolean {
    return this.#interimResults;
  }

  set interimResults(value: boolean) {
    this.#interimResults = toBoolean(value);
  }

  /** Kept as set; commands carry no punctuation. */
  get unspokenPunctuation(): boolean {
    return this.#unspokenPunctuation;
  }

  set unspokenPunctuation(value: boolean) {
    this.#unspokenPunctuation = toBoolean(value);
  }

  get maxAlternatives(): number {
    return this.#maxAlternatives;
  }

  set maxAlternatives(value: number) {
    this.#maxAlternatives = value >>> 0;
  }

  /** Recognition is always local here, whatever is asked for. */
  get processLocally(): boolean {
    return this.#processLocally;
  }

  set processLocally(value: boolean) {
    this.#processLocally = toBoolean(value);
  }

  get phrases(): LocalSpeechRecognitionPhrase[] {
    return this.#phrases;
  }

  set phrases(value: LocalSpeechRecognitionPhrase[]) {
    const phrases = [...value];
    for (const phrase of phrases) {
      if (!(phrase instanceof LocalSpeechRecognitionPhrase)) throw new TypeError('Only speech recognition phrases can be listed here.');
    }
    this.#phrases.length = 0;
    this.#phrases.push(...phrases);
  }

  /** Listens to the track, or to the microphone. Throws InvalidStateError while a session is under way or when the track is not live audio. */
  start(...[track]: [] | [MediaStreamTrack]): void {
    if (track !== undefined && (track.kind !== 'audio' || track.readyState !== 'live')) {
      throw new DOMException('Only a live audio track can be listened to.', 'InvalidStateError');
    }
    if (this.#session !== null) throw new DOMException('Recognition has already started.', 'InvalidStateError');
    const session = startSession(
      {
        language: this.#lang || this.#deps.documentLanguage(),
        continuous: this.#continuous,
        interimResults: this.#interimResults,
        maxAlternatives: this.#maxAlternatives,
        hasPhrases: this.#phrases.length > 0,
        track: track ?? null,
      },
      {
        engine: this.#deps.engine,
        clock: this.#deps.clock,
        noSpeechAfter: this.#deps.noSpeechAfter,
        dispatch: (event) => void this.dispatchEvent(event),
        onOver: () => {
          if (this.#session === session) this.#session = null;
        },
      },
    );
    this.#session = session;
  }

  stop(): void {
    this.#session?.stop();
  }

  abort(): void {
    this.#session?.abort();
  }
}

/** The class as a page would find it on `window`: its constructor takes nothing. */
export function bindLocalSpeechRecognition(deps: LocalRecognitionDeps) {
  return class SpeechRecognition extends LocalSpeechRecognition {
    constructor() {
      super(deps);
    }

    /** Models come with the page, so what is supported is at worst still to be fetched: `load` says so when it fails. */
    static available(options: RecognitionOptions): Promise<AvailabilityStatus> {
      return new Promise((resolve) => {
        const tags = checkedLanguages(options);
        resolve(tags.length > 0 && tags.every((tag) => hears(deps.engine, tag)) ? 'available' : 'unavailable');
      });
    }

    /** Fetches the models now. */
    static async install(options: RecognitionOptions): Promise<boolean> {
      const tags = checkedLanguages(options);
      if (tags.length === 0 || !tags.every((tag) => hears(deps.engine, tag))) return false;
      for (const tag of tags) {
        const outcome = await deps.engine.load(primaryTag(tag));
        if (outcome.kind === 'refused') return false;
      }
      return true;
    }
  };
}

function hears(engine: HearingEngine, tag: string): boolean {
  return engine.languages.includes(primaryTag(tag));
}

/** Throws what the standard's binding throws: TypeError for a wrong shape, SyntaxError for a tag that is not BCP 47. */
function checkedLanguages(options: RecognitionOptions): string[] {
  const { langs, quality } = options as Partial<RecognitionOptions>;
  if (langs === undefined) throw new TypeError('Languages are needed.');
  if (quality !== undefined && !recognitionQualities.includes(quality)) throw new TypeError('Unknown quality.');
  return Array.from(langs, (tag) => {
    try {
      return new Intl.Locale(toDOMString(tag)).toString();
    } catch {
      throw new DOMException(`${toDOMString(tag)} is not a language tag.`, 'SyntaxError');
    }
  });
}
