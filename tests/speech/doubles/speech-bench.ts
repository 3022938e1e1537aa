import type { DialogueState } from '../../../src/phrasing/intents.ts';
import { onDeviceEar, remoteEar } from '../../../src/speech/ear/browser-ears.ts';
import { localEar } from '../../../src/speech/ear/local-ear.ts';
import type { HearingGrammar } from '../../../src/speech/hearing/port.ts';
import { bindLocalSpeechRecognition } from '../../../src/speech/recognition/local-speech-recognition.ts';
import type { EarconName } from '../../../src/speech/sound/earcon.ts';
import { createSpeechController } from '../../../src/speech/speech-controller.ts';
import type { DroppedUtterance, HeardUtterance, SpeechSettings, SpeechTrouble } from '../../../src/speech/speech-controller-port.ts';
import type { SpeechActivity } from '../../../src/speech/speech-state.ts';
import { activityOf } from '../../../src/speech/speech-state.ts';
import { LocalSpeechSynthesis } from '../../../src/speech/synthesis/local-speech-synthesis.ts';
import { LocalSpeechSynthesisUtterance } from '../../../src/speech/synthesis/utterance.ts';
import { browserVoice, localVoice } from '../../../src/speech/voice/voice-candidates.ts';
import { englishSounds } from './english-sounds.ts';
import { ManualClock } from './manual-clock.ts';
import { ScriptedEngine } from './scripted-engine.ts';
import { ScriptedSource } from './scripted-source.ts';
import { strictRecognition } from './strict-recognition.ts';
import { PlainUtterance, StrictSynthesis } from './strict-synthesis.ts';

export function grammar(state: DialogueState, nameFirst = false): HearingGrammar {
  const jsgf = `#JSGF V1.0;\ngrammar ${state};\npublic <command> = [undertray] (step done | what torque | stop);`;
  return { state, language: 'en', jsgf, words: ['step', 'done', 'what', 'torque', 'stop'], risky: [], nameFirst };
}

export const whileSpeaking: HearingGrammar = {
  ...grammar('stating'),
  jsgf: '#JSGF V1.0;\ngrammar speaking;\npublic <command> = stop | hold on;',
};

/** A controller over everything real but the browser, the recogniser and the sound. */
export function speechBench(change: Partial<SpeechSettings> = {}, parts: { browser?: boolean; phrases?: boolean } = {}) {
  const clock = new ManualClock();
  const browser = strictRecognition(clock);
  const engine = new ScriptedEngine();
  const synthesis = new StrictSynthesis(clock);
  const source = new ScriptedSource(clock);
  const kept: boolean[] = [];
  const played: EarconName[] = [];
  const progress: { listener: ((share: number) => void) | null } = { listener: null };
  const wake = { awake: true, calls: 0 };
  const isPermissionOpen = () => Promise.resolve(false);
  const browserDeps = {
    Recognition: browser.Recognition,
    Phrase: class {
      readonly phrase: string;
      readonly boost: number;
      constructor(phrase: string, boost = 1) {
        this.phrase = phrase;
        this.boost = boost;
      }
    },
    clock,
    isPermissionOpen,
  };
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
  const controller = createSpeechController({
    clock,
    ears: {
      'browser-on-device': parts.browser === false ? null : onDeviceEar(browserDeps),
      local: localEar({
        Recognition: bindLocalSpeechRecognition({ engine, clock, noSpeechAfter: 8000, documentLanguage: () => 'en' }),
        engine,
        microphone: { keep: (value) => void kept.push(value) },
        clock,
        onTrial: [],
        isPermissionOpen,
        progress,
      }),
      'browser-remote': parts.browser === false ? null : remoteEar(browserDeps),
    },
    voices: {
      browser: browserVoice({ synthesis, makeUtterance: (text) => new PlainUtterance(text), clock }, false),
      local: localVoice(
        {
          synthesis: new LocalSpeechSynthesis({ source, clock, documentLanguage: () => 'en' }),
          makeUtterance: (text) => new LocalSpeechSynthesisUtterance(text),
          clock,
        },
        () => undefined,
      ),
      'browser-remote': browserVoice({ synthesis, makeUtterance: (text) => new PlainUtterance(text), clock }, true),
    },
    earcons: { play: (name) => void played.push(name) },
    wakeSound: () => {
      wake.calls++;
      return Promise.resolve(wake.awake);
    },
    isInterrupting: (text) => ['stop', 'hold on'].includes(text),
    namesIn: () => ['undertray', 'under tray'],
    soundsIn: () => englishSounds,
    settings,
  });
  const heard: HeardUtterance[] = [];
  const dropped: DroppedUtterance[] = [];
  const troubles: SpeechTrouble[] = [];
  const activities: SpeechActivity[] = [];
  controller.onHeard((utterance) => heard.push(utterance));
  controller.onRejected((utterance) => dropped.push(utterance));
  controller.onTrouble((trouble) => troubles.push(trouble));
  controller.onStateChange((state) => {
    const activity = activityOf(state);
    if (activity !== activities.at(-1)) activities.push(activity);
  });
  const texts = () => heard.map(({ alternatives }) => alternatives[0]?.text);
  const drops = () => dropped.map(({ why, text }) => `${why}: ${text}`);
  return {
    clock,
    browser,
    engine,
    synthesis,
    source,
    kept,
    played,
    progress,
    wake,
    settings,
    controller,
    heard,
    dropped,
    troubles,
    activities,
    texts,
    drops,
  };
}
