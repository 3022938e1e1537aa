import { guardedBy } from '../broken-station.ts';
import type { HearingModels } from '../hearing/hearing.ts';
import { learnVoice } from '../hearing/own-voice.ts';
import { NetworkFault } from '../recognition/hearing-station.ts';
import { hearingSampleRate } from '../recognition/messages.ts';
import { createResampler } from '../recognition/resampler.ts';
import type { FromEnrolment, ToEnrolment } from './messages.ts';
import { TakeFinder } from './take-finder.ts';
import { tryTakes } from './trial.ts';

export interface EnrolmentStationDeps {
  /** Rejects with a `NetworkFault` when a file cannot be had. */
  readonly loadModels: (onProgress: (loaded: number, total: number) => void) => Promise<HearingModels>;
  readonly tell: (message: FromEnrolment) => void;
}

/** What the worker that gets used to one person does with the messages it gets, apart from the worker itself. */
export function createEnrolmentStation({ loadModels, tell }: EnrolmentStationDeps): (message: ToEnrolment) => void {
  const guarded = guardedBy(tell);
  let models: HearingModels | null = null;
  let finder: TakeFinder | null = null;

  async function load(): Promise<void> {
    try {
      models = await loadModels((loaded, total) => tell({ kind: 'progress', loaded, total }));
      finder = new TakeFinder(models.network, models.dictionary);
      tell({ kind: 'loaded' });
    } catch (error) {
      tell({ kind: 'failed', why: error instanceof NetworkFault ? 'network' : 'broken', message: String(error) });
    }
  }

  function open(port: MessagePort, sampleRate: number): void {
    const resampler = createResampler(sampleRate, hearingSampleRate);
    port.onmessage = ({ data }: MessageEvent<Float32Array>) =>
      guarded(() => {
        for (const found of finder?.push(resampler.push(data)) ?? []) {
          finder?.ask(null);
          tell(found);
        }
      });
  }

  function learn({ takes, trials }: Extract<ToEnrolment, { kind: 'learn' }>): void {
    if (models === null) return;
    const before = tryTakes(models, null, trials);
    const own = learnVoice(models.network, models.dictionary, takes);
    tell({ kind: 'learnt', own, before, after: tryTakes(models, own, trials) });
  }

  return (message) =>
    guarded(() => {
      switch (message.kind) {
        case 'load':
          void load();
          break;
        case 'open':
          open(message.port, message.sampleRate);
          break;
        case 'ask':
          finder?.ask(message.text);
          break;
        case 'rest':
          finder?.ask(null);
          break;
        case 'learn':
          learn(message);
          break;
      }
    });
}
