import { Chance } from './random.ts';
import { power, rate } from './sound.ts';

/** The bench's own noises; the training noises are made by other code (src/speech/hearing/training/noises.py). */
export const noiseNames = ['pink', 'compressor', 'impact', 'idle', 'babble'] as const;
export type NoiseName = (typeof noiseNames)[number];

/** `seconds` of a noise at unit power. `talkers`: streams of talk for the babble, each long enough. */
export function noise(name: NoiseName, seconds: number, talkers: readonly Float32Array[]): Float32Array {
  const length = Math.round(seconds * rate);
  const chance = new Chance(`noise ${name}`);
  const sound = made(name, length, chance, talkers);
  const gain = 1 / Math.sqrt(power(sound) + 1e-12);
  return sound.map((sample) => sample * gain);
}

function made(name: NoiseName, length: number, chance: Chance, talkers: readonly Float32Array[]): Float32Array {
  switch (name) {
    case 'pink':
      return pink(length, chance);
    case 'compressor':
      return compressor(length, chance);
    case 'impact':
      return impact(length, chance);
    case 'idle':
      return idle(length, chance);
    case 'babble': {
      const out = new Float32Array(length);
      for (const talk of talkers) {
        const shift = Math.floor(chance.next() * talk.length);
        for (let i = 0; i < length; i++) out[i]! += talk[(i + shift) % talk.length]!;
      }
      return out;
    }
  }
}

/** Paul Kellet's filter of white noise, -3 dB an octave. */
function pink(length: number, chance: Chance): Float32Array {
  const b = new Float64Array(7);
  return Float32Array.from({ length }, () => {
    const white = chance.normal();
    b[0] = 0.99886 * b[0]! + white * 0.0555179;
    b[1] = 0.99332 * b[1]! + white * 0.0750759;
    b[2] = 0.969 * b[2]! + white * 0.153852;
    b[3] = 0.8665 * b[3]! + white * 0.3104856;
    b[4] = 0.55 * b[4]! + white * 0.5329522;
    b[5] = -0.7616 * b[5]! - white * 0.016898;
    const sum = b[0] + b[1] + b[2] + b[3] + b[4] + b[5] + b[6]! + white * 0.5362;
    b[6] = white * 0.115926;
    return sum;
  });
}

/** A two-cylinder piston compressor: 14 strokes a second, the motor's hum at 50 Hz and its multiples, valve clatter, air. */
function compressor(length: number, chance: Chance): Float32Array {
  const air = pink(length, chance);
  let clatter = 0;
  return Float32Array.from({ length }, (_, i) => {
    const time = i / rate;
    const stroke = (time * 14) % 1;
    clatter = 0.86 * clatter + chance.normal();
    let hum = 0;
    for (let k = 1; k <= 8; k++) hum += Math.sin(2 * Math.PI * 49.3 * k * time + k * k) / k;
    const thump = Math.exp(-stroke * 9) * Math.sin(2 * Math.PI * 95 * (stroke / 14)) * 2.5;
    return 0.5 * hum + thump + clatter * (0.1 + 0.5 * Math.exp(-stroke * 14)) + air[i]! * 0.5;
  });
}

/** An impact wrench: bursts of blows at about 22 a second with the ring of the socket, and air in between. */
function impact(length: number, chance: Chance): Float32Array {
  const out = pink(length, chance).map((sample) => sample * 0.12);
  const modes = [780, 1430, 2350, 3900, 5200].map((hertz) => ({ hertz, decay: chance.between(0.006, 0.03), size: chance.between(0.4, 1) }));
  for (let at = 0; at < length;) {
    const burst = Math.round(chance.between(0.4, 1.6) * rate);
    for (let blow = at; blow < Math.min(length, at + burst); blow += Math.round((rate / 22) * chance.between(0.93, 1.07))) {
      const strength = chance.between(2, 4);
      for (let i = 0; i < rate * 0.06 && blow + i < length; i++) {
        const time = i / rate;
        let ring = chance.normal() * Math.exp(-time / 0.004) * 1.2;
        for (const { hertz, decay, size } of modes) ring += size * Math.sin(2 * Math.PI * hertz * time) * Math.exp(-time / decay);
        out[blow + i]! += strength * ring;
      }
    }
    at += burst + Math.round(chance.between(0.3, 1.5) * rate);
  }
  return out;
}

/** A four-cylinder diesel at 820 turns a minute: the firing rate and its multiples with knock, and the fan. */
function idle(length: number, chance: Chance): Float32Array {
  const fan = pink(length, chance);
  let phase = 0;
  let knock = 0;
  let wander = 0;
  return Float32Array.from({ length }, (_, i) => {
    wander = 0.9999 * wander + 0.0004 * chance.normal();
    const before = phase;
    phase += ((820 / 60) * 2 * (1 + 0.02 * wander)) / rate;
    if (Math.floor(phase) !== Math.floor(before)) knock = chance.between(0.7, 1.3);
    knock *= 0.9955;
    let sum = 0;
    for (let k = 1; k <= 14; k++) sum += Math.sin(2 * Math.PI * k * phase + 2 * k) / k ** 0.8;
    return sum + knock * chance.normal() * 1.6 + fan[i]! * 0.35;
  });
}
