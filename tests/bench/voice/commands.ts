import { legalIn } from '../../../src/job/legal.ts';
import { grammarFor, type StateGrammar } from '../../../src/phrasing/grammar.ts';
import { interpret } from '../../../src/phrasing/interpret.ts';
import { dialogueStates, type DialogueState, type Intent } from '../../../src/phrasing/intents.ts';
import { phrasesOf, taughtForm } from '../../../src/phrasing/lexicon.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { Chance } from './random.ts';

/** Something that a person says in a state, and what is meant by it. */
export interface Said {
  readonly state: DialogueState;
  readonly text: string;
  /** `nameOf(intent)`, or "none". */
  readonly expected: string;
}

/** Who may sign, and in which unit is measured, in the bench's own clips. */
export interface Surroundings {
  readonly names: readonly string[];
  readonly unit: string;
}
const usual: Surroundings = { names: ['robin marsh', 'kim ferrow'], unit: 'mm' };

/** The grammar of a state as the app would set it, everything legal there being said aloud. */
export function benchGrammar(state: DialogueState, nameFirst: boolean, { names, unit } = usual): StateGrammar {
  return grammarFor({
    state,
    legal: legalIn[state],
    language: 'en',
    names,
    measureUnit: state === 'measuring' ? unit : null,
    maxCount: 8,
    nameFirst,
  });
}

/** What the app makes of words that were heard. */
export function meaningOf(
  state: DialogueState,
  nameFirst: boolean,
  alternatives: readonly { readonly text: string; readonly confidence: number }[],
  { names, unit } = usual,
): string {
  const found = interpret(alternatives, {
    state,
    legal: legalIn[state],
    language: 'en',
    names,
    measureUnit: state === 'measuring' ? unit : null,
    nameFirst,
  });
  return found.kind === 'intent' ? nameOf(found.intent) : 'none';
}

/** An intent in a word: its type, and behind a colon what sets it apart from others of the type. */
export function nameOf(intent: Intent): string {
  switch (intent.type) {
    case 'done':
      return `done:${intent.count}`;
    case 'number':
      return `number:${intent.value}`;
    case 'reason':
      return `reason:${intent.reason}`;
    case 'skip':
      return `skip:${intent.scope}${intent.reason === null ? '' : `:${intent.reason}`}`;
    case 'unit':
      return `unit:${intent.unit ?? 'source'}`;
    case 'sign':
      return `sign:${intent.name}`;
    default:
      return intent.type;
  }
}

/** Whether what was understood is what was expected: the whole name, or the type alone where only that was written. */
export function isMeant(expected: string, meant: string): boolean {
  return expected.includes(':') ? meant === expected : (meant.split(':')[0] ?? '') === expected;
}

/** Each intent's taught form in one state where it is legal, all counts up to eight, each reason, and eight measured values. */
export function taughtCommands(seed: number): Said[] {
  const { lexicon } = packFor('en');
  const chance = new Chance(seed);
  const said: Said[] = [];
  const byIntent = new Map<string, { state: DialogueState; text: string }[]>();
  for (const state of dialogueStates) {
    for (const { text, intent, taught, heardIn } of phrasesOf(lexicon, state)) {
      if (!taught || !legalIn[state].includes(intent.type) || (heardIn !== null && !heardIn.includes(state))) continue;
      if (intent.type === 'done' && intent.count > 8) continue;
      const name = `${nameOf(intent)} ${intent.type === 'done' && intent.count === 1 ? taughtForm(lexicon, 'done', state) : ''}`;
      byIntent.set(name, [...(byIntent.get(name) ?? []), { state, text }]);
    }
  }
  for (const places of byIntent.values()) {
    const { state, text } = chance.pick(places);
    said.push({ state, text, expected: meaningOf(state, false, [{ text, confidence: 1 }]) });
  }
  return [...said, ...numbers(8, chance)].filter(({ expected }) => expected !== 'none');
}

/** So many of the other accepted wordings. */
export function naturalCommands(count: number, seed: number): Said[] {
  const { lexicon } = packFor('en');
  const chance = new Chance(seed);
  const all = dialogueStates.flatMap((state) =>
    phrasesOf(lexicon, state)
      .filter(
        ({ taught, intent, heardIn }) => !taught && legalIn[state].includes(intent.type) && (heardIn === null || heardIn.includes(state)),
      )
      .filter(({ intent }) => intent.type !== 'done' || intent.count <= 8)
      .map(({ text }) => ({ state, text, expected: meaningOf(state, false, [{ text, confidence: 1 }]) })),
  );
  const seen = new Set<string>();
  const different = chance.shuffled(all).filter(({ text, expected }) => expected !== 'none' && !seen.has(text) && seen.add(text));
  return [...different.slice(0, count), ...numbers(4, chance)];
}

const ones = 'zero one two three four five six seven eight nine'.split(' ');
const teens = 'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' ');
const tens = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');

function numbers(count: number, chance: Chance): Said[] {
  return Array.from({ length: count }, (_, index): Said => {
    const kinds = [
      () => chance.pick(teens),
      () => chance.pick(tens),
      () => `${chance.pick(tens)} ${chance.pick(ones.slice(1))}`,
      () => `${chance.pick(ones)} point ${chance.pick(ones)}`,
      () => `${chance.pick(ones.slice(1))} ${chance.pick(ones)}`,
      () => `${chance.pick(ones.slice(1))} ${chance.pick(ones)} point ${chance.pick(ones)}`,
    ];
    const number = (kinds[index % kinds.length] ?? (() => 'one'))();
    const text = index % 2 === 0 ? `reading ${number}` : `${number} millimetres`;
    return { state: 'measuring', text, expected: meaningOf('measuring', false, [{ text, confidence: 1 }]) };
  });
}
