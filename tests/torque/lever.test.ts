import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { armFactor, settingFor, torqueAtFastener, withFreeRunning } from '../../src/torque/lever.ts';
import type { Arm } from '../../src/torque/lever.ts';
import { torqueUnits } from '../../src/torque/quantities.ts';
import type { Degrees, Millimetres, Torque } from '../../src/torque/quantities.ts';

const arm = (lever: number, centre: number, angle: number): Arm => ({
  lever: lever as Millimetres,
  centre: centre as Millimetres,
  angle: angle as Degrees,
});
const arms = fc
  .record({ lever: fc.integer({ min: 100, max: 1200 }), centre: fc.integer({ min: 0, max: 99 }), angle: fc.integer({ min: 0, max: 180 }) })
  .map(({ lever, centre, angle }) => arm(lever, centre, angle));
const torques = fc.record({ value: fc.double({ min: 0.1, max: 1000, noNaN: true }), unit: fc.constantFrom(...torqueUnits) });
const valueOf = (reading: ReturnType<typeof settingFor>) => {
  if (!reading.ok) throw new Error(reading.problem.code);
  return reading.value.value;
};

describe('the correction for an adapter', () => {
  it('is undone by its inverse', () => {
    fc.assert(
      fc.property(torques, arms, (torque, on) => {
        const setting = { value: valueOf(settingFor(torque, on)), unit: torque.unit };
        expect(valueOf(torqueAtFastener(setting, on)) / torque.value).toBeCloseTo(1, 12);
      }),
    );
  });

  it('lowers the setting while the adapter points outward, and raises it when it points back', () => {
    fc.assert(
      fc.property(torques, arms, (torque, on) => {
        const ratio = valueOf(settingFor(torque, on)) / torque.value;
        if (on.centre === 0 || on.angle === 90) expect(ratio).toBe(1);
        else if (on.angle < 90) expect(ratio).toBeLessThan(1);
        else expect(ratio).toBeGreaterThan(1);
      }),
    );
  });

  it('is exactly nothing at a right angle and without an adapter', () => {
    expect(armFactor(arm(400, 50, 90))).toBe(1);
    expect(armFactor(null)).toBe(1);
    expect(settingFor({ value: 47, unit: 'lbf·ft' }, null)).toEqual({ ok: true, value: { value: 47, unit: 'lbf·ft' } });
  });

  it.each([arm(50, 50, 180), arm(40, 50, 180), arm(0, 50, 0), arm(400, -1, 0)])('refuses an arm that cannot tighten (%o)', (on) => {
    expect(armFactor(on)).toBeNull();
    expect(settingFor({ value: 47, unit: 'lbf·ft' }, on)).toMatchObject({ ok: false, problem: { code: 'arm-impossible' } });
    expect(torqueAtFastener({ value: 47, unit: 'lbf·ft' }, on)).toMatchObject({ ok: false, problem: { code: 'arm-impossible' } });
  });
});

describe('a nut that takes torque to turn', () => {
  it('gets that much more, in the unit of the target', () => {
    const target: Torque = { value: 20, unit: 'lbf·ft' };
    expect(withFreeRunning(target, { value: 24, unit: 'lbf·in' })).toEqual({ value: 22, unit: 'lbf·ft' });
  });
});
