import type { SpeechDesk } from '../speech-desk.ts';
import type { Language } from '../../phrasing/language.ts';

/** Writes down what is said while a note is recorded, where the browser can. */
export interface Dictation {
  /** Ends it; the words so far, or an empty text. */
  finish(): Promise<string>;
}

/** The ear's side of the speech desk. */
export type Hearing = Pick<SpeechDesk, 'onHeard' | 'status'>;

/** The words come from the ear where that is the browser's own, since a browser runs one recognition at a time; otherwise from a new one. */
export function dictationFor(hearing: Hearing, language: Language, remoteAllowed: boolean): Promise<Dictation | null> {
  const { ear, earKind } = hearing.status();
  const isOn = ear === 'listening' || ear === 'hearing';
  return isOn && earKind !== null && earKind !== 'local' ? Promise.resolve(fromEar(hearing)) : openDictation(language, remoteAllowed);
}

function fromEar(hearing: Hearing): Dictation {
  const words: string[] = [];
  const end = hearing.onHeard(({ alternatives }) => {
    const said = alternatives[0]?.text.trim() ?? '';
    if (said !== '') words.push(said);
  });
  return {
    finish: () => {
      end();
      return Promise.resolve(words.join(' '));
    },
  };
}

interface Result {
  readonly isFinal: boolean;
  readonly [index: number]: { readonly transcript: string } | undefined;
}

/** The part of the Web Speech API that is used (W3C, with its on-device draft). */
interface Recognition {
  lang: string;
  continuous: boolean;
  interimResults: boolean;
  processLocally?: boolean;
  onresult: ((event: { readonly resultIndex: number; readonly results: ArrayLike<Result> }) => void) | null;
  onend: (() => void) | null;
  onerror: (() => void) | null;
  start(): void;
  stop(): void;
}

interface RecognitionClass {
  new (): Recognition;
  available?(options: { readonly langs: readonly string[]; readonly processLocally: boolean }): Promise<string>;
}

const tags: Readonly<Record<Language, string>> = { en: 'en-US', fr: 'fr-FR' };
/** A recogniser that has not ended by then will not: browsers are known to forget the event. */
const patience = 1_500;

/** Null where the browser cannot, or only by sending the voice away and the person has not allowed that. */
export async function openDictation(language: Language, remoteAllowed: boolean): Promise<Dictation | null> {
  const scope = globalThis as { readonly SpeechRecognition?: RecognitionClass; readonly webkitSpeechRecognition?: RecognitionClass };
  const Found = scope.SpeechRecognition ?? scope.webkitSpeechRecognition;
  if (Found === undefined) return null;
  const lang = tags[language];
  const isLocal = (await Found.available?.({ langs: [lang], processLocally: true }).catch(() => '')) === 'available';
  if (!isLocal && !remoteAllowed) return null;
  const recognition = new Found();
  recognition.lang = lang;
  recognition.continuous = true;
  recognition.interimResults = false;
  if (isLocal) recognition.processLocally = true;
  const words: string[] = [];
  const ended = new Promise<void>((resolve) => {
    recognition.onend = () => resolve();
    recognition.onerror = () => resolve();
  });
  recognition.onresult = ({ resultIndex, results }) => {
    for (let index = resultIndex; index < results.length; index++) {
      const result = results[index];
      const said = result?.isFinal === true ? result[0]?.transcript.trim() : undefined;
      if (said !== undefined && said !== '') words.push(said);
    }
  };
  try {
    recognition.start();
  } catch {
    return null;
  }
  return {
    finish: async () => {
      recognition.stop();
      await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, patience))]);
      return words.join(' ');
    },
  };
}
