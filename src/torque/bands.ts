import type { Torque, TorqueBand, TorqueUnit } from './quantities.ts';
import { parseNumber, tidy } from './numbers.ts';
import { read, unread } from './reading.ts';
import type { Reading } from './reading.ts';
import { convert, longestText, parseTorqueUnit, splitValueAndUnit } from './units.ts';
import type { TorqueTextCode } from './units.ts';

export type BandTextCode = TorqueTextCode | 'not-a-band' | 'band-below-zero' | 'range-upside-down' | 'mixed-units';

interface Deviation {
  readonly amount: number;
  readonly percent: boolean;
  readonly unit: TorqueUnit | null;
}

/**
 * Reads how far a torque may stray: "±5", "+/- 5", "±10 %", "±2 N·m", "-0/+10 N·m", "+10 -0", "±0.5 kgf·m".
 * A bare number counts in the torque's own unit. The band comes back in the torque's own unit.
 */
export function parseBand(text: string, torque: Torque): Reading<TorqueBand, BandTextCode> {
  if (text.length > longestText) return tooLong(text);
  const deviations = readDeviations(text);
  if (!deviations.ok) return deviations;
  const band = { minus: inUnitOf(torque, deviations.value.minus), plus: inUnitOf(torque, deviations.value.plus) };
  if (band.minus >= torque.value) return unread('band-below-zero', text, 'a lower limit above zero');
  return read(band);
}

/**
 * Reads a torque with or without its band: "47 lbf·ft", "47 lbf·ft ±10 %", "47 ±5 lbf·ft", "25 N·m -0/+10", "5 to 7 N·m", "5–7 N·m".
 * A range becomes its middle with an even band, since a wrench is set to one value.
 */
export function parseTorqueAndBand(text: string): Reading<{ readonly torque: Torque; readonly band: TorqueBand | null }, BandTextCode> {
  if (text.length > longestText) return tooLong(text);
  const bare = splitValueAndUnit(text);
  if (bare.ok)
    return bare.value.unit === null ? noUnit(text) : read({ torque: { value: bare.value.value, unit: bare.value.unit }, band: null });
  const range = /^(.*?[\d¼½¾⅛⅜⅝⅞].*?)(?:\s*[–—…]\s*|\s+to\s+|\s*\.\.\.?\s*|(?<=\d)\s*-\s*(?=[\d.,]+\s*[^\d\s/]))(.+)$/su.exec(text);
  if (range && !/[±+]/u.test(text)) return readRange(text, range[1] ?? '', range[2] ?? '');
  const start = text.search(/±|\+\s*\/?\s*[-−]|[-−+]\s*[\d.]/u);
  if (start < 0) return bare;
  const value = splitValueAndUnit(text.slice(0, start));
  if (!value.ok) return unread(value.problem.code, text, value.problem.expected);
  const deviations = readDeviations(text.slice(start));
  if (!deviations.ok) return unread(deviations.problem.code, text, deviations.problem.expected);
  const unit = value.value.unit ?? deviations.value.plus.unit ?? deviations.value.minus.unit;
  if (unit === null) return noUnit(text);
  const torque = { value: value.value.value, unit };
  const band = parseBand(text.slice(start), torque);
  return band.ok ? read({ torque, band: band.value }) : unread(band.problem.code, text, band.problem.expected);
}

/** The lowest and highest torque that the source allows, in the torque's own unit. */
export function limits(torque: Torque, band: TorqueBand | null): { readonly low: Torque; readonly high: Torque } {
  return {
    low: { value: tidy(torque.value - (band?.minus ?? 0)), unit: torque.unit },
    high: { value: tidy(torque.value + (band?.plus ?? 0)), unit: torque.unit },
  };
}

function tooLong(text: string): Reading<never, BandTextCode> {
  return unread('too-long', `${text.slice(0, 20)}…`, `at most ${longestText} characters`);
}

