import type { Clock } from '../clock.ts';
import { within } from '../clock.ts';
import type { HearingGrammar } from '../hearing/port.ts';
import type { AvailabilityStatus, PhraseConstructorLike, RecognitionConstructorLike } from '../ports.ts';
import type { EarCandidate } from './ear-desk.ts';
import { phrasesInGrammar } from './grammar-phrases.ts';
import { browserEarLimits, createSupervisedEar } from './supervised-ear.ts';

export interface BrowserEarDeps {
  readonly Recognition: RecognitionConstructorLike;
  /** Absent in browsers without contextual biasing. */
  readonly Phrase: PhraseConstructorLike | null;
  readonly clock: Clock;
  readonly isPermissionOpen: () => Promise<boolean>;
}

/** How long the browser may take to say whether it can recognise on the device, and to fetch what that needs, in milliseconds. */
const answersWithin = 3_000;
const installsWithin = 180_000;
/** How much a phrase is made likelier: about twenty times, well below what the standard calls rare. */
const boost = 3;

/** The browser's own recognition on the device. */
export function onDeviceEar(deps: BrowserEarDeps): EarCandidate {
  const { Recognition, clock } = deps;
  const options = (language: string) => ({ langs: [language], processLocally: true });

  async function availability(language: string): Promise<AvailabilityStatus> {
    const answer = Recognition.available?.(options(language)).catch((): AvailabilityStatus => 'unavailable');
    return answer === undefined ? 'unavailable' : ((await within(clock, answersWithin, answer)) ?? 'unavailable');
  }

  return browserEar(deps, true, {
    async isUsable(language, byHand) {
      const status = await availability(language);
      // What must be fetched first is the person's decision: it is large, and the local recogniser is there at once.
      return byHand ? status !== 'unavailable' : status === 'available';
    },
    prepare: async (language) => {
      if ((await availability(language)) === 'available') return null;
      const installed = Recognition.install?.(options(language)).catch(() => false);
      const done = installed !== undefined && (await within(clock, installsWithin, installed)) === true;
      return done ? null : 'language-missing';
    },
  });
}

/** The browser's own recognition wherever it likes, which may be a service elsewhere. */
export function remoteEar(deps: BrowserEarDeps): EarCandidate {
  return browserEar(deps, false, { isUsable: () => Promise.resolve(true), prepare: () => Promise.resolve(null) });
}

function browserEar(deps: BrowserEarDeps, onDevice: boolean, first: Pick<EarCandidate, 'isUsable' | 'prepare'>): EarCandidate {
  let grammar: HearingGrammar | null = null;
  return {
    ...first,
    make: (language, onEvent) =>
      createSupervisedEar({
        makeRecognition: () => new deps.Recognition(),
        configure(recognition, withPhrases) {
          recognition.lang = language;
          if ('processLocally' in recognition) recognition.processLocally = onDevice;
          const { Phrase } = deps;
          if (withPhrases && Phrase && grammar && 'phrases' in recognition) {
            recognition.phrases = phrasesInGrammar(grammar).map((text) => new Phrase(text, boost));
          }
        },
        clock: deps.clock,
        onEvent,
        isPermissionOpen: deps.isPermissionOpen,
        limits: browserEarLimits,
      }),
    setGrammar(next) {
      grammar = next;
    },
    keepOpen() {
      // The browser holds the microphone itself.
    },
  };
}
