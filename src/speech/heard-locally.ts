import type { HearingLanguage } from './hearing/load.ts';

/** Primary tags of the languages that the recogniser on this device has a model for. */
export const heardLocally = ['en', 'fr'] as const satisfies readonly HearingLanguage[];

/** Those whose model has been tried on too few voices to be taken unless the person chooses it by hand. */
export const onTrial: readonly string[] = ['fr'];

/** Those in which it can get used to one person. */
export const learntLocally: readonly string[] = ['en'];