function noUnit(text: string): Reading<never, BandTextCode> {
  return unread('no-unit', text, 'a torque unit, such as N·m or lbf·ft');
}

function readRange(
  text: string,
  lowText: string,
  highText: string,
): Reading<{ readonly torque: Torque; readonly band: TorqueBand }, BandTextCode> {
  const high = splitValueAndUnit(highText);
  if (!high.ok) return unread(high.problem.code, text, high.problem.expected);
  const low = splitValueAndUnit(lowText);
  if (!low.ok) return unread(low.problem.code, text, low.problem.expected);
  const unit = high.value.unit ?? low.value.unit;
  if (unit === null) return noUnit(text);
  if (low.value.unit !== null && low.value.unit !== unit) return unread('mixed-units', text, 'both ends of the range in one unit');
  const lowest = low.value.value;
  const highest = high.value.value;
  if (lowest >= highest) return unread('range-upside-down', text, 'the lower value first');
  const half = tidy((highest - lowest) / 2);
  return read({ torque: { value: tidy((lowest + highest) / 2), unit }, band: { minus: half, plus: half } });
}

function inUnitOf(torque: Torque, deviation: Deviation): number {
  if (deviation.percent) return tidy((torque.value * deviation.amount) / 100);
  return tidy(convert({ value: deviation.amount, unit: deviation.unit ?? torque.unit }, torque.unit).value);
}

function readDeviations(text: string): Reading<{ readonly minus: Deviation; readonly plus: Deviation }, BandTextCode> {
  const trimmed = text.trim().replaceAll('−', '-');
  const even = /^(?:±|\+\s*\/?\s*-)\s*(?=[\d.,¼½¾⅛⅜⅝⅞])(.+)$/su.exec(trimmed);
  if (even) {
    const deviation = readDeviation(text, even[1] ?? '');
    return deviation.ok ? read({ minus: deviation.value, plus: deviation.value }) : deviation;
  }
  const uneven = /^([-+]?)\s*([\d.,¼½¾⅛⅜⅝⅞][^-+]*?)\s*[/,;]?\s*([-+])\s*([\d.,¼½¾⅛⅜⅝⅞].*)$/su.exec(trimmed);
  if (!uneven || uneven[1] === uneven[3]) return unread('not-a-band', text, 'a band such as "±5", "±10 %" or "-0/+10"');
  const first = readDeviation(text, uneven[2] ?? '');
  if (!first.ok) return first;
  const second = readDeviation(text, uneven[4] ?? '');
  if (!second.ok) return second;
  const [minus, plus] = uneven[3] === '+' ? [first.value, second.value] : [second.value, first.value];
  return read({ minus: withKindOf(plus, minus), plus: withKindOf(minus, plus) });
}

/** In "-0/+10 %" and "-0/+10 N·m" the unit is written once and meant twice. */
function withKindOf(other: Deviation, deviation: Deviation): Deviation {
  if (deviation.percent || deviation.unit !== null) return deviation;
  return { ...deviation, percent: other.percent, unit: other.unit };
}

function readDeviation(whole: string, text: string): Reading<Deviation, BandTextCode> {
  const match = /^([\d.,/ ¼½¾⅛⅜⅝⅞]+)(.*)$/su.exec(text.trim());
  const amount = parseNumber(match?.[1] ?? '');
  if (!amount.ok) return unread(amount.problem.code, whole, amount.problem.expected);
  const unitText = match?.[2]?.trim() ?? '';
  if (unitText === '') return read({ amount: amount.value, percent: false, unit: null });
  if (/^(?:%|per ?cent)$/iu.test(unitText)) return read({ amount: amount.value, percent: true, unit: null });
  const unit = parseTorqueUnit(unitText);
  if (!unit.ok) return unread(unit.problem.code, whole, `${unit.problem.expected}, or %`);
  return read({ amount: amount.value, percent: false, unit: unit.value });
}
