import { logChoose } from './distributions.ts';

/**
 * Fisher's exact test, one-sided: the chance that `hits` or more of one party's `tries` are hits, when `otherHits` of the others'
 * `otherTries` are and nobody differs from anybody.
 */
export function atLeastSoManyByChance(hits: number, tries: number, otherHits: number, otherTries: number): number {
  if (hits === 0) return 1;
  const allHits = hits + otherHits;
  const all = tries + otherTries;
  const most = Math.min(tries, allHits);
  let chance = 0;
  for (let k = hits; k <= most; k++)
    chance += Math.exp(logChoose(allHits, k) + logChoose(all - allHits, tries - k) - logChoose(all, tries));
  return Math.min(1, chance);
}
