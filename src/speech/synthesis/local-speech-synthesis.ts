import { primaryTag } from '../../phrasing/language.ts';
import type { Clock } from '../clock.ts';
import type { EventHandler } from '../event-handlers.ts';
import { defineEventHandlers } from '../event-handlers.ts';
import type { SynthesisErrorCode } from '../ports.ts';
import type { TextChunk } from '../voice/text-chunks.ts';
import { splitText } from '../voice/text-chunks.ts';
import type { PlayingSound, PreparedSound, SoundRefusal, SoundSource } from './sound-source.ts';
import { LocalSpeechSynthesisErrorEvent, LocalSpeechSynthesisEvent } from './synthesis-events.ts';
import type { LocalSpeechSynthesisVoice } from './synthesis-voice.ts';
import { LocalSpeechSynthesisUtterance } from './utterance.ts';

export interface LocalSynthesisDeps {
  readonly source: SoundSource;
  readonly clock: Clock;
  /** The language of the document, used while an utterance's `lang` is empty. */
  readonly documentLanguage: () => string;
}

interface Job {
  readonly utterance: LocalSpeechSynthesisUtterance;
  begunAt: number | null;
  playing: PlayingSound | null;
  /** Called by `resume` when the next chunk waits for it. */
  goOn: (() => void) | null;
}

/** The standard allows a limit here, and this is its figure. */
const longestText = 32_767;
/** A chunk is about one clause, so that the first sound comes soon and the next is ready before it is over. */
const chunkLength = 80;

const owners = new WeakMap<LocalSpeechSynthesisUtterance, LocalSpeechSynthesis>();

/** `SpeechSynthesis` of the Web Speech API over sounds that are made on this device. */
export class LocalSpeechSynthesis extends EventTarget {
  declare onvoiceschanged: EventHandler;

  static {
    defineEventHandlers(this.prototype, ['voiceschanged']);
  }

  readonly #deps: LocalSynthesisDeps;
  #queue: Job[] = [];
  #current: Job | null = null;
  #paused = false;

  constructor(deps: LocalSynthesisDeps) {
    super();
    this.#deps = deps;
  }

  get pending(): boolean {
    return this.#queue.length > 0 || (this.#current !== null && this.#current.begunAt === null);
  }

  get speaking(): boolean {
    return this.#current !== null && this.#current.begunAt !== null;
  }

  get paused(): boolean {
    return this.#paused;
  }

  speak(utterance: LocalSpeechSynthesisUtterance): void {
    if (!(utterance instanceof LocalSpeechSynthesisUtterance)) throw new TypeError('Only an utterance of this synthesis can be spoken.');
    const owner = owners.get(utterance);
    if (owner !== undefined && owner !== this) throw new DOMException('The utterance belongs to another synthesis.', 'InvalidStateError');
    owners.set(utterance, this);
    this.#queue.push({ utterance, begunAt: null, playing: null, goOn: null });
    this.#next();
  }

  cancel(): void {
    const dropped = this.#queue;
    const current = this.#current;
    this.#queue = [];
    this.#current = null;
    current?.playing?.stop();
    // Events come after the call has returned, as they do in browsers.
    if (current || dropped.length > 0) {
      void Promise.resolve().then(() => {
        if (current) this.#error(current, current.begunAt === null ? 'canceled' : 'interrupted');
        for (const job of dropped) this.#error(job, 'canceled');
      });
    }
  }

