import type { DialogueState } from '../../../src/phrasing/intents.ts';
import { say } from '../../../src/phrasing/say.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import type { FliteVoice } from '../../../src/speech/synthesis/flite.ts';
import { everyLine } from '../../phrasing/samples.ts';
import { lengthOf, overhear, quietBefore, spokenPrompt, type SpokenUtterance } from '../../speech/hearing/own-voice.ts';
import { appVoice } from './app-voice.ts';
import { cache } from './clips.ts';
import { Chance } from './random.ts';
import { rate } from './sound.ts';
import { speak, type BenchVoice } from './voices.ts';

/** What became of one voice of the app in its own ear, each prompt in so many states. */
export interface OwnVoiceResult {
  readonly voice: FliteVoice;
  readonly tries: number;
  /** What the app obeyed although only itself spoke. */
  readonly obeyed: readonly string[];
  /** What the ear took for a command, and the echo guard knew again. */
  readonly keptBack: readonly string[];
}

/** "Stop" and "hold on" said over it: how often they were heard and got through. */
export interface InterruptionResult {
  readonly text: string;
  readonly level: number;
  readonly said: number;
  readonly heard: number;
  readonly obeyed: number;
}

const states: readonly DialogueState[] = ['fastening', 'stating', 'checking', 'measuring', 'kit', 'confirming', 'briefing', 'waiting'];
const statesOfPrompt = (index: number): readonly DialogueState[] =>
  [0, 3, 6].map((k) => states[(index + k) % states.length] ?? 'fastening');
const nothing = new Float32Array(0);

async function promptsBy(name: FliteVoice, every: number): Promise<{ text: string; utterances: SpokenUtterance[] }[]> {
  const voice = await appVoice(name);
  const texts = [...new Set(everyLine.map((line) => say(line, 'en').say))].filter((_, index) => index % every === 0);
  const spoken: { text: string; utterances: SpokenUtterance[] }[] = [];
  for (const text of texts) spoken.push({ text, utterances: await spokenPrompt(text, voice) });
  return spoken;
}

/** Every prompt played into the app's own ear in three states, with nobody else about. */
export async function tryOwnVoice(hearing: Hearing, voice: FliteVoice, every: number): Promise<OwnVoiceResult> {
  const obeyed: string[] = [];
  const keptBack: string[] = [];
  let tries = 0;
  for (const [index, { text, utterances }] of (await promptsBy(voice, every)).entries()) {
    for (const state of statesOfPrompt(index)) {
      tries++;
      for (const heard of overhear(hearing, { utterances, state, besides: nothing }))
        (heard.isObeyed ? obeyed : keptBack).push(`${state}: "${heard.text}" ${heard.from.toFixed(1)} s into "${text}"`);
    }
  }
  return { voice, tries, obeyed, keptBack };
}

/** Every prompt with somebody interrupting it, as loud as the app and 6 dB louder. */
export async function tryInterruptions(
  hearing: Hearing,
  voice: FliteVoice,
  people: readonly BenchVoice[],
  every: number,
): Promise<InterruptionResult[]> {
  const chance = new Chance('own voice');
  const counts = new Map<string, { text: string; level: number; said: number; heard: number; obeyed: number }>();
  for (const [index, { utterances }] of (await promptsBy(voice, every)).entries()) {
    const state = states[index % states.length] ?? 'fastening';
    const length = lengthOf(utterances);
    for (const text of ['stop', 'stop stop', 'hold on']) {
      for (const level of [0, 6]) {
        const said = speak(chance.pick(people), text, cache);
        const besides = new Float32Array(length);
        // Somewhere while it speaks.
        const from = quietBefore + Math.floor(chance.next() * Math.max(1, length - quietBefore - said.length - 26000));
        const gain = 10 ** (level / 20);
        said.forEach((sample, i) => (besides[from + i] = sample * gain));
        const expected = text === 'hold on' ? 'hold-on' : 'stop';
        // It cannot be said while something is being confirmed.
        if (expected === 'hold-on' && state === 'confirming') continue;
        const key = `${text} ${level}`;
        const count = counts.get(key) ?? { text, level, said: 0, heard: 0, obeyed: 0 };
        counts.set(key, count);
        const isItsTime = (seconds: number): boolean => seconds > from / rate - 0.5 && seconds < (from + said.length) / rate + 0.5;
        const found = overhear(hearing, { utterances, state, besides }).filter((one) => one.intent === expected && isItsTime(one.from));
        count.said++;
        if (found.length > 0) count.heard++;
        if (found.some(({ isObeyed }) => isObeyed)) count.obeyed++;
      }
    }
  }
  return [...counts.values()];
}
