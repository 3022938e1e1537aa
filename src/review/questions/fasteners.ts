import { kindOf } from '../event-kinds.ts';
import { breaks } from '../logbook.ts';
import type { Spread } from '../statistics/quantiles.ts';
import { sorted, spreadOfSorted } from '../statistics/quantiles.ts';
import type { Written, WrittenGroup } from '../written.ts';
import type { Asking } from './asking.ts';
import { eachRun } from './asking.ts';

/** One fastener in one pass. Times in seconds. */
interface FastenerMeasures {
  readonly group: string;
  readonly groupName: string;
  readonly pass: number;
  readonly position: number;
  readonly positionName: string;
  readonly active: Spread | null;
  /** Tightened while another one was due; counted against the written order, or the usual one where no plan came along. */
  readonly outOfOrder: number;
  readonly tightened: number;
}

export interface Fasteners {
  readonly fasteners: readonly FastenerMeasures[];
  readonly order: 'written' | 'usual';
}

interface Seen {
  readonly times: number[];
  readonly places: number[];
  outOfOrder: number;
}

/**
 * Every fastener of one step. Its time runs from the last piece of work before it, pauses out; fasteners counted in one breath
 * share the time.
 */
export function fasteners({ logbook, selection }: Pick<Asking, 'logbook' | 'selection'>, step: number): Fasteners {
  const { events, runs, names, stepNames, steps, procedures } = logbook;
  const seen = new Map<number, Map<number, Seen>>();
  const target = steps[step];
  if (target === undefined) return { fasteners: [], order: 'usual' };
  const stepNumber = stepNames.numberOfText(target.id);
  const written = procedures[target.procedure]?.written ?? [];
  const orders = new Map<string, readonly number[]>();
  const sequences: { readonly key: number; readonly group: number; readonly build: string; readonly taken: readonly number[] }[] = [];

  eachRun({ logbook, selection }, (run) => {
    if (runs.procedure[run] !== target.procedure) return;
    const build = logbook.builds[runs.build[run] ?? 0] ?? '';
    const passes = new Map<number, { group: number; taken: number[] }>();
    const first = runs.firstEvent[run] ?? 0;
    const end = first + (runs.events[run] ?? 0);
    let isHalted = false;
    let since = 0;
    for (let row = first; row < end; row++) {
      const kind = events.kind[row] ?? 0;
      if (!isHalted && ((events.breaks[row] ?? 0) & breaks.away) === 0) since += events.gap[row] ?? 0;
      if (kind === kindOf.paused || kind === kindOf['left-open'] || kind === kindOf['handed-over']) isHalted = true;
      else if (kind === kindOf.resumed) isHalted = false;
      else if (kind === kindOf['fastener-tightened']) {
        if (events.step[row] === stepNumber) {
          let together = 1;
          while (
            row + together < end &&
            events.kind[row + together] === kind &&
            events.gap[row + together] === 0 &&
            events.step[row + together] === stepNumber
          )
            together++;
          for (let at = row; at < row + together; at++)
            take(events.detail[at] ?? 0, events.extra[at] ?? 0, since / together / 1000, passes);
          row += together - 1;
        }
        since = 0;
      } else if (isWork(kind)) since = 0;
    }
    for (const [key, { group, taken }] of passes) sequences.push({ key, group, build, taken });
  });

  function take(group: number, extra: number, seconds: number, passes: Map<number, { group: number; taken: number[] }>): void {
    const byPlace = seen.get(group) ?? new Map<number, Seen>();
    seen.set(group, byPlace);
    const entry = byPlace.get(extra) ?? { times: [], places: [], outOfOrder: 0 };
    byPlace.set(extra, entry);
    entry.times.push(seconds);
    const key = group * 256 + (extra >> 8);
    const pass = passes.get(key) ?? { group, taken: [] };
    passes.set(key, pass);
    entry.places.push(pass.taken.length);
    pass.taken.push(extra & 255);
  }

  const groupWritten = (group: number, build: string): WrittenGroup | undefined =>
    (written.find((plan) => plan.build === build) ?? written[0])?.steps
      .find(({ id }) => id === target.id)
      ?.groups.find(({ id }) => id === names.text(group));
  for (const { key, group, build, taken } of sequences) {
    const orderKey = `${key}/${build}`;
    let order = orders.get(orderKey);
    if (order === undefined) {
      order = groupWritten(group, build)?.passes[key % 256] ?? usualOrder(seen.get(group), key % 256);
      orders.set(orderKey, order);
    }
    const due = [...order];
    for (const position of taken) {
      if (due.length > 0 && due[0] !== position) {
        const entry = seen.get(group)?.get((key % 256) * 256 + position);
        if (entry !== undefined) entry.outOfOrder += 1;
      }
      const at = due.indexOf(position);
      if (at >= 0) due.splice(at, 1);
    }
  }

  const measures = [...seen].flatMap(([group, byPlace]) =>
    [...byPlace].map(([extra, entry]): FastenerMeasures => {
      const about = groupWritten(group, written[0]?.build ?? '');
      return {
        group: names.text(group),
        groupName: about?.name ?? names.text(group),
        pass: (extra >> 8) + 1,
        position: extra & 255,
        positionName: about?.positions[extra & 255] ?? String((extra & 255) + 1),
        active: spreadOfSorted(sorted(entry.times)),
        outOfOrder: entry.outOfOrder,
        tightened: entry.times.length,
      };
    }),
  );
  return {
    fasteners: measures.sort((one, other) =>
      one.group < other.group ? -1 : one.group > other.group ? 1 : one.pass - other.pass || one.position - other.position,
    ),
    order: hasOrder(written, target.id) ? 'written' : 'usual',
  };
}

function isWork(kind: number): boolean {
  return (
    kind === kindOf['step-begun'] ||
    kind === kindOf['fastener-left-out'] ||
    kind === kindOf.measured ||
    kind === kindOf['hold-answered'] ||
    kind === kindOf['step-carried-out'] ||
    kind === kindOf.undone
  );
}

/** The order in which the positions of a pass mostly came. */
function usualOrder(byPlace: ReadonlyMap<number, Seen> | undefined, pass: number): readonly number[] {
  return [...(byPlace ?? [])]
    .filter(([extra]) => extra >> 8 === pass)
    .map(([extra, { places }]) => ({ position: extra & 255, place: places.reduce((sum, place) => sum + place, 0) / places.length }))
    .sort((one, other) => one.place - other.place)
    .map(({ position }) => position);
}

function hasOrder(written: readonly Written[], step: string): boolean {
  return written.some((plan) => plan.steps.some(({ id, groups }) => id === step && groups.length > 0));
}
