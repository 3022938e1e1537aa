import { noise, noiseNames, type NoiseName } from './noises.ts';
import { Chance } from './random.ts';
import { activePower } from './sound.ts';

/** What is heard beside the voice. `level`: decibels that the voice is above it; null in the clean. */
export interface Condition {
  readonly name: NoiseName | 'clean';
  readonly level: number | null;
}

export const levels = [20, 10, 5, 0] as const;

export const conditions: readonly Condition[] = [
  { name: 'clean', level: null },
  ...noiseNames.flatMap((name) => levels.map((level) => ({ name, level }))),
];

/** Quiet, or only the noise, before and after the voice; seconds. */
export const lead = 0.7;
export const tail = 1;

/** Minutes of each noise, from which every clip gets a stretch of its own. */
export class NoiseBank {
  private readonly made = new Map<NoiseName, Float32Array>();
  private readonly talkers: () => readonly Float32Array[];

  /** `talkers`: what the babble is made of; asked for only when babble is. */
  constructor(talkers: () => readonly Float32Array[]) {
    this.talkers = talkers;
  }

  /** The voice with room before and after it, in a condition. The same clip in the same condition gives the same sound every time. */
  mix(voice: Float32Array, { name, level }: Condition, rate: number, seed: string): Float32Array {
    const chance = new Chance(`${seed} ${name} ${level ?? ''}`);
    const out = new Float32Array(voice.length + Math.round((lead + tail) * rate));
    out.set(voice, Math.round(lead * rate));
    if (name === 'clean' || level === null) {
      // What the quietest microphone gives: nothing in the world is digitally silent.
      for (let i = 0; i < out.length; i++) out[i]! += chance.normal() * faintest;
      return out;
    }
    const bank = this.of(name);
    const gain = Math.sqrt(activePower(voice)) * 10 ** (-level / 20);
    const start = Math.floor(chance.next() * (bank.length - out.length));
    for (let i = 0; i < out.length; i++) out[i]! += bank[start + i]! * gain;
    return out;
  }

  /** The noise itself, at unit power. */
  of(name: NoiseName): Float32Array {
    let bank = this.made.get(name);
    if (bank === undefined) this.made.set(name, (bank = noise(name, 60, name === 'babble' ? this.talkers() : [])));
    return bank;
  }
}

/** -75 dB full scale. */
const faintest = 10 ** (-75 / 20);
