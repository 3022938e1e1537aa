import { emptyCrib, type Crib, type TorqueWrench } from '../../src/torque/crib.ts';
import type { Millimetres } from '../../src/torque/quantities.ts';

function wrench(id: string, min: number, max: number, graduation: number, square: TorqueWrench['square']): TorqueWrench {
  const known = {
    unit: 'N·m',
    tolerance: 4,
    calibrated: '2025-11-01',
    operations: 100,
    suspect: false,
    lever: 400 as Millimetres,
  } as const;
  return { id, name: `${min}–${max} wrench`, min, max, graduation, square, ...known };
}

/** A small tool crib: two wrenches, and a few things that are near what is usually asked for. */
export const smallCrib: Crib = {
  ...emptyCrib,
  wrenches: [wrench('small', 5, 25, 0.5, '3/8'), wrench('large', 40, 200, 1, '1/2')],
  adapters: [{ id: 'foot-18', kind: 'crowfoot', size: '18', sizeUnit: 'mm', square: '1/2', centre: 50 as Millimetres, angle: null }],
  sockets: [
    { id: 's13', kind: 'hex', size: '13', sizeUnit: 'mm', square: '1/2', deep: false },
    { id: 's16', kind: 'bihex', size: '16', sizeUnit: 'mm', square: '1/2', deep: true },
    { id: 's18', kind: 'hex', size: '18', sizeUnit: 'mm', square: '1/2', deep: false },
  ],
  bits: [{ id: 't50', kind: 'internal serration', size: 'T50', sizeUnit: null, square: '1/2' }],
  extensions: [
    { id: 'e75', length: 75 as Millimetres, square: '1/2' },
    { id: 'e50', length: 50 as Millimetres, square: '1/2' },
    { id: 'e250', length: 250 as Millimetres, square: '1/2' },
  ],
  drives: [
    { id: 'r12', kind: 'ratchet', square: '1/2' },
    { id: 'b38', kind: 'bar', square: '3/8' },
  ],
  stepAdapters: [{ id: 'down', from: '1/2', to: '1/4' }],
  others: [{ id: 'lamp', name: 'Lamp' }],
};
