import { readFileSync } from 'node:fs';

export const rate = 16000;

/** A WAV file of PCM samples (8, 16, 24 or 32 bits, or 32-bit floating point), its channels mixed into one, as samples at 16 kHz. Throws when it is no such file. */
export function readWav(path: string): Float32Array {
  const bytes = readFileSync(path);
  if (bytes.length < 12 || bytes.toString('latin1', 0, 4) !== 'RIFF' || bytes.toString('latin1', 8, 12) !== 'WAVE')
    throw new Error(`${path} is no WAV file; expected one that begins with RIFF and WAVE.`);
  let at = 12;
  let format: Format | null = null;
  while (at + 8 <= bytes.length) {
    const name = bytes.toString('latin1', at, at + 4);
    const length = bytes.readUInt32LE(at + 4);
    const end = Math.min(bytes.length, at + 8 + length);
    if (name === 'fmt ') format = readFormat(bytes.subarray(at + 8, end), path);
    else if (name === 'data') {
      if (format === null) throw new Error(`${path} tells nothing of its format before its sound.`);
      const { channels, size, sampleRate, read } = format;
      const samples = new Float32Array(Math.floor((end - at - 8) / (size * channels)));
      for (let i = 0; i < samples.length; i++) {
        let sum = 0;
        for (let channel = 0; channel < channels; channel++) sum += read(bytes, at + 8 + (i * channels + channel) * size);
        samples[i] = sum / channels;
      }
      if (samples.length === 0) throw new Error(`${path} holds no sound.`);
      return resampled(samples, sampleRate);
    }
    at += 8 + length + (length % 2);
  }
  throw new Error(`${path} holds no sound.`);
}

interface Format {
  readonly channels: number;
  readonly sampleRate: number;
  /** Bytes of a sample. */
  readonly size: number;
  readonly read: (bytes: Buffer, at: number) => number;
}

const readers: Readonly<Record<string, Format['read']>> = {
  '1 8': (bytes, at) => (bytes.readUInt8(at) - 128) / 128,
  '1 16': (bytes, at) => bytes.readInt16LE(at) / 2 ** 15,
  '1 24': (bytes, at) => bytes.readIntLE(at, 3) / 2 ** 23,
  '1 32': (bytes, at) => bytes.readInt32LE(at) / 2 ** 31,
  '3 32': (bytes, at) => bytes.readFloatLE(at),
};

const extensible = 0xfffe;

function readFormat(chunk: Buffer, path: string): Format {
  if (chunk.length < 16) throw new Error(`${path} tells too little of its format.`);
  const tag = chunk.readUInt16LE(0);
  const code = tag === extensible && chunk.length >= 26 ? chunk.readUInt16LE(24) : tag;
  const bits = chunk.readUInt16LE(14);
  const read = readers[`${code} ${bits}`];
  if (read === undefined)
    throw new Error(
      `${path}: found format ${code} with ${bits} bits a sample, expected PCM of 8, 16, 24 or 32 bits or 32-bit floating point.`,
    );
  return { channels: Math.max(1, chunk.readUInt16LE(2)), sampleRate: chunk.readUInt32LE(4), size: bits / 8, read };
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
