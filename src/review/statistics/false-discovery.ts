/**
 * Which of many chances still count as findings when so many were looked at: at most a share `rate` of those kept is
 * expected to be false (Benjamini and Hochberg 1995). `among` counts all that were looked at: those with a chance of 1 need not be listed.
 */
export function findingsAmong(chances: readonly number[], rate: number, among = chances.length): readonly boolean[] {
  const order = chances.map((_, index) => index).sort((a, b) => (chances[a] ?? 1) - (chances[b] ?? 1));
  let last = -1;
  for (const [place, index] of order.entries()) if ((chances[index] ?? 1) <= (rate * (place + 1)) / among) last = place;
  const kept = chances.map(() => false);
  for (const index of order.slice(0, last + 1)) kept[index] = true;
  return kept;
}
