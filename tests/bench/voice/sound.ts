import { readFileSync } from 'node:fs';

export const rate = 16000;

/** A mono or stereo PCM WAV file of 16 bits, as samples at 16 kHz. */
export function readWav(path: string): Float32Array {
  const bytes = readFileSync(path);
  if (bytes.toString('latin1', 0, 4) !== 'RIFF') throw new Error(`${path} is no WAV file.`);
  let at = 12;
  let channels = 1;
  let from = rate;
  while (at + 8 <= bytes.length) {
    const name = bytes.toString('latin1', at, at + 4);
    const length = bytes.readUInt32LE(at + 4);
    if (name === 'fmt ') {
      channels = bytes.readUInt16LE(at + 10);
      from = bytes.readUInt32LE(at + 12);
      if (bytes.readUInt16LE(at + 22) !== 16) throw new Error(`${path}: 16 bits a sample are wanted.`);
    } else if (name === 'data') {
      const end = Math.min(bytes.length, at + 8 + length);
      const samples = new Float32Array(Math.floor((end - at - 8) / 2 / channels));
      for (let i = 0; i < samples.length; i++) samples[i] = bytes.readInt16LE(at + 8 + 2 * i * channels) / 32768;
      return resampled(samples, from);
    }
    at += 8 + length + (length % 2);
  }
  throw new Error(`${path} holds no sound.`);
}

/** To 16 kHz by a windowed sinc (16 zero crossings a side). */
export function resampled(samples: Float32Array, from: number): Float32Array {
  if (from === rate) return samples;
  const ratio = from / rate;
  const cutoff = Math.min(1, 1 / ratio) * 0.95;
  const reach = Math.ceil(16 / cutoff);
  const out = new Float32Array(Math.floor(samples.length / ratio));
  for (let i = 0; i < out.length; i++) {
    const centre = i * ratio;
    let sum = 0;
    for (let j = Math.max(0, Math.ceil(centre - reach)); j <= Math.min(samples.length - 1, centre + reach); j++) {
      const x = (j - centre) * cutoff;
      const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
      sum += samples[j]! * sinc * cutoff * (0.5 + 0.5 * Math.cos((Math.PI * (j - centre)) / (reach + 1)));
    }
    out[i] = sum;
  }
  return out;
}

/** Without the quiet at either end (40 dB under the loudest 10 ms). */
export function trimmed(samples: Float32Array): Float32Array {
  const hop = 160;
  const powers = Array.from({ length: Math.floor(samples.length / hop) }, (_, i) => power(samples.subarray(i * hop, (i + 1) * hop)));
  const least = Math.max(...powers) * 1e-4;
  const first = powers.findIndex((value) => value > least);
  const last = powers.findLastIndex((value) => value > least);
  return samples.slice(Math.max(0, first * hop), (last + 1) * hop);
}

export function power(samples: Float32Array): number {
  let sum = 0;
  for (const sample of samples) sum += sample * sample;
  return sum / Math.max(1, samples.length);
}

/** At the given level in dB full scale, measured over its louder parts. */
export function levelled(samples: Float32Array, level: number): Float32Array {
  const gain = 10 ** (level / 20) / Math.sqrt(activePower(samples) + 1e-12);
  return samples.map((sample) => sample * gain);
}

/** Mean power of the 20 ms stretches that are within 25 dB of the loudest. */
export function activePower(samples: Float32Array): number {
  const hop = 320;
  const powers = Array.from({ length: Math.max(1, Math.floor(samples.length / hop)) }, (_, i) =>
    power(samples.subarray(i * hop, (i + 1) * hop)),
  );
  const least = Math.max(...powers) * 10 ** -2.5;
  const loud = powers.filter((value) => value >= least);
  return loud.reduce((sum, value) => sum + value, 0) / Math.max(1, loud.length);
}
