import createSwallower from 'soundswallower';
import createRnnoise from '@echogarden/rnnoise-wasm';
import type { HearingModels } from './hearing.ts';
import { readDictionary } from './pronunciations.ts';
import { Swallower, type SwallowerFiles } from './swallower.ts';
import { SwallowerJudge } from './swallower-judge.ts';

/** The bytes that the local recogniser is made of, wherever they came from. */
export interface ModelBytes {
  readonly rnnoiseWasm: Uint8Array;
  readonly swallowerWasm: Uint8Array;
  readonly swallowerFiles: SwallowerFiles;
  /** A pronunciation dictionary in CMU format. */
  readonly dictionary: string;
}

/** The word that wakes the ear when it listens by name. */
export const ownName = 'undertray';

/** Makes the models ready; takes about half a second. Rejects when a file is not what it should be. */
export async function loadHearingModels(bytes: ModelBytes): Promise<HearingModels> {
  const module = await createSwallower({ wasmBinary: bytes.swallowerWasm.slice().buffer });
  const rnnoise = await createRnnoise({ wasmBinary: bytes.rnnoiseWasm.slice().buffer });
  const dictionary = readDictionary(bytes.dictionary);
  const judge = new SwallowerJudge(
    await Swallower.open(module, bytes.swallowerFiles),
    await Swallower.open(module, bytes.swallowerFiles),
    dictionary,
    {
      name: ownName,
      least: -10,
      leastForRisky: -6,
    },
  );
  return { rnnoise, judge };
}
