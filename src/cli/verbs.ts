import type { Verb } from './verb.ts';

/** Every verb of the terminal face, in the order of a job's life. */
export const verbs: readonly Verb[] = [];
