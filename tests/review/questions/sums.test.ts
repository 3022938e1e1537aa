import { beforeAll, describe, expect, it } from 'vitest';
import { plansIn } from '../../../demo-data/plans.ts';
import { logLines } from '../../../demo-data/log-lines.ts';
import { intentNames } from '../../../src/phrasing/intents.ts';
import { eventKinds } from '../../../src/review/event-kinds.ts';
import { workshopRuns } from '../../../src/review/demonstration/workshop.ts';
import type { Logbook } from '../../../src/review/logbook.ts';
import type { Asking } from '../../../src/review/questions/asking.ts';
import { holdsLeftOut } from '../../../src/review/questions/holds.ts';
import { peopleMeasures } from '../../../src/review/questions/people.ts';
import { everyRun, selectRuns } from '../../../src/review/questions/selection.ts';
import { stepMeasures } from '../../../src/review/questions/step-measures.ts';
import { heatMap, heatOf } from '../../../src/review/questions/stuck.ts';
import { medianOf } from '../../../src/review/statistics/quantiles.ts';
import { reviewWords } from '../../../src/review/words/words.ts';
import { readLogs } from '../logs.ts';

/** What the questions add up from their digests, beside the same counted cell by cell in the plainest way. */
describe('sums over a selection', () => {
  let logbook: Logbook;
  let asking: Asking;
  let own: number[];

  beforeAll(() => {
    const plans = plansIn('procedures').filter(({ procedure }) => ['bench-flange', 'brindle-b4-wheels'].includes(procedure.id));
    const files = Object.fromEntries([...workshopRuns(plans, { seed: 3, runs: 4 })].map((run) => [run.job, logLines(run).join('\n')]));
    logbook = readLogs(files).logbook;
    const selection = selectRuns(logbook, { ...everyRun, groups: ['Anvil'], skipFirst: 1 }, new Set());
    asking = { logbook, selection, ratings: new Map(), nameOf: (person) => logbook.people[person] ?? '', words: reviewWords('en') };
    own = [...logbook.cells.run.keys()].filter((cell) => selection.mask[logbook.cells.run[cell]!] === 1);
  }, 60_000);

  const sum = (cells: readonly number[], column: ArrayLike<number>): number => cells.reduce((all, cell) => all + column[cell]!, 0);

  it('are the same by step', () => {
    const { cells, events, runs, stepNames } = logbook;
    expect(asking.selection.count).toBeGreaterThan(20);
    for (const measures of stepMeasures(asking)) {
      const here = own.filter((cell) => cells.step[cell] === measures.name.step && cells.ended[cell] !== 3);
      for (const name of [
        'visits',
        'work',
        'questions',
        'repeats',
        'misheard',
        'refused',
        'stepBacks',
        'undos',
        'stops',
        'holdsFailed',
      ] as const)
        expect([measures.name.id, name, measures[name]]).toEqual([measures.name.id, name, sum(here, cells[name])]);
      expect(measures.runs).toBe(here.length);
      expect(measures.skips).toBe(here.filter((cell) => cells.ended[cell] === 2).length);
      expect(measures.pausedMean * here.length).toBeCloseTo(sum(here, cells.paused) / 1000, 6);
      const times = here.filter((cell) => cells.ended[cell] === 1).map((cell) => cells.active[cell]! / 1000);
      expect(measures.active?.count ?? 0).toBe(times.length);
      if (times.length > 0) expect(measures.active?.median).toBe(medianOf(times));
      const kinds: Record<string, number> = {};
      for (let run = 0; run < runs.count; run++) {
        if (asking.selection.mask[run] !== 1 || logbook.procedures[runs.procedure[run]!]!.id !== measures.name.procedure) continue;
        for (let row = runs.firstEvent[run]!; row < runs.firstEvent[run]! + runs.events[run]!; row++) {
          if (eventKinds[events.kind[row]!] !== 'asked' || stepNames.text(events.step[row]!) !== measures.name.id) continue;
          const intent = intentNames[events.detail[row]!]!;
          kinds[intent] = (kinds[intent] ?? 0) + 1;
        }
      }
      expect(measures.questionsByKind).toEqual(kinds);
    }
  });

  it('are the same by person', () => {
    const { cells, runs } = logbook;
    for (const measures of peopleMeasures(asking)) {
      const theirs = own.filter((cell) => runs.person[cells.run[cell]!] === measures.person);
      for (const name of ['stepBacks', 'undos', 'holdsFailed'] as const) expect(measures[name]).toBe(sum(theirs, cells[name]));
      expect(measures.skips).toBe(theirs.filter((cell) => cells.ended[cell] === 2).length);
      expect(measures.questionsPerRun * measures.runs).toBeCloseTo(sum(theirs, cells.questions), 9);
    }
  });

  it('are the same for hold points', () => {
    const { cells, runs } = logbook;
    const found = holdsLeftOut(asking);
    expect(found.length).toBeGreaterThan(0);
    for (const { person, name, left, of, othersLeft, othersOf } of found) {
      const ended = own.filter((cell) => cells.step[cell] === name.step && [1, 2].includes(cells.ended[cell]!));
      const theirs = ended.filter((cell) => runs.person[cells.run[cell]!] === person);
      const without = (list: readonly number[]): number => list.filter((cell) => cells.holdsPassed[cell] === 0).length;
      expect([left, of]).toEqual([without(theirs), theirs.length]);
      expect([othersLeft, othersOf]).toEqual([without(ended) - left, ended.length - of]);
    }
  });

  it('are the same in the heat map, from each person’s latest runs', () => {
    const { cells, runs } = logbook;
    const { cells: shown } = heatMap(asking, heatOf(asking, 0));
    expect(shown.length).toBeGreaterThan(20);
    for (const { person, step, median, runs: count } of shown) {
      const theirs = own.filter((cell) => cells.step[cell] === step && runs.person[cells.run[cell]!] === person);
      const latest = [...new Set(own.map((cell) => cells.run[cell]!))]
        .filter((run) => runs.person[run] === person && runs.procedure[run] === 0)
        .sort((one, other) => runs.begun[other]! - runs.begun[one]!)
        .slice(0, 5);
      const times = theirs
        .filter((cell) => latest.includes(cells.run[cell]!) && cells.ended[cell] === 1 && cells.active[cell]! > 0)
        .map((cell) => cells.active[cell]! / 1000);
      expect([count, median]).toEqual([times.length, medianOf(times)]);
    }
  });
});
