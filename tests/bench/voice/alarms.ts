import type { DialogueState } from '../../../src/phrasing/intents.ts';
import { riskyIntents } from '../../../src/phrasing/lexicon.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import { talkStream } from './clips.ts';
import type { NoiseBank } from './conditions.ts';
import { prompts } from './prompts.ts';
import { rate } from './sound.ts';
import { alarmsIn } from './trial.ts';
import type { BenchVoice } from './voices.ts';

export interface Alarms {
  readonly hours: number;
  readonly count: number;
  readonly risky: number;
  readonly examples: readonly string[];
}

/** In which the most time is spent, and those in which much can be said. */
const states: readonly DialogueState[] = [
  'fastening',
  'stating',
  'checking',
  'measuring',
  'kit',
  'briefing',
  'waiting',
  'confirming',
  'paused',
  'closing',
];

const isRisky = (state: DialogueState, meant: string): boolean => {
  const type = meant.split(':')[0];
  return riskyIntents.some((risky) => risky === type) || (type === 'yes' && (state === 'confirming' || state === 'signing'));
};

/** Talk near the microphone with an idling engine 20 dB under it, state after state, until so much has been heard. */
export function alarmsOnTalk(hearing: Hearing, voices: readonly BenchVoice[], bank: NoiseBank, hours: number, nameFirst: boolean): Alarms {
  return gather(hearing, nameFirst, hours, (round) => {
    const talk = talkStream(voices, 14, 1000 + round);
    const idle = bank.of('idle');
    return talk.map((sample, i) => sample + 0.005 * (idle[i % idle.length] ?? 0));
  });
}

/** The app's own prompts as if another phone said them, with nothing to tell the ear whose voice it is. */
export function alarmsOnPrompts(hearing: Hearing, voice: BenchVoice, hours: number, nameFirst: boolean): Alarms {
  const all = prompts(voice);
  return gather(hearing, nameFirst, hours, (round) => {
    const some = Array.from({ length: 12 }, (_, i) => all[(round * 12 + i) % all.length]?.chunks ?? []).flat();
    const gap = Math.round(0.4 * rate);
    const out = new Float32Array(some.reduce((sum, { sound }) => sum + sound.length + gap, 0));
    let at = 0;
    for (const { sound } of some) {
      out.set(sound, at);
      at += sound.length + gap;
    }
    return out;
  });
}

function gather(hearing: Hearing, nameFirst: boolean, hours: number, sound: (round: number) => Float32Array): Alarms {
  let seconds = 0;
  let count = 0;
  let risky = 0;
  const examples: string[] = [];
  for (let round = 0; seconds < hours * 3600; round++) {
    const state = states[round % states.length] ?? 'fastening';
    const piece = sound(round);
    seconds += piece.length / rate;
    for (const { meant, heard } of alarmsIn(hearing, state, nameFirst, piece)) {
      count++;
      if (isRisky(state, meant)) risky++;
      examples.push(`${state}: ${heard}`);
    }
  }
  return { hours: seconds / 3600, count, risky, examples };
}
