import type { DialogueState, Intent, IntentName } from './intents.ts';
import type { Language, LanguagePack } from './language.ts';
import { phrasesOf, riskyIntents } from './lexicon.ts';
import type { Phrase } from './lexicon.ts';
import { unitSymbol } from './measure-units.ts';
import type { UnitSymbol } from './measure-units.ts';
import { packFor } from './packs.ts';
import { withoutWords, wordsOf } from './words.ts';

/** What a recogniser or a keyboard gave, best first. Confidence from 0 to 1; 0 where the recogniser tells none. */
export interface Hypothesis {
  readonly text: string;
  readonly confidence: number;
}

export interface Listening {
  readonly state: DialogueState;
  readonly legal: readonly IntentName[];
  readonly language: Language;
  /** Who may sign. */
  readonly names: readonly string[];
  /** The unit of the measure at hand, as the procedure writes it. */
  readonly measureUnit: string | null;
  /** Whether only what begins with the tool's name counts. "Stop" counts always. */
  readonly nameFirst: boolean;
}

export type Interpretation =
  | { readonly kind: 'intent'; readonly intent: Intent; readonly confidence: number; readonly text: string }
  | { readonly kind: 'not-now'; readonly intent: IntentName; readonly text: string }
  | { readonly kind: 'not-understood'; readonly text: string };

/** How well a hypothesis fits: word for word, with words beside it that change nothing, or after replacing a sound-alike. */
type Fit = 'exact' | 'near' | 'sound-alike';
interface Meaning {
  readonly intent: Intent;
  readonly fit: Fit;
}

const shareOfConfidence: Readonly<Record<Fit, number>> = { exact: 1, near: 0.9, 'sound-alike': 0.8 };
/** Below this, what is risky is asked again. */
const leastForRisk = 0.5;
/** A second hypothesis this close to the first, and of another meaning, makes a near fit doubtful. */
const tooClose = 0.1;

/** Finds what was meant among what may be said now. Doubt gives 'not-understood', never a guess. */
export function interpret(hypotheses: readonly Hypothesis[], listening: Listening): Interpretation {
  const pack = packFor(listening.language);
  const heard = hypotheses.map((hypothesis) => ({ ...hypothesis, meaning: meaningOf(hypothesis.text, pack, listening) }));
  const [top, ...others] = heard;
  if (top === undefined) return { kind: 'not-understood', text: '' };
  const legal = (meaning: Meaning | null) => (meaning !== null && listening.legal.includes(meaning.intent.type) ? meaning : null);
  const meaning = legal(top.meaning);
  if (meaning !== null) {
    const rival = others
      .filter((other) => top.confidence - other.confidence < tooClose)
      .map((other) => legal(other.meaning))
      .find((other) => other !== null && !isSame(other.intent, meaning.intent));
    const doubtful = isRisky(meaning.intent, listening.state)
      ? rival !== undefined || (top.confidence > 0 && top.confidence < leastForRisk)
      : meaning.fit !== 'exact' && rival?.fit === 'exact';
    return doubtful ? { kind: 'not-understood', text: top.text } : understood(top, meaning);
  }
  if (top.meaning !== null) return { kind: 'not-now', intent: top.meaning.intent.type, text: top.text };
  // The best guess means nothing; a lesser one may, if it is the only meaning and costs little.
  const cheap = others.flatMap((other) => {
    const lesser = legal(other.meaning);
    return lesser?.fit === 'exact' && !isRisky(lesser.intent, listening.state) ? [{ other, lesser }] : [];
  });
  const [first] = cheap;
  if (first !== undefined && cheap.every(({ lesser }) => isSame(lesser.intent, first.lesser.intent)))
    return understood(first.other, first.lesser);
  return { kind: 'not-understood', text: top.text };
}

function understood(hypothesis: Hypothesis, { intent, fit }: Meaning): Interpretation {
  return { kind: 'intent', intent, confidence: hypothesis.confidence * shareOfConfidence[fit], text: hypothesis.text };
}

/** A yes to something that was read back decides the same as the risky thing itself. */
function isRisky(intent: Intent, state: DialogueState): boolean {
  return riskyIntents.includes(intent.type) || (intent.type === 'yes' && (state === 'confirming' || state === 'signing'));
}

function isSame(one: Intent, other: Intent): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function meaningOf(text: string, pack: LanguagePack, listening: Listening): Meaning | null {
  const { listening: habits, names } = pack.lexicon;
  const spoken = wordsOf(text, habits);
  const named = names.map((name) => wordsOf(name, habits)).find((name) => startsWith(spoken, name));
  const words = withoutWords(named === undefined ? spoken : spoken.slice(named.length), habits.fillers);
  if (words.length === 0) return null;
  const meaning = meaningOfWords(words, text, pack, listening);
  if (listening.nameFirst && named === undefined && meaning?.intent.type !== 'stop') return null;
  return meaning;
}

