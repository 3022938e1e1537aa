import { createHearing } from '../../../src/speech/hearing/hearing.ts';
import type { Hearing, HearingGrammar } from '../../../src/speech/hearing/port.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { hearingModels } from '../../speech/hearing/models.ts';
import { cache } from './clips.ts';
import { lead, tail } from './conditions.ts';
import { rate } from './sound.ts';
import { listen, quickBlock } from './trial.ts';
import { speak, type BenchVoice } from './voices.ts';

const { lexicon, numbers, units } = packFor('en');

/** A whole number as the app says critical ones, with its unit: figure by figure, then as a word. */
export function spokenNumber(value: number): { readonly text: string; readonly apart: string; readonly together: string } {
  const unit = units.after(value, 'N·m');
  const apart = `${numbers.digits(value)} ${unit}`;
  const together = `${numbers.word(value).replaceAll('-', ' ')} ${unit}`;
  return { text: `${numbers.critical(value)} ${unit}`, apart, together };
}

/** Hears a number with newton metres and nothing else. */
export const numberGrammar: HearingGrammar = {
  state: 'measuring',
  language: 'en',
  jsgf: ['#JSGF V1.0;', 'grammar numbers;', 'public <value> = <number> (newton metre | newton metres);', ...lexicon.numberRules].join('\n'),
  words: [],
  risky: [],
  nameFirst: false,
};

export type ReadBack = 'right' | 'wrong' | 'not heard';

/** Says a text and looks which number the ear makes of it. */
export function readBack(
  hearing: Hearing,
  voice: BenchVoice,
  text: string,
  value: number,
): { readonly outcome: ReadBack; readonly heard: string } {
  const sound = speak(voice, text, cache);
  const padded = new Float32Array(sound.length + Math.round((lead + tail) * rate));
  padded.set(sound, Math.round(lead * rate));
  hearing.reset();
  const heard = listen(hearing, padded, quickBlock).flatMap(({ event }) =>
    event.kind === 'heard' ? [event.alternatives[0]?.text ?? ''] : [],
  );
  const [first] = heard;
  if (first === undefined) return { outcome: 'not heard', heard: '' };
  const read = numbers.read(first.replace(/ newton metres?$/u, '').split(' '));
  return { outcome: heard.length === 1 && read === value ? 'right' : 'wrong', heard: heard.join(' / ') };
}

export async function numberEar(): Promise<Hearing> {
  const hearing = createHearing(await hearingModels());
  hearing.setGrammar(numberGrammar);
  return hearing;
}
