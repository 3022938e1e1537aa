import type { UnitSpeech } from '../language.ts';
import type { UnitSymbol } from '../measure-units.ts';

/** One, several, and other names that people give it. */
const names: Readonly<Record<UnitSymbol, readonly [one: string, many: string, ...others: string[]]>> = {
  'N·m': ['newton metre', 'newton metres', 'newton meter', 'newton meters'],
  'lbf·ft': ['foot pound', 'foot pounds', 'pound feet', 'pounds feet', 'pound foot'],
  'lbf·in': ['inch pound', 'inch pounds', 'pound inches', 'pounds inches', 'pound inch'],
  'kgf·m': ['kilogram metre', 'kilogram metres', 'kilogram meters'],
  'kgf·cm': ['kilogram centimetre', 'kilogram centimetres', 'kilogram centimeters'],
  'ozf·in': ['inch ounce', 'inch ounces', 'ounce inches'],
  'daN·m': ['decanewton metre', 'decanewton metres', 'deca newton metres'],
  mm: ['millimetre', 'millimetres', 'millimeter', 'millimeters', 'mm'],
  cm: ['centimetre', 'centimetres', 'centimeter', 'centimeters', 'cm'],
  m: ['metre', 'metres', 'meter', 'meters', 'm'],
  km: ['kilometre', 'kilometres', 'kilometer', 'kilometers', 'km'],
  µm: ['micron', 'microns', 'micrometre', 'micrometres'],
  in: ['inch', 'inches', 'in'],
  ft: ['foot', 'feet', 'ft'],
  mi: ['mile', 'miles'],
  'mm²': ['square millimetre', 'square millimetres'],
  N: ['newton', 'newtons'],
  kN: ['kilonewton', 'kilonewtons'],
  MPa: ['megapascal', 'megapascals'],
  kPa: ['kilopascal', 'kilopascals'],
  Pa: ['pascal', 'pascals'],
  bar: ['bar', 'bar', 'bars'],
  psi: ['p s i', 'p s i', 'psi', 'pounds per square inch'],
  kg: ['kilogram', 'kilograms', 'kilo', 'kilos', 'kg'],
  g: ['gram', 'grams', 'g'],
  l: ['litre', 'litres', 'liter', 'liters'],
  ml: ['millilitre', 'millilitres', 'milliliters', 'ml'],
  lb: ['pound', 'pounds', 'lb'],
  V: ['volt', 'volts', 'v'],
  A: ['amp', 'amps', 'ampere', 'amperes'],
  Ω: ['ohm', 'ohms'],
  W: ['watt', 'watts'],
  '°C': ['degree celsius', 'degrees celsius', 'celsius', 'centigrade', 'degrees centigrade', 'degrees c', '°c'],
  '°F': ['degree fahrenheit', 'degrees fahrenheit', 'fahrenheit', 'degrees f', '°f'],
  '°': ['degree', 'degrees', '°'],
  '%': ['percent', 'percent', 'per cent', '%'],
  s: ['second', 'seconds', 's'],
  min: ['minute', 'minutes', 'min'],
  h: ['hour', 'hours', 'h'],
  rpm: ['r p m', 'r p m', 'rpm', 'revs', 'revolutions per minute'],
  'km/h': ['kilometre an hour', 'kilometres an hour', 'kilometres per hour'],
  Hz: ['hertz', 'hertz'],
  'N/mm': ['newton per millimetre', 'newtons per millimetre'],
  'g/cm³': ['gram per cubic centimetre', 'grams per cubic centimetre'],
};

/** "newton metres"; "newton metre" after one, and as a describing word ("a ten millimetre socket"). */
export function unitAfter(value: number, unit: UnitSymbol): string {
  return names[unit][Math.abs(value) === 1 ? 0 : 1];
}

export function unitAsDescription(unit: UnitSymbol): string {
  return names[unit][0];
}

export const units: UnitSpeech = {
  after: unitAfter,
  heard: names,
};
