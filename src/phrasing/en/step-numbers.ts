import type { PlannedStep } from '../../procedure/plan-types.ts';
import type { Spoken } from '../lines.ts';
import { numbers } from './numbers.ts';

/** "one two" for step 12, "A three" for the third of the first side procedure: single figures cannot be confused. */
export function stepNumber(step: PlannedStep): Spoken {
  const [, letters = '', figures = ''] = /^(\p{L}*)(\d*)$/u.exec(step.number) ?? [];
  if (figures === '') return { say: step.number, show: step.number };
  return { say: `${letters === '' ? '' : `${letters} `}${numbers.digits(Number(figures))}`, show: step.number };
}
