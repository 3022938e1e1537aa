import { describe, expect, it } from 'vitest';
import { announce } from '../../src/job/announce.ts';
import { applyEvent, newJob } from '../../src/job/fold.ts';
import type { JobEvent } from '../../src/job/events.ts';
import type { JobState } from '../../src/job/state.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { makeGroup, makePlan } from './plans.ts';

function planWith(warnings: readonly string[]): Plan {
  const group = makeGroup('bolts', 2);
  const setting = { fits: true, wrench: 'Long', wrenchId: 'long', set: { value: 20, unit: 'N·m' }, corrected: false, warnings } as const;
  return makePlan([{ id: 's0', groups: [{ ...group, passes: group.passes.map((pass) => ({ ...pass, setting })) }] }], {
    befores: [{ id: 'chocked', kind: 'condition', check: 'The wheels are chocked.' }],
  });
}

const after = (plan: Plan, state: JobState, event: JobEvent): JobState =>
  applyEvent(plan, state, { seq: state.events, session: 's', moment: { wall: 0, offset: 0, mono: 0 }, event });

const opened: JobEvent = { type: 'opened', procedure: 'p', title: '', revision: 1, build: 'K', person: null, group: null };

describe('doubts about the wrenches', () => {
  it('are said when the briefing ends, before the kit and before any step, and once', () => {
    const plan = planWith(['Calibration was due on 2025-03-01.']);
    const briefed = after(plan, newJob(plan), opened);
    expect(announce(plan, newJob(plan), briefed).map(({ kind }) => kind)).not.toContain('wrench-remarks');
    const done = after(plan, briefed, { type: 'before-answered', before: 'chocked', isTrue: true });
    const kinds = announce(plan, briefed, done).map(({ kind }) => kind);
    expect(kinds[0]).toBe('wrench-remarks');
    expect(kinds.filter((kind) => kind === 'wrench-remarks')).toHaveLength(1);
  });

  it('are said before the kit is laid out, and not again when the work begins, nor at any step', () => {
    const item = { id: 'socket', kind: 'socket', name: '', count: 1, steps: [], singleUse: false, owned: null, instead: null } as const;
    const plan = { ...planWith(['Calibration was due on 2025-03-01.']), kit: [item] };
    const ways: readonly JobEvent[] = [
      opened,
      { type: 'before-answered', before: 'chocked', isTrue: true },
      { type: 'kit-answered', item: 'socket', atHand: true },
      { type: 'fastener-tightened', step: 's0', group: 'bolts', pass: 0, position: 0 },
    ];
    let state = newJob(plan);
    const said = ways.map((event) => {
      const next = after(plan, state, event);
      const kinds = announce(plan, state, next).map(({ kind }) => kind);
      state = next;
      return kinds;
    });
    expect(said).toEqual([[], ['wrench-remarks', 'kit-begins', 'kit-item'], ['kit-done', 'step', 'group'], ['next-fastener']]);
  });

  it('are not made up where there are none', () => {
    const plan = planWith([]);
    const briefed = after(plan, newJob(plan), opened);
    const done = after(plan, briefed, { type: 'before-answered', before: 'chocked', isTrue: true });
    expect(announce(plan, briefed, done).map(({ kind }) => kind)).not.toContain('wrench-remarks');
  });
});
