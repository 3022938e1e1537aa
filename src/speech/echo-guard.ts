import { editsWithin } from '../phrasing/sounds.ts';
import type { SpokenSounds } from './spoken-sounds.ts';
import type { SpokenStretch } from './spoken-stretch.ts';
import { createSpokenStretch, wordsIn } from './spoken-stretch.ts';

/** Something that the microphone picked up, with when it began and ended in milliseconds. */
export interface PickedUp {
  readonly text: string;
  readonly from: number;
  readonly to: number;
  /** It means one of the things that may interrupt. */
  readonly interrupts: boolean;
  /** How well it fits the sound, from 0 to 1, by the ear on this device; null where that is not known. */
  readonly fit: number | null;
}

export type EchoVerdict =
  /** Somebody else said it. */
  | 'pass'
  /** It can be the app's own voice: the words are the ones being said. */
  | 'own-words'
  /** Said while the app speaks, and nothing that may interrupt. */
  | 'while-speaking'
  /** No more than an earcon of the app's own. */
  | 'own-sound';

export interface EchoGuard {
  /** A stretch of text begins to sound; `rate`: 1 is the voice's normal rate. */
  speechBegins(text: string, at: number, rate: number): void;
  /** What begins at this character of the stretch is being said now. Voices that do not tell are guessed at. */
  speechReaches(character: number, at: number): void;
  speechEnds(at: number): void;
  /** An earcon sounds from one time to another. */
  sounds(from: number, to: number): void;
  judge(heard: PickedUp): EchoVerdict;
}

/** Milliseconds for which the room and the loudspeaker's own delay keep a sound alive. */
export const echoTail = 300;
/** How exactly the beginning of speech is known, in milliseconds. */
const slack = 60;
/** An answer that begins within the tail must go on for so long after it, or it is the end of the echo. */
const beyondTail = 200;
/** How much earlier, and how much later, than what was heard the app can have said it, in milliseconds: neither side's times are exact, and sound takes its way. */
const earlier = 500;
const later = 200;
/** Edits for each phone up to which what was heard is what was said, however well it fits. */
const sameUpTo = 0.2;
/**
 * What interrupts can be something else that was said, mistaken by the ear: "stop" for "step" or "start" (one edit), for the first sounds
 * of "socket" (1.5), for the last of "items" and the first of "after" (2.5). The ear is hardly ever as sure of these as of somebody who says it,
 * so up to so many edits it must fit so well; without a fit to go by, it must not sound nearly the same.
 */
const mistaken = { edits: 2.5, fit: 0.86 };
const mistakenUnseen = 1;
/** What fits worse than this over the app's voice is a lesser guess at it. */
const leastFit = 0.6;
/** Stretches older than this cannot be heard any more, however late a recogniser is. */
const forgetAfter = 15_000;

/**
 * Keeps the app from obeying itself: it knows what was said when, and judges what was heard against what sounded at that time. It
 * compares sounds and not words, for an ear that mistakes a word mistakes it for one of its own.
 */
export function createEchoGuard(soundsNow: () => SpokenSounds): EchoGuard {
  let speech: SpokenStretch[] = [];
  let earcons: { from: number; to: number }[] = [];

  function isEcho({ text, from, to, interrupts, fit }: PickedUp): boolean {
    const sounds = soundsNow();
    const heard = wordsIn(text).flatMap(({ word }) => sounds.phonesOf(word));
    const said = speech.flatMap((stretch) => stretch.phonesBetween(from - earlier, to + later));
    const edits = editsWithin(heard, said, sounds.alike);
    if (edits <= sameUpTo * heard.length) return true;
    // Anything else is only heard once the app is silent, when a quick answer must not be taken for an echo.
    if (!interrupts) return false;
    if (fit === null) return edits <= mistakenUnseen;
    return edits <= mistaken.edits && fit < mistaken.fit;
  }

  return {
    speechBegins(text, at, rate) {
      speech = speech.filter(({ to }) => to > at - forgetAfter);
      speech.push(createSpokenStretch(text, at, rate, soundsNow()));
    },
    speechReaches(character, at) {
      speech.at(-1)?.reaches(character, at);
    },
    speechEnds(at) {
      for (const stretch of speech) stretch.ends(at);
    },
    sounds(from, to) {
      earcons = earcons.filter((earcon) => earcon.to > from - forgetAfter);
      earcons.push({ from, to });
    },
    judge(heard) {
      const { from, to, interrupts, fit } = heard;
      const over = speech.filter((stretch) => to > stretch.from && from < stretch.to + echoTail);
      if (over.length === 0) {
        const covered = earcons.some((earcon) => from >= earcon.from - slack && to <= earcon.to + echoTail);
        return covered ? 'own-sound' : 'pass';
      }
      const during = over.some((stretch) => from < stretch.to - slack);
      if (during && (!interrupts || (fit !== null && fit < leastFit))) return 'while-speaking';
      if (isEcho(heard)) return 'own-words';
      if (interrupts) return 'pass';
      const ended = Math.max(...over.map((stretch) => stretch.to));
      return to > ended + echoTail + beyondTail ? 'pass' : 'while-speaking';
    },
  };
}
