import type { Cancel, Clock } from '../clock.ts';
import type { HeardAlternative, RejectionReason } from '../hearing/port.ts';
import type { RecognitionErrorCode, RecognitionErrorLike, RecognitionLike, ResultEventLike, ResultLike } from '../ports.ts';
import type { Ear, EarEvent, EarFault } from './ear.ts';

export interface SupervisedEarDeps {
  /** A fresh recogniser for each session, so that what a past session still sends cannot be taken for the present one. */
  readonly makeRecognition: () => RecognitionLike;
  /** Sets language, phrases and where to process. Phrases are left out once a recogniser has refused them. */
  readonly configure: (recognition: RecognitionLike, withPhrases: boolean) => void;
  readonly clock: Clock;
  readonly onEvent: (event: EarEvent) => void;
  /** Whether the person is still being asked for the microphone; waiting for that is no fault. */
  readonly isPermissionOpen: () => Promise<boolean>;
  readonly limits: EarLimits;
}

/** All in milliseconds but the last. */
export interface EarLimits {
  readonly startWithin: number;
  readonly endWithin: number;
  /** A session without any event for so long is dead; null where silence is silent. */
  readonly quietFor: number | null;
  /** A session that lasted so long was a good one, even if nobody spoke. */
  readonly goodAfter: number;
  readonly restartAfter: number;
  readonly backoffFrom: number;
  readonly backoffUpTo: number;
  /** So many bad sessions in a row are the end. */
  readonly badSessions: number;
}

export const browserEarLimits: EarLimits = {
  startWithin: 10_000,
  endWithin: 2_000,
  quietFor: 60_000,
  goodAfter: 4_000,
  restartAfter: 150,
  backoffFrom: 300,
  backoffUpTo: 5_000,
  badSessions: 5,
};

/** The local recogniser is silent while nobody speaks, and starting it again costs nothing. */
export const localEarLimits: EarLimits = { ...browserEarLimits, quietFor: null, restartAfter: 0 };

const terminal: Partial<Record<RecognitionErrorCode, EarFault>> = {
  network: 'network',
  'not-allowed': 'microphone-denied',
  'service-not-allowed': 'service-refused',
  'audio-capture': 'no-microphone',
  'language-not-supported': 'language-missing',
};

/** Two finals with the same words closer than this are one utterance told twice, as Chrome on Android does. */
const duplicateWithin = 400;

interface Session {
  readonly recognition: RecognitionLike;
  readonly begun: number;
  started: boolean;
  useful: boolean;
  closing: boolean;
  lastFinal: number;
  lastText: string;
  lastAt: number;
  speechFrom: number | null;
  watchdog: Cancel;
}

/**
 * Keeps a `SpeechRecognition`-shaped recogniser listening, written against what browsers really do: errors
 * that come twice, ends that never come, results that come twice or late, sessions that fall silent.
 */
