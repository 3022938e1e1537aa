import { createHearing, type HearingModels } from '../hearing/hearing.ts';
import { withNoise, type OwnVoice } from '../hearing/own-voice.ts';
import type { HeardTakes, TrialTake, Tried } from './messages.ts';

const rate = 16_000;
/** Seconds of all but silence before and after a take, which the ear must have to know where it begins and ends. */
const before = 0.7;
const after = 1;
/** Decibels of the voice over the noise of the second trial. */
const noise = 10;
/** -75 dB full scale: what the quietest microphone gives. */
const faintest = 10 ** (-75 / 20);

/** Plays takes to the whole ear, as the job would hear them, as they were said and in noise. */
export function tryTakes(models: HearingModels, own: OwnVoice | null, trials: readonly TrialTake[]): Tried {
  const hearing = createHearing(models);
  hearing.useVoice(own);
  const heard = (level: number | null): HeardTakes =>
    trials.map(({ grammar, sound }) => {
      hearing.setGrammar(grammar);
      hearing.reset();
      const around = new Float32Array(Math.round((before + after) * rate) + sound.length).fill(0);
      around.set(sound, Math.round(before * rate));
      const steady = withNoise(around, level).map((sample, index) => sample + (index % 2 === 0 ? faintest : -faintest));
      const events = [...hearing.push(steady), ...hearing.flush()];
      const first = events.find((event) => event.kind === 'heard');
      return first?.alternatives[0]?.text ?? null;
    });
  const tried = { quiet: heard(null), noisy: heard(noise) };
  hearing.dispose();
  return tried;
}
