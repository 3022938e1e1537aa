import { kindOf } from '../event-kinds.ts';
import type { Asking, StepName } from './asking.ts';
import { eachRun, stepName } from './asking.ts';

/** How a procedure's steps were really gone through, against the written order. */
export interface Orders {
  readonly procedure: string;
  readonly runs: number;
  /** Whether the order that the steps stand in is the written one or, without a plan, the one usually taken. */
  readonly order: 'written' | 'usual';
  readonly steps: readonly OrderStep[];
  readonly moves: readonly Move[];
  /** Runs that went through all they did in the order that stands here, without going back. */
  readonly straightRuns: number;
}

interface OrderStep {
  readonly name: StepName;
  readonly isSide: boolean;
  readonly begun: number;
  readonly skipped: number;
  readonly passedOver: number;
}

/** From the beginning of one step to the beginning of the next that was begun. */
export interface Move {
  /** Places in `steps`. */
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly kind: 'onward' | 'ahead' | 'back' | 'aside';
}

export function orders({ logbook, selection }: Asking, procedure: number): Orders {
  const { events, runs, steps, stepNames, cells } = logbook;
  const seen = logbook.procedures[procedure];
  const own = seen?.steps ?? [];
  const placeOfName = new Int32Array(stepNames.size()).fill(-1);
  for (const [place, step] of own.entries()) placeOfName[stepNames.numberOfText(steps[step]?.id ?? '')] = place;
  const isSide = own.map((step) => steps[step]?.side ?? false);
  const width = own.length;
  const counts = new Uint32Array(width * width);
  const presence = buildsOfSteps(seen?.written ?? []);
  let selected = 0;
  let straightRuns = 0;
  const begun = new Uint32Array(steps.length);
  const skipped = new Uint32Array(steps.length);
  const passedOver = new Uint32Array(steps.length);
  eachRun({ logbook, selection }, (run) => {
    if (runs.procedure[run] !== procedure) return;
    selected += 1;
    let before = -1;
    let isStraight = true;
    const first = runs.firstEvent[run] ?? 0;
    for (let row = first; row < first + (runs.events[run] ?? 0); row++) {
      if (events.kind[row] !== kindOf['step-begun']) continue;
      const place = placeOfName[events.step[row] ?? 0] ?? -1;
      if (place < 0) continue;
      if (before >= 0) {
        counts[before * width + place] = (counts[before * width + place] ?? 0) + 1;
        if (place <= before && isSide[place] === isSide[before]) isStraight = false;
      }
      before = place;
    }
    if (isStraight) straightRuns += 1;
    for (let cell = runs.firstCell[run] ?? 0; cell < (runs.firstCell[run + 1] ?? 0); cell++) {
      const step = cells.step[cell] ?? 0;
      const ended = cells.ended[cell];
      if ((cells.visits[cell] ?? 0) > 0) begun[step] = (begun[step] ?? 0) + 1;
      if (ended === 2) skipped[step] = (skipped[step] ?? 0) + 1;
      if (ended === 3) passedOver[step] = (passedOver[step] ?? 0) + 1;
    }
  });
  const moves: Move[] = [];
  for (let from = 0; from < width; from++) {
    for (let to = 0; to < width; to++) {
      const count = counts[from * width + to] ?? 0;
      if (count > 0) moves.push({ from, to, count, kind: kindOfMove(from, to) });
    }
  }

  function kindOfMove(from: number, to: number): Move['kind'] {
    if (isSide[from] !== isSide[to]) return 'aside';
    if (to <= from) return 'back';
    // A step in between that is only there for other builds was not left out.
    for (let between = from + 1; between < to; between++) {
      if (isSide[between] === isSide[from] && isForAllOf(from, between, to)) return 'ahead';
    }
    return 'onward';
  }

  function isForAllOf(from: number, between: number, to: number): boolean {
    const id = (place: number): string => steps[own[place] ?? 0]?.id ?? '';
    const common = (presence.get(id(from)) ?? []).filter((build) => (presence.get(id(to)) ?? []).includes(build));
    const there = presence.get(id(between)) ?? [];
    return common.every((build) => there.includes(build));
  }

  return {
    procedure: seen?.id ?? '',
    runs: selected,
    order: (seen?.written.length ?? 0) > 0 ? 'written' : 'usual',
    steps: own.map((step, place): OrderStep => ({
      name: stepName(logbook, step),
      isSide: isSide[place] ?? false,
      begun: begun[step] ?? 0,
      skipped: skipped[step] ?? 0,
      passedOver: passedOver[step] ?? 0,
    })),
    moves,
    straightRuns,
  };
}

function buildsOfSteps(
  written: readonly { readonly build: string; readonly steps: readonly { readonly id: string }[] }[],
): ReadonlyMap<string, readonly string[]> {
  const builds = new Map<string, string[]>();
  for (const plan of written) {
    for (const { id } of plan.steps) {
      const list = builds.get(id) ?? [];
      builds.set(id, list);
      list.push(plan.build);
    }
  }
  return builds;
}
