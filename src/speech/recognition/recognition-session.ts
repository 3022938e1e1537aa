import { primaryTag } from '../../phrasing/language.ts';
import type { Cancel, Clock } from '../clock.ts';
import { stampEvent } from '../event-handlers.ts';
import type { HeardAlternative } from '../hearing/port.ts';
import type { RecognitionErrorCode } from '../ports.ts';
import type { EngineEvent, HearingEngine, OpenEngine } from './engine.ts';
import { LocalNoMatchEvent, LocalSpeechRecognitionErrorEvent, LocalSpeechRecognitionEvent } from './recognition-events.ts';
import {
  LocalSpeechRecognitionAlternative,
  LocalSpeechRecognitionResult,
  LocalSpeechRecognitionResultList,
} from './recognition-results.ts';

/** The attributes of the recognition as they were when it was started. */
export interface SessionSettings {
  readonly language: string;
  readonly continuous: boolean;
  readonly interimResults: boolean;
  readonly maxAlternatives: number;
  readonly hasPhrases: boolean;
  readonly track: MediaStreamTrack | null;
}

export interface SessionDeps {
  readonly engine: HearingEngine;
  readonly clock: Clock;
  /** How long a one-shot session waits for somebody to speak, in milliseconds. */
  readonly noSpeechAfter: number;
  readonly dispatch: (event: Event) => void;
  /** The recognition may be started again: called before the event that ends the session is dispatched. */
  readonly onOver: () => void;
}

export interface Session {
  stop(): void;
  abort(): void;
}

/**
 * One recognition from `start` to `end`, with the events in the order that Chromium gives them:
 * start, audiostart, soundstart, speechstart, speechend, soundend, audioend, result or nomatch, end.
 * Whatever happens there is exactly one `end`.
 */
