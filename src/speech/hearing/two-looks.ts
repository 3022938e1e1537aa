import type { Evidence } from './judge.ts';

/**
 * What two networks make of the same sound, taken together: scores are averaged, `share` of them from the second. A sentence that is not
 * among the best of one of them counts there for `unlisted` nats less than the last that is. The two fail on other sounds, so that both
 * hold a wrong sentence for likely less often than either does.
 */
export function bothLooks(first: readonly Evidence[], second: readonly Evidence[], share: number): Evidence[] {
  const mean = (one: number, other: number): number => (1 - share) * one + share * other;
  const sentences = [...first, ...second.filter(({ text }) => !first.some((one) => one.text === text))].map(({ text, phones }) => {
    const [a, b] = [seen(first, text, phones), seen(second, text, phones)];
    return { text, phones, behind: mean(a.behind, b.behind), fit: mean(a.fit, b.fit), worstWord: Math.max(a.worstWord, b.worstWord) };
  });
  sentences.sort((a, b) => b.behind - a.behind);
  const best = sentences[0]?.behind ?? 0;
  return sentences.map(({ text, phones, behind, fit, worstWord }, place) => ({
    ...{ text, phones, fit, worstWord },
    lead: place === 0 ? best - (sentences[1]?.behind ?? -Infinity) : behind - best,
  }));
}

/** A sentence as one network sees it. `behind`: how far it is behind that network's best, 0 at most. */
interface Seen {
  readonly behind: number;
  readonly fit: number;
  readonly worstWord: number;
}

function seen(evidence: readonly Evidence[], text: string, phones: number): Seen {
  const [top] = evidence;
  if (top === undefined) return nothingHeard;
  const one = evidence.find((each) => each.text === text);
  if (one !== undefined) return { behind: one === top ? 0 : one.lead, fit: one.fit, worstWord: one.worstWord };
  const behind = Math.min(0, ...evidence.slice(1).map(({ lead }) => lead)) - unlisted;
  return { behind, fit: top.fit + behind / phones, worstWord: -Infinity };
}

const unlisted = 3;
/** Where no sentence fits a network's frames at all, all of them are alike to it. */
const nothingHeard: Seen = { behind: -30, fit: -5, worstWord: -Infinity };
