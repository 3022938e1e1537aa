import type { HearingEvent } from './port.ts';

/** Decibels between speech and noise, and seconds. */
export interface LoudnessSettings {
  /** Speech less than this above the noise is too little to be understood. */
  readonly tooLoudAt: number;
  readonly usableAgainAt: number;
  /** A change must last so long before it is said. */
  readonly hold: number;
}

const floor = -100;

/**
 * Follows the level of the surroundings and of the voice before any suppression, and says when the one drowns the other.
 * Until somebody has spoken, a loud place is told by its level alone.
 */
export class Loudness {
  private readonly settings: LoudnessSettings;
  private energy = 0;
  private count = 0;
  private noise: number | null = null;
  private speech: number | null = null;
  private tooLoud = false;
  private differsFor = 0;

  constructor(settings: LoudnessSettings) {
    this.settings = settings;
  }

  hear(samples: Float32Array): void {
    for (const sample of samples) this.energy += sample * sample;
    this.count += samples.length;
  }

  /** Takes what was heard since the last frame as speech or noise. */
  frame(isSpeech: boolean, seconds: number): HearingEvent | null {
    if (this.count > 0) {
      const level = Math.max(floor, 10 * Math.log10(this.energy / this.count + 1e-12));
      if (isSpeech) this.speech = this.speech === null ? level : this.speech + (level - this.speech) * Math.min(1, seconds / 0.5);
      else
        this.noise =
          this.noise === null ? level : this.noise + (level - this.noise) * Math.min(1, seconds / (level > this.noise ? 1 : 0.3));
      this.energy = 0;
      this.count = 0;
    }
    if (this.noise === null) return null;
    const margin = this.speech === null ? loudPlace - this.noise : this.speech - this.noise;
    const now = this.tooLoud ? margin < this.settings.usableAgainAt : margin < this.settings.tooLoudAt;
    this.differsFor = now === this.tooLoud ? 0 : this.differsFor + seconds;
    if (this.differsFor < this.settings.hold) return null;
    this.tooLoud = now;
    this.differsFor = 0;
    return { kind: 'surroundings', tooLoud: now, noise: this.noise, speech: this.speech };
  }
}

/** A place as loud as this, in dB full scale, is too loud before anybody has spoken: speech at arm's length comes in at about -25. */
const loudPlace = -18;
