import { legalIn } from '../../job/legal.ts';
import { grammarFor } from '../../phrasing/grammar.ts';
import { interpret } from '../../phrasing/interpret.ts';
import type { DialogueState, IntentName } from '../../phrasing/intents.ts';
import type { Language } from '../../phrasing/language.ts';
import { taughtForm } from '../../phrasing/lexicon.ts';
import { packFor } from '../../phrasing/packs.ts';
import type { HeardTakes, TrialTake, Tried } from '../../speech/enrolment/messages.ts';
import type { Effect, Score } from './own-voice-store.ts';

/** A command to be said, in a state in which a job would hear it. */
export interface AskedCommand {
  readonly text: string;
  readonly state: DialogueState;
}

/** What a job hears most, and what must be heard for certain. */
const asked: readonly (readonly [IntentName, DialogueState])[] = [
  ['done', 'fastening'],
  ['torque', 'fastening'],
  ['socket', 'fastening'],
  ['repeat', 'stating'],
  ['which-next', 'fastening'],
  ['how-many-left', 'fastening'],
  ['undo', 'fastening'],
  ['yes', 'checking'],
  ['no', 'checking'],
  ['hold-on', 'fastening'],
  ['carry-on', 'paused'],
  ['stop', 'fastening'],
];

/** The twelve commands of a language, as they are taught. */
export function askedCommands(language: Language): readonly AskedCommand[] {
  const { lexicon } = packFor(language);
  return asked.map(([intent, state]) => ({ text: taughtForm(lexicon, intent, state), state }));
}

/** The take with all that could be said in its place. */
export function trialOf({ text, state }: AskedCommand, sound: Float32Array, language: Language): TrialTake {
  const legal = legalIn[state];
  return { text, sound, grammar: grammarFor({ state, legal, language, names: [], measureUnit: null, maxCount: 8, nameFirst: false }) };
}

/** What the trials before and after learning come to. */
export function effectOf(commands: readonly AskedCommand[], before: Tried, after: Tried, language: Language): Effect {
  const score = (heard: HeardTakes): Score => {
    const outcomes = commands.map((command, index) => outcomeOf(command, heard[index] ?? null, language));
    return { right: outcomes.filter((one) => one === 'right').length, wrong: outcomes.filter((one) => one === 'wrong').length };
  };
  return {
    takes: commands.length,
    quiet: { before: score(before.quiet), after: score(after.quiet) },
    noisy: { before: score(before.noisy), after: score(after.noisy) },
  };
}

/** 'worse' where anything got worse; 'better' only where more was understood somewhere, which is all that is kept. */
export function verdictOf({ quiet, noisy }: Effect): 'better' | 'same' | 'worse' {
  const trials = [quiet, noisy];
  if (trials.some(({ before, after }) => after.right < before.right || after.wrong > before.wrong)) return 'worse';
  return trials.some(({ before, after }) => after.right > before.right) ? 'better' : 'same';
}

function outcomeOf({ text, state }: AskedCommand, heard: string | null, language: Language): 'right' | 'wrong' | 'not heard' {
  if (heard === null) return 'not heard';
  const context = { state, legal: legalIn[state], language, names: [], measureUnit: null, nameFirst: false };
  const [meant, got] = [text, heard].map((one) => interpret([{ text: one, confidence: 1 }], context));
  return JSON.stringify(meant) === JSON.stringify(got) ? 'right' : 'wrong';
}
