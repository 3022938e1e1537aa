import type { OwnVoice } from '../../../src/speech/hearing/own-voice.ts';
import type { Hearing, HearingEvent, HearingGrammar } from '../../../src/speech/hearing/port.ts';
import type { FromHearingWorker, ToHearingWorker } from '../../../src/speech/recognition/messages.ts';
import type { Microphone, OpenMicrophone } from '../../../src/speech/recognition/microphone.ts';
import type { Refusal } from '../../../src/speech/recognition/engine.ts';
import type { HearingStationDeps } from '../../../src/speech/recognition/hearing-station.ts';
import { createHearingStation } from '../../../src/speech/recognition/hearing-station.ts';
import type { HearingWorker } from '../../../src/speech/recognition/worker-engine.ts';

/** A recogniser that counts its samples and tells what the test has laid out for it. */
export class ScriptedHearing implements Hearing {
  readonly grammars: HearingGrammar[] = [];
  readonly voices: (OwnVoice | null)[] = [];
  readonly calls: string[] = [];
  pushed = 0;
  next: HearingEvent[] = [];
  leftOver: HearingEvent[] = [];
  throws = false;

  useVoice(own: OwnVoice | null): boolean {
    this.voices.push(own);
    return true;
  }

  setGrammar(grammar: HearingGrammar): void {
    this.grammars.push(grammar);
  }

  push(samples: Float32Array): HearingEvent[] {
    if (this.throws) throw new Error('out of memory');
    this.pushed += samples.length;
    return this.next.splice(0);
  }

  flush(): HearingEvent[] {
    this.calls.push('flush');
    return this.leftOver.splice(0);
  }

  reset(): void {
    this.calls.push('reset');
  }

  dispose(): void {
    this.calls.push('dispose');
  }
}

/** One end of a message channel, whose messages arrive a turn later as real ones do. */
class Port {
  onmessage: ((event: { readonly data: unknown }) => unknown) | null = null;
  other: Port | null = null;
  closed = false;

  postMessage(data: unknown): void {
    void Promise.resolve().then(() => {
      if (!this.closed && this.other && !this.other.closed) this.other.onmessage?.({ data });
    });
  }

  close(): void {
    this.closed = true;
  }
}

/** A microphone whose sound the test makes. */
export class ScriptedMicrophone implements Microphone {
  readonly kept: boolean[] = [];
  readonly tracks: (MediaStreamTrack | null)[] = [];
  sampleRate = 16000;
  refusal: Refusal | null = null;
  isOpen = false;
  onLost: () => void = () => undefined;
  /** When the first sound of the session was taken. */
  beganAt = 0;
  #out: Port | null = null;

  open(track: MediaStreamTrack | null, onLost: () => void): Promise<OpenMicrophone | Refusal> {
    this.tracks.push(track);
    if (this.refusal) return Promise.resolve(this.refusal);
    const [mine, theirs] = [new Port(), new Port()];
    mine.other = theirs;
    theirs.other = mine;
    this.#out = mine;
    this.isOpen = true;
    this.onLost = onLost;
    return Promise.resolve({
      kind: 'open',
      sampleRate: this.sampleRate,
      port: theirs as unknown as MessagePort,
      timeOf: (seconds) => this.beganAt + seconds * 1000,
      close: () => {
        this.isOpen = false;
      },
    });
  }

  keep(kept: boolean): void {
    this.kept.push(kept);
  }

  sound(samples: number): void {
    this.#out?.postMessage(new Float32Array(samples));
  }
}

/** Workers that run the real station over a scripted recogniser; messages arrive a turn later. */
export function stationWorkers(makeHearing: HearingStationDeps['makeHearing']) {
  const workers: { terminated: boolean; crash(message: string): void }[] = [];
  const makeWorker = (): HearingWorker => {
    const later = (run: () => void) => void Promise.resolve().then(run);
    const state = { terminated: false, crash: (message: string) => worker.onerror?.({ message }) };
    const take = createHearingStation({
      makeHearing,
      tell: (message: FromHearingWorker) => later(() => !state.terminated && worker.onmessage?.({ data: message })),
    });
    const worker: HearingWorker = {
      onmessage: null,
      onerror: null,
      postMessage: (message: ToHearingWorker) => later(() => !state.terminated && take(message)),
      terminate: () => {
        state.terminated = true;
      },
    };
    workers.push(state);
    return worker;
  };
  return { workers, makeWorker };
}
