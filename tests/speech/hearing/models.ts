import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadHearingModels, type HearingLanguage, type ModelBytes } from '../../../src/speech/hearing/load.ts';
import type { HearingModels } from '../../../src/speech/hearing/hearing.ts';

// The packages export none of their data files, so they are named by their place.
const packages = join(import.meta.dirname, '../../../node_modules');
const bytes = (path: string): Uint8Array => new Uint8Array(readFileSync(path));
const text = (path: string): string => readFileSync(path, 'utf8');

/** The files that the app fetches, read from where the packages put them. */
export function modelBytes(language: HearingLanguage = 'en'): ModelBytes {
  const swallower = join(packages, 'soundswallower');
  const model = (name: string): string => join(swallower, language === 'en' ? 'model/en-us' : 'model/fr-fr', name);
  const own = (name: string): string => join(import.meta.dirname, '../../../src/speech/hearing/models', name);
  return {
    language,
    network: bytes(own('ear.net')),
    closer: language === 'en' ? bytes(own('closer.net')) : null,
    layer: language === 'en' ? null : text(own('french.json')),
    rnnoiseWasm: bytes(join(packages, '@echogarden/rnnoise-wasm/rnnoise.wasm')),
    swallowerWasm: bytes(join(swallower, 'soundswallower.web.wasm')),
    dictionary: text(own(language === 'en' ? 'dictionary.txt' : 'french-words.txt')),
    swallowerFiles: {
      mdef: bytes(model('mdef')),
      means: bytes(model('means')),
      variances: bytes(model('variances')),
      sendump: bytes(model('sendump')),
      transition_matrices: bytes(model('transition_matrices')),
      featureParameters: text(model('feat_params.json')),
      noiseDictionary: bytes(model('noisedict.txt')),
    },
  };
}

const loading = new Map<HearingLanguage, Promise<HearingModels>>();

/** The models as the app has them, loaded once. */
export function hearingModels(language: HearingLanguage = 'en'): Promise<HearingModels> {
  const models = loading.get(language) ?? loadHearingModels(modelBytes(language));
  loading.set(language, models);
  return models;
}
