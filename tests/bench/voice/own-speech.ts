import { lengthOf, obeyed, quietBefore } from '../../speech/hearing/own-voice.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import type { DialogueState } from '../../../src/phrasing/intents.ts';
import { cache } from './clips.ts';
import { prompts } from './prompts.ts';
import { Chance } from './random.ts';
import { speak, type BenchVoice } from './voices.ts';

export interface OwnVoiceResult {
  readonly prompts: number;
  /** What the app obeyed although only itself spoke. */
  readonly obeyed: readonly string[];
  /** "Stop" and "hold on" said over it: how often they got through. */
  readonly interruptions: readonly { readonly text: string; readonly level: number; readonly said: number; readonly obeyed: number }[];
}

const states: readonly DialogueState[] = ['fastening', 'stating', 'checking', 'measuring', 'kit', 'confirming', 'briefing', 'waiting'];

/** Every prompt played into the app's own ear, alone and with somebody interrupting it, as loud as itself and 6 dB louder. */
export function tryOwnVoice(hearing: Hearing, own: BenchVoice, people: readonly BenchVoice[], every: number): OwnVoiceResult {
  const chance = new Chance('own voice');
  const all = prompts(own).filter((_, index) => index % every === 0);
  const wrong: string[] = [];
  const counts = new Map<string, { text: string; level: number; said: number; obeyed: number }>();
  all.forEach(({ text, chunks }, index) => {
    const state = states[index % states.length] ?? 'fastening';
    for (const one of obeyed(hearing, { chunks, state, besides: new Float32Array(0) })) wrong.push(`${state}: "${one.text}" in "${text}"`);
    const length = lengthOf(chunks);
    for (const words of ['stop', 'stop stop', 'hold on']) {
      for (const level of [0, 6]) {
        const voice = chance.pick(people);
        const said = speak(voice, words, cache);
        const besides = new Float32Array(length);
        // Somewhere while it speaks.
        const from = quietBefore + Math.floor(chance.next() * Math.max(1, length - quietBefore - said.length - 26000));
        const gain = 10 ** (level / 20);
        said.forEach((sample, i) => (besides[from + i] = sample * gain));
        const key = `${words} ${level}`;
        const count = counts.get(key) ?? { text: words, level, said: 0, obeyed: 0 };
        const expected = words === 'hold on' ? 'hold-on' : 'stop';
        const isLegal = words !== 'hold on' || state !== 'confirming';
        if (isLegal) {
          count.said++;
          if (obeyed(hearing, { chunks, state, besides }).some(({ intent }) => intent === expected)) count.obeyed++;
        }
        counts.set(key, count);
      }
    }
  });
  return { prompts: all.length, obeyed: wrong, interruptions: [...counts.values()] };
}