export function createSupervisedEar(deps: SupervisedEarDeps): Ear {
  const { clock, limits, onEvent } = deps;
  let wanted = false;
  let session: Session | null = null;
  let bad = 0;
  let phrasesRefused = false;
  let cancelRestart: Cancel = () => undefined;

  function begin(): void {
    cancelRestart();
    if (session || !wanted) return;
    const recognition = deps.makeRecognition();
    const now = clock.now();
    const opened: Session = {
      recognition,
      begun: now,
      started: false,
      useful: false,
      closing: false,
      lastFinal: -1,
      lastText: '',
      lastAt: -Infinity,
      speechFrom: null,
      watchdog: () => undefined,
    };
    session = opened;
    recognition.continuous = true;
    recognition.interimResults = true;
    recognition.maxAlternatives = 5;
    deps.configure(recognition, !phrasesRefused);
    attach(opened);
    opened.watchdog = clock.after(limits.startWithin, () => void startOverdue(opened));
    try {
      recognition.start();
    } catch (error) {
      // InvalidStateError from another session that the browser still holds: wait and try again.
      over(opened, String(error));
    }
  }

  function attach(own: Session): void {
    const { recognition } = own;
    recognition.onstart = () => {
      own.started = true;
      alive(own);
      onEvent({ kind: 'listening' });
    };
    recognition.onspeechstart = ({ timeStamp }) => {
      alive(own);
      own.speechFrom = trusted(timeStamp);
      onEvent({ kind: 'speech-start', time: own.speechFrom });
    };
    recognition.onspeechend = () => alive(own);
    recognition.onresult = (event) => {
      alive(own);
      takeResults(own, event);
    };
    recognition.onnomatch = (event) => {
      alive(own);
      own.useful = true;
      const { from, to } = span(own, '');
      own.speechFrom = null;
      onEvent({ kind: 'rejected', why: reasonOf(event), text: firstText(event), from, to });
    };
    recognition.onerror = (event) => takeError(own, event);
    recognition.onend = () => over(own, 'The session ended.');
  }

  /** Nothing that this recogniser still sends is listened to. */
  function detach(own: Session): void {
    own.watchdog();
    const { recognition } = own;
    recognition.onstart = null;
    recognition.onspeechstart = null;
    recognition.onspeechend = null;
    recognition.onresult = null;
    recognition.onnomatch = null;
    recognition.onerror = null;
    recognition.onend = null;
    if (session === own) session = null;
  }

  function alive(own: Session): void {
    if (own.closing) return;
    own.watchdog();
    const { quietFor } = limits;
    if (quietFor !== null) own.watchdog = clock.after(quietFor, () => close(own, 'abort'));
  }

  async function startOverdue(own: Session): Promise<void> {
    if (await deps.isPermissionOpen()) {
      if (session === own && !own.started && !own.closing) own.watchdog = clock.after(limits.startWithin, () => void startOverdue(own));
      return;
    }
    if (session === own && !own.started) breakOff(own, 'stuck', 'Recognition did not start.');
  }

  /** Asks for the end and does not wait for ever. */
  function close(own: Session, how: 'stop' | 'abort'): void {
    own.closing = true;
    own.watchdog();
    own.watchdog = clock.after(limits.endWithin, () => {
      if (how === 'stop') quietly(() => own.recognition.abort());
      over(own, 'The session did not end.');
    });
    quietly(() => own.recognition[how]());
  }

  function takeError(own: Session, { error, message }: RecognitionErrorLike): void {
    const fault = terminal[error];
    if (fault !== undefined) {
      breakOff(own, fault, `${error}: ${message}`);
      return;
    }
    if (error === 'phrases-not-supported') phrasesRefused = true;
    // `end` follows by the standard; in practice not always.
    own.closing = true;
    own.watchdog();
    own.watchdog = clock.after(limits.endWithin, () => over(own, `No end after ${error}.`));
  }

  function breakOff(own: Session, fault: EarFault, message: string): void {
    wanted = false;
    detach(own);
    quietly(() => own.recognition.abort());
    onEvent({ kind: 'broken', fault, message });
  }

  function over(own: Session, message: string): void {
    if (session !== own) return;
    const good = own.useful || (own.started && clock.now() - own.begun >= limits.goodAfter);
    detach(own);
    bad = good ? 0 : bad + 1;
    if (!wanted) return;
    if (bad >= limits.badSessions) {
      wanted = false;
      onEvent({ kind: 'broken', fault: 'keeps-stopping', message });
      return;
    }
    const pause = good ? limits.restartAfter : Math.min(limits.backoffFrom * 2 ** (bad - 1), limits.backoffUpTo);
    cancelRestart = clock.after(pause, begin);
  }

  function takeResults(own: Session, { resultIndex, results }: ResultEventLike): void {
    if (!results) return;
    let open = '';
    for (let index = resultIndex; index < results.length; index++) {
      const result = results.item(index);
      if (!result) continue;
      if (result.isFinal) takeFinal(own, index, result);
      else open += result.item(0)?.transcript ?? '';
    }
    const text = open.trim();
    if (text === '') return;
    // Chrome tells the beginning of speech once a session; later utterances begin shortly before their first words are told.
    own.speechFrom ??= clock.now() - 400;
    onEvent({ kind: 'partial', text, from: own.speechFrom });
  }

  function takeFinal(own: Session, index: number, result: ResultLike): void {
    const alternatives = alternativesOf(result);
    const text = alternatives[0]?.text ?? '';
    const now = clock.now();
    const toldTwice = index <= own.lastFinal || (text === own.lastText && now - own.lastAt < duplicateWithin);
    own.lastFinal = Math.max(own.lastFinal, index);
    if (toldTwice || text === '') return;
    own.useful = true;
    own.lastText = text;
    own.lastAt = now;
    const { from, to } = span(own, text);
    own.speechFrom = null;
    onEvent({ kind: 'heard', alternatives, from, to });
  }

  function span(own: Session, text: string): { from: number; to: number } {
    const to = clock.now();
    const words = text.split(' ').length;
    return { from: own.speechFrom ?? to - 600 - 350 * words, to };
  }

  /** The event's own time where it can be on the page's clock, else now. */
  function trusted(timeStamp: number): number {
    const now = clock.now();
    return timeStamp > now - 30_000 && timeStamp <= now ? timeStamp : now;
  }

  return {
    listen() {
      if (wanted) return;
      wanted = true;
      bad = 0;
      begin();
    },
    finish() {
      wanted = false;
      cancelRestart();
      if (session && !session.closing) close(session, 'stop');
    },
    rest() {
      wanted = false;
      cancelRestart();
      const own = session;
      if (!own) return;
      const { recognition } = own;
      recognition.onresult = null;
      recognition.onnomatch = null;
      recognition.onspeechstart = null;
      close(own, 'abort');
    },
  };
}

function alternativesOf(result: ResultLike): HeardAlternative[] {
  return Array.from({ length: result.length }, (_, index) => result.item(index)).flatMap((alternative) =>
    alternative ? [{ text: alternative.transcript.trim(), confidence: alternative.confidence }] : [],
  );
}

function firstText({ results, resultIndex }: ResultEventLike): string {
  return results?.item(resultIndex)?.item(0)?.transcript.trim() ?? '';
}

/** Only the local recogniser says why nothing matched. */
function reasonOf(event: ResultEventLike): RejectionReason {
  return 'why' in event ? (event.why as RejectionReason) : 'unclear';
}

function quietly(run: () => void): void {
  try {
    run();
  } catch {
    // A recogniser that is already gone may throw when told to go.
  }
}
