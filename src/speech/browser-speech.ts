import clipFile from '../../audio/clips/clips.json';
import clipsUrl from '../../audio/clips/clips.wav?url';
import { systemClock } from './clock.ts';
import type { EarCandidate } from './ear/ear-desk.ts';
import { browserEarLimits, createSupervisedEar, localEarLimits } from './ear/supervised-ear.ts';
import type { EarLimits } from './ear/supervised-ear.ts';
import type { EarFault, EarKind } from './ear/ear.ts';
import type { HearingGrammar } from './hearing/port.ts';
import type { RecognitionConstructorLike, RecognitionLike, PhraseConstructorLike, UtteranceLike } from './ports.ts';
import { createBrowserMicrophone } from './recognition/browser-microphone.ts';
import type { HearingEngine, Surroundings } from './recognition/engine.ts';
import { bindLocalSpeechRecognition } from './recognition/local-speech-recognition.ts';
import type { Microphone } from './recognition/microphone.ts';
import { createWorkerEngine } from './recognition/worker-engine.ts';
import type { HearingWorker } from './recognition/worker-engine.ts';
import { createSpeechController } from './speech-controller.ts';
import type { SpeechController, SpeechSettings } from './speech-controller-port.ts';
import { createClipPlayer } from './sound/clip-player.ts';
import { createEarconPlayer } from './sound/earcons.ts';
import { wakeAudio } from './sound/audio-output.ts';
import { playSpeech } from './sound/speech-player.ts';
import { clipIndexOf } from './synthesis/clip-bank.ts';
import type { ClipFile } from './synthesis/clip-bank.ts';
import type { FliteRenderer, FliteWorker } from './synthesis/flite-renderer.ts';
import { createFliteRenderer } from './synthesis/flite-renderer.ts';
import { createLocalSource } from './synthesis/local-source.ts';
import { LocalSpeechSynthesis } from './synthesis/local-speech-synthesis.ts';
import { LocalSpeechSynthesisUtterance } from './synthesis/utterance.ts';
import { browserVoiceLimits, createCarefulVoice, localVoiceLimits } from './voice/careful-voice.ts';
import { pickVoice } from './voice/pick-voice.ts';
import type { VoiceCandidate } from './voice/voice-desk.ts';

/** The languages that the local recogniser and the local voice have. */
const localLanguages = ['en'];
const cacheSeconds = 240;
const wakeWithin = 2_000;

export interface BrowserSpeechWish {
  readonly settings: SpeechSettings;
  readonly isInterrupting: (text: string, language: string) => boolean;
  readonly namesIn: (language: string) => readonly string[];
}

/** Ears and voices of a real browser: its own where it has them, and the ones that come with the app. */
export function createBrowserSpeech({ settings, isInterrupting, namesIn }: BrowserSpeechWish): SpeechController {
  const clock = systemClock;
  const documentLanguage = () => document.documentElement.lang;
  let tellProgress: (share: number) => void = () => undefined;
  const microphone = createBrowserMicrophone();
  const engine = createWorkerEngine({
    // The worker's types promise whole events; the engine reads only their data.
    makeWorker: () =>
      new Worker(new URL('./recognition/hearing.worker.ts', import.meta.url), { type: 'module' }) as unknown as HearingWorker,
    microphone,
    clock,
    languages: localLanguages,
    onProgress: (loaded, total) => tellProgress(Math.min(1, loaded / total)),
    onSurroundings: (surroundings: Surroundings) => controller.tellSurroundings(surroundings),
    finishWithin: 2_000,
  });
  const flite = createFliteRenderer({
    makeWorker: () => new Worker(new URL('./synthesis/flite.worker.ts', import.meta.url), { type: 'module' }) as unknown as FliteWorker,
    onProgress: (loaded, total) => controller.tellVoiceProgress(Math.min(1, loaded / total)),
    cacheSeconds,
  });
  const controller = createSpeechController({
    clock,
    ears: {
      'browser-on-device': browserEar('browser-on-device'),
      local: localEar(engine, microphone, documentLanguage, (listener) => {
        tellProgress = listener;
      }),
      'browser-remote': browserEar('browser-remote'),
    },
    voices: { browser: browserVoice(false), local: localVoice(flite, documentLanguage), 'browser-remote': browserVoice(true) },
    earcons: createEarconPlayer(),
    wakeSound: () => wakeAudio(wakeWithin),
    isInterrupting,
    namesIn,
    settings,
  });
  return controller;
}

interface SpeechWindow {
  readonly SpeechRecognition?: RecognitionConstructorLike;
  readonly webkitSpeechRecognition?: RecognitionConstructorLike;
  readonly SpeechRecognitionPhrase?: PhraseConstructorLike;
}