function meaningOfWords(words: readonly string[], text: string, pack: LanguagePack, listening: Listening): Meaning | null {
  const phrases = understoodPhrases(pack, listening.state);
  const exact = exactly(words, phrases, listening.legal) ?? composed(words, text, pack, phrases, listening);
  if (exact !== null) return { intent: exact, fit: 'exact' };
  const near = nearly(words, phrases, pack, listening.legal);
  if (near !== null) return { intent: near, fit: 'near' };
  const replaced = pack.lexicon.listening.soundAlikes.reduce((sofar, [found, meant]) => sofar.replace(found, meant), words.join(' '));
  if (replaced === words.join(' ')) return null;
  const alike = exactly(replaced.split(' '), phrases, listening.legal) ?? nearly(replaced.split(' '), phrases, pack, listening.legal);
  return alike === null || isRisky(alike, listening.state) ? null : { intent: alike, fit: 'sound-alike' };
}

function exactly(words: readonly string[], phrases: Phrases, legal: readonly IntentName[]): Intent | null {
  const found = phrases.get(words.join(' ')) ?? [];
  return (found.find(({ intent }) => legal.includes(intent.type)) ?? found[0])?.intent ?? null;
}

/** What has a part of its own: a value, a name, the text of a note, a reason behind a skip. */
function composed(words: readonly string[], text: string, pack: LanguagePack, phrases: Phrases, listening: Listening): Intent | null {
  const number = readMeasure(words, pack, listening);
  const found = [
    number,
    readSkip(words, pack, phrases),
    readName(words, pack, listening.names),
    readNote(words, text, pack),
    readOther(words, text, pack, listening),
  ];
  const meant = found.filter((intent) => intent !== null);
  return meant.find(({ type }) => listening.legal.includes(type)) ?? meant[0] ?? null;
}

function readMeasure(words: readonly string[], pack: LanguagePack, { legal, measureUnit }: Listening): Intent | null {
  const { numberCarriers, listening } = pack.lexicon;
  const carrier = numberCarriers
    .map((text) => wordsOf(text, listening))
    .sort(longestFirst)
    .find((start) => startsWith(words, start));
  const rest = words.slice(carrier?.length ?? 0);
  const wanted = measureUnit === null ? null : unitSymbol(measureUnit);
  const named = namedUnits(pack, wanted).find(({ name }) => rest.length > name.length && startsWith(rest.slice(-name.length), name));
  const value = pack.numbers.read(named === undefined ? rest : rest.slice(0, -named.name.length));
  if (value === null) return null;
  // A bare number is an answer only where one was asked for.
  if (carrier === undefined && named === undefined && !legal.includes('number')) return null;
  return { type: 'number', value, unit: named === undefined ? null : named.unit === wanted ? measureUnit : named.unit };
}

/** Every unit's names, the wanted unit's first: "degrees" are Celsius where Celsius is measured. */
function namedUnits(
  pack: LanguagePack,
  wanted: UnitSymbol | null,
): readonly { readonly unit: UnitSymbol; readonly name: readonly string[] }[] {
  const all = (Object.keys(pack.units.heard) as UnitSymbol[]).flatMap((unit) =>
    pack.units.heard[unit].map((name) => ({ unit, name: wordsOf(name, pack.lexicon.listening) })),
  );
  return all.sort((a, b) => b.name.length - a.name.length || Number(b.unit === wanted) - Number(a.unit === wanted));
}

function readSkip(words: readonly string[], pack: LanguagePack, phrases: Phrases): Intent | null {
  for (let split = words.length - 1; split > 0; split--) {
    const skip = exactly(words.slice(0, split), phrases, ['skip']);
    if (skip?.type !== 'skip') continue;
    const rest = words.slice(split);
    const { beforeReason } = pack.lexicon.listening;
    // "because it's damaged" holds the whole reason, "because of a missing part" only its end.
    for (let start = 0; start < rest.length && rest.slice(0, start).every((word) => beforeReason.includes(word)); start++) {
      const reason = exactly(rest.slice(start), phrases, ['reason']);
      if (reason?.type === 'reason') return { ...skip, reason: reason.reason };
    }
  }
  return null;
}

function readName(words: readonly string[], pack: LanguagePack, names: readonly string[]): Intent | null {
  for (const carrier of pack.lexicon.signCarriers.map((text) => wordsOf(text, pack.lexicon.listening))) {
    if (!startsWith(words, carrier)) continue;
    const said = words.slice(carrier.length).join(' ');
    const name = names.find((one) => wordsOf(one, pack.lexicon.listening).join(' ') === said);
    if (name !== undefined) return { type: 'sign', name };
  }
  return null;
}

