/** The last so many samples of a stream, by their index in it. */
export class SampleRing {
  private readonly samples: Float32Array;
  private total = 0;

  constructor(capacity: number) {
    this.samples = new Float32Array(capacity);
  }

  push(samples: Float32Array): void {
    for (const sample of samples) this.samples[this.total++ % this.samples.length] = sample;
  }

  /** What is still there of the stretch. */
  slice(from: number, to: number): Float32Array {
    const first = Math.max(0, from, this.total - this.samples.length);
    const last = Math.min(to, this.total);
    const out = new Float32Array(Math.max(0, last - first));
    for (let i = 0; i < out.length; i++) out[i] = this.samples[(first + i) % this.samples.length] ?? 0;
    return out;
  }
}
