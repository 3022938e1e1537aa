/** Turns a stream of samples at one rate into a stream at another. Blocks of any length; the state is carried over. */
export interface Resampler {
  push(samples: Float32Array): Float32Array;
}

/** Zero crossings of the sinc on either side: 16 with this window keep what folds back below -80 dB. */
const crossings = 16;
const kaiserShape = 8;
/** Share of the lower Nyquist frequency that passes; the rest is the filter's slope. */
const passband = 0.92;

/**
 * A windowed-sinc polyphase resampler (J. O. Smith, Digital Audio Resampling).
 * Delay: `crossings` samples of the lower rate, 1 ms at 16 kHz. Rates are whole numbers of hertz.
 */
export function createResampler(from: number, to: number): Resampler {
  if (from === to) return { push: (samples) => samples };
  const divisor = greatestCommonDivisor(from, to);
  const phases = to / divisor;
  const advance = from / divisor;
  const cutoff = (Math.min(from, to) / from) * passband;
  const half = Math.ceil(crossings / Math.min(1, to / from));
  const taps = 2 * half;
  const table = filterTable(phases, half, cutoff);

  /** The last samples of the blocks before, so that the filter always has what it reaches back to. */
  let kept: Float32Array = new Float32Array(taps - 1);
  /** Place of the next output sample in `kept` plus the new block, in input samples, whole and phase apart. */
  let whole = 0;
  let phase = 0;

  return {
    push(samples) {
      const input = new Float32Array(kept.length + samples.length);
      input.set(kept);
      input.set(samples, kept.length);
      const output: number[] = [];
      while (whole + taps <= input.length) {
        let sum = 0;
        const row = phase * taps;
        for (let tap = 0; tap < taps; tap++) sum += (input[whole + tap] ?? 0) * (table[row + tap] ?? 0);
        output.push(sum);
        phase += advance;
        whole += Math.floor(phase / phases);
        phase %= phases;
      }
      const used = Math.min(whole, input.length);
      kept = input.slice(used);
      whole -= used;
      return Float32Array.from(output);
    },
  };
}

function filterTable(phases: number, half: number, cutoff: number): Float32Array {
  const taps = 2 * half;
  const table = new Float32Array(phases * taps);
  for (let phase = 0; phase < phases; phase++) {
    const row = table.subarray(phase * taps, (phase + 1) * taps);
    let sum = 0;
    for (let tap = 0; tap < taps; tap++) {
      const x = tap - (half - 1) - phase / phases;
      const value = sinc(x * cutoff) * kaiser(x / half);
      row[tap] = value;
      sum += value;
    }
    // Each phase passes a constant unchanged, so that no phase is louder than another.
    for (let tap = 0; tap < taps; tap++) row[tap] = (row[tap] ?? 0) / sum;
  }
  return table;
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
}

/** The Kaiser window from -1 to 1. */
function kaiser(x: number): number {
  return Math.abs(x) > 1 ? 0 : besselI0(kaiserShape * Math.sqrt(1 - x * x)) / besselI0(kaiserShape);
}

/** The modified Bessel function of the first kind, order zero, by its power series. */
function besselI0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; term > 1e-12 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
