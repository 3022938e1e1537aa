import { legalIn } from '../../../src/job/legal.ts';
import { grammarFor } from '../../../src/phrasing/grammar.ts';
import { interpret } from '../../../src/phrasing/interpret.ts';
import type { DialogueState, IntentName } from '../../../src/phrasing/intents.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { createEchoGuard } from '../../../src/speech/echo-guard.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import { createUtteranceGate } from '../../../src/speech/utterance-gate.ts';
import { localVoiceLimits } from '../../../src/speech/voice/careful-voice.ts';
import { splitText } from '../../../src/speech/voice/text-chunks.ts';
import { englishSounds } from '../doubles/english-sounds.ts';

const rate = 16000;
const block = 1280;
/** As the app has it: see `src/app/platform/desk.ts`. */
const interrupting: readonly IntentName[] = ['stop', 'hold-on'];
/** As the local voice has it: see `src/speech/synthesis/local-speech-synthesis.ts`. */
const clauseLength = 80;

/** What is said in one go, in the clauses in which the local voice makes its sound at 16 kHz. */
export interface SpokenUtterance {
  readonly text: string;
  readonly clauses: readonly { readonly text: string; readonly character: number; readonly sound: Float32Array }[];
}

/** A prompt as the app would have it said, each clause by `speak`. */
export async function spokenPrompt(
  text: string,
  speak: (clause: string) => Float32Array | Promise<Float32Array>,
): Promise<SpokenUtterance[]> {
  const utterances: SpokenUtterance[] = [];
  for (const utterance of splitText(text, localVoiceLimits.chunkLength, localVoiceLimits.fineChunks)) {
    const clauses: SpokenUtterance['clauses'][number][] = [];
    for (const clause of splitText(utterance.text, clauseLength, true))
      clauses.push({ text: clause.text, character: clause.start, sound: await speak(clause.text) });
    utterances.push({ text: utterance.text, clauses });
  }
  return utterances;
}

export interface OwnSpeech {
  readonly utterances: readonly SpokenUtterance[];
  readonly state: DialogueState;
  /** What else the microphone hears, over the whole stretch; shorter sound is followed by quiet. */
  readonly besides: Float32Array;
}

/** Something that the ear made of it. `from`: seconds since the stretch began. */
export interface Overheard {
  readonly text: string;
  readonly intent: IntentName | null;
  readonly from: number;
  /** False where guard or gate kept it back. */
  readonly isObeyed: boolean;
}

/** Quiet before the app speaks and after it, in samples. */
export const quietBefore = rate / 2;
const quietAfter = Math.round(1.4 * rate);
const between = Math.round(0.15 * rate);

/** How long the whole stretch is that `overhear` plays, in samples. */
export function lengthOf(utterances: readonly SpokenUtterance[]): number {
  const clauses = utterances.flatMap((utterance) => utterance.clauses);
  return quietBefore + clauses.reduce((sum, { sound }) => sum + sound.length + between, 0) + quietAfter;
}

/**
 * Plays the app's own speech into its ear at the level at which it comes, with the grammars, the echo guard and the gate as the
 * app uses them, and gives what was made of it.
 */
export function overhear(hearing: Hearing, { utterances, state, besides }: OwnSpeech): Overheard[] {
  const wish = { state, language: 'en', names: [], measureUnit: state === 'measuring' ? 'mm' : null, maxCount: 8 } as const;
  const normal = grammarFor({ ...wish, legal: legalIn[state], nameFirst: false });
  const whileSpeaking = grammarFor({
    ...wish,
    legal: legalIn[state].filter((name) => interrupting.includes(name)),
    nameFirst: false,
    overOwnVoice: true,
  });
  const guard = createEchoGuard(() => englishSounds);
  const gate = createUtteranceGate(guard);
  const rules = {
    turnBegan: 0,
    nameFirst: false,
    names: packFor('en').lexicon.names,
    isInterrupting: (text: string) =>
      interpret([{ text, confidence: 1 }], { ...wish, legal: interrupting, nameFirst: false }).kind === 'intent',
  };
  const found: Overheard[] = [];
  let at = 0;
  const play = (sound: Float32Array): void => {
    for (let from = 0; from < sound.length; from += block) {
      const piece = Float32Array.from(sound.subarray(from, from + block), (sample, i) => sample + (besides[at + i] ?? 0));
      at += piece.length;
      for (const event of hearing.push(piece)) {
        if (event.kind !== 'heard') continue;
        const [began, ended] = [event.from / rate - start, event.to / rate - start];
        const verdict = gate.judge({ alternatives: event.alternatives, from: began * 1000, to: ended * 1000, ear: 'local' }, rules);
        const alternatives = verdict.kind === 'pass' ? verdict.alternatives : event.alternatives;
        const meant = interpret(alternatives, { ...wish, legal: legalIn[state], nameFirst: false });
        const intent = meant.kind === 'intent' ? meant.intent.type : null;
        found.push({ text: alternatives[0]?.text ?? '', intent, from: began, isObeyed: verdict.kind === 'pass' && intent !== null });
      }
    }
  };
  const start = samplesSoFar.get(hearing) ?? 0;
  const now = (): number => (at / rate) * 1000;
  hearing.reset();
  hearing.setGrammar(normal);
  play(new Float32Array(quietBefore));
  for (const { text, clauses } of utterances) {
    hearing.setGrammar(whileSpeaking);
    guard.speechBegins(text, now(), 1);
    for (const [index, { character, sound }] of clauses.entries()) {
      if (index > 0) play(new Float32Array(between));
      guard.speechReaches(character, now());
      play(sound);
    }
    guard.speechEnds(now());
  }
  hearing.setGrammar(normal);
  play(new Float32Array(quietAfter));
  samplesSoFar.set(hearing, start + at / rate);
  return found;
}

/** Seconds that each ear has heard through `overhear`: its events count samples from the day it was made. */
const samplesSoFar = new WeakMap<Hearing, number>();
