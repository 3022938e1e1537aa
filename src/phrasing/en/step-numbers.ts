import type { PlannedStep } from '../../procedure/plan-types.ts';
import type { Spoken } from '../lines.ts';
import { spelledStep } from '../spelled-step.ts';
import { numbers } from './numbers.ts';

/** "one two" for step 12, "A three" for the third of the first side procedure. */
export function stepNumber(step: PlannedStep): Spoken {
  return spelledStep(step.number, numbers.digits);
}
