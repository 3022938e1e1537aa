import { toNewtonMetres } from '../torque/units.ts';
import { lastTold, type Group, type SaidSize, type SaidTorque } from './groups.ts';

/**
 * How far a torque is from what is common for the width of its head, as the absolute logarithm of their ratio; 0 where either is not known.
 * It knows nothing of the talk, so it doubts a value that landed on the wrong fasteners. Common practice: 10 N·m at 10 mm, 23 at 13, 43 at 16,
 * and so on with the cube of the width.
 */
export function oddity(group: Group, build: string | null): number {
  const size = lastTold(group, 'size', build)?.value;
  const torque = lastTold(group, 'torque', build)?.value;
  return size === undefined || torque === undefined ? 0 : oddityOf(size, torque);
}

/** The same of a size and a torque. */
export function oddityOf(size: SaidSize, torque: SaidTorque): number {
  if (torque.unit === null || size.unit === null) return 0;
  const width = widthOf(size);
  const value = toNewtonMetres({ value: torque.value, unit: torque.unit });
  if (width < 5 || value <= 0) return 0;
  return Math.min(most, Math.abs(Math.log(value / (0.0105 * width ** 3))));
}

/** Beyond it one is as odd as the other. */
const most = 2.5;

/** Across the flats, in millimetres: of "17", and of "9/16" or "1 1/8" in inches. */
export function widthOf({ text, unit }: { readonly text: string; readonly unit: 'mm' | 'in' | null }): number {
  const [, whole, top, bottom] = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(text) ?? [];
  const width = top === undefined ? Number(text) : Number(whole ?? 0) + Number(top) / Number(bottom);
  return unit === 'in' ? width * 25.4 : width;
}
