import { grammarFor } from '../../phrasing/grammar.ts';
import { interpret } from '../../phrasing/interpret.ts';
import type { IntentName } from '../../phrasing/intents.ts';
import { languages } from '../../phrasing/language.ts';
import type { Language } from '../../phrasing/language.ts';
import type { FailureCode } from '../../phrasing/lines.ts';
import { packFor } from '../../phrasing/packs.ts';
import { createBrowserSpeech } from '../../speech/browser-speech.ts';
import { activityOf } from '../../speech/speech-state.ts';
import type { SpeechController, SpeechSettings, SpeechTrouble } from '../../speech/speech-controller-port.ts';
import { voiceInUse } from '../enrol/own-voice-store.ts';
import type { Settings } from '../settings.ts';
import { defaultSettings } from '../settings.ts';
import type { Listening, SpeechDesk, SpeechStatus } from '../speech-desk.ts';

/** BCP 47 tags of the languages that can be chosen. */
const tags: Readonly<Record<Language, string>> = { en: 'en-US', fr: 'fr-FR' };
/** What may be said while the app itself speaks. */
const interrupting: readonly IntentName[] = ['stop', 'hold-on'];

let desk: SpeechDesk | null = null;

/** One ear and one voice for the page. */
export function theSpeechDesk(): SpeechDesk {
  desk ??= createDesk(defaultSettings);
  return desk;
}

function createDesk(first: Settings): SpeechDesk {
  let settings = first;
  let listening: Listening | null = null;
  let status: SpeechStatus = { ear: 'off', earKind: null, progress: null, voice: 'off', voiceKind: null };
  const listeners = new Set<() => void>();
  /** Made at the first need: it fetches sounds, and a person may go on without any. */
  let made: SpeechController | null = null;
  const pending: ((controller: SpeechController) => void)[] = [];

  function controller(): SpeechController {
    if (made !== null) return made;
    made = createBrowserSpeech({
      settings: speechSettings(settings),
      isInterrupting: (text, language) => {
        const heard = interpret([{ text, confidence: 1 }], { ...anywhere, language: languageOf(language), legal: interrupting });
        return heard.kind === 'intent';
      },
      namesIn: (language) => packFor(languageOf(language)).lexicon.names,
      ownVoice: voiceInUse,
    });
    made.onStateChange((state) => {
      const ears = {
        off: 'off',
        loading: 'loading',
        ready: 'off',
        starting: 'loading',
        listening: 'listening',
        hearing: 'hearing',
        'waiting-for-key': 'waiting',
        broken: 'broken',
      } as const;
      status = {
        ear: ears[state.ear.status],
        earKind: state.ear.kind,
        progress: state.ear.progress,
        voice: activityOf(state) === 'speaking' ? 'speaking' : state.voice.status,
        voiceKind: state.voice.kind,
      };
      for (const listener of listeners) listener();
    });
    for (const hook of pending) hook(made);
    return made;
  }

  /** Listeners may come before the controller is there. */
  function hook(attach: (controller: SpeechController) => () => void): () => void {
    let off: () => void = () => undefined;
    const attached = (one: SpeechController) => {
      off = attach(one);
    };
    if (made === null) pending.push(attached);
    else attached(made);
    return () => {
      const waiting = pending.indexOf(attached);
      if (waiting >= 0) pending.splice(waiting, 1);
      off();
    };
  }

  function tellGrammar(): void {
    if (made === null) return;
    if (listening === null) {
      made.listen(null);
      return;
    }
    const wish = { ...listening, language: settings.language };
    const nameFirst = settings.listen === 'name-first';
    made.listen({
      grammar: grammarFor({ ...wish, nameFirst }),
      whileSpeaking: grammarFor({
        ...wish,
        legal: listening.legal.filter((name) => interrupting.includes(name)),
        nameFirst: false,
        overOwnVoice: true,
      }),
    });
  }

  return {
    status: () => status,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async begin() {
      const speech = controller();
      tellGrammar();
      // Models may take a while; the job begins by touch meanwhile, and the chip shows how far they are.
      void speech.begin();
      await Promise.resolve();
    },
    speak(text, cue) {
      if (made === null) return;
      if (cue !== null) made.play(cue);
      void made.say(text);
    },
    hush: () => made?.cancel(),
    listen(next) {
      listening = next;
      tellGrammar();
    },
    talk: (held) => (held ? made?.press() : made?.release()),
    apply(next) {
      settings = next;
      if (made === null) return;
      void made.apply(speechSettings(next));
      tellGrammar();
    },
    onHeard: (listener) => hook((speech) => speech.onHeard(({ alternatives }) => listener({ alternatives }))),
    onRejected: (listener) =>
      hook((speech) =>
        speech.onRejected(({ why, text }) => {
          // The app's own words, and what came beside a name-first ear, call for no answer.
          if (why === 'unclear' || why === 'not-a-command') listener(text);
        }),
      ),
    onTrouble: (listener) => hook((speech) => speech.onTrouble((trouble) => listener(codeOf(trouble)))),
    end: () => made?.dispose(),
  };
}

const anywhere = { state: 'stating', names: [], measureUnit: null, nameFirst: false } as const;

const languageOf = (tag: string): Language => languages.find((one) => tag.toLowerCase().startsWith(one)) ?? 'en';

function speechSettings(settings: Settings): SpeechSettings {
  return {
    language: tags[settings.language],
    ear: settings.ear,
    voice: settings.voice,
    remoteAllowed: settings.remoteSpeech,
    way: settings.listen,
    rate: settings.rate,
    volume: settings.volume,
  };
}

function codeOf(trouble: SpeechTrouble): FailureCode {
  switch (trouble.kind) {
    case 'ear-switched':
      return 'switched-to-local-ear';
    case 'voice-switched':
      return 'switched-to-local-voice';
    case 'voice-broken':
      return 'no-voice';
    case 'too-loud':
      return 'too-loud';
    case 'ear-broken':
      return trouble.fault === 'microphone-denied'
        ? 'microphone-denied'
        : trouble.fault === 'no-microphone'
          ? 'no-microphone'
          : trouble.fault === 'network'
            ? 'network-lost'
            : 'no-recogniser';
  }
}
