import type { Clock } from '../clock.ts';
import type { HearingLanguage } from '../hearing/load.ts';
import type { HearingEvent } from '../hearing/port.ts';
import type { EngineEvent, HearingEngine, LoadOutcome, Surroundings } from './engine.ts';
import type { FromHearingWorker, ToHearingWorker } from './messages.ts';
import { hearingSampleRate } from './messages.ts';
import type { Microphone, OpenMicrophone } from './microphone.ts';

/** As much of `Worker` as the engine uses. */
export interface HearingWorker {
  postMessage(message: ToHearingWorker, transfer?: Transferable[]): void;
  terminate(): void;
  onmessage: ((event: { readonly data: FromHearingWorker }) => unknown) | null;
  onerror: ((event: { readonly message: string }) => unknown) | null;
}

export interface WorkerEngineDeps {
  readonly makeWorker: () => HearingWorker;
  readonly microphone: Microphone;
  readonly clock: Clock;
  readonly languages: readonly HearingLanguage[];
  readonly onProgress: (loaded: number, total: number) => void;
  readonly onSurroundings: (surroundings: Surroundings) => void;
  /** How long `finish` waits for the worker, in milliseconds. */
  readonly finishWithin: number;
}

interface OpenSession {
  readonly number: number;
  readonly listener: (event: EngineEvent) => void;
  readonly microphone: OpenMicrophone;
  finished: (() => void) | null;
}

/** The recogniser in a worker, fed straight from the microphone's audio thread. */
export function createWorkerEngine(deps: WorkerEngineDeps): HearingEngine & { dispose(): void } {
  let worker: HearingWorker | null = null;
  let loading: Promise<LoadOutcome> | null = null;
  let language: HearingLanguage | null = null;
  let loaded: ((outcome: LoadOutcome) => void) | null = null;
  let grammar: ToHearingWorker | null = null;
  let voice: ToHearingWorker | null = null;
  let opening = false;
  let session: OpenSession | null = null;
  let sessions = 0;

  function begin(wanted: HearingLanguage): HearingWorker {
    const made = deps.makeWorker();
    made.onmessage = ({ data }) => take(data);
    made.onerror = ({ message }) => broke(message);
    made.postMessage({ kind: 'load', language: wanted });
    if (voice) made.postMessage(voice);
    if (grammar) made.postMessage(grammar);
    return made;
  }

  function take(message: FromHearingWorker): void {
    switch (message.kind) {
      case 'progress':
        deps.onProgress(message.loaded, message.total);
        break;
      case 'loaded':
        loaded?.({ kind: 'loaded' });
        break;
      case 'failed':
        if (message.why === 'broken') broke(message.message);
        else giveUp({ kind: 'refused', error: 'network', message: message.message });
        break;
      case 'event':
        tell(message.session, message.event, message.since);
        break;
      case 'finished':
        if (session?.number === message.session) session.finished?.();
        break;
    }
  }

  /** The next `load` begins afresh. */
  function giveUp(outcome: LoadOutcome): void {
    worker?.terminate();
    worker = null;
    loading = null;
    loaded?.(outcome);
    loaded = null;
  }

  function broke(message: string): void {
    giveUp({ kind: 'refused', error: 'service-not-allowed', message });
    lose('service-not-allowed', message);
  }

  function lose(error: 'service-not-allowed' | 'audio-capture', message: string): void {
    const lost = session;
    if (!lost) return;
    close(lost);
    lost.finished?.();
    lost.listener({ kind: 'lost', error, message });
  }

  function close(closing: OpenSession): void {
    closing.microphone.close();
    if (session === closing) session = null;
  }

  function tell(number: number, event: HearingEvent, since: number): void {
    if (event.kind === 'surroundings') {
      deps.onSurroundings(event);
      return;
    }
    if (session?.number !== number) return;
    const { microphone, listener } = session;
    listener(inPageTime(event, (index) => microphone.timeOf((index - since) / hearingSampleRate)));
  }

  return {
    languages: deps.languages,
    load(asked) {
      const wanted = deps.languages.find((one) => one === asked);
      if (wanted === undefined)
        return Promise.resolve({ kind: 'refused', error: 'language-not-supported', message: `There is no model for ${asked}.` });
      if (language !== wanted && loading !== null)
        giveUp({ kind: 'refused', error: 'aborted', message: 'Another language was asked for.' });
      language = wanted;
      loading ??= new Promise((resolve) => {
        loaded = resolve;
        worker = begin(wanted);
      });
      return loading;
    },
    setGrammar(next) {
      grammar = { kind: 'grammar', grammar: next };
      worker?.postMessage(grammar);
    },
    useVoice(own) {
      voice = { kind: 'voice', own };
      worker?.postMessage(voice);
    },
    forget() {
      worker?.postMessage({ kind: 'forget' });
    },
    async open(track, listener) {
      if (opening || session) return { kind: 'refused', error: 'audio-capture', message: 'Another session is listening.' };
      opening = true;
      const number = ++sessions;
      const microphone = await deps.microphone.open(track, () => lose('audio-capture', 'The microphone went away.'));
      opening = false;
      if (microphone.kind === 'refused') return microphone;
      if (!worker) {
        microphone.close();
        return { kind: 'refused', error: 'service-not-allowed', message: 'The recogniser is not loaded.' };
      }
      const opened: OpenSession = { number, listener, microphone, finished: null };
      session = opened;
      const { port, sampleRate } = microphone;
      worker.postMessage({ kind: 'open', session: number, sampleRate, port }, [port]);
      return {
        kind: 'open',
        async finish() {
          if (session !== opened) return;
          await new Promise<void>((resolve) => {
            const cancel = deps.clock.after(deps.finishWithin, resolve);
            opened.finished = () => {
              cancel();
              resolve();
            };
            worker?.postMessage({ kind: 'finish', session: number });
          });
          close(opened);
        },
        discard() {
          if (session !== opened) return;
          close(opened);
          worker?.postMessage({ kind: 'discard', session: number });
        },
      };
    },
    dispose() {
      if (session) close(session);
      giveUp({ kind: 'refused', error: 'aborted', message: 'Put away.' });
    },
  };
}

/** Sample indexes become times. */
function inPageTime(event: Exclude<HearingEvent, { kind: 'surroundings' }>, timeOf: (index: number) => number): EngineEvent {
  switch (event.kind) {
    case 'speech-start':
    case 'speech-end':
      return { kind: event.kind, time: timeOf(event.at) };
    case 'partial':
      return event;
    case 'heard':
    case 'rejected':
      return { ...event, from: timeOf(event.from), to: timeOf(event.to) };
  }
}
