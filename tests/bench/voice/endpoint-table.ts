import createRnnoise from '@echogarden/rnnoise-wasm';
import createSwallower from 'soundswallower';
import { EarStream } from '../../../src/speech/hearing/ear-net.ts';
import { Endpoints } from '../../../src/speech/hearing/endpoints.ts';
import { defaultOptions } from '../../../src/speech/hearing/hearing.ts';
import { Suppression, type RnnoiseModule } from '../../../src/speech/hearing/suppression.ts';
import { hearingModels, modelBytes } from '../../speech/hearing/models.ts';
import { cache } from './clips.ts';
import { centile } from './command-table.ts';
import { taughtCommands } from './commands.ts';
import { conditions, lead, type NoiseBank } from './conditions.ts';
import { rate } from './sound.ts';
import { speak, type BenchVoice } from './voices.ts';

export interface EndpointRow {
  readonly endpointer: string;
  readonly condition: string;
  /** Share of commands of which nothing was cut off and into which nothing else was taken, 0 to 1. */
  readonly whole: number;
  /** Median, from the end of speech to the moment at which the endpointer says so; seconds. */
  readonly delay: number | null;
}

/** A stretch that an endpointer took for speech, in seconds, and when it said that it was over. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly told: number;
}

type Endpointer = (sound: Float32Array) => Stretch[];

/** Quiet after which all of them call an utterance over; seconds. */
const pause = 0.3;
/** So much of a command may be missing at either end. */
const tolerance = 0.12;

/** The endpointers that the app comes with, on the same commands: the network's own chance of speech, RNNoise's, and the decoder's. */
export async function compareEndpoints(voices: readonly BenchVoice[], bank: NoiseBank, each: number): Promise<EndpointRow[]> {
  const endpointers = await allEndpointers();
  const commands = taughtCommands(1);
  const rows: EndpointRow[] = [];
  for (const condition of conditions.filter(({ level }) => level !== 20 && level !== 5)) {
    const clips = Array.from({ length: each }, (_, k) => {
      const voice = voices[k % voices.length];
      const said = commands[(k * 37) % commands.length];
      if (voice === undefined || said === undefined) return null;
      const sound = speak(voice, said.text, cache);
      return { sound: bank.mix(sound, condition, rate, `ends ${voice.name} ${said.text}`), from: lead, to: lead + sound.length / rate };
    }).filter((clip) => clip !== null);
    for (const [endpointer, find] of endpointers) {
      const found = clips.map(({ sound, from, to }) => {
        const [only, ...more] = find(sound);
        const isWhole =
          only !== undefined && more.length === 0 && only.from < from + tolerance && only.to > to - tolerance && only.to < to + 0.5;
        return { isWhole, delay: isWhole ? only.told - to : null };
      });
      rows.push({
        endpointer,
        condition: condition.level === null ? condition.name : `${condition.name} ${condition.level} dB`,
        whole: found.filter(({ isWhole }) => isWhole).length / Math.max(1, found.length),
        delay: centile(
          found.flatMap(({ delay }) => (delay === null ? [] : [delay])),
          0.5,
        ),
      });
    }
  }
  return rows;
}

async function allEndpointers(): Promise<(readonly [string, Endpointer])[]> {
  const { network } = await hearingModels();
  const bytes = modelBytes();
  const rnnoise = (await createRnnoise({ wasmBinary: bytes.rnnoiseWasm.slice().buffer })) as RnnoiseModule;
  const swallower = await createSwallower({ wasmBinary: bytes.swallowerWasm.slice().buffer });
  return [
    [
      'network',
      (sound) =>
        stretches(
          new EarStream(network).push(sound).map(({ voice }) => voice),
          0.02,
          network.lookahead * 0.02,
        ),
    ],
    [
      'RNNoise',
      (sound) => {
        const suppression = new Suppression(rnnoise);
        const chances = suppression.push(sound).map(({ voice }) => voice);
        suppression.dispose();
        return stretches(chances, 0.01, 0.012);
      },
    ],
    [
      'decoder',
      (sound) => {
        const endpointer = new swallower.Endpointer({ samprate: rate, frame_length: 0.03, mode: 3, window: 0.2, ratio: 0.8 });
        const size = endpointer.get_frame_size();
        const found: Stretch[] = [];
        let before = false;
        for (let at = 0; at + size <= sound.length; at += size) {
          endpointer.process(sound.subarray(at, at + size));
          const now = endpointer.get_in_speech();
          if (before && !now)
            found.push({ from: endpointer.get_speech_start(), to: endpointer.get_speech_end(), told: (at + size) / rate });
          before = now;
        }
        return found;
      },
    ],
  ];
}

function stretches(chances: readonly number[], seconds: number, behind: number): Stretch[] {
  const ends = new Endpoints(defaultOptions.endpoints);
  const found: Stretch[] = [];
  chances.forEach((chance, frame) => {
    ends.push(chance);
    if (ends.start === null || ends.quiet * seconds < pause) return;
    found.push({ from: ends.start * seconds, to: (ends.lastVoiced + 1) * seconds, told: (frame + 1) * seconds + behind });
    ends.close();
  });
  return found;
}
