import type { HearingGrammar } from './port.ts';
import { nothingHeard, type Judge, type Verdict } from './judge.ts';
import { parseJsgf, printJsgf, withName, wordsOf, type Grammar } from './jsgf.ts';
import { pronounce, type Pronunciations } from './pronunciations.ts';
import type { Swallower } from './swallower.ts';

const phones = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' ');
const phoneWord = (phone: string): string => `phone_${phone.toLowerCase()}`;
const phoneLoop = `#JSGF V1.0; grammar phones; public <any> = (${phones.map(phoneWord).join(' | ')})+;`;
const framesPerSecond = 100;

export interface SwallowerJudgeSettings {
  readonly name: string;
  /** Least score of the grammar over the free phone loop, for each frame of 10 ms. */
  readonly least: number;
  readonly leastForRisky: number;
}

/** Judges by the score of the best sentence of the grammar beside that of the best string of phones whatever. */
export class SwallowerJudge implements Judge {
  private readonly grammarEar: Swallower;
  private readonly freeEar: Swallower;
  private readonly dictionary: Pronunciations;
  private readonly settings: SwallowerJudgeSettings;
  private readonly prepared = new WeakMap<HearingGrammar, string>();
  private risky = new Set<string>();

  constructor(grammarEar: Swallower, freeEar: Swallower, dictionary: Pronunciations, settings: SwallowerJudgeSettings) {
    this.grammarEar = grammarEar;
    this.freeEar = freeEar;
    this.dictionary = dictionary;
    this.settings = settings;
    freeEar.addWords(phones.map((phone) => [phoneWord(phone), [phone]] as const));
    freeEar.setGrammar(phoneLoop);
  }

  setGrammar(grammar: HearingGrammar): void {
    let jsgf = this.prepared.get(grammar);
    if (jsgf === undefined) {
      const named: Grammar = withName(parseJsgf(grammar.jsgf), this.settings.name, false);
      this.grammarEar.addWords([...wordsOf(named)].map((word) => [word, pronounce(word, this.dictionary)] as const));
      jsgf = printJsgf(named);
      this.prepared.set(grammar, jsgf);
    }
    this.grammarEar.setGrammar(jsgf);
    this.risky = new Set(grammar.risky);
  }

  judge(samples: Float32Array): Verdict {
    const heard = this.grammarEar.recognise(samples);
    if (heard.text === '') return nothingHeard;
    const free = this.freeEar.recognise(samples);
    const frames = (samples.length / 16000) * framesPerSecond;
    const margin = (heard.score - free.score) / frames;
    const named = heard.text === this.settings.name || heard.text.startsWith(`${this.settings.name} `);
    const text = named ? heard.text.slice(this.settings.name.length).trim() : heard.text;
    const least = this.risky.has(text) ? this.settings.leastForRisky : this.settings.least;
    const confidence = 1 / (1 + Math.exp(-(margin - least) / 3));
    return { alternatives: [{ text, confidence }], accepted: margin >= least, named, onlyName: named && text === '' };
  }
}
