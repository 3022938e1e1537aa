import type { UnitSpeech } from '../language.ts';
import type { UnitSymbol } from '../measure-units.ts';

/** One, several, and other names that people give it. */
const names: Readonly<Record<UnitSymbol, readonly [one: string, many: string, ...others: string[]]>> = {
  'N·m': ['newton mètre', 'newtons mètres', 'newton mètres'],
  'lbf·ft': ['livre pied', 'livres pieds', 'pied livre', 'pieds livres'],
  'lbf·in': ['livre pouce', 'livres pouces', 'pouce livre', 'pouces livres'],
  'kgf·m': ['kilogramme mètre', 'kilogrammes mètres', 'mètre kilo', 'mètres kilos'],
  'kgf·cm': ['kilogramme centimètre', 'kilogrammes centimètres'],
  'ozf·in': ['once pouce', 'onces pouces'],
  'daN·m': ['décanewton mètre', 'décanewtons mètres', 'déca newton mètre', 'déca newtons mètres'],
  mm: ['millimètre', 'millimètres', 'mm'],
  cm: ['centimètre', 'centimètres', 'cm'],
  m: ['mètre', 'mètres', 'm'],
  km: ['kilomètre', 'kilomètres', 'km'],
  µm: ['micron', 'microns', 'micromètre', 'micromètres'],
  in: ['pouce', 'pouces'],
  ft: ['pied', 'pieds'],
  mi: ['mille anglais', 'milles anglais'],
  'mm²': ['millimètre carré', 'millimètres carrés'],
  N: ['newton', 'newtons'],
  kN: ['kilonewton', 'kilonewtons'],
  MPa: ['mégapascal', 'mégapascals'],
  kPa: ['kilopascal', 'kilopascals'],
  Pa: ['pascal', 'pascals'],
  bar: ['bar', 'bars'],
  psi: ['livre par pouce carré', 'livres par pouce carré', 'psi'],
  kg: ['kilogramme', 'kilogrammes', 'kilo', 'kilos', 'kg'],
  g: ['gramme', 'grammes', 'g'],
  l: ['litre', 'litres'],
  ml: ['millilitre', 'millilitres', 'ml'],
  lb: ['livre', 'livres'],
  V: ['volt', 'volts', 'v'],
  A: ['ampère', 'ampères'],
  Ω: ['ohm', 'ohms'],
  W: ['watt', 'watts'],
  '°C': ['degré celsius', 'degrés celsius', 'celsius', 'degrés c', '°c'],
  '°F': ['degré fahrenheit', 'degrés fahrenheit', 'fahrenheit', '°f'],
  '°': ['degré', 'degrés', '°'],
  '%': ['pour cent', 'pour cent', 'pourcent', '%'],
  s: ['seconde', 'secondes', 's'],
  min: ['minute', 'minutes', 'min'],
  h: ['heure', 'heures', 'h'],
  rpm: ['tour par minute', 'tours par minute', 'tours minute', 'tours'],
  'km/h': ['kilomètre heure', 'kilomètres heure', 'kilomètres par heure'],
  Hz: ['hertz', 'hertz'],
  'N/mm': ['newton par millimètre', 'newtons par millimètre'],
  'g/cm³': ['gramme par centimètre cube', 'grammes par centimètre cube'],
};

/** "newtons mètres"; in French the plural begins at two. */
export function unitAfter(value: number, unit: UnitSymbol): string {
  return names[unit][Math.abs(value) < 2 ? 0 : 1];
}

export const units: UnitSpeech = { after: unitAfter, heard: names };
