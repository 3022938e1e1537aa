import { intentNames, plainIntents, reasons } from './intents.ts';
import type { DialogueState, Intent, IntentName } from './intents.ts';
import type { ChoiceWords, Lexicon } from './language.ts';
import { torqueUnits } from '../torque/quantities.ts';

/** One wording of one intent. */
export interface Phrase {
  readonly text: string;
  readonly intent: Intent;
  /** The one that is taught in the state asked about. */
  readonly taught: boolean;
  /** Where the recogniser listens for it; null everywhere that the intent is legal. */
  readonly heardIn: readonly DialogueState[] | null;
  /** Where it is understood when it comes as text; null everywhere that the intent is legal. */
  readonly understoodIn: readonly DialogueState[] | null;
}

/** What is likeliest to be wanted comes first, in answers to "help" and on the screen. */
export const helpOrder: readonly IntentName[] = [
  ...([
    'reason',
    'number',
    'done',
    'yes',
    'no',
    'missing',
    'do-it-now',
    'accept',
    'leave-open',
    'sign',
    'carry-on',
    'follow-up-done',
  ] as const),
  ...(['torque', 'socket', 'repeat', 'how-many-left', 'which-next', 'where', 'why', 'tools', 'caution', 'which-step', 'how-many'] as const),
  ...(['start-timer', 'time-left', 'undo', 'back', 'skip', 'hold-on', 'note', 'photo', 'unit', 'finish', 'hand-over', 'stop'] as const),
  ...(['louder', 'quieter', 'slower', 'faster', 'help'] as const),
];

/** Intents that lose work, skip safety or bind somebody: only exact wordings count for them. */
export const riskyIntents: readonly IntentName[] = ['skip', 'finish', 'undo', 'sign', 'accept', 'hand-over'];

export function taughtForm(lexicon: Lexicon, intent: IntentName, state: DialogueState | null): string {
  const words = lexicon.commands[intent];
  return (state === null ? undefined : words.taughtIn?.[state]) ?? words.taught;
}

/** Everything that can be said in so many words. Numbers, names and the text of notes are left to the grammar and the interpreter. */
export function phrasesOf(lexicon: Lexicon, state: DialogueState | null): readonly Phrase[] {
  return [
    ...plainPhrases(lexicon, state),
    ...countPhrases(lexicon),
    ...choicePhrases(['this', 'step'] as const, lexicon.scopes, (scope) => ({ type: 'skip', scope, reason: null })),
    ...reasons.flatMap((reason) =>
      (['this', 'step'] as const).map((scope) =>
        everywhere(`${lexicon.scopes[scope].taught} ${lexicon.reasons[reason].taught}`, { type: 'skip', scope, reason }, false),
      ),
    ),
    ...choicePhrases(reasons, lexicon.reasons, (reason) => ({ type: 'reason', reason, text: null })),
    ...choicePhrases(torqueUnits, lexicon.units, (unit) => ({ type: 'unit', unit })),
    ...choicePhrases(['source'] as const, lexicon.units, () => ({ type: 'unit', unit: null })),
  ];
}

function plainPhrases(lexicon: Lexicon, state: DialogueState | null): readonly Phrase[] {
  return intentNames.flatMap((name): readonly Phrase[] => {
    const intent = plainIntent(name);
    if (intent === null) return [];
    const words = lexicon.commands[name];
    const taught = taughtForm(lexicon, name, state);
    const only = (words.only ?? []).flatMap(({ states, texts }) =>
      texts.map((text): Phrase => ({
        text,
        intent,
        taught: text === taught,
        heardIn: states,
        understoodIn: words.written?.includes(text) === true ? null : states,
      })),
    );
    const known = new Set(only.map(({ text }) => text));
    return [
      ...[words.taught, ...words.natural].filter((text) => !known.has(text)).map((text) => everywhere(text, intent, text === taught)),
      ...only,
      ...(words.written ?? [])
        .filter((text) => !known.has(text))
        .map((text): Phrase => ({ text, intent, taught: false, heardIn: [], understoodIn: null })),
    ];
  });
}

/** The intent that a bare command means, or null where it needs more than its name. */
function plainIntent(name: IntentName): Intent | null {
  switch (name) {
    case 'done':
      return { type: 'done', count: 1 };
    case 'yes':
    case 'no':
      return { type: name };
    case 'note':
      return { type: 'note', text: null };
    case 'number':
    case 'reason':
    case 'skip':
    case 'unit':
    case 'sign':
      return null;
    default:
      return plainIntents.includes(name) ? { type: name } : null;
  }
}

/** Several at once are only counted where fasteners are. */
function countPhrases({ counts }: Lexicon): readonly Phrase[] {
  const states: readonly DialogueState[] = ['fastening'];
  return Array.from({ length: counts.most }, (_, index) => index + 1).flatMap((count) => {
    const intent: Intent = { type: 'done', count };
    return [
      ...[counts.taught(count), ...counts.natural(count)].map((text, index): Phrase => ({
        text,
        intent,
        taught: index === 0,
        heardIn: states,
        understoodIn: states,
      })),
      ...counts.written(count).map((text): Phrase => ({ text, intent, taught: false, heardIn: [], understoodIn: states })),
    ];
  });
}

function choicePhrases<Name extends string>(
  names: readonly Name[],
  words: Readonly<Record<Name, ChoiceWords>>,
  intentOf: (name: Name) => Intent,
): readonly Phrase[] {
  return names.flatMap((name) => {
    const { taught, natural, written = [] } = words[name];
    return [
      ...[taught, ...natural].map((text, index) => everywhere(text, intentOf(name), index === 0)),
      ...written.map((text): Phrase => ({ text, intent: intentOf(name), taught: false, heardIn: [], understoodIn: null })),
    ];
  });
}

function everywhere(text: string, intent: Intent, taught: boolean): Phrase {
  return { text, intent, taught, heardIn: null, understoodIn: null };
}