/** The browser's own recognition, on the device or through its maker's service; null where there is none. */
function browserEar(kind: Exclude<EarKind, 'local'>): EarCandidate | null {
  // Not in the types of every TypeScript release, and not in every browser.
  const page = globalThis as unknown as SpeechWindow;
  const Recognition = page.SpeechRecognition ?? page.webkitSpeechRecognition;
  if (Recognition === undefined) return null;
  const processLocally = kind === 'browser-on-device';
  let grammar: HearingGrammar | null = null;
  const options = (language: string) => ({ langs: [language], processLocally });
  return {
    async isUsable(language) {
      if (Recognition.available === undefined) return !processLocally;
      const status = await Recognition.available(options(language)).catch(() => 'unavailable' as const);
      return status !== 'unavailable';
    },
    async prepare(language) {
      if (!processLocally || Recognition.available === undefined) return null;
      const status = await Recognition.available(options(language)).catch(() => 'unavailable' as const);
      if (status === 'available') return null;
      const installed = await (Recognition.install?.(options(language)) ?? Promise.resolve(false)).catch(() => false);
      return installed ? null : 'language-missing';
    },
    make: (language, onEvent) =>
      createSupervisedEar({
        makeRecognition: () => new Recognition(),
        configure: (recognition: RecognitionLike, withPhrases) => {
          recognition.lang = language;
          if ('processLocally' in recognition) recognition.processLocally = processLocally;
          const Phrase = page.SpeechRecognitionPhrase;
          if (withPhrases && 'phrases' in recognition && Phrase !== undefined && grammar !== null) {
            // A boost of 2 favours what may be said now without drowning the rest (0 to 10 in the draft).
            recognition.phrases = grammar.risky.concat(grammar.words).map((text) => new Phrase(text, 2));
          }
        },
        clock: systemClock,
        onEvent,
        isPermissionOpen,
        limits: browserEarLimits,
      }),
    setGrammar(next) {
      grammar = next;
    },
    // The browser opens and closes the microphone itself.
    keepOpen: () => undefined,
  };
}

/** Whether the person is still being asked for the microphone. */
async function isPermissionOpen(): Promise<boolean> {
  const status = await navigator.permissions.query({ name: 'microphone' }).catch(() => null);
  return status?.state === 'prompt';
}

function localEar(
  engine: HearingEngine,
  microphone: Microphone,
  documentLanguage: () => string,
  onProgress: (listener: (share: number) => void) => void,
): EarCandidate {
  const Recognition = bindLocalSpeechRecognition({ engine, clock: systemClock, noSpeechAfter: 8_000, documentLanguage });
  const limits: EarLimits = localEarLimits;
  return {
    isUsable: (language) => Promise.resolve(localLanguages.includes(primary(language))),
    async prepare(_language, tell): Promise<EarFault | null> {
      onProgress(tell);
      const outcome = await engine.load();
      if (outcome.kind === 'loaded') return null;
      return outcome.error === 'network' ? 'network' : 'service-refused';
    },
    make: (language, onEvent) =>
      createSupervisedEar({
        makeRecognition: () => new Recognition(),
        configure: (recognition) => {
          recognition.lang = language;
        },
        clock: systemClock,
        onEvent,
        isPermissionOpen,
        limits,
      }),
    setGrammar: (grammar) => engine.setGrammar(grammar),
    keepOpen: (kept) => microphone.keep(kept),
  };
}

/** The browser's own voices; null where it has no synthesis at all. */
function browserVoice(remote: boolean): VoiceCandidate | null {
  const synthesis = (globalThis as { readonly speechSynthesis?: SpeechSynthesis }).speechSynthesis;
  if (synthesis === undefined) return null;
  const voice = createCarefulVoice({
    synthesis: synthesis,
    makeUtterance: (text) => new SpeechSynthesisUtterance(text) as unknown as UtteranceLike<SpeechSynthesisVoice>,
    clock: systemClock,
    remoteAllowed: remote,
    limits: browserVoiceLimits,
  });
  return {
    isUsable: (language) => Promise.resolve(pickVoice(synthesis.getVoices(), language, remote) !== null),
    prepare: () => undefined,
    voice,
  };
}

function localVoice(flite: FliteRenderer, documentLanguage: () => string): VoiceCandidate {
  const file = clipFile as unknown as ClipFile;
  const clips = { index: clipIndexOf(file), player: createClipPlayer(clipsUrl, file), voice: file.voice };
  const source = createLocalSource({ flite, playSpeech, clips });
  const synthesis = new LocalSpeechSynthesis({ source, clock: systemClock, documentLanguage });
  const voice = createCarefulVoice({
    synthesis,
    makeUtterance: (text) => new LocalSpeechSynthesisUtterance(text),
    clock: systemClock,
    remoteAllowed: false,
    limits: localVoiceLimits,
  });
  return {
    isUsable: (language) => Promise.resolve(localLanguages.includes(primary(language))),
    prepare: () => void flite.load(),
    voice,
  };
}

const primary = (language: string): string => language.toLowerCase().split('-')[0] ?? '';
