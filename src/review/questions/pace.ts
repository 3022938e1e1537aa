import { medianOf } from '../statistics/quantiles.ts';
import type { Asking } from './asking.ts';
import { eachRun, isSigned } from './asking.ts';
import { remembered } from './remembered.ts';

/**
 * How long each selected, signed run took against the median of all of them with the same procedure and build:
 * 1 is the median, 1.2 a fifth longer. NaN for runs that do not count. So runs of different procedures can be set side by side.
 */
export const paceOfRuns = remembered(({ logbook, selection }: Pick<Asking, 'logbook' | 'selection'>): Float64Array => {
  const { runs } = logbook;
  const pace = new Float64Array(runs.count).fill(NaN);
  const alike = new Map<number, number[]>();
  eachRun({ logbook, selection }, (run) => {
    if (!isSigned(logbook, run) || (runs.active[run] ?? 0) <= 0) return;
    const key = (runs.procedure[run] ?? 0) * 65_536 + (runs.build[run] ?? 0);
    const list = alike.get(key);
    if (list === undefined) alike.set(key, [run]);
    else list.push(run);
  });
  for (const list of alike.values()) {
    const middle = medianOf(Float64Array.from(list, (run) => runs.active[run] ?? 0));
    for (const run of list) pace[run] = (runs.active[run] ?? 0) / middle;
  }
  return pace;
});
