import createSwallower from 'soundswallower';
import createRnnoise from '@echogarden/rnnoise-wasm';
import { readEarNetwork } from './ear-net.ts';
import type { HearingModels } from './hearing.ts';
import { readDictionary } from './pronunciations.ts';
import type { RnnoiseModule } from './suppression.ts';
import { Swallower, type SwallowerFiles } from './swallower.ts';
import { SwallowerJudge } from './swallower-judge.ts';

/** The bytes that the local recogniser is made of, wherever they came from. */
export interface ModelBytes {
  /** models/ear.net */
  readonly network: Uint8Array;
  readonly rnnoiseWasm: Uint8Array;
  readonly swallowerWasm: Uint8Array;
  readonly swallowerFiles: SwallowerFiles;
  /** A pronunciation dictionary in CMU format. */
  readonly dictionary: string;
}

/** Makes the models ready; takes about a second. Rejects when a file is not what it should be. */
export async function loadHearingModels(bytes: ModelBytes): Promise<HearingModels> {
  const module = await createSwallower({ wasmBinary: bytes.swallowerWasm.slice().buffer });
  const rnnoise = (await createRnnoise({ wasmBinary: bytes.rnnoiseWasm.slice().buffer })) as RnnoiseModule;
  const dictionary = readDictionary(bytes.dictionary);
  const second = new SwallowerJudge(
    await Swallower.open(module, bytes.swallowerFiles),
    await Swallower.open(module, bytes.swallowerFiles),
    dictionary,
    rnnoise,
  );
  return { network: readEarNetwork(bytes.network), dictionary, second };
}
