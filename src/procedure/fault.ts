import type { ProblemCode } from './problem.ts';

/** Something wrong in a procedure that fits the format, by its way through the procedure. `plan.ts` and `lint.ts` add the place in the file. */
export interface Fault {
  readonly code: ProblemCode;
  readonly path: readonly (string | number)[];
  readonly found: string;
  readonly expected: string;
}
