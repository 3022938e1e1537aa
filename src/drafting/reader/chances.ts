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
    before: -1.53,
    agreed: 0.26,
    ruleOnly: -0.12,
    against: -1.26,
    is: 0.58,
    shared: -1.24,
    implied: 1.05,
    parts: 0.28,
    times: 0.86,
    ahead: 1.36,
    again: -0.23,
    otherwise: -0.53,
    void: -1.00,
    rival: 0.21,
    ofBuild: 0.08,
    missing: -0.09,
    nameless: -1.30,
    unruled: -0.59,
    overlap: 0.57,
    twin: -0.01,
    claimed: 0.05,
    rule: 0.58,
    agreedBelongs: -0.38,
    agreedRule: 0.47,
    isBelongs: 0.20,
  },
  size: {
    before: -2.29,
    agreed: -0.09,
    ruleOnly: 0.83,
    against: -0.47,
    is: 1.46,
    belongs: -0.14,
    shared: -1.04,
    copied: 0.05,
    times: -0.03,
    ahead: 2.35,
    again: -0.13,
    otherwise: -1.33,
    void: -0.37,
    rival: -0.26,
    ofBuild: 0.03,
    missing: -0.20,
    nameless: -1.89,
    unruled: -0.58,
    overlap: 0.08,
    twin: -0.12,
    claimed: 0.38,
    rule: 0.58,
    agreedBelongs: -0.40,
    agreedRule: 0.78,
    isBelongs: 1.15,
  },
  torque: {
    before: -1.39,
    agreed: 0.14,
    ruleOnly: -0.45,
    against: -0.47,
    is: 1.56,
    belongs: -1.54,
    shared: 0.20,
    copied: -0.83,
    times: -0.15,
    ahead: 2.23,
    again: 0.73,
    otherwise: -1.35,
    void: -1.60,
    rival: 0.49,
    ofBuild: -0.27,
    missing: -0.89,
    nameless: -1.36,
    unruled: -1.04,
    overlap: -0.14,
    twin: -0.32,
    claimed: -0.01,
    rule: 0.69,
    agreedBelongs: -0.33,
    agreedRule: 0.56,
    isBelongs: 1.98,
  },
};

/** How likely a value is right, from 0 to 1. */
export function chanceOf(field: JudgedField, signs: ReadSigns): number {
  const { before, agreedBelongs = 0, agreedRule = 0, isBelongs = 0, ...own } = weights[field];
  const single = (Object.keys(own) as (keyof ReadSigns)[]).reduce((sum, sign) => sum + (own[sign] ?? 0) * signs[sign], before);
  const joint = signs.agreed * (agreedBelongs * signs.belongs + agreedRule * signs.rule) + isBelongs * signs.is * signs.belongs;
  return 1 / (1 + Math.exp(-single - joint));
}
