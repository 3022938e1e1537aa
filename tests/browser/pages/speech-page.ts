import { Howler } from 'howler';
import type { DialogueState, IntentName } from '../../../src/phrasing/intents.ts';
import { grammarFor } from '../../../src/phrasing/grammar.ts';
import { interpret } from '../../../src/phrasing/interpret.ts';
import { packFor } from '../../../src/phrasing/packs.ts';
import { createBrowserSpeech } from '../../../src/speech/browser-speech.ts';
import { systemClock } from '../../../src/speech/clock.ts';
import { createBrowserMicrophone } from '../../../src/speech/recognition/browser-microphone.ts';
import { LocalNoMatchEvent, LocalSpeechRecognitionErrorEvent } from '../../../src/speech/recognition/recognition-events.ts';
import { bindLocalSpeechRecognition } from '../../../src/speech/recognition/local-speech-recognition.ts';
import type { HearingWorker } from '../../../src/speech/recognition/worker-engine.ts';
import { createWorkerEngine } from '../../../src/speech/recognition/worker-engine.ts';
import { audioOutput } from '../../../src/speech/sound/audio-output.ts';
import type { EarconName } from '../../../src/speech/sound/earcon.ts';
import type { SpeechSettings } from '../../../src/speech/speech-controller-port.ts';

const interrupting: readonly IntentName[] = ['stop', 'hold-on'];
const common: readonly IntentName[] = ['done', 'torque', 'socket', 'repeat', 'how-many-left', 'where', 'undo', 'hold-on', 'stop', 'help'];

function grammar(state: DialogueState, legal: readonly IntentName[], overOwnVoice = false) {
  return grammarFor({ state, legal, language: 'en', names: [], measureUnit: 'N·m', maxCount: 8, nameFirst: false, overOwnVoice });
}

const progress: number[] = [];
const engine = createWorkerEngine({
  makeWorker: () =>
    new Worker(new URL('../../../src/speech/recognition/hearing.worker.ts', import.meta.url), {
      type: 'module',
    }) as unknown as HearingWorker,
  microphone: createBrowserMicrophone(systemClock),
  clock: systemClock,
  languages: ['en'],
  onProgress: (loaded, total) => progress.push(loaded / total),
  onSurroundings: () => undefined,
  finishWithin: 2_000,
});
const SpeechRecognition = bindLocalSpeechRecognition({
  engine,
  clock: systemClock,
  noSpeechAfter: 8_000,
  documentLanguage: () => document.documentElement.lang,
});

const eventTypes = [
  'start',
  'audiostart',
  'soundstart',
  'speechstart',
  'speechend',
  'soundend',
  'audioend',
  'result',
  'nomatch',
  'error',
  'end',
];

/** Everything that reaches the loudspeaker, as a track. */
function loudspeakerTrack(): MediaStreamTrack {
  const { context, destination } = audioOutput();
  const tap = context.createMediaStreamDestination();
  destination.connect(tap);
  return tap.stream.getAudioTracks()[0]!;
}

/** The loudest that the loudspeaker has been since this was called, root mean square over 40 ms. */
function meterLoudspeaker(): () => number {
  const { context, destination } = audioOutput();
  const analyser = context.createAnalyser();
  analyser.fftSize = 2048;
  destination.connect(analyser);
  const samples = new Float32Array(analyser.fftSize);
  let loudest = 0;
  const timer = setInterval(() => {
    analyser.getFloatTimeDomainData(samples);
    loudest = Math.max(loudest, Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length));
  }, 20);
  return () => {
    clearInterval(timer);
    destination.disconnect(analyser);
    return loudest;
  };
}

function controllerWith(change: Partial<SpeechSettings>) {
  const settings: SpeechSettings = {
    language: 'en-US',
    ear: 'automatic',
    voice: 'automatic',
    remoteAllowed: false,
    way: 'open',
    rate: 1,
    volume: 1,
    ...change,
  };
  const controller = createBrowserSpeech({
    settings,
    ownVoice: { current: () => Promise.resolve(null), onChange: () => undefined },
    isInterrupting: (text) =>
      interpret([{ text, confidence: 1 }], {
        state: 'stating',
        legal: interrupting,
        language: 'en',
        names: [],
        measureUnit: null,
        nameFirst: false,
      }).kind === 'intent',
    namesIn: () => packFor('en').lexicon.names,
  });
  const log = { heard: [] as string[], dropped: [] as string[], troubles: [] as string[], outcomes: [] as string[] };
  controller.onHeard(({ alternatives, ear }) => log.heard.push(`${ear}: ${alternatives[0]?.text ?? ''}`));
  controller.onRejected(({ why, text }) => log.dropped.push(`${why}: ${text}`));
  controller.onTrouble((trouble) => log.troubles.push(Object.values(trouble).join(' ')));
  return { controller, log };
}

