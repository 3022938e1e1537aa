import type { PlayingSound, PreparedSound, SoundRefusal, SoundSource, SoundStyle } from '../../../src/speech/synthesis/sound-source.ts';
import { LocalSpeechSynthesisVoice } from '../../../src/speech/synthesis/synthesis-voice.ts';
import type { ManualClock } from './manual-clock.ts';

/** Sounds that last a given time on the manual clock, and a record of what came out of the loudspeaker. */
export class ScriptedSource implements SoundSource {
  readonly voices = [
    new LocalSpeechSynthesisVoice({ voiceURI: 'test:a', name: 'A', lang: 'en-US', localService: true, default: true }),
    new LocalSpeechSynthesisVoice({ voiceURI: 'test:b', name: 'B', lang: 'en-GB', localService: true, default: false }),
  ];
  readonly prepared: { text: string; style: SoundStyle }[] = [];
  readonly log: string[] = [];
  refusal: SoundRefusal | null = null;
  playRefusal: SoundRefusal | null = null;
  milliseconds = 1000;
  readonly #clock: ManualClock;

  constructor(clock: ManualClock) {
    this.#clock = clock;
  }

  prepare(text: string, style: SoundStyle): Promise<PreparedSound | SoundRefusal> {
    this.prepared.push({ text, style });
    if (this.refusal) return Promise.resolve(this.refusal);
    return Promise.resolve({ kind: 'prepared', play: (volume, onBegun, onOver) => this.#play(text, volume, onBegun, onOver) });
  }

  #play(text: string, volume: number, onBegun: () => void, onOver: (refusal: SoundRefusal | null) => void): PlayingSound {
    if (this.playRefusal) {
      const refusal = this.playRefusal;
      this.#clock.after(0, () => onOver(refusal));
      return { pause: () => undefined, resume: () => undefined, stop: () => undefined };
    }
    let left = this.milliseconds;
    let since = this.#clock.now();
    const over = (): void => {
      this.log.push(`end ${text}`);
      onOver(null);
    };
    let cancel = this.#clock.after(left, over);
    this.log.push(`play ${text} at ${volume}`);
    onBegun();
    return {
      pause: () => {
        left -= this.#clock.now() - since;
        cancel();
        this.log.push(`pause ${text}`);
      },
      resume: () => {
        since = this.#clock.now();
        cancel = this.#clock.after(left, over);
        this.log.push(`resume ${text}`);
      },
      stop: () => {
        cancel();
        this.log.push(`stop ${text}`);
      },
    };
  }
}
