import { describe, expect, it } from 'vitest';
import { clicksOf } from '../../src/job/clicks.ts';
import type { JobEvent } from '../../src/job/events.ts';
import type { Folded } from '../../src/job/state.ts';
import type { Plan, PlannedGroup } from '../../src/procedure/plan-types.ts';
import { makeGroup, makePlan } from './plans.ts';

const long = { fits: true, wrench: 'Long', wrenchId: 'long', set: { value: 90, unit: 'N·m' }, corrected: false, warnings: [] } as const;

function planWith(setting: PlannedGroup['passes'][number]['setting']): Plan {
  const group = makeGroup('bolts', 3, [50, 100]);
  return makePlan([{ id: 's0', groups: [{ ...group, passes: group.passes.map((pass) => ({ ...pass, setting })) }] }]);
}

/** Just before midnight UTC, and two hours ahead of it where the work is. */
const wall = Date.UTC(2026, 2, 1, 23, 0);
const events = (...of: readonly JobEvent[]): Folded[] =>
  of.map((event, seq) => ({ seq, session: 's', moment: { wall, offset: 120, mono: seq }, event }));
const tightened = (pass: number, position: number): JobEvent => ({
  type: 'fastener-tightened',
  step: 's0',
  group: 'bolts',
  pass,
  position,
});

describe('the clicks of a job', () => {
  it('are counted pass by pass for the wrench that the plan names, by the date where the work is', () => {
    expect(clicksOf(planWith(long), events(tightened(0, 0), tightened(0, 1), tightened(1, 0)))).toEqual({
      byWrench: { long: 3 },
      newest: '2026-03-02',
    });
  });

  it('are those of the group that was tightened, where a step has two', () => {
    const [bolts, nuts] = [makeGroup('bolts', 3, [50, 100]), makeGroup('nuts', 2, [100])];
    const withWrench = (group: PlannedGroup, wrenchId: string): PlannedGroup => ({
      ...group,
      passes: group.passes.map((pass) => ({ ...pass, setting: { ...long, wrenchId } })),
    });
    const plan = makePlan([{ id: 's0', groups: [withWrench(nuts, 'short'), withWrench(bolts, 'long')] }]);
    expect(clicksOf(plan, events(tightened(0, 0), tightened(1, 0))).byWrench).toEqual({ long: 2 });
  });

  it('leave out what was taken back', () => {
    expect(clicksOf(planWith(long), events(tightened(0, 0), tightened(0, 1), { type: 'undone', seq: 1 })).byWrench).toEqual({ long: 1 });
  });

  it('are nobody’s where no wrench fits, where the plan has no crib, and where a plan of an earlier version names no id', () => {
    const done = events(tightened(0, 0));
    expect(clicksOf(planWith(null), done)).toEqual({ byWrench: {}, newest: null });
    expect(clicksOf(planWith({ fits: false, reasons: [{ code: 'no-wrench' }] }), done).byWrench).toEqual({});
    expect(clicksOf(planWith({ ...long, wrenchId: undefined }), done).byWrench).toEqual({});
  });

  it('pass over events that are about nothing in the plan', () => {
    expect(clicksOf(planWith(long), events({ ...tightened(0, 0), step: 'elsewhere' } as JobEvent, tightened(7, 0))).byWrench).toEqual({});
  });
});