/** What the tests call from outside. Everything returned can be sent across. */
const speechUnderTest = {
  progress,

  /** Listens to the microphone until so many results have come. */
  async recognise(results: number) {
    engine.setGrammar(grammar('fastening', common));
    const recognition = new SpeechRecognition();
    recognition.continuous = true;
    const types: string[] = [];
    const texts: string[] = [];
    const others: string[] = [];
    await new Promise<void>((resolve) => {
      for (const type of eventTypes) recognition.addEventListener(type, () => types.push(type));
      recognition.onresult = ({ results: list }) => {
        texts.push(list[list.length - 1]?.[0]?.transcript.trim() ?? '');
        if (list.length >= results) recognition.stop();
      };
      recognition.onnomatch = (event) => void others.push(event instanceof LocalNoMatchEvent ? event.why : '');
      recognition.onerror = (event) =>
        void others.push(event instanceof LocalSpeechRecognitionErrorEvent ? `${event.error}: ${event.message}` : '');
      recognition.onend = () => resolve();
      recognition.start();
    });
    return { types, texts, others };
  },

  /** Says the texts with the voice of the app, and listens to nothing but the loudspeaker meanwhile. */
  async hearOwnVoice(texts: readonly string[]) {
    const { controller } = controllerWith({ voice: 'local', way: 'off' });
    await controller.begin();
    await engine.load('en');
    engine.setGrammar(grammar('measuring', ['number', 'torque', 'done']));
    const recognition = new SpeechRecognition();
    recognition.continuous = true;
    const heard: string[] = [];
    recognition.onresult = ({ results }) => void heard.push(results[results.length - 1]?.[0]?.transcript.trim() ?? '');
    const ended = new Promise<void>((resolve) => (recognition.onend = () => resolve()));
    const takesSound = new Promise<void>((resolve) => (recognition.onaudiostart = () => resolve()));
    recognition.start(loudspeakerTrack());
    // What is said before the microphone is open nobody can hear.
    await takesSound;
    for (const text of texts) {
      await controller.say(text);
      await new Promise((resolve) => setTimeout(resolve, 900));
    }
    recognition.stop();
    await ended;
    controller.dispose();
    return heard;
  },

  /** Says a text and measures what comes out of the loudspeaker. */
  async speak(text: string, change: Partial<SpeechSettings> = {}) {
    const { controller } = controllerWith({ voice: 'local', way: 'off', ...change });
    await controller.begin();
    const loudest = meterLoudspeaker();
    const began = performance.now();
    const outcome = await controller.say(text);
    return { outcome: outcome.kind, loudest: loudest(), seconds: (performance.now() - began) / 1000, voice: controller.state.voice.kind };
  },

  async earcon(name: EarconName) {
    const { controller } = controllerWith({ voice: 'off', way: 'off' });
    await controller.begin();
    // howler fetches and decodes first.
    await new Promise((resolve) => setTimeout(resolve, 1_000));
    const loudest = meterLoudspeaker();
    controller.play(name);
    await new Promise((resolve) => setTimeout(resolve, 300));
    return loudest();
  },

  /** The whole controller, until it has heard so much. */
  async converse(change: Partial<SpeechSettings>, heard: number) {
    const { controller, log } = controllerWith(change);
    controller.listen({ grammar: grammar('fastening', common), whileSpeaking: grammar('fastening', interrupting, true) });
    const enough = new Promise<void>((resolve) => {
      controller.onHeard(() => {
        if (log.heard.length >= heard) resolve();
      });
    });
    await controller.begin();
    await enough;
    const { ear, voice } = controller.state;
    controller.dispose();
    return { ...log, ear, voice };
  },

  /** Puts the app's own loudspeaker where its microphone is, at the same level, and says things. */
  async overhear(texts: readonly string[]) {
    navigator.mediaDevices.getUserMedia = () => Promise.resolve(new MediaStream([loudspeakerTrack()]));
    const { controller, log } = controllerWith({ ear: 'local', voice: 'local' });
    controller.listen({ grammar: grammar('fastening', common), whileSpeaking: grammar('fastening', interrupting, true) });
    await controller.begin();
    for (const text of texts) {
      log.outcomes.push((await controller.say(text)).kind);
      await new Promise((resolve) => setTimeout(resolve, 1_200));
    }
    controller.dispose();
    return log;
  },

  howlerState: () => Howler.ctx.state,
};
export type SpeechUnderTest = typeof speechUnderTest;

Object.assign(window, { speechUnderTest });
