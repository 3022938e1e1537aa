import { Endpoints, type EndpointSettings } from './endpoints.ts';
import type { Judge, Verdict } from './judge.ts';
import { Loudness, type LoudnessSettings } from './loudness.ts';
import type { Hearing, HearingEvent, HearingGrammar, RejectionReason } from './port.ts';
import { Suppression, suppressedFrame, type RnnoiseModule } from './suppression.ts';

/** What `createHearing` needs; `loadHearingModels` makes it. */
export interface HearingModels {
  readonly rnnoise: RnnoiseModule;
  readonly judge: Judge;
}

/** Times in seconds. */
export interface HearingOptions {
  readonly endpoints: EndpointSettings;
  /** Quiet that ends an utterance which is already a whole command, and any other. */
  readonly pauseAfterCommand: number;
  readonly pauseOtherwise: number;
  /** Shorter and longer utterances are no commands. */
  readonly shortest: number;
  readonly longest: number;
  /** Sound taken before and after what the endpointer marked. */
  readonly before: number;
  readonly after: number;
  /** After the name alone, a command may follow for so long. */
  readonly afterName: number;
  readonly loudness: LoudnessSettings;
}

export const defaultOptions: HearingOptions = {
  endpoints: { begin: 0.6, goOn: 0.35, beginFrames: 6, window: 12 },
  pauseAfterCommand: 0.22,
  pauseOtherwise: 0.5,
  shortest: 0.15,
  longest: 4,
  before: 0.25,
  after: 0.12,
  afterName: 4,
  loudness: { tooLoudAt: 3, usableAgainAt: 6, hold: 2 },
};

const rate = 16000;
const frameSeconds = suppressedFrame / rate;

/**
 * The local recogniser: noise suppression, endpoints, and a judge over a closed grammar.
 * Sample indexes in its events count the samples pushed since it was made or reset.
 */
export function createHearing(models: HearingModels, options: Partial<HearingOptions> = {}): Hearing {
  return new LocalHearing(models, { ...defaultOptions, ...options });
}

class LocalHearing implements Hearing {
  private readonly judge: Judge;
  private readonly options: HearingOptions;
  private readonly suppression: Suppression;
  private readonly loudness: Loudness;
  private readonly endpoints: Endpoints;
  private readonly kept: SampleRing;
  private grammar: HearingGrammar | null = null;
  /** The frame up to which a command may follow the name alone. */
  private namedUntil = -1;
  /** What was made of the utterance under way when it last paused, and at which voiced frame. */
  private lookedAt = -1;
  private glimpse: Verdict | null = null;
  private partial = '';

  constructor(models: HearingModels, options: HearingOptions) {
    this.judge = models.judge;
    this.options = options;
    this.suppression = new Suppression(models.rnnoise);
    this.endpoints = new Endpoints(options.endpoints);
    this.loudness = new Loudness(options.loudness);
    this.kept = new SampleRing(Math.ceil((options.longest + 2) * rate));
  }

  setGrammar(grammar: HearingGrammar): void {
    this.grammar = grammar;
    this.judge.setGrammar(grammar);
    this.glimpse = null;
    this.lookedAt = -1;
  }

  push(samples: Float32Array): HearingEvent[] {
    const events: HearingEvent[] = [];
    this.loudness.hear(samples);
    for (const frame of this.suppression.push(samples)) {
      this.kept.push(frame.samples);
      if (this.endpoints.push(frame.voice)) events.push({ kind: 'speech-start', at: this.sampleAt(this.endpoints.start ?? 0) });
      const change = this.loudness.frame(frame.voice >= this.options.endpoints.goOn, frameSeconds);
      if (change !== null) events.push(change);
      if (this.endpoints.start !== null) events.push(...this.consider());
    }
    return events;
  }

  flush(): HearingEvent[] {
    return this.endpoints.start === null ? [] : this.conclude();
  }

  reset(): void {
    this.endpoints.close();
    this.forget();
    this.namedUntil = -1;
  }

  dispose(): void {
    this.suppression.dispose();
  }

  /** Whether the utterance under way is over, and if so what it was. */
  private consider(): HearingEvent[] {
    const { pauseAfterCommand, pauseOtherwise, longest } = this.options;
    const quiet = this.endpoints.quiet * frameSeconds;
    const lasted = (this.endpoints.now - (this.endpoints.start ?? 0)) * frameSeconds;
    if (quiet >= pauseOtherwise || lasted >= longest + pauseOtherwise) return this.conclude();
    if (quiet < pauseAfterCommand || this.lookedAt === this.endpoints.lastVoiced) return [];
    this.lookedAt = this.endpoints.lastVoiced;
    this.glimpse = this.look();
    if (this.glimpse?.accepted === true && !this.glimpse.onlyName) return this.conclude();
    const text = this.glimpse?.alternatives[0]?.text ?? '';
    if (text === '' || text === this.partial) return [];
    this.partial = text;
    return [{ kind: 'partial', text }];
  }

  private conclude(): HearingEvent[] {
    const { before, shortest, longest } = this.options;
    const start = this.endpoints.start ?? 0;
    const end = this.endpoints.lastVoiced + 1;
    const from = Math.max(0, this.sampleAt(start) - Math.round(before * rate));
    const to = this.sampleAt(end);
    const seconds = (end - start) * frameSeconds;
    const verdict = this.lookedAt === this.endpoints.lastVoiced ? this.glimpse : seconds <= longest ? this.look() : null;
    this.endpoints.close();
    this.forget();
    const events: HearingEvent[] = [{ kind: 'speech-end', at: to }];
    const text = verdict?.alternatives[0]?.text ?? '';
    const rejected = (why: RejectionReason): HearingEvent[] => [...events, { kind: 'rejected', why, text, from, to }];

    if (seconds > longest) return rejected('too-long');
    if (seconds < shortest) return rejected('too-short');
    if (verdict === null || verdict.alternatives.length === 0) return rejected('not-a-command');
    if (!verdict.accepted) return rejected('unclear');
    if (verdict.onlyName) {
      this.namedUntil = this.endpoints.now + Math.round(this.options.afterName / frameSeconds);
      return events;
    }
    if (this.grammar?.nameFirst === true && !verdict.named && start > this.namedUntil) return rejected('no-name');
    this.namedUntil = -1;
    return [...events, { kind: 'heard', alternatives: verdict.alternatives, from, to }];
  }

  private look(): Verdict | null {
    if (this.grammar === null) return null;
    const { before, after } = this.options;
    const from = this.sampleAt(this.endpoints.start ?? 0) - Math.round(before * rate);
    const to = this.sampleAt(this.endpoints.lastVoiced + 1) + Math.round(after * rate);
    return this.judge.judge(this.kept.slice(from, to));
  }

  private forget(): void {
    this.glimpse = null;
    this.lookedAt = -1;
    this.partial = '';
  }

  private sampleAt(frame: number): number {
    return frame * suppressedFrame;
  }
}

/** The last so many samples of a stream, by their index in it. */
class SampleRing {
  private readonly samples: Float32Array;
  private total = 0;

  constructor(capacity: number) {
    this.samples = new Float32Array(capacity);
  }

  push(samples: Float32Array): void {
    for (const sample of samples) this.samples[this.total++ % this.samples.length] = sample;
  }

  /** What is still there of the stretch. */
  slice(from: number, to: number): Float32Array {
    const first = Math.max(0, from, this.total - this.samples.length);
    const last = Math.min(to, this.total);
    const out = new Float32Array(Math.max(0, last - first));
    for (let i = 0; i < out.length; i++) out[i] = this.samples[(first + i) % this.samples.length] ?? 0;
    return out;
  }
}
