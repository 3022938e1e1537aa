import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findingText } from '../../src/procedure/finding.ts';
import { lintProcedure } from '../../src/procedure/lint.ts';
import { planJob } from '../../src/procedure/plan.ts';
import type { Plan } from '../../src/procedure/plan-types.ts';
import { read } from './written.ts';

const folder = new URL('../../procedures/', import.meta.url);
const names = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
const fileOf = (name: string) => read(readFileSync(new URL(name, folder), 'utf8'));

function planOf(name: string, build: string): Plan {
  const planned = planJob(fileOf(name), { build, crib: null, today: '2026-01-01', spokenUnit: null });
  if (!planned.ok) throw new Error(JSON.stringify(planned.problems));
  return planned.plan;
}

describe('the procedures that ship', () => {
  it('are five, and the first exercise in French', () => {
    expect(names).toEqual([
      'bench-flange-fr.yaml',
      'bench-flange.yaml',
      'brindle-b4-cylinder-head.yaml',
      'brindle-b4-final-drive.yaml',
      'brindle-b4-front-brakes.yaml',
      'brindle-b4-wheels.yaml',
    ]);
  });

  it.each(names)('%s gives the lint nothing to say', (name) => {
    expect(lintProcedure(fileOf(name)).map(findingText)).toEqual([]);
  });

  describe.each(names.flatMap((name) => ['K', 'M'].map((build) => [name, build] as const)))('%s for build %s', (name, build) => {
    it('is labelled invented where it is read out', () => {
      expect(planOf(name, build).procedure.source).toMatch(/invented|inventé/i);
    });

    it('has a caution that defers to the maker’s manual', () => {
      expect(planOf(name, build).cautions.some(({ text }) => /maker[’']s manual|manuel du constructeur/u.test(text))).toBe(true);
    });

    it('takes every fastener in every pass, and ends each group at its torque', () => {
      for (const group of planOf(name, build).steps.flatMap(({ groups }) => groups)) {
        for (const pass of group.passes) expect([...pass.order].sort((a, b) => a - b)).toEqual(group.positions.map((_, index) => index));
        if (group.torque !== null) expect(group.passes.filter(({ torque }) => torque !== null).at(-1)!.torque).toEqual(group.torque);
      }
    });

    it('has ids that stay apart', () => {
      const { steps, kit } = planOf(name, build);
      for (const ids of [steps.map(({ id }) => id), steps.flatMap(({ groups }) => groups.map(({ id }) => id)), kit.map(({ id }) => id)]) {
        expect(new Set(ids).size).toBe(ids.length);
      }
    });
  });

  it.each(['K', 'M'])('ask the same work of the flange in both languages for build %s', (build) => {
    const work = (name: string) =>
      planOf(name, build).steps.map(({ id, groups, holds, measures, wait }) => ({
        id,
        groups: groups.map(({ id: group, passes, torque, tool }) => ({ group, passes, torque, tool })),
        holds: holds.map((hold) => hold.id),
        measures: measures.map(({ id: measure, min, max, unit }) => ({ measure, min, max, unit })),
        waits: wait === null ? null : { id: wait.id, seconds: wait.seconds, blocks: wait.blocks },
      }));
    expect(work('bench-flange-fr.yaml')).toEqual(work('bench-flange.yaml'));
  });

  it.each(['K', 'M'])('hold the whole of the final-drive job for build %s', (build) => {
    const { steps, followUps } = planOf('brindle-b4-final-drive.yaml', build);
    const main = steps.filter(({ side }) => side === null);
    const groups = main.flatMap(({ groups: own }) => own);
    expect(main.length).toBeGreaterThanOrEqual(35);
    expect(groups.length).toBeGreaterThanOrEqual(12);
    expect(groups.reduce((sum, { positions }) => sum + positions.length, 0)).toBeGreaterThanOrEqual(60);
    expect(main.some(({ groups: own, stopSigns }) => own.some(({ pattern }) => pattern === 'draw-up') && stopSigns.length > 0)).toBe(true);
    expect(main.some(({ optional, groups: own }) => optional !== null && own.length > 0)).toBe(true);
    expect(main.some(({ see }) => see !== null)).toBe(true);
    expect(followUps.map(({ after }) => after.kind)).toEqual(expect.arrayContaining(['distance', 'time']));
  });

  it('differ by build in size and torque on the final drive', () => {
    const carrier = (build: string) =>
      planOf('brindle-b4-final-drive.yaml', build)
        .steps.flatMap(({ groups }) => groups)
        .find(({ id }) => id === 'carrier-bolts')!;
    expect([carrier('K'), carrier('M')].map(({ torque, tool }) => [torque?.value, tool.size])).toEqual([
      [60, '16'],
      [105, '18'],
    ]);
  });

  it('turn the head bolts by torque and then by angle, from the middle outward', () => {
    const head = planOf('brindle-b4-cylinder-head.yaml', 'K')
      .steps.flatMap(({ groups }) => groups)
      .find(({ id }) => id === 'head-bolts')!;
    expect(head.passes.map(({ torque, angle }) => torque?.value ?? angle)).toEqual([20, 40, 60, 80]);
    expect(head.passes[0]!.order.slice(0, 2).every((index) => [2, 7].includes(index))).toBe(true);
  });
});
