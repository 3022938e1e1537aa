/** Sound of one channel, samples from -1 to 1. */
export interface Sound {
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

/** A RIFF WAVE file, 16-bit linear. */
export function encodeWav({ samples, sampleRate }: Sound): Uint8Array {
  const data = Int16Array.from(samples, (sample) => Math.round(Math.max(-1, Math.min(1, sample)) * 32767));
  return riff(new Uint8Array(data.buffer), { format: 1, bits: 16, sampleRate, count: samples.length });
}

/** A RIFF WAVE file, 8-bit mu-law (ITU-T G.711): half the size, and every browser decodes it. */
export function encodeMuLawWav({ samples, sampleRate }: Sound): Uint8Array {
  return riff(Uint8Array.from(samples, toMuLaw), { format: 7, bits: 8, sampleRate, count: samples.length });
}

function riff(
  data: Uint8Array,
  { format, bits, sampleRate, count }: { format: number; bits: number; sampleRate: number; count: number },
): Uint8Array {
  const padded = data.length + (data.length % 2);
  const bytes = new Uint8Array(58 + padded);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string): void => [...value].forEach((letter, n) => view.setUint8(at + n, letter.charCodeAt(0)));
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 18, true);
  view.setUint16(20, format, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, (sampleRate * bits) / 8, true);
  view.setUint16(32, bits / 8, true);
  view.setUint16(34, bits, true);
  // The fact chunk tells the number of samples, which formats other than linear must.
  text(38, 'fact');
  view.setUint32(42, 4, true);
  view.setUint32(46, count, true);
  text(50, 'data');
  view.setUint32(54, data.length, true);
  bytes.set(data, 58);
  return bytes;
}

const bias = 0x84;
const clip = 32635;

function toMuLaw(sample: number): number {
  const linear = Math.round(sample * 32767);
  const magnitude = Math.min(Math.abs(linear), clip) + bias;
  const exponent = Math.floor(Math.log2(magnitude)) - 7;
  const mantissa = (magnitude >> (exponent + 3)) & 0x0f;
  return ~((linear < 0 ? 0x80 : 0) | (exponent << 4) | mantissa) & 0xff;
}

function fromMuLaw(byte: number): number {
  const inverted = ~byte & 0xff;
  const magnitude = ((((inverted & 0x0f) << 3) + bias) << ((inverted >> 4) & 7)) - bias;
  return (inverted & 0x80 ? -magnitude : magnitude) / 32768;
}

/** Reads what the two functions above write. */
export function decodeWav(bytes: Uint8Array): Sound {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const name = (at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
  let format = 0;
  let sampleRate = 0;
  for (let at = 12; at + 8 <= bytes.length;) {
    const size = view.getUint32(at + 4, true);
    if (name(at) === 'fmt ') {
      format = view.getUint16(at + 8, true);
      sampleRate = view.getUint32(at + 12, true);
    } else if (name(at) === 'data') {
      const samples =
        format === 7
          ? Float32Array.from(bytes.subarray(at + 8, at + 8 + size), fromMuLaw)
          : Float32Array.from({ length: size / 2 }, (_, n) => view.getInt16(at + 8 + 2 * n, true) / 32768);
      return { samples, sampleRate };
    }
    at += 8 + size + (size % 2);
  }
  throw new Error('Not a WAVE file with data.');
}
