import { formatNumber } from './numbers.ts';
import type { Torque } from './quantities.ts';
import { formatTorque, spokenRounding } from './units.ts';
import type { WrenchReason, WrenchWarning } from './wrench.ts';

/** A warning as an English sentence. */
export function describeWarning(warning: WrenchWarning): string {
  switch (warning.code) {
    case 'calibration-overdue':
      return `Calibration was due on ${warning.due}.`;
    case 'operations-overdue':
      return `Calibration is due: ${warning.operations} operations since the last, and the limit is ${warning.limit}.`;
    case 'calibration-unknown':
      return 'Nobody has written down when it was last calibrated.';
    case 'suspect':
      return 'It was dropped or overloaded since its calibration. Have it checked before use.';
    case 'under-usable-range':
      return `It is set to ${percent(warning.percentOfMax)} of its maximum; no accuracy is claimed under ${percent(warning.usableFrom)}.`;
    case 'rounding-beyond-tolerance':
      return `The nearest mark is ${percent(warning.deviation)} off, and the wrench itself may stray ${percent(warning.tolerance)}.`;
    case 'spread-outside-band':
      return `Its own tolerance can lead outside the limits: ${calculated(warning.low)} to ${calculated(warning.high)}.`;
    case 'coarse-graduation':
      return `Its marks are ${formatTorque(warning.graduation)} apart, more than a tenth of the torque.`;
  }
}

/** Why a wrench will not do, as an English sentence. */
export function describeReason(reason: WrenchReason): string {
  switch (reason.code) {
    case 'no-wrench':
      return 'There is no torque wrench among the tools.';
    case 'under-range':
      return `${reason.wrench} begins at ${formatTorque(reason.min)}; it would have to be set to ${calculated(reason.needed)}.`;
    case 'over-range':
      return `${reason.wrench} ends at ${formatTorque(reason.max)}; it would have to be set to ${calculated(reason.needed)}.`;
    case 'rounding-outside-band':
      return `${reason.wrench} has no mark within the limits; the nearest, ${formatTorque(reason.nearest)}, is ${percent(reason.deviation)} off.`;
    case 'square-differs':
      return `${reason.wrench} has a ${reason.has} square, and the socket takes ${reason.needs}.`;
    case 'lever-unknown':
      return `${reason.wrench} has no lever length written down, and the adapter's correction needs it.`;
    case 'arm-impossible':
      return `${reason.wrench} is too short for the adapter: no pull on it would tighten.`;
  }
}

function calculated(torque: Torque): string {
  return formatTorque({ value: spokenRounding(torque.value), unit: torque.unit });
}

function percent(value: number): string {
  return `${formatNumber(Number(Math.abs(value).toPrecision(3)))} %`;
}
