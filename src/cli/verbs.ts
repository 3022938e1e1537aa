import { check } from './check.ts';
import { rehearse } from './rehearse.ts';
import type { Verb } from './verb.ts';

/** Every verb of the terminal face, in the order of a job's life. */
export const verbs: readonly Verb[] = [rehearse, check];
