import type { DialogueState, IntentName } from './intents.ts';
import type { Language, LanguagePack } from './language.ts';
import { phrasesOf, riskyIntents } from './lexicon.ts';
import { unitSymbol } from './measure-units.ts';
import { packFor } from './packs.ts';

/** What the closed-grammar recogniser may hear in one state. The same shape as the recogniser's own. */
export interface StateGrammar {
  readonly state: DialogueState;
  readonly language: Language;
  /** JSGF 1.0 with one public rule. */
  readonly jsgf: string;
  /** Every word in it, once, in alphabetical order. */
  readonly words: readonly string[];
  /** Wordings for which a false alarm costs work or safety. */
  readonly risky: readonly string[];
  /** Wordings that a longer one of another meaning begins with: "how many", with "how many left" beside it. */
  readonly openEnded: readonly string[];
  readonly nameFirst: boolean;
  /** Whether it is for the time in which the app itself speaks. */
  readonly overOwnVoice: boolean;
}

export interface GrammarWish {
  readonly state: DialogueState;
  readonly legal: readonly IntentName[];
  readonly language: Language;
  /** Who may sign. */
  readonly names: readonly string[];
  /** The unit of the measure at hand, as the procedure writes it, or null. */
  readonly measureUnit: string | null;
  /** How many fasteners may be counted at once. */
  readonly maxCount: number;
  readonly nameFirst: boolean;
  /**
   * True for what may be heard while the app itself speaks: the taught wordings and "stop", and none of the natural variants.
   * Each more would be one more for the app's own voice to be taken for ("one m…" for "one moment").
   */
  readonly overOwnVoice?: boolean;
}

/** More than this are not tightened between two words, and each more is one more to be confused with. */
const mostCounted = 8;

/** The closed grammar for a state: the wordings of what is legal, and nothing else. */
export function grammarFor(wish: GrammarWish): StateGrammar {
  const pack = packFor(wish.language);
  const { lexicon } = pack;
  const heard = phrasesOf(lexicon, wish.state)
    .filter(({ intent }) => wish.legal.includes(intent.type))
    .filter(({ heardIn }) => heardIn === null || heardIn.includes(wish.state))
    .filter(({ taught, intent }) => wish.overOwnVoice !== true || taught || intent.type === 'stop')
    .filter(({ intent }) => intent.type !== 'done' || intent.count <= Math.max(1, Math.min(wish.maxCount, mostCounted)));
  const signed = wish.legal.includes('sign') ? wish.names.map((name) => `${lexicon.signCarriers[0] ?? ''} ${name}`) : [];
  const texts = unique([...heard.map(({ text }) => text), ...signed].map(jsgfText));
  const stops = unique(heard.filter(({ intent }) => intent.type === 'stop').map(({ text }) => jsgfText(text)));
  const values = wish.legal.includes('number') ? valueRules(pack, wish.measureUnit) : [];
  const command = [...texts, ...(values.length > 0 ? ['<value>'] : [])].join(' | ');
  const name = jsgfText(lexicon.names[0] ?? '');
  const jsgf = [
    '#JSGF V1.0;',
    `grammar ${wish.state};`,
    // With the name first, "stop" gets through without it; without, the name would only lend itself to noise.
    wish.nameFirst ? `public <command> = ${name} (${command}) | ${stops.join(' | ')};` : `public <command> = ${command};`,
    ...values,
  ].join('\n');
  const risky = heard.filter(({ intent }) => isRisky(intent.type, wish.state)).map(({ text }) => jsgfText(text));
  return {
    state: wish.state,
    language: wish.language,
    jsgf,
    words: wordsIn(texts, values, wish.nameFirst ? name : ''),
    risky: unique([...risky, ...signed.map(jsgfText)]),
    openEnded: openEnded([
      ...heard.map(({ text, intent }) => ({ text: jsgfText(text), meaning: JSON.stringify(intent) })),
      ...signed.map((text) => ({ text: jsgfText(text), meaning: text })),
    ]),
    nameFirst: wish.nameFirst,
    overOwnVoice: wish.overOwnVoice === true,
  };
}

function isRisky(intent: IntentName, state: DialogueState): boolean {
  return riskyIntents.includes(intent) || (intent === 'yes' && (state === 'confirming' || state === 'signing'));
}

function openEnded(phrases: readonly { readonly text: string; readonly meaning: string }[]): readonly string[] {
  return unique(
    phrases
      .filter(({ text, meaning }) => phrases.some((other) => other.text.startsWith(`${text} `) && other.meaning !== meaning))
      .map(({ text }) => text),
  );
}

/** A number never comes bare: a word before it or a unit after it holds it. */
function valueRules({ lexicon, units }: LanguagePack, measureUnit: string | null): readonly string[] {
  const unit = measureUnit === null ? null : unitSymbol(measureUnit);
  const named = unit === null ? [] : units.heard[unit].filter((name) => /^[\p{L}' ]{3,}$/u.test(name));
  const carriers = lexicon.numberCarriers.map(jsgfText).join(' | ');
  const value = named.length === 0 ? '<carrier> <number>' : '<carrier> <number> [<measure>] | <number> <measure>';
  return [
    `<value> = ${value};`,
    `<carrier> = ${carriers};`,
    ...(named.length === 0 ? [] : [`<measure> = ${unique(named.map(jsgfText)).join(' | ')};`]),
    ...lexicon.numberRules,
  ];
}

/** Words as the dictionary has them; signs that mean something in JSGF fall away. */
function jsgfText(text: string): string {
  return text
    .toLowerCase()
    .replace(/[’]/gu, "'")
    .replace(/[^\p{L}\p{M}' ]/gu, ' ')
    .replace(/\s+/gu, ' ')
    .trim();
}

function wordsIn(texts: readonly string[], rules: readonly string[], name: string): readonly string[] {
  const fromRules = rules.flatMap((rule) =>
    rule
      .slice(rule.indexOf('=') + 1)
      .replace(/<[^>]*>/gu, ' ')
      .split(/[^\p{L}\p{M}']+/u),
  );
  const words = [...texts.flatMap((text) => text.split(' ')), ...fromRules, ...name.split(' ')].filter((word) => word !== '');
  return [...new Set(words)].sort();
}

function unique(texts: readonly string[]): readonly string[] {
  return [...new Set(texts)];
}
