import type { Logbook } from '../logbook.ts';

/** Which runs to look at. An empty list means all of that kind. */
export interface Filter {
  /** Procedure ids. */
  readonly procedures: readonly string[];
  readonly builds: readonly string[];
  /** Names as given in the logs; null is a run without a name. */
  readonly people: readonly (string | null)[];
  readonly groups: readonly (string | null)[];
  /** Local days such as "2025-03-14", both included, or null. */
  readonly from: string | null;
  readonly to: string | null;
  /** Leaves out each person's first so many runs of a procedure. */
  readonly skipFirst: number;
}

export const everyRun: Filter = { procedures: [], builds: [], people: [], groups: [], from: null, to: null, skipFirst: 0 };

export interface Selection {
  /** 1 for each run that counts. */
  readonly mask: Uint8Array;
  readonly count: number;
  /** Runs that the filter lets through but a trainer has excluded. */
  readonly excluded: number;
}

export function selectRuns(
  { runs, procedures, builds, people, groups }: Logbook,
  filter: Filter,
  excluded: ReadonlySet<string>,
): Selection {
  const procedure = allowed(
    procedures.map(({ id }) => id),
    filter.procedures,
  );
  const build = allowed(builds, filter.builds);
  const person = allowed(people, filter.people);
  const group = allowed(groups, filter.groups);
  const from = filter.from === null ? -Infinity : Date.parse(filter.from);
  const to = filter.to === null ? Infinity : Date.parse(filter.to) + 86_400_000;
  const mask = new Uint8Array(runs.count);
  let count = 0;
  let left = 0;
  for (let run = 0; run < runs.count; run++) {
    const isIn =
      procedure[runs.procedure[run] ?? 0] === 1 &&
      build[runs.build[run] ?? 0] === 1 &&
      person[runs.person[run] ?? 0] === 1 &&
      group[runs.group[run] ?? 0] === 1 &&
      (runs.number[run] ?? 0) > filter.skipFirst;
    if (!isIn) continue;
    const local = (runs.begun[run] ?? 0) + (runs.offset[run] ?? 0) * 60_000;
    if (local < from || local >= to) continue;
    if (excluded.has(runs.job[run] ?? '')) {
      left += 1;
      continue;
    }
    mask[run] = 1;
    count += 1;
  }
  return { mask, count, excluded: left };
}

function allowed<Value>(values: readonly Value[], wanted: readonly Value[]): Uint8Array {
  return Uint8Array.from(values, (value) => (wanted.length === 0 || wanted.includes(value) ? 1 : 0));
}
