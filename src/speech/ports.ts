/**
 * The ear and the voice in the shape of the Web Speech API (https://webaudio.github.io/web-speech-api/):
 * only the members that the supervisors use. The browser's own objects fit these, and so do the local ones.
 */

export const recognitionErrorCodes = [
  'no-speech',
  'aborted',
  'audio-capture',
  'network',
  'not-allowed',
  'service-not-allowed',
  'language-not-supported',
  'phrases-not-supported',
] as const;
export type RecognitionErrorCode = (typeof recognitionErrorCodes)[number];

export const availabilityStatuses = ['unavailable', 'downloadable', 'downloading', 'available'] as const;
export type AvailabilityStatus = (typeof availabilityStatuses)[number];

export const recognitionQualities = ['command', 'dictation', 'conversation'] as const;
export type RecognitionQuality = (typeof recognitionQualities)[number];

export interface RecognitionOptions {
  readonly langs: readonly string[];
  readonly processLocally?: boolean;
  readonly quality?: RecognitionQuality;
}

/**
 * An event handler attribute. The supervisors only write it, so a handler that expects less than the whole event
 * fits; a method's parameters are compared that way, a function's are not.
 */
export type HandlerLike<E> = { handle(event: E): unknown }['handle'] | null;

export interface AlternativeLike {
  readonly transcript: string;
  readonly confidence: number;
}

export interface ResultLike {
  readonly length: number;
  readonly isFinal: boolean;
  item(index: number): AlternativeLike | null;
}

export interface ResultListLike {
  readonly length: number;
  item(index: number): ResultLike | null;
}

export interface ResultEventLike {
  readonly resultIndex: number;
  readonly results: ResultListLike | null;
  readonly timeStamp: number;
}

export interface RecognitionErrorLike {
  readonly error: RecognitionErrorCode;
  readonly message: string;
}

export interface TimedLike {
  readonly timeStamp: number;
}

export interface PhraseLike {
  readonly phrase: string;
  readonly boost: number;
}

export type PhraseConstructorLike = new (phrase: string, boost?: number) => PhraseLike;

/** An ear for one session: started once, ends once. */
export interface RecognitionLike {
  lang: string;
  continuous: boolean;
  interimResults: boolean;
  maxAlternatives: number;
  /** Absent in browsers without on-device recognition. */
  processLocally?: boolean;
  /** Absent in browsers without contextual biasing. */
  phrases?: PhraseLike[];
  start(track?: MediaStreamTrack): void;
  stop(): void;
  abort(): void;
  onstart: HandlerLike<TimedLike>;
  onspeechstart: HandlerLike<TimedLike>;
  onspeechend: HandlerLike<TimedLike>;
  onresult: HandlerLike<ResultEventLike>;
  onnomatch: HandlerLike<ResultEventLike>;
  onerror: HandlerLike<RecognitionErrorLike>;
  onend: HandlerLike<TimedLike>;
}

export interface RecognitionConstructorLike {
  new (): RecognitionLike;
  available?(options: RecognitionOptions): Promise<AvailabilityStatus>;
  install?(options: RecognitionOptions): Promise<boolean>;
}

export const synthesisErrorCodes = [
  'canceled',
  'interrupted',
  'audio-busy',
  'audio-hardware',
  'network',
  'synthesis-unavailable',
  'synthesis-failed',
  'language-unavailable',
  'voice-unavailable',
  'text-too-long',
  'invalid-argument',
  'not-allowed',
] as const;
export type SynthesisErrorCode = (typeof synthesisErrorCodes)[number];

export interface VoiceLike {
  readonly voiceURI: string;
  readonly name: string;
  readonly lang: string;
  readonly localService: boolean;
  readonly default: boolean;
}

export interface UtteranceLike<V extends VoiceLike = VoiceLike> {
  text: string;
  lang: string;
  voice: V | null;
  volume: number;
  rate: number;
  pitch: number;
  onstart: HandlerLike<TimedLike>;
  /** A word or sentence begins at this character. */
  onboundary: HandlerLike<{ readonly charIndex: number }>;
  onend: HandlerLike<TimedLike>;
  onerror: HandlerLike<{ readonly error: SynthesisErrorCode }>;
}

export interface SynthesisLike<V extends VoiceLike = VoiceLike, U extends UtteranceLike<V> = UtteranceLike<V>> {
  readonly pending: boolean;
  readonly speaking: boolean;
  readonly paused: boolean;
  onvoiceschanged: HandlerLike<TimedLike>;
  speak(utterance: U): void;
  cancel(): void;
  resume(): void;
  getVoices(): V[];
}
