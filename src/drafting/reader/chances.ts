import type { JudgedField } from '../trust.ts';
import type { ReadSigns } from './merge.ts';

/** A value that is less likely right than this is asked about and not written. Our own choice; DEVELOPERS.md says what it costs. */
export const readTrustedFrom: Readonly<Record<JudgedField, number>> = { count: 0.65, size: 0.6, torque: 0.65 };

/** What no lot of the net has is asked about, whatever the rules trust it: our own number, below every limit above. */
export const unread = 0.4;

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
    before: -2.41,
    agreed: 0.39,
    ruleOnly: 0.35,
    against: -0.91,
    doubled: 0.62,
    is: 1.48,
    belongs: -0.9,
    shared: -1.21,
    implied: 1.7,
    parts: -0.03,
    times: 1.36,
    ahead: 1.36,
    again: -0.29,
    otherwise: -0.36,
    void: -0.63,
    rival: -0.14,
    ofBuild: 0.26,
    missing: -0.16,
    nameless: -0.8,
    unruled: -0.18,
    overlap: 0.15,
    twin: 0.13,
    claimed: -0.17,
    rule: 0.76,
    agreedBelongs: 0.08,
    agreedRule: 0.03,
    isBelongs: 0.63,
    ruleOnlyRule: 0.75,
    doubledRule: 1.07,
  },
  size: {
    before: -2.12,
    agreed: 0.11,
    ruleOnly: 0.45,
    against: -0.2,
    is: 0.74,
    belongs: -0.03,
    shared: -0.95,
    copied: -0.03,
    times: -0.02,
    ahead: 2.21,
    again: 0.67,
    otherwise: -1.52,
    void: -0.48,
    rival: -0.43,
    ofBuild: 0.44,
    missing: -0.35,
    nameless: -0.94,
    unruled: -0.09,
    overlap: -0.1,
    twin: 0.32,
    claimed: 0.37,
    rule: 0.4,
    agreedBelongs: -0.3,
    agreedRule: 0.66,
    isBelongs: 1.21,
    ruleOnlyRule: 0.3,
  },
  torque: {
    before: -1.66,
    agreed: 0.13,
    ruleOnly: -0.05,
    against: -0.41,
    is: 0.92,
    belongs: -1.7,
    shared: -0.06,
    copied: 0.21,
    times: -0.19,
    ahead: 2.43,
    again: 1.01,
    otherwise: -1.56,
    void: -1.03,
    rival: 0.27,
    ofBuild: 0.13,
    missing: -1.01,
    nameless: -1.03,
    unruled: -0.64,
    overlap: 0.39,
    twin: -0.05,
    claimed: 0.27,
    rule: 0.44,
    agreedBelongs: 0.1,
    agreedRule: 0.24,
    isBelongs: 2.12,
    ruleOnlyRule: 0.15,
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
