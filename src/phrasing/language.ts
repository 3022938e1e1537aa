import type { KitItem, WrenchMisfit, WrenchNote } from '../procedure/plan-types.ts';
import type { WrenchRemark } from '../procedure/wrench-remarks.ts';
import type { TorqueUnit } from '../torque/quantities.ts';
import type { DialogueState, IntentName, Reason } from './intents.ts';
import type { Line, Matter, Spoken } from './lines.ts';
import type { UnitSymbol } from './measure-units.ts';

export const languages = ['en', 'fr'] as const;
export type Language = (typeof languages)[number];

/** The language of a BCP 47 tag without its region: "fr" of "fr-CA"; '' of nothing. */
export const primaryTag = (tag: string): string => tag.toLowerCase().split('-')[0] ?? '';

/** Whether a BCP 47 tag means this language, of whatever region. */
export const isLanguage = (tag: string, language: Language): boolean => primaryTag(tag) === language;

/** Everything that one language brings. A further language is a folder with one of these, and a line in `packs.ts`. */
export interface LanguagePack {
  readonly language: Language;
  readonly say: (line: Line) => Spoken;
  /** An author's text of this language, in words. */
  readonly readText: (written: string) => string;
  readonly numbers: NumberSpeech;
  readonly units: UnitSpeech;
  readonly lexicon: Lexicon;
  readonly tools: ToolSpeech;
  readonly closeOut: CloseOutWords;
}

/** What is open at close-out and why, as the screens write it. */
export interface CloseOutWords {
  readonly matter: (matter: Matter) => string;
  /** A reason, with the person's own words where they gave some. */
  readonly reason: (reason: Reason, said: string | null) => string;
}

/** Tools and what is to be minded about them, as the screens and lists write them. */
export interface ToolSpeech {
  /** What a kit item is called. */
  readonly kitName: (item: KitItem) => string;
  /** What would serve instead of it, or null. */
  readonly instead: (item: KitItem) => string | null;
  /** A sentence about a wrench. */
  readonly note: (note: WrenchNote | WrenchMisfit) => string;
  /** A remark with everything that is known of it. */
  readonly remark: (remark: WrenchRemark) => string;
}

/** Numbers aloud. Confusable ones (thirteen and thirty, to nineteen and ninety) never stand alone in any of these but `word`. */
export interface NumberSpeech {
  /** "four seven point five" */
  readonly digits: (value: number) => string;
  /** "forty-seven point five" */
  readonly word: (value: number) => string;
  /** "four seven point five: forty-seven point five"; once where both are the same. For figures that someone acts on. */
  readonly critical: (value: number) => string;
  /** The word, with the digits before it where it could be taken for another: "twelve", "one five, fifteen". */
  readonly plain: (value: number) => string;
  /** The value that words or figures mean, or null. Digit strings, words, or both one after the other. */
  readonly read: (words: readonly string[]) => number | null;
}

export interface UnitSpeech {
  /** The unit after that many: "newton metres". */
  readonly after: (value: number, unit: UnitSymbol) => string;
  /** Every way that somebody names it. */
  readonly heard: Readonly<Record<UnitSymbol, readonly string[]>>;
}

export interface Lexicon {
  /** What may be said before a command; the one to teach first. */
  readonly names: readonly string[];
  readonly commands: Readonly<Record<IntentName, CommandWords>>;
  readonly counts: CountWords;
  /** Leaving out the fastener at hand, or the whole step. */
  readonly scopes: Readonly<Record<'this' | 'step', ChoiceWords>>;
  readonly reasons: Readonly<Record<Reason, ChoiceWords>>;
  /** 'source' gives torques back in the units of their source. */
  readonly units: Readonly<Record<TorqueUnit | 'source', ChoiceWords>>;
  /** Said before a measured value: "reading". The first is taught. */
  readonly numberCarriers: readonly string[];
  /** Said before a name: "sign as". The first is taught. */
  readonly signCarriers: readonly string[];
  /** Said before a note, where the recogniser takes free text: "note that". */
  readonly noteCarriers: readonly string[];
  /** JSGF rules for numbers; `<number>` is the one used. */
  readonly numberRules: readonly string[];
  readonly listening: ListeningWords;
  /** Pronunciations of words that the recogniser's own dictionary lacks or says otherwise than people do, in the phones of its model. */
  readonly pronunciations: Readonly<Record<string, readonly string[]>>;
}

/** How one intent is said. Whatever is taught has two words or more and is far from everything else that is legal beside it. */
export interface CommandWords {
  readonly taught: string;
  /** Where another wording is more natural. */
  readonly taughtIn?: Partial<Readonly<Record<DialogueState, string>>>;
  /** Other wordings of two words or more, heard in every state where the intent is legal. */
  readonly natural: readonly string[];
  /** Wordings that count only in these states, single words among them. */
  readonly only?: readonly { readonly states: readonly DialogueState[]; readonly texts: readonly string[] }[];
  /** Understood from text wherever the intent is legal, but not listened for: too short, or too close to something else by sound. */
  readonly written?: readonly string[];
  /** On the button. */
  readonly button: string;
  /** What it does, in a line. */
  readonly help: string;
}

export interface ChoiceWords {
  readonly taught: string;
  readonly natural: readonly string[];
  /** As in `CommandWords`. */
  readonly written?: readonly string[];
  readonly button: string;
}

interface CountWords {
  /** How many things with `count` are said to be done, 1 first: "one done". */
  readonly taught: (count: number) => string;
  readonly natural: (count: number) => readonly string[];
  readonly written: (count: number) => readonly string[];
  readonly most: number;
}

/** What text recognisers make of a person who does not speak like a grammar. */
export interface ListeningWords {
  /** Makes spellings alike: "what is" and "whats" become "what's". */
  readonly canonical: (text: string) => string;
  /** Sounds and courtesies that mean nothing anywhere. */
  readonly fillers: readonly string[];
  /** Words that change nothing beside a question. */
  readonly besideQuestions: readonly string[];
  /** Words that change nothing beside a cheap command. */
  readonly besideCommands: readonly string[];
  /** Words that change nothing beside "stop", which must get through. */
  readonly besideStop: readonly string[];
  /** Words between what is skipped and the reason. */
  readonly beforeReason: readonly string[];
  /** What is often written for what was said; tried only when nothing else fits, and never for what is risky. */
  readonly soundAlikes: readonly (readonly [RegExp, string])[];
}
