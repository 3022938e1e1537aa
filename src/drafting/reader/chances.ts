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
    before: -4.04,
    agreed: 0.3,
    ruleOnly: 0.74,
    against: -0.71,
    doubled: 0.43,
    alsoDoubled: 0.36,
    is: 1.22,
    belongs: -0.72,
    shared: -0.43,
    implied: 1.97,
    parts: 1.19,
    part: -3.03,
    times: 2.67,
    ahead: 1.35,
    again: -0.59,
    otherwise: -1.35,
    void: -0.7,
    rival: -0.23,
    ofBuild: 0.52,
    missing: -0.21,
    nameless: -1.21,
    unruled: -0.14,
    overlap: 0.31,
    twin: 0.18,
    claimed: -0.25,
    agreedBelongs: 0.02,
    agreedRule: 0.7,
    isBelongs: 0.81,
    ruleOnlyRule: 1.31,
    doubledRule: 1.0,
  },
  size: {
    before: -1.43,
    agreed: 0.19,
    ruleOnly: 0.78,
    against: -0.51,
    is: 1.66,
    belongs: -0.63,
    shared: -0.31,
    copied: -0.87,
    times: -0.09,
    ahead: 2.49,
    again: 0.04,
    otherwise: -1.99,
    void: -0.5,
    rival: -0.54,
    ofBuild: -0.38,
    missing: -0.49,
    nameless: -1.32,
    unruled: -0.57,
    overlap: -0.47,
    twin: 0.39,
    claimed: 0.24,
    rule: 0.27,
    odd: -0.43,
    agreedBelongs: -0.22,
    agreedRule: 0.45,
    isBelongs: 1.73,
    ruleOnlyRule: 0.56,
  },
  torque: {
    before: -2.41,
    agreed: -0.07,
    ruleOnly: 0.08,
    against: -0.33,
    is: 2.13,
    belongs: -1.47,
    shared: -0.71,
    copied: -0.93,
    times: -0.01,
    ahead: 2.22,
    again: 0.87,
    otherwise: -2.01,
    void: -0.66,
    rival: -0.4,
    ofBuild: 0.23,
    missing: -0.67,
    nameless: -1.18,
    unruled: -0.51,
    overlap: 0.11,
    twin: -0.13,
    claimed: 0.58,
    rule: -0.01,
    odd: -0.38,
    agreedBelongs: -0.05,
    agreedRule: 0.85,
    isBelongs: 2.03,
    ruleOnlyRule: 0.27,
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
