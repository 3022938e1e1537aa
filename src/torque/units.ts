import type { NewtonMetres, Torque, TorqueUnit } from './quantities.ts';
import { torqueUnits } from './quantities.ts';
import { formatNumber, parseNumber, tidy } from './numbers.ts';
import type { NumberCode } from './numbers.ts';
import { read, unread } from './reading.ts';
import type { Reading } from './reading.ts';

/**
 * What each system's smallest unit is in newton metres. Exact decimals, from exact definitions:
 * lb = 0.45359237 kg, standard gravity 9.80665 m/s², in = 0.0254 m (NIST SP 811, appendix B.8).
 */
const newtonMetresPerBase = {
  newton: 1,
  kilogram: 0.0980665,
  pound: 0.1129848290276167 / 16,
} as const;

/** Units of one system are whole multiples of each other, so a change within a system is exact. */
const composition: Readonly<Record<TorqueUnit, { readonly system: keyof typeof newtonMetresPerBase; readonly times: number }>> = {
  'N·m': { system: 'newton', times: 1 },
  'daN·m': { system: 'newton', times: 10 },
  'kgf·cm': { system: 'kilogram', times: 1 },
  'kgf·m': { system: 'kilogram', times: 100 },
  'ozf·in': { system: 'pound', times: 1 },
  'lbf·in': { system: 'pound', times: 16 },
  'lbf·ft': { system: 'pound', times: 192 },
};

/** The torque in newton metres, exact to the last digits of a double. */
export function toNewtonMetres(torque: Torque): NewtonMetres {
  return convert(torque, 'N·m').value as NewtonMetres;
}

/** Newton metres as a torque in that unit. */
export function fromNewtonMetres(value: NewtonMetres, unit: TorqueUnit): Torque {
  return convert({ value, unit: 'N·m' }, unit);
}

/**
 * The torque in another unit, unrounded. Always hand in the torque as its source wrote it:
 * a conversion of a rounded conversion drifts.
 */
export function convert(torque: Torque, unit: TorqueUnit): Torque {
  if (torque.unit === unit) return torque;
  const from = composition[torque.unit];
  const to = composition[unit];
  if (from.system === to.system) return { value: (torque.value * from.times) / to.times, unit };
  return { value: (torque.value * from.times * newtonMetresPerBase[from.system]) / (to.times * newtonMetresPerBase[to.system]), unit };
}

/**
 * The value with as few figures as keep the error at or under 1 %: 18.439 becomes 18.4, 108.465 becomes 108.
 * For values that were converted or calculated; a source's own value is shown as it was written.
 */
export function spokenRounding(value: number): number {
  // Three figures are always enough: the error is then at most half in a hundred.
  const candidates = [1, 2, 3].map((figures) => Number(value.toPrecision(figures)));
  return candidates.find((rounded) => Math.abs(rounded - value) <= Math.abs(value) * 0.01) ?? value;
}

/** The torque as it is said and shown in that unit: the source's own value if it has that unit (or for null), else converted and rounded. */
export function shownTorque(torque: Torque, unit: TorqueUnit | null): Torque {
  if (unit === null || unit === torque.unit) return torque;
  return { value: spokenRounding(convert(torque, unit).value), unit };
}

/** "47 lbf·ft". The value is written out as it stands, without noise from binary arithmetic. */
export function formatTorque(torque: Torque): string {
  return `${formatNumber(torque.value)} ${torque.unit}`;
}

export type TorqueTextCode = NumberCode | 'no-value' | 'no-unit' | 'unknown-unit' | 'not-positive' | 'too-long';

/** Characters: longer than anybody writes a torque. It stops hostile text at the door. */
export const longestText = 80;

/** Reads "47 lbf·ft", "47 ft-lb", "90Nm", "5,5 kgf.m", "50 ozf-in", "9 daNm", "7½ foot pounds" and their like. */
export function parseTorque(text: string): Reading<Torque, TorqueTextCode> {
  const parts = splitValueAndUnit(text);
  if (!parts.ok) return parts;
  if (parts.value.unit === null) return unread('no-unit', text, `a unit after the value: ${torqueUnits.join(', ')}`);
  return read({ value: parts.value.value, unit: parts.value.unit });
}

