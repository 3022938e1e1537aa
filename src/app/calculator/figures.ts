import type { Language } from '../../phrasing/language.ts';
import { parseNumber } from '../../torque/numbers.ts';
import type { Torque } from '../../torque/quantities.ts';

/** Four figures: enough to check by hand, too few to look measured. */
export const figure = (value: number, language: Language, digits = 4): string =>
  new Intl.NumberFormat(language, { maximumSignificantDigits: digits, useGrouping: false }).format(value);

export const torqueText = ({ value, unit }: Torque, language: Language, digits = 4): string => `${figure(value, language, digits)} ${unit}`;

export const kilonewtons = (newtons: number, language: Language): string => `${figure(newtons / 1000, language)} kN`;

/** The number that was typed, if it lies between the two; null otherwise. */
export function numberBetween(text: string, low: number, high: number): number | null {
  const read = parseNumber(text.trim());
  return read.ok && read.value >= low && read.value <= high ? read.value : null;
}

export function wholeBetween(text: string, low: number, high: number): number | null {
  const value = numberBetween(text, low, high);
  return value !== null && Number.isInteger(value) ? value : null;
}
