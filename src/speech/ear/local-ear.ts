import { primaryTag } from '../../phrasing/language.ts';
import type { Clock } from '../clock.ts';
import type { RecognitionConstructorLike } from '../ports.ts';
import type { HearingEngine } from '../recognition/engine.ts';
import type { Microphone } from '../recognition/microphone.ts';
import type { EarCandidate } from './ear-desk.ts';
import { createSupervisedEar, localEarLimits } from './supervised-ear.ts';

export interface LocalEarDeps {
  /** The local recognition over the engine. */
  readonly Recognition: RecognitionConstructorLike;
  readonly engine: HearingEngine;
  readonly microphone: Pick<Microphone, 'keep'>;
  readonly clock: Clock;
  /** Languages for which it is used only where the person chose it by hand. */
  readonly onTrial: readonly string[];
  readonly isPermissionOpen: () => Promise<boolean>;
  /** Lets the candidate hear of the engine's progress while it prepares. */
  readonly progress: { listener: ((share: number) => void) | null };
}

/** The recogniser of this app, on the device. */
export function localEar({ Recognition, engine, microphone, clock, onTrial, isPermissionOpen, progress }: LocalEarDeps): EarCandidate {
  return {
    isUsable: (language, byHand) =>
      Promise.resolve(engine.languages.includes(primaryTag(language)) && (byHand || !onTrial.includes(primaryTag(language)))),
    async prepare(language, onProgress) {
      progress.listener = onProgress;
      const outcome = await engine.load(primaryTag(language));
      progress.listener = null;
      if (outcome.kind === 'loaded') return null;
      return outcome.error === 'network' ? 'network' : 'service-refused';
    },
    make: (language, onEvent) =>
      createSupervisedEar({
        makeRecognition: () => new Recognition(),
        configure(recognition) {
          recognition.lang = language;
        },
        clock,
        onEvent,
        isPermissionOpen,
        limits: localEarLimits,
      }),
    setGrammar: (grammar) => engine.setGrammar(grammar),
    keepOpen: (kept) => microphone.keep(kept),
  };
}
