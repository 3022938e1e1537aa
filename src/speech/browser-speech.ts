import clipFile from '../../audio/clips/clips.json';
import clipsUrl from '../../audio/clips/clips.wav?url';
import { systemClock } from './clock.ts';
import type { BrowserEarDeps } from './ear/browser-ears.ts';
import { onDeviceEar, remoteEar } from './ear/browser-ears.ts';
import { localEar } from './ear/local-ear.ts';
import type { PhraseConstructorLike, RecognitionConstructorLike } from './ports.ts';
import { heardLocally, onTrial } from './heard-locally.ts';
import type { OwnVoice } from './hearing/own-voice.ts';
import { createBrowserMicrophone } from './recognition/browser-microphone.ts';
import { fetchDictionary } from './recognition/dictionary-files.ts';
import { bindLocalSpeechRecognition } from './recognition/local-speech-recognition.ts';
import type { HearingWorker } from './recognition/worker-engine.ts';
import { createWorkerEngine } from './recognition/worker-engine.ts';
import { wakeAudio } from './sound/audio-output.ts';
import { createClipPlayer } from './sound/clip-player.ts';
import { createEarconPlayer } from './sound/earcons.ts';
import { playSpeech } from './sound/speech-player.ts';
import { soundsAsTheyCome } from './spoken-sounds.ts';
import { createSpeechController } from './speech-controller.ts';
import type { SpeechController, SpeechControllerDeps, SpeechSettings } from './speech-controller-port.ts';
import type { ClipFile } from './synthesis/clip-bank.ts';
import { clipIndexOf } from './synthesis/clip-bank.ts';
import type { FliteWorker } from './synthesis/flite-renderer.ts';
import { createFliteRenderer } from './synthesis/flite-renderer.ts';
import { createLocalSource } from './synthesis/local-source.ts';
import { LocalSpeechSynthesis } from './synthesis/local-speech-synthesis.ts';
import { LocalSpeechSynthesisUtterance } from './synthesis/utterance.ts';
import type { SynthesisDeps } from './voice/voice-candidates.ts';
import { browserVoice, localVoice } from './voice/voice-candidates.ts';

const clock = systemClock;
/** Seconds of rendered speech that are kept for being said again: about 15 MB. */
const cacheSeconds = 240;
/** Milliseconds. */
const noSpeechAfter = 8_000;
const finishWithin = 2_000;
const wakeWithin = 2_000;

/** What the ear has learnt of the person's voice, wherever it is kept. */
export interface OwnVoiceSource {
  readonly current: () => Promise<OwnVoice | null>;
  readonly onChange: (listener: () => void) => void;
}

export interface BrowserSpeechWish extends Pick<SpeechControllerDeps, 'isInterrupting' | 'namesIn'> {
  readonly settings: SpeechSettings;
  readonly ownVoice: OwnVoiceSource;
}

/** Ears, voices and earcons of a real browser: its own where it has them, and the ones that come with the app. */
export function createBrowserSpeech({ settings, isInterrupting, namesIn, ownVoice: learnt }: BrowserSpeechWish): SpeechController {
  const ears = browserEars();
  const voices = browserVoices();
  const controller = createSpeechController({
    clock,
    ears: { ...ears, local: ownEar(learnt, (surroundings) => controller.tellSurroundings(surroundings)) },
    voices: { ...voices, local: ownVoice((share) => controller.tellVoiceProgress(share)) },
    earcons: createEarconPlayer(),
    wakeSound: () => wakeAudio(wakeWithin),
    isInterrupting,
    namesIn,
    soundsIn: soundsAsTheyCome(fetchDictionary),
    settings,
  });
  return controller;
}

/** What browsers put on `window` and TypeScript's types leave out or promise too much of. */
interface SpeechWindow {
  readonly SpeechRecognition?: RecognitionConstructorLike;
  readonly webkitSpeechRecognition?: RecognitionConstructorLike;
  readonly SpeechRecognitionPhrase?: PhraseConstructorLike;
  readonly speechSynthesis?: SpeechSynthesis;
}

