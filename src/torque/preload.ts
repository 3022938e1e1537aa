import type { Degrees, Megapascals, Millimetres, NewtonMetres, Newtons } from './quantities.ts';
import { pitchDiameter, rootDiameter, stressArea, stressDiameter } from './threads.ts';
import type { Thread } from './threads.ts';
import { proofLoad } from './strength.ts';
import type { PropertyClass } from './strength.ts';

// Everything here is calculated. None of it is a specification, and none of it may be spoken as one.

/** Coefficients of friction in the thread and under the head. */
export interface Friction {
  readonly thread: number;
  readonly head: number;
}

/** Bearing diameters under hexagon and socket heads, mm: washer face d_w and clearance hole d_h, by thread diameter (memory; the fit to VDI 2230's tables confirms them). */
const bearings: readonly (readonly [diameter: number, washerFace: number, hole: number])[] = [
  [4, 5.9, 4.5],
  [5, 6.9, 5.5],
  [6, 8.9, 6.6],
  [8, 11.6, 9],
  [10, 14.6, 11],
  [12, 16.6, 13.5],
  [14, 19.6, 15.5],
  [16, 22.5, 17.5],
  [18, 25.3, 20],
  [20, 28.2, 22],
  [22, 31.7, 24],
  [24, 33.6, 26],
];

/** D_Km = (d_w + d_h)/2 in mm; 1.3 d where no table has the size (common practice). */
export function frictionDiameter({ diameter }: Thread): Millimetres {
  const row = bearings.find(([nominal]) => nominal === diameter);
  return (row ? (row[1] + row[2]) / 2 : 1.3 * diameter) as Millimetres;
}

/** How a torque becomes a load: torque/force in mm, 0.16 P + 0.58 d2 µ_thread + µ_head D_Km/2 (VDI 2230). */
function torquePerForce(thread: Thread, friction: Friction): number {
  return 0.16 * thread.pitch + 0.58 * pitchDiameter(thread) * friction.thread + (friction.head * frictionDiameter(thread)) / 2;
}

/**
 * The preload in N at which tension and twist together use that share of the yield stress:
 * F_M = ν·Rp·As / √(1 + 3[1.5·(d2/d0)·(P/(π d2) + 1.155 µ)]²) (VDI 2230; ν is 0.9 in its tables).
 */
export function assemblyPreload(thread: Thread, yieldStress: Megapascals, friction: Friction, utilisation = 0.9): Newtons {
  const d2 = pitchDiameter(thread);
  const twist = 1.5 * (d2 / stressDiameter(thread)) * (thread.pitch / (Math.PI * d2) + 1.155 * friction.thread);
  return ((utilisation * yieldStress * stressArea(thread)) / Math.sqrt(1 + 3 * twist ** 2)) as Newtons;
}

/** The torque in N·m that makes the assembly preload of VDI 2230. */
export function assemblyTorque(thread: Thread, yieldStress: Megapascals, friction: Friction, utilisation = 0.9): NewtonMetres {
  return torqueForPreload(thread, assemblyPreload(thread, yieldStress, friction, utilisation), friction);
}

/** The torque in N·m for a preload in N (VDI 2230). */
export function torqueForPreload(thread: Thread, preload: Newtons, friction: Friction): NewtonMetres {
  return ((preload * torquePerForce(thread, friction)) / 1000) as NewtonMetres;
}

/** The preload in N that a torque in N·m makes (VDI 2230, turned round). */
export function preloadFromTorque(thread: Thread, torque: NewtonMetres, friction: Friction): Newtons {
  return ((torque * 1000) / torquePerForce(thread, friction)) as Newtons;
}

/** The share of the proof load that a preload uses; 1 is all of it. */
export function proofLoadShare(thread: Thread, strength: PropertyClass, preload: Newtons): number {
  return preload / proofLoad(thread, strength);
}

/** T = K·F·d, in N·m (Shigley, Mechanical Engineering Design, 9th ed., eq. 8-27). */
export function torqueByNutFactor(nutFactor: number, preload: Newtons, diameter: Millimetres): NewtonMetres {
  return ((nutFactor * preload * diameter) / 1000) as NewtonMetres;
}

/** F = T/(K·d), in N. */
export function preloadByNutFactor(nutFactor: number, torque: NewtonMetres, diameter: Millimetres): Newtons {
  return ((torque * 1000) / (nutFactor * diameter)) as Newtons;
}

/**
 * The torque in N·m by the mechanics of the screw, with a collar of 1.25 d:
 * T = F·[d_m/2·(tan λ + f sec α)/(1 − f tan λ sec α) + 0.625 f_c d] (Shigley, 9th ed., eq. 8-26).
 */
export function torqueByScrewMechanics(thread: Thread, preload: Newtons, friction: Friction): NewtonMetres {
  const mean = (thread.diameter + rootDiameter(thread)) / 2;
  const lead = thread.pitch / (Math.PI * mean);
  const flank = friction.thread / Math.cos(Math.PI / 6);
  const arm = ((mean / 2) * (lead + flank)) / (1 - lead * flank) + 0.625 * friction.head * thread.diameter;
  return ((preload * arm) / 1000) as NewtonMetres;
}

export const surfaceConditions = ['black', 'zinc', 'lubricated', 'cadmium', 'anti-seize'] as const;
export type SurfaceCondition = (typeof surfaceConditions)[number];

/** Nut factors K by condition of the bolt (Shigley, 9th ed., table 8-15). */
export const nutFactors: Readonly<Record<SurfaceCondition, number>> = {
  black: 0.3,
  zinc: 0.2,
  lubricated: 0.18,
  cadmium: 0.16,
  'anti-seize': 0.12,
};

/**
 * What a change of the thread's condition does, such as oil on a torque meant for dry threads.
 * `preload`: how many times the load that the same torque then makes; `torque`: how many times the torque that makes the same load.
 */
export function effectOfCondition(meantFor: SurfaceCondition, is: SurfaceCondition): { readonly preload: number; readonly torque: number } {
  const ratio = nutFactors[meantFor] / nutFactors[is];
  return { preload: ratio, torque: 1 / ratio };
}

/** How far the nut advances along the thread in a turn of so many degrees: P·θ/360, in mm. */
export function advanceOfTurn(thread: Thread, turn: Degrees): Millimetres {
  return ((thread.pitch * turn) / 360) as Millimetres;
}

/** How many degrees it takes to advance so many mm. */
export function turnForAdvance(thread: Thread, advance: Millimetres): Degrees {
  return ((advance * 360) / thread.pitch) as Degrees;
}