export function startSession(settings: SessionSettings, deps: SessionDeps): Session {
  const { dispatch } = deps;
  const finals: LocalSpeechRecognitionResult[] = [];
  let state: 'opening' | 'listening' | 'finishing' | 'aborting' | 'over' = 'opening';
  let engine: OpenEngine | null = null;
  let audio = false;
  let speech = false;
  /** The beginning of the utterance under way has been told. */
  let begun = false;
  let interim = false;
  let cancelNoSpeech: Cancel = () => undefined;

  const fire = (type: string, time?: number): void => {
    const event = new Event(type);
    dispatch(time === undefined ? event : stampEvent(event, time));
  };

  async function run(): Promise<void> {
    // Nothing is dispatched before `start()` has returned to its caller.
    await Promise.resolve();
    if (state !== 'opening') return;
    if (settings.hasPhrases) {
      fail('phrases-not-supported', 'The grammar is closed; phrases cannot bias it.');
      return;
    }
    const primary = primaryTag(settings.language);
    if (primary !== '' && !deps.engine.languages.includes(primary)) {
      fail('language-not-supported', `No model for ${settings.language}.`);
      return;
    }
    const loaded = await deps.engine.load(primary || (deps.engine.languages[0] ?? ''));
    if (isClosing()) return;
    if (loaded.kind === 'refused') {
      fail(loaded.error, loaded.message);
      return;
    }
    const opened = await deps.engine.open(settings.track, hear);
    if (isClosing()) {
      if (opened.kind === 'open') opened.discard();
      return;
    }
    if (opened.kind === 'refused') {
      fail(opened.error, opened.message);
      return;
    }
    engine = opened;
    state = 'listening';
    fire('start');
    // A handler of `start` may have aborted. The compiler cannot see that far.
    if (isClosing()) return;
    audio = true;
    fire('audiostart');
    if (!settings.continuous && !isClosing()) {
      cancelNoSpeech = deps.clock.after(deps.noSpeechAfter, () => fail('no-speech', 'Nobody spoke.'));
    }
  }

  function isClosing(): boolean {
    return state === 'aborting' || state === 'finishing' || state === 'over';
  }

  function hear(event: EngineEvent): void {
    if (state !== 'listening' && state !== 'finishing') return;
    switch (event.kind) {
      case 'speech-start':
        beginSpeech(event.time);
        break;
      case 'speech-end':
        endSpeech(event.time);
        break;
      case 'partial':
        if (settings.interimResults) tellInterim(event.text);
        break;
      case 'heard':
        beginSpeech(event.from);
        endSpeech(event.to);
        conclude(() => tellFinal(event.alternatives));
        break;
      case 'rejected':
        beginSpeech(event.from);
        endSpeech(event.to);
        conclude(() => tellNoMatch(event.why, event.text));
        break;
      case 'lost':
        fail(event.error, event.message);
        break;
    }
  }

  function beginSpeech(time: number): void {
    if (begun) return;
    begun = true;
    speech = true;
    cancelNoSpeech();
    fire('soundstart', time);
    fire('speechstart', time);
  }

  function endSpeech(time?: number): void {
    if (!speech) return;
    speech = false;
    fire('speechend', time);
    fire('soundend', time);
  }

  function endAudio(): void {
    endSpeech();
    if (!audio) return;
    audio = false;
    fire('audioend');
  }

  /** A one-shot session gives at most one final result, after its audio has ended. */
  function conclude(tell: () => void): void {
    begun = false;
    if (settings.continuous) {
      tell();
      return;
    }
    engine?.discard();
    endAudio();
    if (state === 'aborting' || state === 'over') return;
    tell();
    end();
  }

  function resultOf(alternatives: readonly HeardAlternative[], isFinal: boolean): LocalSpeechRecognitionResult {
    // Consecutive transcripts joined together must read as a text, says the standard.
    const lead = finals.length > 0 ? ' ' : '';
    const kept = alternatives.slice(0, Math.max(1, settings.maxAlternatives));
    return new LocalSpeechRecognitionResult(
      kept.map(({ text, confidence }) => new LocalSpeechRecognitionAlternative(lead + text, confidence)),
      isFinal,
    );
  }

  function tellInterim(text: string): void {
    interim = true;
    const results = new LocalSpeechRecognitionResultList([...finals, resultOf([{ text, confidence: 0 }], false)]);
    dispatch(new LocalSpeechRecognitionEvent('result', { resultIndex: finals.length, results }));
  }

  function tellFinal(alternatives: readonly HeardAlternative[]): void {
    interim = false;
    finals.push(resultOf(alternatives, true));
    const results = new LocalSpeechRecognitionResultList(finals);
    dispatch(new LocalSpeechRecognitionEvent('result', { resultIndex: finals.length - 1, results }));
  }

  function tellNoMatch(why: LocalNoMatchEvent['why'], text: string): void {
    if (interim) {
      interim = false;
      // The interim result is taken back: nothing at or above `resultIndex` remains.
      const results = new LocalSpeechRecognitionResultList(finals);
      dispatch(new LocalSpeechRecognitionEvent('result', { resultIndex: finals.length, results }));
    }
    const below = text === '' ? [] : [resultOf([{ text, confidence: 0 }], false)];
    const results = new LocalSpeechRecognitionResultList([...finals, ...below]);
    dispatch(new LocalNoMatchEvent({ resultIndex: finals.length, results }, why));
  }

  function fail(error: RecognitionErrorCode, message: string): void {
    if (state === 'over') return;
    engine?.discard();
    endAudio();
    state = 'over';
    cancelNoSpeech();
    // From the error on the standard allows another start.
    deps.onOver();
    dispatch(new LocalSpeechRecognitionErrorEvent('error', { error, message }));
    fire('end');
  }

  function end(): void {
    if (state === 'over') return;
    engine?.discard();
    endAudio();
    state = 'over';
    cancelNoSpeech();
    deps.onOver();
    fire('end');
  }

  void run();

  return {
    stop() {
      if (state !== 'opening' && state !== 'listening') return;
      state = 'finishing';
      cancelNoSpeech();
      const finished = engine === null ? Promise.resolve() : engine.finish();
      void finished.then(end);
    },
    abort() {
      if (state === 'over' || state === 'aborting') return;
      state = 'aborting';
      engine?.discard();
      void Promise.resolve().then(() => fail('aborted', 'Aborted by the page.'));
    },
  };
}
