import rnnoiseWasm from '@echogarden/rnnoise-wasm/rnnoise.wasm?url';
// The package exports none of its data files, so they are named by their place.
import swallowerWasm from '../../../node_modules/soundswallower/soundswallower.web.wasm?url';
import featureParameters from '../../../node_modules/soundswallower/model/en-us/feat_params.json?url';
import mdef from '../../../node_modules/soundswallower/model/en-us/mdef?url';
import means from '../../../node_modules/soundswallower/model/en-us/means?url';
import noiseDictionary from '../../../node_modules/soundswallower/model/en-us/noisedict.txt?url';
import sendump from '../../../node_modules/soundswallower/model/en-us/sendump?url';
import transitionMatrices from '../../../node_modules/soundswallower/model/en-us/transition_matrices?url';
import variances from '../../../node_modules/soundswallower/model/en-us/variances?url';
import { fetchBytes } from '../fetching.ts';
import type { ModelBytes } from '../hearing/load.ts';
import dictionary from '../hearing/models/dictionary.txt?url';
import network from '../hearing/models/ear.net?url';

/** Addresses of the local recogniser's files, with their lengths in bytes unpacked (our own network and dictionary, soundswallower 0.6.3, rnnoise-wasm 0.2.0), for the progress only. */
const files = {
  network: [network, 1_917_580],
  rnnoiseWasm: [rnnoiseWasm, 125_713],
  swallowerWasm: [swallowerWasm, 213_870],
  dictionary: [dictionary, 133_779],
  featureParameters: [featureParameters, 190],
  noiseDictionary: [noiseDictionary, 56],
  mdef: [mdef, 2_953_980],
  means: [means, 838_732],
  variances: [variances, 838_732],
  sendump: [sendump, 1_969_024],
  transitionMatrices: [transitionMatrices, 2_080],
} as const satisfies Record<string, readonly [string, number]>;

type FileName = keyof typeof files;

/** Fetches everything that the recogniser is made of. Rejects when a file cannot be had. */
export async function fetchHearingModels(onProgress: (loaded: number, total: number) => void): Promise<ModelBytes> {
  const loaded = new Map<FileName, number>();
  const total = Object.values(files).reduce((sum, [, length]) => sum + length, 0);
  const get = (name: FileName): Promise<Uint8Array> =>
    fetchBytes(files[name][0], (bytes) => {
      loaded.set(name, bytes);
      onProgress(
        [...loaded.values()].reduce((sum, length) => sum + length, 0),
        total,
      );
    });
  const text = async (name: FileName): Promise<string> => new TextDecoder().decode(await get(name));
  const [net, rnnoise, swallower, words, parameters, noise, mdefBytes, meansBytes, variancesBytes, sendumpBytes, matrices] =
    await Promise.all([
      get('network'),
      get('rnnoiseWasm'),
      get('swallowerWasm'),
      text('dictionary'),
      text('featureParameters'),
      get('noiseDictionary'),
      get('mdef'),
      get('means'),
      get('variances'),
      get('sendump'),
      get('transitionMatrices'),
    ]);
  return {
    network: net,
    rnnoiseWasm: rnnoise,
    swallowerWasm: swallower,
    dictionary: words,
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
