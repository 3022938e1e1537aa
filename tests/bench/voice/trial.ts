import type { Hearing, HearingEvent } from '../../../src/speech/hearing/port.ts';
import type { DialogueState } from '../../../src/phrasing/intents.ts';
import { benchGrammar, isMeant, meaningOf, type Said, type Surroundings } from './commands.ts';
import { rate } from './sound.ts';

export type Outcome = 'right' | 'wrong' | 'rejected';

export interface Trial {
  readonly outcome: Outcome;
  /** What it was taken for; "none" where nothing was. */
  readonly meant: string;
  readonly heard: string;
  /** From the end of the voice to the decision, in seconds of sound; null where there was none. */
  readonly delay: number | null;
}

/** Samples pushed at once: 20 ms, as near as may be to the blocks that come from a microphone. */
const block = 320;
/** Where delays are not measured, four of the network's frames at once cost hardly more than one. */
export const quickBlock = 4 * block;

/** Pushes sound as a microphone would and gives what came of it, with the sample at which it was decided. */
export function listen(hearing: Hearing, sound: Float32Array, size = block): { readonly event: HearingEvent; readonly at: number }[] {
  const out: { event: HearingEvent; at: number }[] = [];
  for (let at = 0; at < sound.length; at += size)
    for (const event of hearing.push(sound.subarray(at, at + size))) out.push({ event, at: Math.min(sound.length, at + size) });
  return out;
}

/** One clip heard in its state, decided as the app decides. `voiceEnds`: the sample at which the voice is over. */
export function tryClip(
  hearing: Hearing,
  said: Said,
  sound: Float32Array,
  nameFirst: boolean,
  voiceEnds: number,
  surroundings?: Surroundings,
): Trial {
  hearing.setGrammar(benchGrammar(said.state, nameFirst, surroundings));
  hearing.reset();
  const meanings = listen(hearing, sound).flatMap(({ event, at }) => {
    if (event.kind !== 'heard') return [];
    const meant = meaningOf(said.state, nameFirst, event.alternatives, surroundings);
    return meant === 'none' ? [] : [{ meant, heard: event.alternatives[0]?.text ?? '', at }];
  });
  const [first] = meanings;
  if (first === undefined) return { outcome: said.expected === 'none' ? 'right' : 'rejected', meant: 'none', heard: '', delay: null };
  const wrong = meanings.find(({ meant }) => !isMeant(said.expected, meant));
  const told = wrong ?? first;
  return {
    outcome: wrong === undefined ? 'right' : 'wrong',
    meant: told.meant,
    heard: told.heard,
    delay: (told.at - voiceEnds) / rate,
  };
}

/** What fired in a stretch of sound in which nothing was meant for the ear. */
export function alarmsIn(
  hearing: Hearing,
  state: DialogueState,
  nameFirst: boolean,
  sound: Float32Array,
): { readonly meant: string; readonly heard: string; readonly at: number }[] {
  hearing.setGrammar(benchGrammar(state, nameFirst));
  hearing.reset();
  return listen(hearing, sound, quickBlock).flatMap(({ event, at }) => {
    if (event.kind !== 'heard') return [];
    const meant = meaningOf(state, nameFirst, event.alternatives);
    return meant === 'none' ? [] : [{ meant, heard: event.alternatives[0]?.text ?? '', at }];
  });
}