function readNote(words: readonly string[], text: string, pack: LanguagePack): Intent | null {
  const carrier = pack.lexicon.noteCarriers
    .map((start) => wordsOf(start, pack.lexicon.listening))
    .sort(longestFirst)
    .find((start) => startsWith(words, start));
  const note = carrier === undefined || words.length === carrier.length ? null : afterWords(text, carrier.length, pack);
  return note === null ? null : { type: 'note', text: note };
}

/** "Another reason: the nut is seized." */
function readOther(words: readonly string[], text: string, pack: LanguagePack, { legal }: Listening): Intent | null {
  if (!legal.includes('reason')) return null;
  const { taught, natural } = pack.lexicon.reasons.other;
  const carrier = [taught, ...natural].map((start) => wordsOf(start, pack.lexicon.listening)).find((start) => startsWith(words, start));
  const said = carrier === undefined || words.length === carrier.length ? null : afterWords(text, carrier.length, pack);
  return said === null ? null : { type: 'reason', reason: 'other', text: said };
}

/** The person's own words after a carrier of so many words, as they were written. */
function afterWords(text: string, carrierLength: number, pack: LanguagePack): string | null {
  const { fillers } = pack.lexicon.listening;
  const { names } = pack.lexicon;
  let rest = text.trim();
  for (const name of names) if (rest.toLowerCase().startsWith(name)) rest = rest.slice(name.length).replace(/^[\s,.:;!]+/u, '');
  let left = carrierLength;
  while (left > 0) {
    const [, word = '', after = ''] = /^(\S+)\s*([\s\S]*)$/u.exec(rest) ?? [];
    if (word === '') return null;
    if (!fillers.includes(word.toLowerCase().replace(/[^\p{L}']/gu, ''))) left--;
    rest = after;
  }
  const said = rest.replace(/^[\s,.:;–-]+/u, '').trim();
  return said === '' ? null : said;
}

/** A wording with words beside it that change nothing: "what's the torque on these". Questions and cheap commands only. */
function nearly(words: readonly string[], phrases: Phrases, pack: LanguagePack, legal: readonly IntentName[]): Intent | null {
  const { besideQuestions, besideCommands, besideStop } = pack.lexicon.listening;
  const found: { readonly intent: Intent; readonly length: number }[] = [];
  for (let from = 0; from < words.length; from++) {
    for (let to = words.length; to > from; to--) {
      const beside = [...words.slice(0, from), ...words.slice(to)];
      for (const { intent } of phrases.get(words.slice(from, to).join(' ')) ?? []) {
        const harmless = nearQuestions.has(intent.type)
          ? besideQuestions
          : nearCommands.has(intent.type)
            ? besideCommands
            : intent.type === 'stop'
              ? besideStop
              : [];
        if (beside.every((word) => harmless.includes(word))) found.push({ intent, length: to - from });
      }
    }
  }
  const possible = found.some(({ intent }) => legal.includes(intent.type))
    ? found.filter(({ intent }) => legal.includes(intent.type))
    : found;
  const longest = Math.max(0, ...possible.map(({ length }) => length));
  const best = possible.filter(({ length }) => length === longest);
  const [first] = best;
  return first !== undefined && best.every(({ intent }) => isSame(intent, first.intent)) ? first.intent : null;
}

const nearQuestions: ReadonlySet<IntentName> = new Set<IntentName>([
  ...([
    'repeat',
    'torque',
    'socket',
    'how-many',
    'how-many-left',
    'where',
    'why',
    'caution',
    'tools',
    'which-step',
    'which-next',
    'time-left',
    'help',
  ] as const),
]);
const nearCommands: ReadonlySet<IntentName> = new Set<IntentName>([
  'louder',
  'quieter',
  'slower',
  'faster',
  'hold-on',
  'start-timer',
  'back',
  'unit',
]);

type Phrases = ReadonlyMap<string, readonly Phrase[]>;
const understoodBy = new Map<string, Phrases>();

function understoodPhrases(pack: LanguagePack, state: DialogueState): Phrases {
  const key = `${pack.language} ${state}`;
  const known = understoodBy.get(key);
  if (known !== undefined) return known;
  const phrases = new Map<string, Phrase[]>();
  for (const phrase of phrasesOf(pack.lexicon, state)) {
    if (phrase.understoodIn !== null && !phrase.understoodIn.includes(state)) continue;
    const text = wordsOf(phrase.text, pack.lexicon.listening)
      .filter((word, _, all) => all.length === 1 || !pack.lexicon.listening.fillers.includes(word))
      .join(' ');
    phrases.set(text, [...(phrases.get(text) ?? []), phrase]);
  }
  understoodBy.set(key, phrases);
  return phrases;
}

function startsWith(words: readonly string[], start: readonly string[]): boolean {
  return start.length <= words.length && start.every((word, index) => words[index] === word);
}

function longestFirst(one: readonly string[], other: readonly string[]): number {
  return other.length - one.length;
}
