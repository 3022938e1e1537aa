/** A low-pass filter with linear phase: windowed sinc (Blackman), unity gain at 0 Hz. `cutoff` as a share of the sampling rate. */
export function lowPass(taps: number, cutoff: number): Float64Array {
  const filter = new Float64Array(taps);
  const middle = (taps - 1) / 2;
  let sum = 0;
  for (let i = 0; i < taps; i++) {
    const x = i - middle;
    const sinc = x === 0 ? 2 * cutoff : Math.sin(2 * Math.PI * cutoff * x) / (Math.PI * x);
    const window = 0.42 - 0.5 * Math.cos((2 * Math.PI * i) / (taps - 1)) + 0.08 * Math.cos((4 * Math.PI * i) / (taps - 1));
    filter[i] = sinc * window;
    sum += sinc * window;
  }
  return filter.map((tap) => tap / sum);
}

const factor = 3;
const taps = 97;
const filter = lowPass(taps, 7600 / 48000);

/** 16 kHz to 48 kHz, block by block; delays by one millisecond. */
export class Tripler {
  private readonly history = new Float32Array(Math.ceil(taps / factor));

  push(samples: Float32Array): Float32Array {
    const input = joined(this.history, samples);
    const out = new Float32Array(samples.length * factor);
    const past = this.history.length;
    for (let i = 0; i < samples.length; i++) {
      for (let phase = 0; phase < factor; phase++) {
        let sum = 0;
        for (let tap = phase, back = past + i; tap < taps && back >= 0; tap += factor, back--)
          sum += (filter[tap] ?? 0) * (input[back] ?? 0);
        out[i * factor + phase] = sum * factor;
      }
    }
    this.history.set(input.subarray(input.length - past));
    return out;
  }
}

/** 48 kHz to 16 kHz, block by block (lengths that three divides); delays by one millisecond. */
export class Thirder {
  private readonly history = new Float32Array(taps - 1);

  push(samples: Float32Array): Float32Array {
    const input = joined(this.history, samples);
    const out = new Float32Array(Math.floor(samples.length / factor));
    const past = this.history.length;
    for (let i = 0; i < out.length; i++) {
      let sum = 0;
      const newest = past + i * factor;
      for (let tap = 0; tap < taps; tap++) sum += (filter[tap] ?? 0) * (input[newest - tap] ?? 0);
      out[i] = sum;
    }
    this.history.set(input.subarray(input.length - past));
    return out;
  }
}

export function joined(first: Float32Array, second: Float32Array): Float32Array {
  const both = new Float32Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