/** A positive value with or without a torque unit behind it. */
export function splitValueAndUnit(text: string): Reading<{ readonly value: number; readonly unit: TorqueUnit | null }, TorqueTextCode> {
  if (text.length > longestText) return unread('too-long', `${text.slice(0, 20)}…`, `at most ${longestText} characters`);
  const match = /^\s*([\d.,/\u00a0\u2009\u202f ¼½¾⅛⅜⅝⅞]*(?:-\d+\/\d+)?)(.*)$/su.exec(text);
  const number = match?.[1]?.trim().replace(/[.,]$/u, '') ?? '';
  const unitText = match?.[2]?.trim() ?? '';
  if (/^[-−]\s*\d/u.test(unitText) && number === '') return unread('not-positive', text, 'a torque above zero');
  if (number === '') return unread('no-value', text, 'a value and a unit, such as "47 lbf·ft"');
  const value = parseNumber(number);
  if (!value.ok) return unread(value.problem.code, text, value.problem.expected);
  if (value.value <= 0) return unread('not-positive', text, 'a torque above zero');
  if (unitText === '') return read({ value: value.value, unit: null });
  const unit = parseTorqueUnit(unitText);
  if (!unit.ok) return unread(unit.problem.code, text, unit.problem.expected);
  return read({ value: value.value, unit: unit.value });
}

const forces = {
  daN: 'dan|de[ck]a-?newtons?',
  N: 'n|newtons?',
  lbf: 'lbsf|lbfs?|lbs?|pounds?(?:[ -]?force)?',
  kgf: 'kgsf|kgf|kgs?|kp|kiloponds?|kilos?|kilogram(?:me)?s?(?:[ -]?force)?',
  ozf: 'ozf|oz|ounces?(?:[ -]?force)?',
} as const;
const lengths = {
  m: 'm|met(?:re|er)s?',
  cm: 'cm|centimet(?:re|er)s?',
  ft: 'ft|foot|feet',
  in: 'ins?|inch(?:es)?',
} as const;
const gap = '[\\s.,·∙⋅•*×‐‑–_-]*';

/** The slash in "ft/lbs" is wrong and common, and cannot mean anything else; in "N/m" it could. Feet and inches come first as often as last. */
const unitPatterns: readonly (readonly [TorqueUnit, RegExp])[] = torqueUnits.map((unit) => {
  const [force, length] = unit.split('·') as [keyof typeof forces, keyof typeof lengths];
  const between = force === 'lbf' || force === 'ozf' ? `(?:${gap}|\\s*/\\s*)` : gap;
  const inOrder = `(?:${forces[force]})${between}(?:${lengths[length]})`;
  const reversed = `(?:${lengths[length]})${between}(?:${forces[force]})`;
  const metric = force === 'N' || force === 'daN';
  return [unit, new RegExp(`^(?:${metric ? inOrder : `${inOrder}|${reversed}`})\\.?$`, 'u')] as const;
});

/** Reads the name of a torque unit in any of its usual spellings, in figures or in words: "Nm", "ft-lbs", "inch pounds". */
export function parseTorqueUnit(text: string): Reading<TorqueUnit, 'unknown-unit'> {
  const plain = text.trim().toLowerCase();
  // "mN·m" and "MN·m" differ a billionfold and only in a capital: neither is among the units, so nothing is lost by ignoring case.
  const found = plain.length > longestText ? undefined : unitPatterns.find(([, pattern]) => pattern.test(plain));
  return found ? read(found[0]) : unread('unknown-unit', text, `a torque unit: ${torqueUnits.join(', ')}`);
}

/** A share of a torque, in the source's own unit: 30 % of 47 lbf·ft is 14.1 lbf·ft. */
export function shareOfTorque(torque: Torque, percent: number): Torque {
  return { value: tidy((torque.value * percent) / 100), unit: torque.unit };
}
