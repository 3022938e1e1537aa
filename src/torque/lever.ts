import type { Degrees, Millimetres, Torque } from './quantities.ts';
import { tidy } from './numbers.ts';
import { read, unread } from './reading.ts';
import type { Reading } from './reading.ts';
import { convert } from './units.ts';

/** An adapter on a wrench: what the correction needs. */
export interface Arm {
  /** From the middle of the wrench's square to where the hand pulls, in mm. The force must act there (NAVEDTRA 14315). */
  readonly lever: Millimetres;
  /** From the middle of the square to the middle of the fastener, in mm. */
  readonly centre: Millimetres;
  /** Between the adapter and the lever: 0 straight out, 90 changes nothing, 180 back along the lever. */
  readonly angle: Degrees;
}

/** What the wrench reads over what the fastener gets: L/(L + E·cos θ). 1 without an adapter. Null where no pull could tighten. */
export function armFactor(arm: Arm | null): number | null {
  if (arm === null) return 1;
  const reach = arm.lever + arm.centre * cosine(arm.angle);
  return arm.lever > 0 && arm.centre >= 0 && reach > 0 ? arm.lever / reach : null;
}

/** The torque to set for a target at the fastener, T·L/(L + E·cos θ), unrounded (NAVEDTRA 14315; TM 1-1500-204-23-9). */
export function settingFor(target: Torque, arm: Arm | null): Reading<Torque, 'arm-impossible'> {
  const factor = armFactor(arm);
  if (factor === null) return unread('arm-impossible', describe(arm), 'an adapter shorter than the lever');
  return read({ value: target.value * factor, unit: target.unit });
}

/** The torque at the fastener when the wrench reads so much: the correction turned round. */
export function torqueAtFastener(setting: Torque, arm: Arm | null): Reading<Torque, 'arm-impossible'> {
  const factor = armFactor(arm);
  if (factor === null) return unread('arm-impossible', describe(arm), 'an adapter shorter than the lever');
  return read({ value: setting.value / factor, unit: setting.unit });
}

/** The target with the torque that the nut takes to turn freely added to it (AC 43.13-1B, 7-40(d)). In the target's unit. */
export function withFreeRunning(target: Torque, freeRunning: Torque): Torque {
  return { value: tidy(target.value + convert(freeRunning, target.unit).value), unit: target.unit };
}

/** Exact where a right angle makes it so: Math.cos(π/2) is 6e-17. */
function cosine(angle: Degrees): number {
  return Math.abs(angle % 180) === 90 ? 0 : Math.cos((angle * Math.PI) / 180);
}

function describe(arm: Arm | null): string {
  return arm === null ? 'no adapter' : `lever ${arm.lever} mm, adapter ${arm.centre} mm at ${arm.angle}°`;
}
