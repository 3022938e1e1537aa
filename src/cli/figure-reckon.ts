import { emptyCrib } from '../torque/crib.ts';
import { settingFor } from '../torque/lever.ts';
import { plausibleTorque } from '../torque/plausibility.ts';
import type { Plausibility } from '../torque/plausibility.ts';
import { assemblyPreload, preloadFromTorque, torqueForPreload } from '../torque/preload.ts';
import type { Torque, TorqueBand, TorqueUnit } from '../torque/quantities.ts';
import { parsePropertyClass, proofLoad } from '../torque/strength.ts';
import type { PropertyClass } from '../torque/strength.ts';
import { stressArea } from '../torque/threads.ts';
import type { Thread } from '../torque/threads.ts';
import { convert, fromNewtonMetres, shownTorque, toNewtonMetres } from '../torque/units.ts';
import { tryWrench } from '../torque/wrench.ts';
import type { WrenchChoice } from '../torque/wrench.ts';
import type { Asked, Complaint } from './figure-options.ts';

export const notSpecification = 'Calculated figures are no specification: the maker’s manual gives that.';

/** The answer, as `--json` prints it. */
export interface Figures {
  readonly source: { readonly torque: Torque; readonly band: TorqueBand | null } | null;
  readonly conversions: readonly { readonly exact: Torque; readonly shown: Torque }[];
  /** What to set with the adapter, before rounding to a mark. */
  readonly setting: Torque | null;
  readonly wrench: WrenchChoice | null;
  readonly thread: ThreadFigures | null;
  readonly plausibility: Plausibility | null;
  readonly calculated: readonly string[];
  readonly note: string;
}

export interface ThreadFigures {
  readonly designation: string;
  readonly stressArea: number;
  readonly friction: number;
  /** One for each class: the given one, or the usual ones. */
  readonly classes: readonly {
    readonly name: string;
    readonly proofLoad: number;
    readonly assemblyPreload: number;
    readonly assemblyTorque: Torque;
  }[];
  /** What the given torque makes, in N; null without one. */
  readonly preload: number | null;
}

/** Works out everything that was asked for. */
export function reckon({ torque, band, to, arm, wrench, thread, strength, friction }: Asked): Figures | Complaint {
  const setting = torque && arm ? settingFor(torque, arm) : null;
  if (setting?.ok === false) return { complaint: `found ${setting.problem.found}, expected ${setting.problem.expected}` };
  const task = { adapter: arm, square: null, today: '2000-01-01' };
  const tried = torque && wrench ? tryWrench(wrench, torque, band, emptyCrib, task) : null;
  const threadFigures = thread ? reckonThread(thread, strength, friction, torque, to[0] ?? torque?.unit ?? 'N·m') : null;
  const calculated = [
    ...(to.length > 0 ? ['conversions'] : []),
    ...(setting ? ['setting'] : []),
    ...(tried ? ['wrench'] : []),
    ...(threadFigures ? ['thread'] : []),
    ...(torque && thread ? ['plausibility'] : []),
  ];
  return {
    source: torque ? { torque, band } : null,
    conversions: torque ? to.map((unit) => ({ exact: convert(torque, unit), shown: shownTorque(torque, unit) })) : [],
    setting: setting?.value ?? null,
    wrench: tried,
    thread: threadFigures,
    plausibility: torque && thread ? plausibleTorque(thread, strength?.name ?? null, torque) : null,
    calculated,
    note: notSpecification,
  };
}

function reckonThread(
  thread: Thread,
  strength: PropertyClass | null,
  friction: number,
  torque: Torque | null,
  unit: TorqueUnit,
): ThreadFigures {
  const both = { thread: friction, head: friction };
  const usual = thread.system === 'metric' ? ['8.8', '10.9', '12.9'] : ['grade 2', 'grade 5', 'grade 8'];
  const classes = strength
    ? [strength]
    : usual.flatMap((name) => {
        const read = parsePropertyClass(name, thread);
        return read.ok ? [read.value] : [];
      });
  return {
    designation: thread.designation,
    stressArea: stressArea(thread),
    friction,
    classes: classes.map((of) => {
      const preload = assemblyPreload(thread, of.yieldStress, both);
      return {
        name: of.name,
        proofLoad: proofLoad(thread, of),
        assemblyPreload: preload,
        assemblyTorque: fromNewtonMetres(torqueForPreload(thread, preload, both), unit),
      };
    }),
    preload: torque ? preloadFromTorque(thread, toNewtonMetres(torque), both) : null,
  };
}
