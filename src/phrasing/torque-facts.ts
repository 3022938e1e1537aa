import type { PlannedGroup, PlannedPass } from '../procedure/plan-types.ts';
import { tidy } from '../torque/numbers.ts';
import type { Torque, TorqueBand, TorqueUnit } from '../torque/quantities.ts';
import { convert } from '../torque/units.ts';

/** The source's tolerance belongs to its final torque, not to a share of it. */
export function reachesFinal(group: PlannedGroup, pass: PlannedPass): boolean {
  return pass.torque !== null && isSameTorque(pass.torque, group.torque);
}

/** Whether the procedure gives these fasteners neither a torque nor an angle. */
export function hasNoTarget(group: PlannedGroup): boolean {
  return group.torque === null && group.passes.every((pass) => pass.torque === null && pass.angle === null);
}

/** Whether a wrench that fits is to be set to something else than the pass's own figure. */
export function settingDiffers({ setting, torque }: PlannedPass): boolean {
  return setting?.fits === true && (setting.corrected || !isSameTorque(setting.set, torque));
}

/** The tolerance in the unit it is spoken in: two figures, rounded down, since a converted tolerance must not become wider. */
export function bandInUnit(band: TorqueBand, torque: Torque, unit: TorqueUnit): TorqueBand {
  if (unit === torque.unit) return band;
  const converted = (value: number) => narrowed(convert({ value, unit: torque.unit }, unit).value);
  return { minus: converted(band.minus), plus: converted(band.plus) };
}

function isSameTorque(one: Torque, other: Torque | null): boolean {
  return other !== null && one.unit === other.unit && one.value === other.value;
}

function narrowed(value: number): number {
  if (value === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(value)) - 1);
  return tidy(Math.floor(tidy(value / step)) * step);
}
