import { systemClock } from '../clock.ts';
import type { Take } from '../hearing/own-voice.ts';
import type { RecognitionErrorCode } from '../ports.ts';
import { createBrowserMicrophone } from '../recognition/browser-microphone.ts';
import type { OpenMicrophone } from '../recognition/microphone.ts';
import type { FromEnrolment, ToEnrolment, TrialTake } from './messages.ts';

export type EnrolmentFault = RecognitionErrorCode | 'broken';

export interface EnrolmentListener {
  readonly progress: (share: number) => void;
  /** Models are there and the microphone is open. */
  readonly ready: () => void;
  readonly found: (found: Extract<FromEnrolment, { kind: 'take' | 'unlike' }>) => void;
  readonly learnt: (learnt: Extract<FromEnrolment, { kind: 'learnt' }>) => void;
  /** Nothing follows. */
  readonly failed: (fault: EnrolmentFault) => void;
}

/** The ear getting used to one person, in a worker of its own with the microphone. */
export interface Enrolment {
  ask(text: string): void;
  rest(): void;
  learn(takes: readonly Take[], trials: readonly TrialTake[]): void;
  end(): void;
}

/** Begins at once; call it from a tap or a key, as browsers demand. */
export function beginEnrolment(listener: EnrolmentListener): Enrolment {
  const worker = new Worker(new URL('./enrolment.worker.ts', import.meta.url), { type: 'module' });
  const send = (message: ToEnrolment, transfer: Transferable[] = []): void => worker.postMessage(message, transfer);
  let microphone: OpenMicrophone | null = null;
  let ended = false;

  function end(): void {
    ended = true;
    microphone?.close();
    microphone = null;
    worker.terminate();
  }

  function fail(fault: EnrolmentFault): void {
    if (ended) return;
    end();
    listener.failed(fault);
  }

  async function open(): Promise<void> {
    const opened = await createBrowserMicrophone(systemClock).open(null, () => fail('audio-capture'));
    if (opened.kind === 'refused') {
      fail(opened.error);
      return;
    }
    if (ended) {
      opened.close();
      return;
    }
    microphone = opened;
    send({ kind: 'open', port: opened.port, sampleRate: opened.sampleRate }, [opened.port]);
    listener.ready();
  }

  worker.onmessage = ({ data }: MessageEvent<FromEnrolment>) => {
    if (ended) return;
    switch (data.kind) {
      case 'progress':
        listener.progress(Math.min(1, data.loaded / data.total));
        break;
      case 'loaded':
        void open();
        break;
      case 'failed':
        fail(data.why === 'network' ? 'network' : 'broken');
        break;
      case 'take':
      case 'unlike':
        listener.found(data);
        break;
      case 'learnt':
        listener.learnt(data);
        break;
    }
  };
  worker.onerror = () => fail('broken');
  send({ kind: 'load' });
  return {
    ask: (text) => send({ kind: 'ask', text }),
    rest: () => send({ kind: 'rest' }),
    learn(takes, trials) {
      // Nothing more is heard: the microphone's light may go out.
      microphone?.close();
      microphone = null;
      send({ kind: 'learn', takes, trials });
    },
    end,
  };
}
