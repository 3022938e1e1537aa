import type { SecondOpinion } from './judge.ts';
import { printJsgf, wordsOf, type Grammar } from './jsgf.ts';
import { pronounce, type Pronunciations } from './pronunciations.ts';
import type { Swallower } from './swallower.ts';

const phones = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' ');
const phoneWord = (phone: string): string => `phone_${phone.toLowerCase()}`;
const phoneLoop = `#JSGF V1.0; grammar phones; public <any> = (${phones.map(phoneWord).join(' | ')})+;`;
const framesPerSample = 100 / 16000;

/** The second recogniser: the best sentence of the grammar, beside the best string of phones whatever. */
export class SwallowerJudge {
  private readonly grammarEar: Swallower;
  private readonly freeEar: Swallower;
  private readonly dictionary: Pronunciations;
  private readonly printed = new WeakMap<Grammar, string>();

  constructor(grammarEar: Swallower, freeEar: Swallower, dictionary: Pronunciations) {
    this.grammarEar = grammarEar;
    this.freeEar = freeEar;
    this.dictionary = dictionary;
    freeEar.addWords(phones.map((phone) => [phoneWord(phone), [phone]] as const));
    freeEar.setGrammar(phoneLoop);
  }

  /** What it makes of samples at 16 kHz, from which noise has been taken. */
  listen(grammar: Grammar, samples: Float32Array): SecondOpinion {
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
