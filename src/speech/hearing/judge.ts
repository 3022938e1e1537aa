/** What the network's search has to say about one sentence. */
export interface Evidence {
  readonly text: string;
  /** The sentence's score over that of any phones whatever, for each of its phones: 0 at best. */
  readonly fit: number;
  /** The same for its worst word. */
  readonly worstWord: number;
  readonly phones: number;
  /** How far its score is above that of the next sentence that sounds otherwise; negative for all but the best. Infinity where there is none. */
  readonly lead: number;
}

/** What a second recogniser makes of the same sound. */
export interface SecondOpinion {
  readonly text: string;
  readonly phones: number;
  /** Its own score over that of any phones whatever, for each frame of 10 ms; costs a second pass. */
  margin(): number;
}

/** How much is asked of a sentence that is taken on the network's word alone. */
export interface Standard {
  readonly fit: number;
  readonly word: number;
  readonly lead: number;
}

export interface JudgeSettings {
  /** For most sentences; for short ones; for those with a number in them, which differ by little; for risky ones. */
  readonly sure: Standard;
  readonly short: Standard;
  readonly number: Standard;
  readonly risky: Standard;
  /** For "stop", which must get through; and for what is heard amid the app's own voice. */
  readonly urgent: Standard;
  readonly amidSpeech: Standard;
  /** For what counts after hardly any quiet. */
  readonly atOnce: Standard;
  /** From how many phones on a sentence is long. */
  readonly longFrom: number;
  /** Fit down to which the second recogniser's agreement is enough, for harmless and for risky sentences, and the least lead then, for most and for those with a number. */
  readonly agreed: number;
  readonly agreedForRisky: number;
  readonly agreedLead: number;
  readonly agreedLeadOfNumber: number;
  /** Phones a second below which a sentence is too short for the time it is said to fill. */
  readonly slowest: number;
  /** The second recogniser is believed against the network where the network holds its sentence for as likely but for so much, */
  readonly close: number;
  /** and where it is as sure of it as this. */
  readonly overruled: number;
  /** How sure the second recogniser must be to be taken alone, whatever the network holds; null where it never is. */
  readonly alone: { readonly most: number; readonly risky: number } | null;
}

export interface Kinds {
  readonly isRisky: (text: string) => boolean;
  readonly hasNumber: (text: string) => boolean;
  readonly isUrgent: (text: string) => boolean;
}

export type Ruling = { readonly accepted: true; readonly text: string; readonly confidence: number } | { readonly accepted: false };

/**
 * Decides whether a sentence was said. `evidence`: the network's best sentences, each of another sound, best first; `seconds`: how long
 * somebody spoke. The network is taken at its word where its sentence fits the sound well and no other fits nearly as well. The second
 * recogniser is asked otherwise: it fails on other sounds, and the two hardly ever agree on something that was not said.
 */
export function judge(
  evidence: readonly Evidence[],
  seconds: number,
  kinds: Kinds,
  second: () => SecondOpinion,
  settings: JudgeSettings,
): Ruling {
  const [top] = evidence;
  if (top === undefined || seconds <= 0 || top.phones / seconds < settings.slowest) return { accepted: false };
  if (isSure(top, standardFor(top, kinds, settings))) return accepted(top.text, 0.5 + 0.5 * Math.exp(top.fit));
  // Nothing that the second recogniser could say would help so poor a fit.
  if (settings.alone === null && evidence.every(({ fit }) => fit < Math.min(settings.agreed, settings.agreedForRisky, settings.sure.fit)))
    return { accepted: false };
  const opinion = second();
  const chosen = evidence.find(({ text }) => text === opinion.text);
  if (isTakenAlone(opinion, kinds, settings)) return accepted(opinion.text, 0.7);
  if (chosen === undefined) return { accepted: false };
  const isRisky = kinds.isRisky(chosen.text);
  if (chosen === top) {
    const least = isRisky ? settings.agreedForRisky : settings.agreed;
    const lead = kinds.hasNumber(chosen.text) ? settings.agreedLeadOfNumber : settings.agreedLead;
    return top.fit >= least && top.lead >= lead ? accepted(top.text, 0.6 + 0.4 * Math.exp(top.fit)) : { accepted: false };
  }
  // "Seventeen" for "seventy" is the decoder's commonest mistake, so a number is never taken on its word.
  const isBelieved =
    !isRisky &&
    !kinds.hasNumber(chosen.text) &&
    chosen.fit >= settings.sure.fit &&
    -chosen.lead <= settings.close &&
    opinion.margin() >= settings.overruled;
  return isBelieved ? accepted(chosen.text, 0.5 + 0.3 * Math.exp(chosen.fit)) : { accepted: false };
}

/** Where the network knows a language by few voices, and the second recogniser by many people's. */
function isTakenAlone(opinion: SecondOpinion, kinds: Kinds, { alone }: JudgeSettings): boolean {
  const { text } = opinion;
  if (alone === null || text === '') return false;
  return opinion.margin() >= (kinds.isRisky(text) || kinds.hasNumber(text) ? alone.risky : alone.most);
}

function standardFor({ text, phones }: Evidence, { isRisky, hasNumber, isUrgent }: Kinds, settings: JudgeSettings): Standard {
  if (isUrgent(text)) return settings.urgent;
  if (isRisky(text)) return settings.risky;
  if (hasNumber(text)) return settings.number;
  return phones < settings.longFrom ? settings.short : settings.sure;
}

/** Whether a sentence, just over, fits so well that it counts on the network's word alone. */
export function isSure({ fit, worstWord, lead }: Evidence, standard: Standard): boolean {
  return fit >= standard.fit && worstWord >= standard.word && lead >= standard.lead;
}

function accepted(text: string, confidence: number): Ruling {
  return { accepted: true, text, confidence };
}
