import type { RecognitionConstructorLike, RecognitionLike } from '../../../speech/ports.ts';
import type { SaidPart } from './captions.ts';

export interface DictationDeps {
  readonly Recognition: RecognitionConstructorLike;
  /** BCP 47 tag. */
  readonly language: string;
  readonly onDevice: boolean;
  /** Seconds since the recording began. */
  readonly seconds: () => number;
  readonly onPart: (part: SaidPart) => void;
  readonly onInterim: (text: string) => void;
  /** It ended and will not begin again; the recording goes on. */
  readonly onStopped: () => void;
}

export interface Dictation {
  stop(): void;
}

/** Sessions in a row that may end without a word before it is given up: browsers end a session after some silence. */
const emptySessions = 20;
/** After these nothing gets better by itself. */
const terminal: readonly string[] = ['network', 'not-allowed', 'service-not-allowed', 'language-not-supported', 'audio-capture'];

/** Has the browser write down what is said, session after session, each sentence with its time in the recording. */
export function startDictation({ Recognition, language, onDevice, seconds, onPart, onInterim, onStopped }: DictationDeps): Dictation {
  let stopped = false;
  let over = false;
  let empty = 0;
  let session: RecognitionLike | null = null;

  function giveUp(): void {
    if (over) return;
    over = true;
    onStopped();
  }

  function begin(): void {
    const recognition = new Recognition();
    session = recognition;
    recognition.lang = language;
    recognition.continuous = true;
    recognition.interimResults = true;
    recognition.maxAlternatives = 1;
    if ('processLocally' in recognition) recognition.processLocally = onDevice;
    /** When each result was first heard of; finished ones never come back. */
    const began = new Map<number, number>();
    const finished = new Set<number>();
    let heard = false;
    let broken = false;
    recognition.onresult = ({ results, resultIndex }) => {
      const interim: string[] = [];
      for (let index = resultIndex; index < (results?.length ?? 0); index++) {
        const result = results?.item(index);
        const text = result?.item(0)?.transcript ?? '';
        if (result === null || result === undefined || text.trim() === '' || finished.has(index)) continue;
        const from = began.get(index) ?? seconds();
        began.set(index, from);
        heard = true;
        if (result.isFinal) {
          finished.add(index);
          onPart({ from, to: seconds(), text: text.trim() });
        } else interim.push(text.trim());
      }
      onInterim(interim.join(' '));
    };
    recognition.onerror = ({ error }) => {
      broken ||= terminal.includes(error);
      // Some engines give this error and then no end (seen with on-device recognition in Chromium 156).
      if (error === 'language-not-supported') giveUp();
    };
    recognition.onend = () => {
      onInterim('');
      if (session !== recognition || over) return;
      session = null;
      empty = heard ? 0 : empty + 1;
      if (stopped) return;
      if (broken || empty >= emptySessions) giveUp();
      else begin();
    };
    try {
      recognition.start();
    } catch {
      giveUp();
    }
  }

  begin();
  return {
    stop() {
      stopped = true;
      session?.stop();
    },
  };
}

export type Writing = 'on-device' | 'remote' | 'none';

/** How the browser may write down speech here: on the device where it can, through its maker's service only where that is allowed. */
export async function waysToWrite(
  Recognition: RecognitionConstructorLike | null,
  language: string,
  remoteAllowed: boolean,
): Promise<Writing> {
  if (Recognition === null) return 'none';
  const local = await Recognition.available?.({ langs: [language], processLocally: true }).catch(() => 'unavailable' as const);
  if (local === 'available') return 'on-device';
  return remoteAllowed ? 'remote' : 'none';
}
