import { Howl } from 'howler';
import caution from '../../../audio/earcons/caution.wav?url';
import fastenerCounted from '../../../audio/earcons/fastener-counted.wav?url';
import heard from '../../../audio/earcons/heard.wav?url';
import notUnderstood from '../../../audio/earcons/not-understood.wav?url';
import stepComplete from '../../../audio/earcons/step-complete.wav?url';
import timer from '../../../audio/earcons/timer.wav?url';
import type { EarconName, EarconPlayer } from './earcon.ts';
import { audioOutput } from './audio-output.ts';

const addresses: Readonly<Record<EarconName, string>> = {
  heard,
  'not-understood': notUnderstood,
  'step-complete': stepComplete,
  'fastener-counted': fastenerCounted,
  caution,
  timer,
};

/** The earcons of audio/, loaded at once and played by howler. */
export function createEarconPlayer(): EarconPlayer {
  audioOutput();
  const howls = new Map(Object.entries(addresses).map(([name, address]) => [name, new Howl({ src: [address], format: ['wav'] })]));
  return {
    play(name, volume) {
      const howl = howls.get(name);
      // Before the page is touched howler would keep them, and then play all at once.
      if (!howl || audioOutput().context.state !== 'running') return;
      howl.volume(volume);
      howl.play();
    },
  };
}
