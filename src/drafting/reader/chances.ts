import type { JudgedField } from '../trust.ts';
import type { ReadSigns } from './merge.ts';

/** A value that is less likely right than this is asked about and not written. Our own choice; DEVELOPERS.md says what it costs. */
export const readTrustedFrom: Readonly<Record<JudgedField, number>> = { count: 0.6, size: 0.6, torque: 0.7 };

/** What no lot of the net has is asked about, whatever the rules trust it: our own number, below every limit above. */
export const unread = 0.4;

type Weights = { readonly before: number } & { readonly [Sign in keyof ReadSigns | 'agreedBelongs' | 'agreedRule' | 'isBelongs']?: number };

/** Fitted by logistic regression (`training/fit-chances.py`) to talks that the net was not trained on and no rule was written for. */
const weights: Readonly<Record<JudgedField, Weights>> = {
  count: {
    before: -0.43,
    agreed: 0.04,
    ruleOnly: -0.41,
    against: -1.18,
    is: 0.02,
    belongs: -0.1,
    shared: -1.23,
    implied: -0.27,
    parts: -0.42,
    times: 0.52,
    missing: -0.27,
    nameless: -1.07,
    unruled: -1.23,
    overlap: 0.49,
    twin: -0.04,
    claimed: -0.09,
    rule: 0.49,
    agreedBelongs: -0.12,
    agreedRule: 0.94,
    isBelongs: 0.82,
  },
  size: {
    before: -2.29,
    agreed: -0.64,
    ruleOnly: -0.18,
    against: -0.31,
    is: 0.61,
    belongs: 0.05,
    shared: -0.99,
    copied: 0.52,
    times: -0.01,
    missing: 0.02,
    nameless: -1.94,
    unruled: -0.64,
    overlap: 0.8,
    twin: -0.11,
    claimed: -0.01,
    rule: 0.84,
    agreedBelongs: -0.15,
    agreedRule: 1.58,
    isBelongs: 1.94,
  },
  torque: {
    before: -0.98,
    agreed: -0.12,
    ruleOnly: 0.15,
    against: -0.85,
    is: 0.25,
    belongs: -1.16,
    shared: 0.01,
    copied: 0.57,
    times: -0.04,
    missing: -0.46,
    nameless: -1.79,
    unruled: -1.59,
    overlap: 0.38,
    twin: -0.13,
    claimed: 0.05,
    rule: 0.87,
    agreedBelongs: -0.56,
    agreedRule: 1.02,
    isBelongs: 2.74,
  },
};

/** How likely a value is right, from 0 to 1. */
export function chanceOf(field: JudgedField, signs: ReadSigns): number {
  const { before, agreedBelongs = 0, agreedRule = 0, isBelongs = 0, ...own } = weights[field];
  const single = (Object.keys(own) as (keyof ReadSigns)[]).reduce((sum, sign) => sum + (own[sign] ?? 0) * signs[sign], before);
  const joint = signs.agreed * (agreedBelongs * signs.belongs + agreedRule * signs.rule) + isBelongs * signs.is * signs.belongs;
  return 1 / (1 + Math.exp(-single - joint));
}
