/** How sound becomes what the network sees; the network file says with what numbers it was trained. */
export interface MelSettings {
  readonly mels: number;
  /** Edges of the filters, Hz. */
  readonly low: number;
  readonly high: number;
  /** Added to each band's power before the logarithm. */
  readonly floor: number;
}

const rate = 16000;
const windowLength = 400;
/** Samples from one frame to the next: 10 ms. */
export const melHop = 160;
const size = 512;
const bins = size / 2 + 1;

/** Log powers in mel bands, 25 ms every 10 ms, from samples at 16 kHz. */
export class LogMel {
  private readonly settings: MelSettings;
  private readonly filters: readonly { readonly first: number; readonly weights: Float32Array }[];
  private readonly window: Float32Array;
  private readonly transform = new Transform();
  private waiting = new Float32Array(0);

  constructor(settings: MelSettings) {
    this.settings = settings;
    this.filters = melFilters(settings);
    this.window = Float32Array.from({ length: windowLength }, (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / windowLength));
  }

  /** The frames that the samples complete, each `mels` long. */
  push(samples: Float32Array): Float32Array[] {
    const all = new Float32Array(this.waiting.length + samples.length);
    all.set(this.waiting);
    all.set(samples, this.waiting.length);
    const frames: Float32Array[] = [];
    let at = 0;
    for (; at + windowLength <= all.length; at += melHop) frames.push(this.frame(all, at));
    this.waiting = all.slice(at);
    return frames;
  }

  private frame(samples: Float32Array, at: number): Float32Array {
    const power = this.transform.power(samples, at, this.window);
    const out = new Float32Array(this.settings.mels);
    for (let band = 0; band < out.length; band++) {
      const filter = this.filters[band];
      if (filter === undefined) continue;
      let sum = 0;
      for (let i = 0; i < filter.weights.length; i++) sum += (filter.weights[i] ?? 0) * (power[filter.first + i] ?? 0);
      out[band] = Math.log(sum + this.settings.floor);
    }
    return out;
  }
}

function melFilters({ mels, low, high }: MelSettings): { first: number; weights: Float32Array }[] {
  const toMel = (hertz: number): number => 2595 * Math.log10(1 + hertz / 700);
  const edges = Array.from({ length: mels + 2 }, (_, i) => {
    const mel = toMel(low) + ((toMel(high) - toMel(low)) * i) / (mels + 1);
    return 700 * (10 ** (mel / 2595) - 1);
  });
  return Array.from({ length: mels }, (_, row) => {
    const [from = 0, centre = 0, to = 0] = edges.slice(row, row + 3);
    const weights = Array.from({ length: bins }, (_unused, bin) => {
      const hertz = (bin * rate) / size;
      return Math.max(0, Math.min((hertz - from) / (centre - from), (to - hertz) / (to - centre)));
    });
    const first = Math.max(
      0,
      weights.findIndex((weight) => weight > 0),
    );
    const last = weights.findLastIndex((weight) => weight > 0);
    return { first, weights: Float32Array.from(weights.slice(first, last + 1)) };
  });
}

/** A radix-2 Fourier transform of 512 points. */
class Transform {
  private readonly real = new Float64Array(size);
  private readonly imaginary = new Float64Array(size);
  private readonly cosines = Float64Array.from({ length: size / 2 }, (_, i) => Math.cos((2 * Math.PI * i) / size));
  private readonly sines = Float64Array.from({ length: size / 2 }, (_, i) => Math.sin((2 * Math.PI * i) / size));
  private readonly reversed = Uint16Array.from({ length: size }, (_, i) => {
    let back = 0;
    for (let bit = 1, left = i; bit < size; bit <<= 1, left >>= 1) back = (back << 1) | (left & 1);
    return back;
  });
  private readonly out = new Float64Array(bins);

  power(samples: Float32Array, at: number, window: Float32Array): Float64Array {
    const { real, imaginary, cosines, sines, reversed, out } = this;
    for (let i = 0; i < size; i++) {
      const to = reversed[i] ?? 0;
      real[to] = i < window.length ? (samples[at + i] ?? 0) * (window[i] ?? 0) : 0;
      imaginary[to] = 0;
    }
    for (let span = 1; span < size; span <<= 1) {
      const stride = size / 2 / span;
      for (let start = 0; start < size; start += 2 * span) {
        for (let k = 0; k < span; k++) {
          const a = start + k;
          const b = a + span;
          const c = cosines[k * stride] ?? 0;
          const s = sines[k * stride] ?? 0;
          const re = (real[b] ?? 0) * c + (imaginary[b] ?? 0) * s;
          const im = (imaginary[b] ?? 0) * c - (real[b] ?? 0) * s;
          real[b] = (real[a] ?? 0) - re;
          imaginary[b] = (imaginary[a] ?? 0) - im;
          real[a] = (real[a] ?? 0) + re;
          imaginary[a] = (imaginary[a] ?? 0) + im;
        }
      }
    }
    for (let i = 0; i < bins; i++) out[i] = (real[i] ?? 0) ** 2 + (imaginary[i] ?? 0) ** 2;
    return out;
  }
}
