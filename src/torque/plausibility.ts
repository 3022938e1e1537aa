import type { NewtonMetres, Newtons, Torque } from './quantities.ts';
import { preloadFromTorque, torqueForPreload } from './preload.ts';
import type { Friction } from './preload.ts';
import { parsePropertyClass, proofLoad } from './strength.ts';
import type { PropertyClass } from './strength.ts';
import type { Thread } from './threads.ts';
import { toNewtonMetres } from './units.ts';

export type PlausibilityVerdict = 'plausible' | 'too-low' | 'too-high' | 'impossible';

/** Why a torque is or is not one that a fastener of that thread and class could have. All of it is calculated. */
export interface Plausibility {
  readonly verdict: PlausibilityVerdict;
  /** The class it was judged by: the given one, or the weakest usual class that could take it. */
  readonly judgedBy: PropertyClass;
  /** Whether no class was given, so that the usual ones were tried. */
  readonly classAssumed: boolean;
  /** N. */
  readonly proofLoad: Newtons;
  /** N, at the usual friction. */
  readonly preload: Newtons;
  /** Preload over proof load. */
  readonly share: number;
  /** What would be plausible for this thread, in N·m. */
  readonly range: { readonly low: NewtonMetres; readonly high: NewtonMetres };
}

/** Steel as delivered, lightly oiled: the middle of VDI 2230's friction class B. */
export const usualFriction: Friction = { thread: 0.12, head: 0.12 };
/** As rough as a sound thread gets: the top of friction class B. */
const roughFriction: Friction = { thread: 0.2, head: 0.2 };

/** Below this share of the proof load a fastener is as good as loose; drain plugs and cover screws stay above it (common practice). */
const looseShare = 0.1;

/** Classes to think of where none is given; 12.9 is rare enough that a torque only it could take is worth a question. */
const usualClasses = ['8.8', '10.9'] as const;
const usualInchClasses = ['grade 5', 'grade 8'] as const;
const strongestClass = { metric: '12.9', inch: 'grade 8' } as const;

/**
 * Judges a torque by the share of the proof load that it makes. Too high: beyond the proof load at the usual friction.
 * Impossible: beyond it even on rough threads. Too low: as good as loose. Null when the class given is not known for that thread.
 * A torque that is followed by an angle is a snug torque and must not be judged low.
 */
export function plausibleTorque(thread: Thread, className: string | null, torque: Torque, followedByAngle = false): Plausibility | null {
  const classes = classesFor(thread, className);
  const [weakest] = classes;
  const strongest = className === null ? strength(thread, strongestClass[thread.system]) : classes.at(-1);
  const highest = classes.at(-1);
  if (!weakest || !highest || !strongest) return null;
  const applied = toNewtonMetres(torque);
  const preload = preloadFromTorque(thread, applied, usualFriction);
  const able = classes.find((candidate) => preload <= proofLoad(thread, candidate));
  const judgedBy = able ?? highest;
  const low = torqueForPreload(thread, (looseShare * proofLoad(thread, weakest)) as Newtons, usualFriction);
  const verdict = (): PlausibilityVerdict => {
    if (!able) return preloadFromTorque(thread, applied, roughFriction) > proofLoad(thread, strongest) ? 'impossible' : 'too-high';
    return applied < low && !followedByAngle ? 'too-low' : 'plausible';
  };
  return {
    verdict: verdict(),
    judgedBy,
    classAssumed: className === null,
    proofLoad: proofLoad(thread, judgedBy),
    preload,
    share: preload / proofLoad(thread, judgedBy),
    range: { low, high: torqueForPreload(thread, proofLoad(thread, highest), usualFriction) },
  };
}

function classesFor(thread: Thread, className: string | null): readonly PropertyClass[] {
  const names = className === null ? (thread.system === 'metric' ? usualClasses : usualInchClasses) : [className];
  return names.flatMap((name) => strength(thread, name) ?? []);
}

function strength(thread: Thread, name: string): PropertyClass | null {
  const read = parsePropertyClass(name, thread);
  return read.ok ? read.value : null;
}
