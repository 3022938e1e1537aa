import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/procedure/plan.ts';
import { wrenchRemarks } from '../../src/procedure/wrench-remarks.ts';
import { packFor } from '../../src/phrasing/packs.ts';
import type { Crib } from '../../src/torque/crib.ts';
import { emptyCrib } from '../../src/torque/crib.ts';
import { smallCrib } from './crib.ts';
import { read, withSteps } from './written.ts';

const twoSteps = withSteps(`- { id: one, do: One., fasteners: [{ name: nut, count: 2, drive: hex 18, square: 1/2, torque: 90 N·m }] }
- { id: two, do: Two., fasteners: [{ name: bolt, count: 2, drive: hex 18, square: 1/2, torque: 92 N·m }, { name: hub nut, count: 1, drive: hex 30, square: 1/2, torque: 300 N·m }] }`);

function remarks(text: string, crib: Crib | null, today: string) {
  const planned = planJob(read(text), { build: 'K', crib, today, spokenUnit: null });
  if (!planned.ok) throw new Error(JSON.stringify(planned.problems));
  return wrenchRemarks(planned.plan);
}

describe('what to know about the wrenches before a job', () => {
  it('is nothing without a crib, and nothing where all is well', () => {
    expect(remarks(twoSteps, null, '2026-01-01')).toEqual([]);
    expect(
      remarks(
        withSteps('- { id: a, do: A., fasteners: [{ name: b, count: 1, drive: hex 18, square: 1/2, torque: 90 N·m ±5 }] }'),
        smallCrib,
        '2026-01-01',
      ),
    ).toEqual([]);
  });

  it('is told once for all the steps it is about, what no wrench fits first', () => {
    const told = remarks(twoSteps, smallCrib, '2026-12-01');
    expect(told).toMatchObject([
      { kind: 'none-fits', fastener: 'hub nut', torque: { value: 300, unit: 'N·m' }, steps: ['2'] },
      { kind: 'mind', wrench: '40–200 wrench', note: { code: 'calibration-overdue', due: '2026-11-01' }, steps: ['1', '2'] },
    ]);
  });

  it('is one thing where there is no wrench at all', () => {
    expect(remarks(twoSteps, emptyCrib, '2026-01-01')).toMatchObject([{ kind: 'none-fits', steps: ['1', '2'] }]);
  });

  it('warns of a setting under the usable range, and of a square that the person’s own limit does not allow', () => {
    const [wrench] = smallCrib.wrenches.filter(({ name }) => name === '40–200 wrench');
    const crib: Crib = {
      ...smallCrib,
      wrenches: wrench === undefined ? [] : [{ ...wrench, min: 10 }],
      rules: { ...smallCrib.rules, squareLimits: { ...smallCrib.rules.squareLimits, '1/2': 80 as never } },
    };
    const codes = (torque: string) =>
      remarks(
        withSteps(`- { id: a, do: A., fasteners: [{ name: b, count: 1, drive: hex 18, square: 1/2, torque: ${torque} }] }`),
        crib,
        '2026-01-01',
      ).map((remark) => remark.kind === 'mind' && typeof remark.note === 'object' && remark.note.code);
    expect(codes('20 N·m')).toContain('under-usable-range');
    expect(codes('90 N·m')).toEqual(['square-overloaded']);
  });

  it('has words in both languages', () => {
    const told = remarks(twoSteps, smallCrib, '2026-12-01');
    expect(told.map(packFor('en').tools.remark)).toEqual([
      expect.stringMatching(/^None of your wrenches fits 300 N·m for the hub nut\. .*ends at 200 N·m/u),
      '40–200 wrench: Calibration was due on 2026-11-01. (steps 1, 2)',
    ]);
    expect(told.map(packFor('fr').tools.remark)).toEqual([
      expect.stringMatching(/^Aucune de vos clés ne convient pour 300 N·m \(hub nut\)\. /u),
      "40–200 wrench : L'étalonnage était à refaire le 2026-11-01. (étapes 1, 2)",
    ]);
  });
});
