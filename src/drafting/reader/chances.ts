import type { JudgedField } from '../trust.ts';
import type { ReadSigns } from './merge.ts';

/** A value that is less likely right than this is asked about and not written. Our own choice; DEVELOPERS.md says what it costs. */
export const readTrustedFrom: Readonly<Record<JudgedField, number>> = { count: 0.65, size: 0.65, torque: 0.7 };

/** What no lot of the net has is asked about, whatever the rules trust it: our own number, below every limit above. */
export const unread = 0.4;

type Weights = { readonly before: number } & {
  readonly [Sign in keyof ReadSigns | 'agreedBelongs' | 'agreedRule' | 'isBelongs' | 'ruleOnlyRule' | 'doubledRule']?: number;
};

/** Fitted by logistic regression (`training/fit-chances.py`) to talks that the net was not trained on and no rule was written for. */
const weights: Readonly<Record<JudgedField, Weights>> = {
  count: {
    before: -1.57,
    agreed: 0.54,
    ruleOnly: 0.09,
    against: -1.16,
    is: 0.74,
    belongs: 0.16,
    shared: -1.3,
    implied: 0.89,
    parts: 0.25,
    times: 0.94,
    ahead: 1.04,
    again: -0.04,
    otherwise: -0.66,
    void: -0.69,
    rival: 0.16,
    ofBuild: -0.07,
    missing: -0.02,
    nameless: -1.22,
    unruled: -0.67,
    overlap: 0.44,
    twin: -0.15,
    claimed: -0.09,
    rule: 0.65,
    agreedBelongs: -0.11,
    agreedRule: -0.01,
    isBelongs: 0.21,
  },
  size: {
    before: -2.16,
    agreed: -0.37,
    ruleOnly: 0.7,
    against: -0.35,
    is: 1.47,
    belongs: -0.17,
    shared: -0.92,
    copied: -0.16,
    times: -0.04,
    ahead: 2.22,
    again: 0.16,
    otherwise: -0.85,
    void: -0.26,
    rival: -1.01,
    ofBuild: 0.15,
    missing: -0.12,
    nameless: -1.53,
    unruled: -0.9,
    overlap: -0.3,
    twin: -0.07,
    claimed: 0.25,
    rule: 0.58,
    agreedBelongs: -0.31,
    agreedRule: 1.06,
    isBelongs: 1.22,
  },
  torque: {
    before: -1.41,
    agreed: -0.07,
    ruleOnly: -0.76,
    against: -0.42,
    is: 1.23,
    belongs: -1.41,
    shared: 0.37,
    copied: -0.01,
    times: -0.01,
    ahead: 2.37,
    again: 0.77,
    otherwise: -1.52,
    void: -1.76,
    rival: 0.11,
    ofBuild: -0.58,
    missing: -0.78,
    nameless: -1.1,
    unruled: -1.33,
    overlap: -0.13,
    twin: -0.27,
    claimed: 0.1,
    rule: 0.69,
    agreedBelongs: -0.22,
    agreedRule: 0.57,
    isBelongs: 2.33,
  },
};

/** How likely a value is right, from 0 to 1. */
export function chanceOf(field: JudgedField, signs: ReadSigns): number {
  const { before, agreedBelongs = 0, agreedRule = 0, isBelongs = 0, ruleOnlyRule = 0, doubledRule = 0, ...own } = weights[field];
  const single = (Object.keys(own) as (keyof ReadSigns)[]).reduce((sum, sign) => sum + (own[sign] ?? 0) * signs[sign], before);
  const joint =
    signs.agreed * (agreedBelongs * signs.belongs + agreedRule * signs.rule) +
    isBelongs * signs.is * signs.belongs +
    (ruleOnlyRule * signs.ruleOnly + doubledRule * signs.doubled) * signs.rule;
  return 1 / (1 + Math.exp(-single - joint));
}
