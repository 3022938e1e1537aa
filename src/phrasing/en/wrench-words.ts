import type { WrenchMisfit, WrenchNote } from '../../procedure/plan-types.ts';
import { formatNumber } from '../../torque/numbers.ts';
import type { Torque } from '../../torque/quantities.ts';
import { formatTorque, spokenRounding } from '../../torque/units.ts';

/** What to mind with a wrench, or why it will not do, as an English sentence to be shown. */
export function wrenchNote(note: WrenchNote | WrenchMisfit): string {
  if (typeof note === 'string') return note;
  switch (note.code) {
    case 'calibration-overdue':
      return `Calibration was due on ${note.due}.`;
    case 'operations-overdue':
      return `Calibration is due: ${note.operations} operations since the last, and the limit is ${note.limit}.`;
    case 'calibration-unknown':
      return 'Nobody has written down when it was last calibrated.';
    case 'suspect':
      return 'It was dropped or overloaded since its calibration. Have it checked before use.';
    case 'under-usable-range':
      return `It is set to ${percent(note.percentOfMax)} of its maximum; no accuracy is claimed under ${percent(note.usableFrom)}.`;
    case 'rounding-beyond-tolerance':
      return `The nearest mark is ${percent(note.deviation)} off, and the wrench itself may stray ${percent(note.tolerance)}.`;
    case 'spread-outside-band':
      return `Its own tolerance can lead outside the limits: ${calculated(note.low)} to ${calculated(note.high)}.`;
    case 'square-overloaded':
      return `That is more than the ${formatTorque(note.limit)} that your tools' rules allow a ${note.square} square drive.`;
    case 'coarse-graduation':
      return `Its marks are ${formatTorque(note.graduation)} apart, more than a tenth of the torque.`;
    case 'keep-square':
      return 'Keep the crowfoot square to the wrench, so that the setting needs no correction.';
    case 'no-wrench':
      return 'There is no torque wrench among the tools.';
    case 'under-range':
      return `${note.wrench} begins at ${formatTorque(note.min)}; it would have to be set to ${calculated(note.needed)}.`;
    case 'over-range':
      return `${note.wrench} ends at ${formatTorque(note.max)}; it would have to be set to ${calculated(note.needed)}.`;
    case 'rounding-outside-band':
      return `${note.wrench} has no mark within the limits; the nearest, ${formatTorque(note.nearest)}, is ${percent(note.deviation)} off.`;
    case 'square-differs':
      return `${note.wrench} has a ${note.has} square, and the socket takes ${note.needs}.`;
    case 'lever-unknown':
      return `${note.wrench} has no lever length written down, and the adapter's correction needs it.`;
    case 'arm-impossible':
      return `${note.wrench} is too short for the adapter: no pull on it would tighten.`;
    case 'crowfoot-unknown':
      return 'The crowfoot’s centre distance is not known, so the setting cannot be worked out.';
  }
}

function calculated(torque: Torque): string {
  return formatTorque({ value: spokenRounding(torque.value), unit: torque.unit });
}

function percent(value: number): string {
  return `${formatNumber(Number(Math.abs(value).toPrecision(3)))} %`;
}
