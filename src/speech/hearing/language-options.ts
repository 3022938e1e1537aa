import { defaultOptions, type HearingOptions } from './hearing.ts';
import type { HearingLanguage } from './load.ts';

/**
 * How the ear listens in a language. In French the network's layer knows few voices, so the second recogniser, which learnt from people,
 * may be taken alone where it is very sure; the margins are set on pico's voice: DEVELOPERS.md, "The French ear". What was set on English
 * voices since is left as it was.
 */
export const optionsFor: Readonly<Record<HearingLanguage, Partial<HearingOptions>>> = {
  en: {},
  fr: { perPhone: 0, judge: { ...defaultOptions.judge, alone: { most: 4, risky: 7 } } },
};
