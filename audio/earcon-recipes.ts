import type { Sound } from './wav.ts';

const sampleRate = 16000;

/** One tone: when, how long, from which pitch to which, how loud its partials (the first is the pitch itself), and how it dies away. */
interface Tone {
  readonly at: number;
  readonly seconds: number;
  readonly from: number;
  readonly to: number;
  readonly partials: readonly number[];
  /** Seconds to fall to a third; absent for an even tone. */
  readonly decay?: number;
  /** Beats in a second, which make a tone rough. */
  readonly rough?: number;
}

const tone = (at: number, seconds: number, pitch: number, more: Partial<Tone> = {}): Tone => ({
  at,
  seconds,
  from: pitch,
  to: pitch,
  partials: [1],
  ...more,
});

/**
 * The earcons. All sound lies between 500 and 3000 Hz, where it carries and ears are keen (MIL-STD-1472E 5.3).
 * Four must be known by themselves and last half a second or more; "heard" and "fastener counted" only
 * answer what the person has just done, and are ticks. They differ in rhythm, direction, register and roughness at once,
 * because one of these alone is lost in a workshop.
 */
export const earconRecipes = {
  /** One soft short rise. */
  heard: [{ at: 0, seconds: 0.13, from: 850, to: 1450, partials: [1], decay: 0.09 }],
  /** Two low rough notes going down. */
  'not-understood': [
    tone(0, 0.24, 720, { partials: [1, 0, 0.35], rough: 32 }),
    tone(0.29, 0.34, 540, { partials: [1, 0, 0.35], rough: 32, decay: 0.25 }),
  ],
  /** Three clear notes going up. */
  'step-complete': [
    tone(0, 0.14, 1047, { partials: [1, 0.3], decay: 0.12 }),
    tone(0.14, 0.14, 1319, { partials: [1, 0.3], decay: 0.12 }),
    tone(0.28, 0.42, 1760, { decay: 0.2 }),
  ],
  /** One hard high click. */
  'fastener-counted': [tone(0, 0.08, 2350, { partials: [1], decay: 0.022 })],
  /** Two pitches in turn, loud and even. */
  caution: [0, 1, 2].flatMap((round) => [
    tone(round * 0.34, 0.15, 960, { partials: [1, 0.2, 0.6] }),
    tone(round * 0.34 + 0.17, 0.15, 640, { partials: [1, 0, 0.5, 0.3] }),
  ]),
  /** A high bell struck in two pairs. */
  timer: [0, 0.16, 0.62, 0.78].map((at) => tone(at, 0.3, 2794, { partials: [1], decay: 0.07 })),
} as const satisfies Record<string, readonly Tone[]>;

export type EarconRecipe = keyof typeof earconRecipes;

/** Edges are raised and let down over so many seconds, so that nothing clicks outside the band. */
const edge = 0.008;

export function renderEarcon(name: EarconRecipe): Sound {
  const tones: readonly Tone[] = earconRecipes[name];
  const seconds = Math.max(...tones.map(({ at, seconds: length }) => at + length));
  const samples = new Float32Array(Math.ceil(seconds * sampleRate));
  for (const each of tones) addTone(samples, each);
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return { samples: samples.map((sample) => (0.9 * sample) / peak), sampleRate };
}

function addTone(samples: Float32Array, { at, seconds, from, to, partials, decay, rough }: Tone): void {
  const start = Math.round(at * sampleRate);
  const length = Math.round(seconds * sampleRate);
  let phase = 0;
  for (let n = 0; n < length && start + n < samples.length; n++) {
    const time = n / sampleRate;
    phase += (2 * Math.PI * (from + ((to - from) * n) / length)) / sampleRate;
    const rise = Math.min(1, time / edge, (seconds - time) / edge);
    const envelope = Math.sin((Math.PI / 2) * rise) ** 2 * (decay === undefined ? 1 : Math.exp(-time / decay));
    const roughness = rough === undefined ? 1 : 0.55 + 0.45 * Math.cos(2 * Math.PI * rough * time);
    const wave = partials.reduce((sum, level, index) => sum + level * Math.sin((index + 1) * phase), 0);
    samples[start + n] = (samples[start + n] ?? 0) + wave * envelope * roughness;
  }
}