  pause(): void {
    if (this.#paused) return;
    this.#paused = true;
    const current = this.#current;
    if (!current?.playing) return;
    current.playing.pause();
    this.#fire(current, 'pause');
  }

  resume(): void {
    if (!this.#paused) return;
    this.#paused = false;
    const current = this.#current;
    if (current?.playing) {
      current.playing.resume();
      this.#fire(current, 'resume');
    }
    current?.goOn?.();
    this.#next();
  }

  getVoices(): LocalSpeechSynthesisVoice[] {
    return [...this.#deps.source.voices];
  }

  #next(): void {
    if (this.#current || this.#paused) return;
    const job = this.#queue.shift();
    if (!job) return;
    this.#current = job;
    void this.#run(job);
  }

  async #run(job: Job): Promise<void> {
    await Promise.resolve();
    const refusal = await this.#speakAll(job);
    if (this.#current !== job) return;
    this.#current = null;
    if (refusal) this.#error(job, refusal.error);
    else this.#fire(job, 'end');
    this.#next();
  }

  async #speakAll(job: Job): Promise<SoundRefusal | null> {
    const { utterance } = job;
    const voice = this.#voiceFor(utterance);
    const fault = faultOf(utterance, voice);
    if (fault || !voice) return { kind: 'refused', error: fault ?? 'voice-unavailable', message: '' };
    const chunks = splitText(utterance.text, chunkLength, true);
    const style = { voice, rate: utterance.rate, pitch: utterance.pitch };
    let coming = this.#prepare(chunks[0], style);
    for (const [index, chunk] of chunks.entries()) {
      const sound = await coming;
      if (sound.kind === 'refused') return sound;
      coming = this.#prepare(chunks[index + 1], style);
      await this.#whileUnpaused(job);
      if (this.#current !== job) return null;
      const refusal = await this.#play(job, sound, chunk);
      if (refusal || this.#current !== job) return refusal;
    }
    if (job.begunAt === null) this.#begin(job);
    return null;
  }

  #prepare(chunk: TextChunk | undefined, style: Parameters<SoundSource['prepare']>[1]): Promise<PreparedSound | SoundRefusal> {
    if (!chunk) return Promise.resolve({ kind: 'refused', error: 'synthesis-failed', message: 'Nothing is left to say.' });
    return this.#deps.source.prepare(chunk.text, style);
  }

  async #whileUnpaused(job: Job): Promise<void> {
    if (!this.#paused) return;
    await new Promise<void>((resolve) => {
      job.goOn = resolve;
    });
    job.goOn = null;
  }

  #play(job: Job, sound: PreparedSound, chunk: TextChunk): Promise<SoundRefusal | null> {
    return new Promise((resolve) => {
      job.playing = sound.play(
        job.utterance.volume,
        () => {
          if (this.#current !== job) return;
          if (job.begunAt === null) this.#begin(job);
          this.#fire(job, 'boundary', { charIndex: chunk.start, charLength: chunk.text.length, name: 'sentence' });
        },
        (refusal) => {
          job.playing = null;
          resolve(refusal);
        },
      );
    });
  }

  #begin(job: Job): void {
    job.begunAt = this.#deps.clock.now();
    this.#fire(job, 'start');
  }

  #voiceFor({ voice, lang }: LocalSpeechSynthesisUtterance): LocalSpeechSynthesisVoice | null {
    const { voices } = this.#deps.source;
    if (voice) return voices.includes(voice) ? voice : null;
    const primary = primaryTag(lang || this.#deps.documentLanguage());
    const fitting = voices.filter((other) => primary === '' || primaryTag(other.lang) === primary);
    return fitting.find((other) => other.default) ?? fitting[0] ?? null;
  }

  #fire(job: Job, type: string, more: { charIndex?: number; charLength?: number; name?: string } = {}): void {
    const { utterance, begunAt } = job;
    const elapsedTime = begunAt === null ? 0 : (this.#deps.clock.now() - begunAt) / 1000;
    utterance.dispatchEvent(new LocalSpeechSynthesisEvent(type, { utterance, elapsedTime, ...more }));
  }

  #error(job: Job, error: SynthesisErrorCode): void {
    const { utterance, begunAt } = job;
    const elapsedTime = begunAt === null ? 0 : (this.#deps.clock.now() - begunAt) / 1000;
    utterance.dispatchEvent(new LocalSpeechSynthesisErrorEvent('error', { utterance, elapsedTime, error }));
  }
}

function faultOf(utterance: LocalSpeechSynthesisUtterance, voice: LocalSpeechSynthesisVoice | null): SynthesisErrorCode | null {
  const { text, rate, pitch, volume } = utterance;
  if (text.length > longestText) return 'text-too-long';
  // The attribute is a float: 0.1 in it is a little more than 0.1.
  if (rate < Math.fround(0.1) || rate > 10 || pitch < 0 || pitch > 2 || volume < 0 || volume > 1) return 'invalid-argument';
  if (!voice) return utterance.voice ? 'voice-unavailable' : 'language-unavailable';
  return null;
}
