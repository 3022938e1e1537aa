import createSwallower from 'soundswallower';
import createRnnoise from '@echogarden/rnnoise-wasm';
import { readEarNetwork } from './ear-net.ts';
import { frenchPhones, frenchPronunciations } from './french-pronunciations.ts';
import type { HearingModels } from './hearing.ts';
import { withLanguageLayer } from './language-layer.ts';
import type { HearingGrammar } from './port.ts';
import { englishPronunciations, type Pronunciations } from './pronunciations.ts';
import type { RnnoiseModule } from './suppression.ts';
import { Swallower, type SwallowerFiles } from './swallower.ts';
import { englishPhones, SwallowerJudge } from './swallower-judge.ts';

/** The bytes that the local recogniser is made of, wherever they came from. */
export interface ModelBytes {
  readonly language: HearingLanguage;
  /** models/ear.net */
  readonly network: Uint8Array;
  /** models/closer.net, where it knows the language. */
  readonly closer: Uint8Array | null;
  readonly rnnoiseWasm: Uint8Array;
  readonly swallowerWasm: Uint8Array;
  readonly swallowerFiles: SwallowerFiles;
  /** A pronunciation dictionary in CMU format, in the phones of the language's model. */
  readonly dictionary: string;
  /** The network's last layer for a language that it was not made for (models/french.json). */
  readonly layer: string | null;
}

/** Languages that there are models for. */
export type HearingLanguage = HearingGrammar['language'];

interface LanguageModel {
  readonly phones: readonly string[];
  /** A word that the decoder begins with. */
  readonly first: readonly [word: string, phones: string];
  readonly pronunciations: (dictionary: string) => Pronunciations;
}

const languages: Readonly<Record<HearingLanguage, LanguageModel>> = {
  en: { phones: englishPhones, first: ['zero', 'Z IH R OW'], pronunciations: englishPronunciations },
  fr: { phones: frenchPhones, first: ['zéro', 'zz ei rr au'], pronunciations: frenchPronunciations },
};

/** Makes the models ready; takes about a second. Rejects when a file is not what it should be. */
export async function loadHearingModels(bytes: ModelBytes): Promise<HearingModels> {
  const module = await createSwallower({ wasmBinary: bytes.swallowerWasm.slice().buffer });
  const rnnoise = (await createRnnoise({ wasmBinary: bytes.rnnoiseWasm.slice().buffer })) as RnnoiseModule;
  const { phones, first, pronunciations } = languages[bytes.language];
  const dictionary = pronunciations(bytes.dictionary);
  const second = new SwallowerJudge(
    await Swallower.open(module, bytes.swallowerFiles, first),
    await Swallower.open(module, bytes.swallowerFiles, first),
    dictionary,
    rnnoise,
    phones,
  );
  const network = readEarNetwork(bytes.network);
  return {
    network: bytes.layer === null ? network : withLanguageLayer(network, bytes.layer),
    closer: bytes.closer === null ? null : readEarNetwork(bytes.closer),
    dictionary,
    second,
  };
}
