import type { JudgedField } from '../trust.ts';
import type { ReadSigns } from './signs.ts';

/** A value that is less likely right than this is asked about and not written. Our own choice; DEVELOPERS.md says what it costs. */
export const readTrustedFrom: Readonly<Record<JudgedField, number>> = { count: 0.55, size: 0.5, torque: 0.6 };

/** Signs that say more together than each by itself; as JOINT in `training/fit-chances.py`. */
const joint = {
  agreedBelongs: ['agreed', 'belongs'],
  agreedRule: ['agreed', 'rule'],
  isBelongs: ['is', 'belongs'],
  ruleOnlyRule: ['ruleOnly', 'rule'],
  doubledRule: ['doubled', 'rule'],
} as const;

type Weights = Readonly<Record<'before', number> & Partial<Record<keyof ReadSigns | keyof typeof joint, number>>>;

/** Fitted by logistic regression (`training/fit-chances.py`) to talks that the net was not trained on and no rule was written for. */
const weights: Readonly<Record<JudgedField, Weights>> = {
  count: {
    before: -4.14,
    agreed: 0.28,
    ruleOnly: 0.79,
    against: -0.61,
    doubled: 0.44,
    alsoDoubled: 0.4,
    is: 1.21,
    belongs: -0.66,
    shared: -0.7,
    implied: 1.75,
    parts: 0.97,
    part: -2.82,
    times: 2.53,
    ahead: 0.99,
    again: -0.62,
    otherwise: -1.31,
    void: -0.54,
    rival: 0.15,
    ofBuild: 0.49,
    missing: -0.28,
    nameless: -1.2,
    unruled: 0.23,
    overlap: 0.56,
    twin: 0.19,
    claimed: -0.36,
    rule: 0.04,
    agreedBelongs: -0.3,
    agreedRule: 1.04,
    isBelongs: 1.14,
    ruleOnlyRule: 1.27,
    doubledRule: 0.99,
  },
  size: {
    before: -2.16,
    agreed: 0.16,
    ruleOnly: 0.76,
    against: -0.68,
    is: 1.12,
    belongs: 0.31,
    shared: 0.09,
    copied: -0.55,
    times: -0.03,
    ahead: 1.42,
    again: 0.41,
    otherwise: -2.14,
    void: -0.31,
    rival: -1.32,
    ofBuild: 0.31,
    missing: -0.42,
    nameless: -1.43,
    unruled: 0.02,
    overlap: 0.1,
    twin: 0.23,
    claimed: -0.21,
    rule: 0.34,
    odd: -0.49,
    agreedBelongs: -0.54,
    agreedRule: 0.86,
    isBelongs: 1.79,
    ruleOnlyRule: 0.67,
  },
  torque: {
    before: -2.41,
    agreed: -0.07,
    ruleOnly: 0.75,
    against: -0.23,
    is: 1.24,
    belongs: -1.16,
    shared: -0.21,
    copied: -0.15,
    times: -0.02,
    ahead: 1.35,
    again: 1.13,
    otherwise: -2.17,
    void: -1.33,
    rival: -0.45,
    ofBuild: 0.79,
    missing: -0.86,
    nameless: -0.76,
    unruled: -0.2,
    overlap: 0.49,
    twin: -0.02,
    claimed: -0.29,
    rule: -0.13,
    odd: -0.47,
    agreedBelongs: -0.19,
    agreedRule: 0.99,
    isBelongs: 2.77,
    ruleOnlyRule: 0.81,
  },
};

/** How likely a value is right, from 0 to 1. */
export function chanceOf(field: JudgedField, signs: ReadSigns): number {
  const { before, ...own } = weights[field];
  const sum = (Object.keys(own) as (keyof typeof own)[]).reduce((all, name) => all + (own[name] ?? 0) * signOf(signs, name), before);
  return 1 / (1 + Math.exp(-sum));
}

function signOf(signs: ReadSigns, name: keyof ReadSigns | keyof typeof joint): number {
  if (!isJoint(name)) return signs[name];
  const [one, other] = joint[name];
  return signs[one] * signs[other];
}

const isJoint = (name: string): name is keyof typeof joint => Object.hasOwn(joint, name);
