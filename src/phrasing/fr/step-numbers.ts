import type { PlannedStep } from '../../procedure/plan-types.ts';
import type { Spoken } from '../lines.ts';
import { spelledStep } from '../spelled-step.ts';
import { numbers } from './numbers.ts';

/** "un deux" for step 12. */
export function stepNumber(step: PlannedStep): Spoken {
  return spelledStep(step.number, numbers.digits);
}
