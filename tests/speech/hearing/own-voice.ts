import { legalIn } from '../../../src/job/legal.ts';
import { grammarFor } from '../../../src/phrasing/grammar.ts';
import { interpret } from '../../../src/phrasing/interpret.ts';
import type { DialogueState, IntentName } from '../../../src/phrasing/intents.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { createEchoGuard } from '../../../src/speech/echo-guard.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import { createUtteranceGate } from '../../../src/speech/utterance-gate.ts';

const rate = 16000;
const block = 1280;
/** As the app has it: see `src/app/platform/desk.ts`. */
const interrupting: readonly IntentName[] = ['stop', 'hold-on'];

export interface OwnSpeech {
  /** The stretches that are said one after the other, as the voice splits them, each with its sound at 16 kHz. */
  readonly chunks: readonly { readonly text: string; readonly sound: Float32Array }[];
  readonly state: DialogueState;
  /** What else the microphone hears, over the whole stretch; shorter sound is followed by quiet. */
  readonly besides: Float32Array;
}

/** Quiet before the app speaks and after it, in samples. */
export const quietBefore = rate / 2;
const quietAfter = Math.round(1.4 * rate);
const between = Math.round(0.15 * rate);

/** How long the whole stretch is that `obeyed` plays, in samples. */
export function lengthOf(chunks: OwnSpeech['chunks']): number {
  return quietBefore + chunks.reduce((sum, { sound }) => sum + sound.length + between, 0) + quietAfter;
}

/**
 * Plays the app's own speech into its ear at the level at which it comes, with the grammars, the echo guard and the gate as the
 * app uses them, and gives what was obeyed.
 */
export function obeyed(hearing: Hearing, { chunks, state, besides }: OwnSpeech): { readonly intent: IntentName; readonly text: string }[] {
  const wish = { state, language: 'en', names: [], measureUnit: state === 'measuring' ? 'mm' : null, maxCount: 8 } as const;
  const normal = grammarFor({ ...wish, legal: legalIn[state], nameFirst: false });
  const whileSpeaking = grammarFor({
    ...wish,
    legal: legalIn[state].filter((name) => interrupting.includes(name)),
    nameFirst: false,
    overOwnVoice: true,
  });
  const guard = createEchoGuard();
  const gate = createUtteranceGate(guard);
  const rules = {
    turnBegan: 0,
    nameFirst: false,
    names: packFor('en').lexicon.names,
    isInterrupting: (text: string) =>
      interpret([{ text, confidence: 1 }], { ...wish, legal: interrupting, nameFirst: false }).kind === 'intent',
  };
  const found: { intent: IntentName; text: string }[] = [];
  let at = 0;
  const play = (sound: Float32Array): void => {
    for (let from = 0; from < sound.length; from += block) {
      const piece = Float32Array.from(sound.subarray(from, from + block), (sample, i) => sample + (besides[at + i] ?? 0));
      at += piece.length;
      for (const event of hearing.push(piece)) {
        if (event.kind !== 'heard') continue;
        const verdict = gate.judge(
          {
            alternatives: event.alternatives,
            from: (event.from / rate - began) * 1000,
            to: (event.to / rate - began) * 1000,
            ear: 'local',
          },
          rules,
        );
        if (verdict.kind !== 'pass') continue;
        const meant = interpret(verdict.alternatives, { ...wish, legal: legalIn[state], nameFirst: false });
        if (meant.kind === 'intent') found.push({ intent: meant.intent.type, text: meant.text });
      }
    }
  };
  const began = samplesSoFar.get(hearing) ?? 0;
  const now = (): number => (at / rate) * 1000;
  hearing.reset();
  hearing.setGrammar(normal);
  play(new Float32Array(quietBefore));
  for (const { text, sound } of chunks) {
    hearing.setGrammar(whileSpeaking);
    guard.speechBegins(text, now());
    play(sound);
    guard.speechEnds(now());
    play(new Float32Array(between));
  }
  hearing.setGrammar(normal);
  play(new Float32Array(quietAfter));
  samplesSoFar.set(hearing, began + at / rate);
  return found;
}

/** Seconds that each ear has heard through `obeyed`: its events count samples from the day it was made. */
const samplesSoFar = new WeakMap<Hearing, number>();
