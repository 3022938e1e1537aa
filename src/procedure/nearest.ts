/** The word that was probably meant, or null when none is near: at most one slip in three letters. */
export function nearest(word: string, candidates: Iterable<string>): string | null {
  if (word.length > 60) return null;
  const plain = fold(word);
  let best: string | null = null;
  let least = Math.floor(word.length / 3) + 1;
  for (const candidate of candidates) {
    const slips = distance(plain, fold(candidate), least);
    if (slips < least) {
      best = candidate;
      least = slips;
    }
  }
  return best;
}

const fold = (word: string) => word.toLowerCase().replace(/[\s_-]+/g, ' ');

/** Letters to add, drop or change to get from one word to the other (Levenshtein); anything from `enough` up is given as `enough`. */
function distance(from: string, to: string, enough: number): number {
  if (Math.abs(from.length - to.length) >= enough) return enough;
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const change = (row[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return Math.min(enough, row[to.length] ?? enough);
}
