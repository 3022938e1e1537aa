import type { Refusal } from './engine.ts';

/** Sound is coming through the port as Float32Array blocks of one channel. */
export interface OpenMicrophone {
  readonly kind: 'open';
  readonly sampleRate: number;
  readonly port: MessagePort;
  /** When the sound was taken that lies so many seconds into what came through the port: milliseconds on the page's clock. */
  timeOf(seconds: number): number;
  close(): void;
}

export interface Microphone {
  /** Listens to the track, or to the default microphone. `onLost` is called at most once, when the sound stops by itself. */
  open(track: MediaStreamTrack | null, onLost: () => void): Promise<OpenMicrophone | Refusal>;
  /** While kept, the default microphone stays open between sessions, so that the first sound after a key press is not cut. */
  keep(kept: boolean): void;
}
