import type { HearingGrammar } from './port.ts';

/** What a stretch of sound was taken for. */
export interface Verdict {
  /** Best first, without the name; empty when nothing in the grammar fits at all. */
  readonly alternatives: readonly { readonly text: string; readonly confidence: number }[];
  /** True when the best is good enough to act on. */
  readonly accepted: boolean;
  /** True when the name was heard, alone or before a command. */
  readonly named: boolean;
  /** True when nothing was said but the name. */
  readonly onlyName: boolean;
}

/** Decides what was said in a stretch of sound, if anything that counts. */
export interface Judge {
  setGrammar(grammar: HearingGrammar): void;
  /** `samples` at 16 kHz hold the whole stretch with some quiet around it. */
  judge(samples: Float32Array): Verdict;
}

export const nothingHeard: Verdict = { alternatives: [], accepted: false, named: false, onlyName: false };
