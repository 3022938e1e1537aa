import type { ProcedureFile } from '../../procedure/parse.ts';
import { planJob } from '../../procedure/plan.ts';
import type { Plan } from '../../procedure/plan-types.ts';
import type { TorqueUnit } from '../../torque/quantities.ts';

/** The plan for a build as a person without a crib would get it, or null while there is none. */
export function planOf(file: ProcedureFile | null, build: string, unit: TorqueUnit | null): Plan | null {
  if (file === null) return null;
  const planned = planJob(file, { build, spokenUnit: unit, crib: null, today: '' });
  return planned.ok ? planned.plan : null;
}
