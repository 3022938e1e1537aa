import { guardedBy } from '../broken-station.ts';
import type { HearingLanguage } from '../hearing/load.ts';
import type { Hearing, HearingEvent } from '../hearing/port.ts';
import type { FromHearingWorker, ToHearingWorker } from './messages.ts';
import { hearingSampleRate } from './messages.ts';
import type { Resampler } from './resampler.ts';
import { createResampler } from './resampler.ts';

export interface HearingStationDeps {
  /** Fetches the models and makes the recogniser. Rejects with a `NetworkFault` when a file cannot be had. */
  readonly makeHearing: (language: HearingLanguage, onProgress: (loaded: number, total: number) => void) => Promise<Hearing>;
  readonly tell: (message: FromHearingWorker) => void;
}

/** A file could not be fetched: worth trying again, unlike a recogniser that fails. */
export class NetworkFault extends Error {}

interface Listening {
  readonly session: number;
  /** The index of its first sample. */
  readonly since: number;
  readonly port: MessagePort;
}

/** What the recogniser's worker does with the messages it gets, apart from the worker itself. */
export function createHearingStation({ makeHearing, tell }: HearingStationDeps): (message: ToHearingWorker) => void {
  const guarded = guardedBy(tell);
  let hearing: Hearing | null = null;
  let grammar: Extract<ToHearingWorker, { kind: 'grammar' }> | null = null;
  let voice: Extract<ToHearingWorker, { kind: 'voice' }> | null = null;
  let listening: Listening | null = null;
  let seen = 0;

  async function load(language: HearingLanguage): Promise<void> {
    try {
      const made = await makeHearing(language, (loaded, total) => tell({ kind: 'progress', loaded, total }));
      if (voice) made.useVoice(voice.own);
      if (grammar) made.setGrammar(grammar.grammar);
      hearing = made;
      tell({ kind: 'loaded' });
    } catch (error) {
      tell({ kind: 'failed', why: error instanceof NetworkFault ? 'network' : 'broken', message: String(error) });
    }
  }

  function pass({ session, since }: Listening, events: readonly HearingEvent[]): void {
    for (const event of events) tell({ kind: 'event', session, event, since });
  }

  function open(session: number, port: MessagePort, sampleRate: number): void {
    close();
    hearing?.reset();
    const resampler: Resampler = createResampler(sampleRate, hearingSampleRate);
    const own: Listening = { session, since: seen, port };
    listening = own;
    port.onmessage = ({ data }: MessageEvent<Float32Array>) =>
      guarded(() => {
        if (!hearing || listening !== own) return;
        const samples = resampler.push(data);
        seen += samples.length;
        pass(own, hearing.push(samples));
      });
  }

  function close(): void {
    listening?.port.close();
    listening = null;
  }

  return (message) =>
    guarded(() => {
      switch (message.kind) {
        case 'load':
          void load(message.language);
          break;
        case 'grammar':
          grammar = message;
          hearing?.setGrammar(message.grammar);
          break;
        case 'voice':
          voice = message;
          hearing?.useVoice(message.own);
          break;
        case 'forget':
          hearing?.reset();
          break;
        case 'open':
          open(message.session, message.port, message.sampleRate);
          break;
        case 'finish':
          if (listening?.session === message.session) {
            const finishing = listening;
            close();
            pass(finishing, hearing?.flush() ?? []);
          }
          tell({ kind: 'finished', session: message.session });
          break;
        case 'discard':
          if (listening?.session !== message.session) break;
          close();
          hearing?.reset();
          break;
      }
    });
}
