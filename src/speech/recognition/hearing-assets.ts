import rnnoiseWasm from '@echogarden/rnnoise-wasm/rnnoise.wasm?url';
// The package exports none of its data files, so they are named by their place.
import swallowerWasm from '../../../node_modules/soundswallower/soundswallower.web.wasm?url';
import enFeatureParameters from '../../../node_modules/soundswallower/model/en-us/feat_params.json?url';
import enMdef from '../../../node_modules/soundswallower/model/en-us/mdef?url';
import enMeans from '../../../node_modules/soundswallower/model/en-us/means?url';
import enNoiseDictionary from '../../../node_modules/soundswallower/model/en-us/noisedict.txt?url';
import enSendump from '../../../node_modules/soundswallower/model/en-us/sendump?url';
import enTransitionMatrices from '../../../node_modules/soundswallower/model/en-us/transition_matrices?url';
import enVariances from '../../../node_modules/soundswallower/model/en-us/variances?url';
import frFeatureParameters from '../../../node_modules/soundswallower/model/fr-fr/feat_params.json?url';
import frMdef from '../../../node_modules/soundswallower/model/fr-fr/mdef?url';
import frMeans from '../../../node_modules/soundswallower/model/fr-fr/means?url';
import frNoiseDictionary from '../../../node_modules/soundswallower/model/fr-fr/noisedict.txt?url';
import frSendump from '../../../node_modules/soundswallower/model/fr-fr/sendump?url';
import frTransitionMatrices from '../../../node_modules/soundswallower/model/fr-fr/transition_matrices?url';
import frVariances from '../../../node_modules/soundswallower/model/fr-fr/variances?url';
import { fetchBytes } from '../fetching.ts';
import type { HearingLanguage, ModelBytes } from '../hearing/load.ts';
import enCloser from '../hearing/models/closer.net?url';
import frLayer from '../hearing/models/french.json?url';
import network from '../hearing/models/ear.net?url';
import { dictionaryFiles } from './dictionary-files.ts';

type Asset = readonly [url: string, length: number];

/** Files of every language, with their lengths in bytes unpacked (our own network and dictionaries, soundswallower 0.6.3, rnnoise-wasm 0.2.0), for the progress only. */
const common = {
  network: [network, 1_917_580],
  rnnoiseWasm: [rnnoiseWasm, 125_713],
  swallowerWasm: [swallowerWasm, 213_870],
} as const satisfies Record<string, Asset>;

interface LanguageFiles {
  readonly dictionary: Asset;
  readonly closer: Asset | null;
  readonly layer: Asset | null;
  readonly featureParameters: Asset;
  readonly noiseDictionary: Asset;
  readonly mdef: Asset;
  readonly means: Asset;
  readonly variances: Asset;
  readonly sendump: Asset;
  readonly transitionMatrices: Asset;
}

const ofLanguage: Readonly<Record<HearingLanguage, LanguageFiles>> = {
  en: {
    dictionary: [dictionaryFiles.en, 133_779],
    closer: [enCloser, 2_948_496],
    layer: null,
    featureParameters: [enFeatureParameters, 190],
    noiseDictionary: [enNoiseDictionary, 56],
    mdef: [enMdef, 2_953_980],
    means: [enMeans, 838_732],
    variances: [enVariances, 838_732],
    sendump: [enSendump, 1_969_024],
    transitionMatrices: [enTransitionMatrices, 2_080],
  },
  fr: {
    dictionary: [dictionaryFiles.fr, 14_000],
    closer: null,
    layer: [frLayer, 10_600],
    featureParameters: [frFeatureParameters, 190],
    noiseDictionary: [frNoiseDictionary, 27],
    mdef: [frMdef, 2_016_378],
    means: [frMeans, 718_924],
    variances: [frVariances, 718_924],
    sendump: [frSendump, 810_112],
    transitionMatrices: [frTransitionMatrices, 1_792],
  },
};

/** Fetches everything that the recogniser of a language is made of. Rejects when a file cannot be had. */
export async function fetchHearingModels(
  language: HearingLanguage,
  onProgress: (loaded: number, total: number) => void,
): Promise<ModelBytes> {
  const files = { ...common, ...ofLanguage[language] };
  const loaded = new Map<string, number>();
  const total = Object.values(files).reduce((sum, file) => sum + (file?.[1] ?? 0), 0);
  const get = ([url]: Asset): Promise<Uint8Array> =>
    fetchBytes(url, (bytes) => {
      loaded.set(url, bytes);
      onProgress(
        [...loaded.values()].reduce((sum, length) => sum + length, 0),
        total,
      );
    });
  const text = async (file: Asset): Promise<string> => new TextDecoder().decode(await get(file));
  const [net, closer, rnnoise, swallower, words, layer, parameters, noise, mdefBytes, meansBytes, variancesBytes, sendumpBytes, matrices] =
    await Promise.all([
      get(files.network),
      files.closer === null ? null : get(files.closer),
      get(files.rnnoiseWasm),
      get(files.swallowerWasm),
      text(files.dictionary),
      files.layer === null ? null : text(files.layer),
      text(files.featureParameters),
      get(files.noiseDictionary),
      get(files.mdef),
      get(files.means),
      get(files.variances),
      get(files.sendump),
      get(files.transitionMatrices),
    ]);
  return {
    language,
    network: net,
    closer,
    rnnoiseWasm: rnnoise,
    swallowerWasm: swallower,
    dictionary: words,
    layer,
    swallowerFiles: {
      mdef: mdefBytes,
      means: meansBytes,
      variances: variancesBytes,
      sendump: sendumpBytes,
      transition_matrices: matrices,
      featureParameters: parameters,
      noiseDictionary: noise,
    },
  };
}