const page = globalThis as unknown as SpeechWindow;

const documentLanguage = (): string => document.documentElement.lang;

/** Whether the person is still being asked for the microphone. Browsers that cannot say count as having asked. */
async function isPermissionOpen(): Promise<boolean> {
  // Absent outside secure contexts, whatever the types say.
  const permissions = navigator.permissions as Permissions | undefined;
  const status = await permissions?.query({ name: 'microphone' }).catch(() => null);
  return status?.state === 'prompt';
}

function browserEars(): Pick<SpeechControllerDeps['ears'], 'browser-on-device' | 'browser-remote'> {
  const Recognition = page.SpeechRecognition ?? page.webkitSpeechRecognition;
  if (!Recognition) return { 'browser-on-device': null, 'browser-remote': null };
  const deps: BrowserEarDeps = { Recognition, Phrase: page.SpeechRecognitionPhrase ?? null, clock, isPermissionOpen };
  return { 'browser-on-device': onDeviceEar(deps), 'browser-remote': remoteEar(deps) };
}

function browserVoices(): Pick<SpeechControllerDeps['voices'], 'browser' | 'browser-remote'> {
  const { speechSynthesis: synthesis } = page;
  if (!synthesis) return { browser: null, 'browser-remote': null };
  const deps: SynthesisDeps<SpeechSynthesisVoice, SpeechSynthesisUtterance> = {
    synthesis,
    makeUtterance: (text) => new SpeechSynthesisUtterance(text),
    clock,
  };
  return { browser: browserVoice(deps, false), 'browser-remote': browserVoice(deps, true) };
}

function ownEar(learnt: OwnVoiceSource, onSurroundings: SpeechController['tellSurroundings']): SpeechControllerDeps['ears']['local'] {
  const progress: { listener: ((share: number) => void) | null } = { listener: null };
  const microphone = createBrowserMicrophone(clock);
  const engine = createWorkerEngine({
    makeWorker: () =>
      // The platform types messages as anything; these two agree on `messages.ts`.
      new Worker(new URL('./recognition/hearing.worker.ts', import.meta.url), { type: 'module' }) as unknown as HearingWorker,
    microphone,
    clock,
    languages: heardLocally,
    onProgress: (loaded, total) => progress.listener?.(Math.min(1, loaded / total)),
    onSurroundings,
    finishWithin,
  });
  const useVoice = (): void => void learnt.current().then((own) => engine.useVoice(own));
  learnt.onChange(useVoice);
  useVoice();
  const Recognition = bindLocalSpeechRecognition({ engine, clock, noSpeechAfter, documentLanguage });
  return localEar({ Recognition, engine, microphone, clock, onTrial, isPermissionOpen, progress });
}

function ownVoice(onProgress: SpeechController['tellVoiceProgress']): SpeechControllerDeps['voices']['local'] {
  const flite = createFliteRenderer({
    // As with the recogniser's worker: these two agree on `flite-messages.ts`.
    makeWorker: () => new Worker(new URL('./synthesis/flite.worker.ts', import.meta.url), { type: 'module' }) as unknown as FliteWorker,
    onProgress: (loaded, total) => onProgress(Math.min(1, loaded / total)),
    cacheSeconds,
  });
  // What a JSON import is typed as has no tuples.
  const bank = clipFile as unknown as ClipFile;
  const clips = { index: clipIndexOf(bank), player: createClipPlayer(clipsUrl, bank), voice: bank.voice };
  const source = createLocalSource({ flite, playSpeech, clips });
  const deps: SynthesisDeps<ReturnType<LocalSpeechSynthesis['getVoices']>[number], LocalSpeechSynthesisUtterance> = {
    synthesis: new LocalSpeechSynthesis({ source, clock, documentLanguage }),
    makeUtterance: (text) => new LocalSpeechSynthesisUtterance(text),
    clock,
  };
  return localVoice(deps, () => void flite.load());
}
