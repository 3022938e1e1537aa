import { Thirder, Tripler, joined } from './resampling.ts';

/** The parts of the RNNoise WebAssembly module (BSD, xiph.org) that are used here. */
export interface RnnoiseModule {
  readonly HEAPF32: Float32Array;
  _malloc(bytes: number): number;
  _free(address: number): void;
  _rnnoise_create(model: number): number;
  _rnnoise_destroy(state: number): void;
  _rnnoise_process_frame(state: number, out: number, input: number): number;
}

const frameLength = 480;
/** Samples at 16 kHz that one frame covers: 10 ms. */
export const suppressedFrame = 160;

export interface SuppressedFrame {
  /** 160 samples at 16 kHz, about 12 ms behind what went in. */
  readonly samples: Float32Array;
  /** What the network itself thinks of the chance that somebody speaks, 0 to 1. */
  readonly voice: number;
}

/** Takes steady and impulsive noise out of speech, frame by frame, with RNNoise at 48 kHz. */
export class Suppression {
  private readonly module: RnnoiseModule;
  private readonly state: number;
  private readonly buffer: number;
  private readonly up = new Tripler();
  private readonly down = new Thirder();
  private waiting = new Float32Array(0);

  constructor(module: RnnoiseModule) {
    this.module = module;
    this.state = module._rnnoise_create(0);
    this.buffer = module._malloc(frameLength * 4);
  }

  push(samples: Float32Array): SuppressedFrame[] {
    const frames: SuppressedFrame[] = [];
    const all = joined(this.waiting, samples);
    let at = 0;
    for (; at + suppressedFrame <= all.length; at += suppressedFrame) frames.push(this.frame(all.subarray(at, at + suppressedFrame)));
    this.waiting = all.slice(at);
    return frames;
  }

  dispose(): void {
    this.module._rnnoise_destroy(this.state);
    this.module._free(this.buffer);
  }

  private frame(samples: Float32Array): SuppressedFrame {
    const at = this.buffer / 4;
    // RNNoise counts samples in 16-bit units.
    this.module.HEAPF32.set(
      this.up.push(samples).map((sample) => sample * 32768),
      at,
    );
    const voice = this.module._rnnoise_process_frame(this.state, this.buffer, this.buffer);
    // The heap may have grown, so it is looked up again.
    const clean = this.module.HEAPF32.slice(at, at + frameLength).map((sample) => sample / 32768);
    return { samples: this.down.push(clean), voice };
  }
}
