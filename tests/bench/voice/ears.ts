import createRnnoise from '@echogarden/rnnoise-wasm';
import createSwallower from 'soundswallower';
import { createHearing, type HearingModels, type HearingOptions } from '../../../src/speech/hearing/hearing.ts';
import type { Hearing } from '../../../src/speech/hearing/port.ts';
import type { RnnoiseModule } from '../../../src/speech/hearing/suppression.ts';
import { Swallower } from '../../../src/speech/hearing/swallower.ts';
import { SwallowerJudge, type SecondEar } from '../../../src/speech/hearing/swallower-judge.ts';
import { DecoderEar } from './decoder-ear.ts';
import { hearingModels, modelBytes } from '../../speech/hearing/models.ts';

/** The ear as the app runs it, and others to compare it with. */
export const earNames = ['app', 'one-look', 'network', 'decoder', 'decoder-unsuppressed', 'both-unsuppressed'] as const;
export type EarName = (typeof earNames)[number];

export const earDescriptions: Readonly<Record<EarName, string>> = {
  app: 'as the app runs it: the network first, then the larger one, then the decoder behind RNNoise',
  'one-look': 'as the app runs it, but for the larger network',
  network: 'the network alone, with nobody to ask',
  decoder: 'the decoder behind RNNoise alone; the network only says when somebody speaks',
  'decoder-unsuppressed': 'the decoder alone, on the sound as it came',
  'both-unsuppressed': 'as the app runs it, but for RNNoise',
};

const silent: SecondEar = { listen: () => ({ text: '', phones: 0, margin: () => -Infinity }) };

/** An ear ready to listen. */
export async function makeEar(name: EarName, options: Partial<HearingOptions> = {}): Promise<Hearing> {
  const models = await hearingModels();
  switch (name) {
    case 'app':
      return createHearing(models, options);
    case 'one-look':
      return createHearing({ ...models, closer: null }, options);
    case 'network':
      return createHearing({ ...models, closer: null, second: silent }, options);
    case 'decoder':
    case 'decoder-unsuppressed':
      return new DecoderEar(models.network, await decoder(models, name === 'decoder'));
    case 'both-unsuppressed':
      return createHearing({ ...models, second: await decoder(models, false) }, options);
  }
}

async function decoder({ dictionary }: HearingModels, isSuppressed: boolean): Promise<SecondEar> {
  const bytes = modelBytes();
  const open = async (): Promise<Swallower> =>
    Swallower.open(await createSwallower({ wasmBinary: bytes.swallowerWasm.slice().buffer }), bytes.swallowerFiles, ['zero', 'Z IH R OW']);
  const rnnoise = isSuppressed ? ((await createRnnoise({ wasmBinary: bytes.rnnoiseWasm.slice().buffer })) as RnnoiseModule) : null;
  return new SwallowerJudge(await open(), await open(), dictionary, rnnoise);
}
