import type { SecondOpinion } from './judge.ts';
import { printJsgf, wordsOf, type Grammar } from './jsgf.ts';
import { pronounce, type Pronunciations } from './pronunciations.ts';
import { SampleRing } from './sample-ring.ts';
import { Suppression, type RnnoiseModule } from './suppression.ts';
import type { Swallower } from './swallower.ts';

/** Another recogniser, asked only where the network is in doubt or where much hangs on the answer. */
export interface SecondEar {
  /** What it makes of a whole utterance at 16 kHz, noise and all. */
  listen(grammar: Grammar, samples: Float32Array): SecondOpinion;
}

/** The phones of soundswallower's English model. */
export const englishPhones = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(
  ' ',
);
const phoneWord = (phone: string): string => `phone_${phone.toLowerCase()}`;
const phoneLoop = (phones: readonly string[]): string =>
  `#JSGF V1.0; grammar phones; public <any> = (${phones.map(phoneWord).join(' | ')})+;`;
const framesPerSample = 100 / 16000;

/** The second recogniser: the best sentence of the grammar, beside the best string of phones whatever. */
export class SwallowerJudge implements SecondEar {
  private readonly grammarEar: Swallower;
  private readonly freeEar: Swallower;
  private readonly dictionary: Pronunciations;
  private readonly rnnoise: RnnoiseModule | null;
  private readonly printed = new WeakMap<Grammar, string>();

  /** `phones`: those of the model that the two recognisers run on. `rnnoise`: what takes the noise away first; null leaves the sound as it came. */
  constructor(
    grammarEar: Swallower,
    freeEar: Swallower,
    dictionary: Pronunciations,
    rnnoise: RnnoiseModule | null,
    phones: readonly string[] = englishPhones,
  ) {
    this.grammarEar = grammarEar;
    this.freeEar = freeEar;
    this.dictionary = dictionary;
    this.rnnoise = rnnoise;
    freeEar.addWords(phones.map((phone) => [phoneWord(phone), [phone]] as const));
    freeEar.setGrammar(phoneLoop(phones));
  }

  listen(grammar: Grammar, noisy: Float32Array): SecondOpinion {
    const samples = this.rnnoise === null ? noisy : suppressed(noisy, this.rnnoise);
    let jsgf = this.printed.get(grammar);
    if (jsgf === undefined) {
      this.grammarEar.addWords(wordsOf(grammar).map((word) => [word, pronounce(word, this.dictionary)] as const));
      jsgf = printJsgf(grammar);
      this.printed.set(grammar, jsgf);
    }
    this.grammarEar.setGrammar(jsgf);
    const heard = this.grammarEar.recognise(samples);
    return {
      text: heard.text,
      phones: heard.text.split(' ').reduce((sum, word) => sum + (pronounce(word, this.dictionary)[0]?.split(' ').length ?? 0), 0),
      margin: () => (heard.score - this.freeEar.recognise(samples).score) / (samples.length * framesPerSample),
    };
  }
}

function suppressed(noisy: Float32Array, rnnoise: RnnoiseModule): Float32Array {
  const suppression = new Suppression(rnnoise);
  const clean = new SampleRing(noisy.length);
  for (const frame of suppression.push(noisy)) clean.push(frame.samples);
  suppression.dispose();
  return clean.slice(0, noisy.length);
}
