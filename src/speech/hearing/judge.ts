/** What the network's search has to say about its best sentence. */
export interface Evidence {
  readonly text: string;
  /** The sentence's score over that of any phones whatever, for each of its phones: 0 at best. */
  readonly fit: number;
  /** The same for its worst word. */
  readonly worstWord: number;
  readonly phones: number;
}

/** What a second recogniser makes of the same sound. */
export interface SecondOpinion {
  readonly text: string;
  readonly phones: number;
  /** Its own score over that of any phones whatever, for each frame of 10 ms; costs a second pass. */
  margin(): number;
}

export interface JudgeSettings {
  /** Fit from which a sentence is taken on the network's word alone, and the same for short ones. */
  readonly sure: number;
  readonly sureForShort: number;
  /** From how many phones on a sentence is long. */
  readonly longFrom: number;
  /** No word of it may fit worse than this. */
  readonly word: number;
  /** Fit down to which the second recogniser's agreement is enough, for harmless and for risky sentences. */
  readonly agreed: number;
  readonly agreedForRisky: number;
  /** Phones a second below which a sentence is too short for the time it is said to fill. */
  readonly slowest: number;
  /** Margin from which the second recogniser is believed against a network that is not sure. */
  readonly overruled: number;
}

export type Ruling = { readonly accepted: true; readonly text: string; readonly confidence: number } | { readonly accepted: false };

/**
 * Decides whether a sentence was said. The two recognisers fail on different sounds: the network in silence with voices unlike those
 * that it learnt from, the second one in noise. They hardly ever agree on something that was not said.
 */
export function judge(
  evidence: Evidence | null,
  seconds: number,
  isRisky: (text: string) => boolean,
  second: () => SecondOpinion,
  settings: JudgeSettings,
): Ruling {
  const fills = (phones: number): boolean => phones / seconds >= settings.slowest;
  if (evidence !== null && fills(evidence.phones) && !isRisky(evidence.text) && isSure(evidence, settings))
    return accepted(evidence.text, 0.5 + 0.5 * Math.exp(evidence.fit));
  const opinion = second();
  if (opinion.text === '' || !fills(opinion.phones)) return { accepted: false };
  if (opinion.text === evidence?.text) {
    const least = isRisky(opinion.text) ? settings.agreedForRisky : settings.agreed;
    return evidence.fit >= least ? accepted(opinion.text, 0.6 + 0.4 * Math.exp(evidence.fit)) : { accepted: false };
  }
  if (isRisky(opinion.text)) return { accepted: false };
  const margin = opinion.margin();
  return margin >= settings.overruled ? accepted(opinion.text, 1 - 0.5 * Math.exp((settings.overruled - margin) / 4)) : { accepted: false };
}

function isSure({ fit, worstWord, phones }: Evidence, { sure, sureForShort, longFrom, word }: JudgeSettings): boolean {
  return fit >= (phones >= longFrom ? sure : sureForShort) && worstWord >= word;
}

function accepted(text: string, confidence: number): Ruling {
  return { accepted: true, text, confidence };
}
