import type { Cue } from '../../job/decide.ts';

/** Milliseconds on, off, on …: the earcons for a hand, so that somebody who does not hear them knows one from another. */
const patterns: Readonly<Record<Cue, readonly number[]>> = {
  heard: [30],
  'fastener-counted': [60],
  'step-complete': [60, 60, 140],
  'not-understood': [30, 40, 30, 40, 30],
  caution: [250, 100, 250],
  timer: [250, 100, 250, 100, 250],
};

/** Does nothing where the device cannot vibrate. */
export function vibrateFor(cue: Cue): void {
  if ('vibrate' in navigator) navigator.vibrate([...patterns[cue]]);
}
