import type { Cancel, Clock } from './clock.ts';
import type { EarFault, EarKind } from './ear/ear.ts';
import type { EarCandidate, EarChoice } from './ear/ear-desk.ts';
import type { HeardAlternative, HearingGrammar } from './hearing/port.ts';
import type { Surroundings } from './recognition/engine.ts';
import type { EarconName, EarconPlayer } from './sound/earcon.ts';
import type { SpokenSounds } from './spoken-sounds.ts';
import type { SpeechState, WayToListen } from './speech-state.ts';
import type { DropReason } from './utterance-gate.ts';
import type { SayOutcome, VoiceFault, VoiceKind } from './voice/voice.ts';
import type { VoiceCandidate, VoiceChoice } from './voice/voice-desk.ts';

/** What a person has chosen. */
export interface SpeechSettings {
  /** BCP 47 language tag of both ear and voice. */
  readonly language: string;
  readonly ear: EarChoice;
  readonly voice: VoiceChoice | 'off';
  /** Whether sound and text may leave the device. */
  readonly remoteAllowed: boolean;
  readonly way: WayToListen;
  /** 1 is the voice's normal rate. */
  readonly rate: number;
  /** From 0 to 1. */
  readonly volume: number;
}

/** What may be heard now, and what may be heard while the app itself speaks. */
export interface Listening {
  readonly grammar: HearingGrammar;
  readonly whileSpeaking: HearingGrammar;
}

export interface HeardUtterance {
  /** Best first, without the tool's name. */
  readonly alternatives: readonly HeardAlternative[];
  /** The listening turn in which it began. */
  readonly turn: number;
  readonly ear: EarKind;
  /** It came while the app was speaking, and has silenced it. */
  readonly interrupted: boolean;
}

export interface DroppedUtterance {
  readonly why: DropReason;
  readonly text: string;
}

/** Something that the person should be told, in voice and on the screen. */
export type SpeechTrouble =
  | { readonly kind: 'ear-switched'; readonly from: EarKind; readonly to: EarKind; readonly fault: EarFault }
  | { readonly kind: 'ear-broken'; readonly fault: EarFault | 'no-ear' }
  | { readonly kind: 'voice-switched'; readonly from: VoiceKind; readonly to: VoiceKind; readonly fault: VoiceFault }
  | { readonly kind: 'voice-broken'; readonly fault: VoiceFault }
  | { readonly kind: 'too-loud' };

export interface SpeechControllerDeps {
  readonly clock: Clock;
  readonly ears: Readonly<Record<EarKind, EarCandidate | null>>;
  readonly voices: Readonly<Record<VoiceKind, VoiceCandidate | null>>;
  readonly earcons: EarconPlayer;
  /** Wakes the sound from within a tap or a key press; resolves to whether it can be heard. */
  readonly wakeSound: () => Promise<boolean>;
  /** Whether a text means something that may interrupt the app's own speech. */
  readonly isInterrupting: (text: string, language: string) => boolean;
  /** What the tool is called by, lower case. */
  readonly namesIn: (language: string) => readonly string[];
  /** How words sound in a language, as well as is known by now. */
  readonly soundsIn: (language: string) => SpokenSounds;
  readonly settings: SpeechSettings;
}

/** The ear and the voice of the app in one: what they may do at the same time, and what is made of their faults. */
export interface SpeechController {
  readonly state: SpeechState;
  readonly settings: SpeechSettings;
  /** Call it from a tap or a key press: browsers give sound and microphone only then. Calling it again tries again. */
  begin(): Promise<void>;
  apply(settings: SpeechSettings): Promise<void>;
  /** Cancels what is being said and says this, foreign texts in it (`phrasing/foreign-text.ts`) by a voice of their own. Always resolves. */
  say(text: string): Promise<SayOutcome>;
  /** Falls silent at once. */
  cancel(): void;
  play(name: EarconName): void;
  /** What may be heard from here on; null rests the ear. */
  listen(listening: Listening | null): void;
  /** The key, pedal or button to talk goes down, and up again. */
  press(): void;
  release(): void;
  /** Each of these gives a function that stops the telling. */
  onStateChange(listener: (state: SpeechState) => void): Cancel;
  onHeard(listener: (heard: HeardUtterance) => void): Cancel;
  onRejected(listener: (dropped: DroppedUtterance) => void): Cancel;
  onTrouble(listener: (trouble: SpeechTrouble) => void): Cancel;
  /** For adapters whose news do not come through an ear or a voice. */
  tellSurroundings(surroundings: Surroundings): void;
  tellVoiceProgress(share: number): void;
  dispose(): void;
}
