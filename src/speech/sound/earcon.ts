/** Short sounds that stand for something, with their lengths in milliseconds as audio/ has them. */
export const earconLengths = {
  heard: 130,
  'not-understood': 630,
  'step-complete': 700,
  'fastener-counted': 80,
  caution: 1000,
  timer: 1080,
} as const;
export type EarconName = keyof typeof earconLengths;

export interface EarconPlayer {
  /** Volume from 0 to 1. Does nothing where sound is not allowed yet. */
  play(name: EarconName, volume: number): void;
}
