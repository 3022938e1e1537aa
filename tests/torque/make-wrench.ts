import { emptyCrib } from '../../src/torque/crib.ts';
import type { Crib, TorqueWrench } from '../../src/torque/crib.ts';
import type { Millimetres } from '../../src/torque/quantities.ts';

/** A wrench with nothing to say against it, but for what the test gives. */
export function makeWrench(min: number, max: number, changes: Partial<TorqueWrench> = {}): TorqueWrench {
  return {
    id: `wrench-${min}-${max}`,
    name: `${min}–${max}`,
    min,
    max,
    unit: 'N·m',
    graduation: 1,
    square: '1/2',
    tolerance: 4,
    calibrated: '2026-01-10',
    operations: 0,
    suspect: false,
    lever: 400 as Millimetres,
    ...changes,
  };
}

export function cribOf(...wrenches: readonly TorqueWrench[]): Crib {
  return { ...emptyCrib, wrenches };
}
