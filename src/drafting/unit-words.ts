import type { TorqueUnit } from '../torque/quantities.ts';
import { tableOf } from '../torque/table.ts';
import { bare, marked } from './sentence-view.ts';
import type { Token } from './tokens.ts';

export const oneOf = (words: string) => new Set(words.split(' '));

const feet = oneOf('foot feet ft');
export const inches = oneOf('inch inches in');
export const pounds = oneOf('pound pounds lb lbs lbf');
const metres = oneOf('metre metres meter meters m');
const centimetres = oneOf('centimetre centimetres centimeter centimeters cm');
const kilograms = oneOf('kilogram kilograms kilo kilos kg kgs kgf kp kilopond kiloponds');
const ounces = oneOf('ounce ounces oz ozf');
export const millimetres = oneOf('mm mil mils mill mills millimeter millimeters millimetre millimetres millie millies');

/** A torque unit in words or letters at that token. */
export function readTorqueUnit(tokens: readonly Token[], at: number): { readonly unit: TorqueUnit | null; readonly length: number } | null {
  const first = bare(tokens, at);
  const second = marked(tokens, at) ? '' : bare(tokens, at + 1);
  const pair = (unit: TorqueUnit) => ({ unit, length: 2 });
  if (first === 'nm') return { unit: 'N·m', length: 1 };
  if (first === 'danm') return { unit: 'daN·m', length: 1 };
  if (/^(?:newtons?|newt|n)$/.test(first) && metres.has(second)) return pair('N·m');
  if (/^newtons?$/.test(first)) return { unit: 'N·m', length: 1 };
  if (/^(?:dan|decanewtons?|dekanewtons?)$/.test(first) && metres.has(second)) return pair('daN·m');
  if (feet.has(first) && pounds.has(second)) return pair('lbf·ft');
  if (inches.has(first) && pounds.has(second)) return pair('lbf·in');
  if (pounds.has(first) && (feet.has(second) || second === 'foot')) return pair('lbf·ft');
  if (
    pounds.has(first) &&
    (second === 'inch' || second === 'inches' || (second === 'in' && first.startsWith('lb') && endsHere(tokens, at + 1)))
  )
    return pair('lbf·in');
  if (kilograms.has(first) && metres.has(second)) return pair('kgf·m');
  if (kilograms.has(first) && centimetres.has(second)) return pair('kgf·cm');
  if (inches.has(first) && ounces.has(second)) return pair('ozf·in');
  if (ounces.has(first) && (second === 'inch' || second === 'inches')) return pair('ozf·in');
  return pounds.has(first) ? { unit: null, length: 1 } : null;
}

const endsHere = (tokens: readonly Token[], index: number) => marked(tokens, index) || index + 1 >= tokens.length;

export const timeUnits: Readonly<Record<string, number>> = tableOf<number>({
  second: 1,
  seconds: 1,
  minute: 60,
  minutes: 60,
  min: 60,
  mins: 60,
  hour: 3600,
  hours: 3600,
});
export const others: Readonly<Record<string, string>> = tableOf<string>({
  quart: 'volume',
  quarts: 'volume',
  pint: 'volume',
  pints: 'volume',
  litre: 'volume',
  litres: 'volume',
  liter: 'volume',
  liters: 'volume',
  gallon: 'volume',
  gallons: 'volume',
  cc: 'volume',
  ml: 'volume',
  millilitres: 'volume',
  milliliters: 'volume',
  psi: 'pressure',
  bar: 'pressure',
  kilos: 'weight',
  kilo: 'weight',
  kg: 'weight',
  kilograms: 'weight',
  ton: 'weight',
  tons: 'weight',
  tonne: 'weight',
  tonnes: 'weight',
  ounces: 'weight',
  ounce: 'weight',
  grams: 'weight',
  gram: 'weight',
  volts: 'volts',
  volt: 'volts',
  amps: 'amps',
  percent: 'percent',
  rpm: 'speed',
  mph: 'speed',
  years: 'time',
  year: 'time',
  months: 'time',
  month: 'time',
  bucks: 'money',
  dollars: 'money',
  quid: 'money',
  times: 'times',
  centimeters: 'length',
  centimetres: 'length',
  cm: 'length',
  metres: 'length',
  meters: 'length',
  metre: 'length',
  meter: 'length',
  feet: 'length',
  foot: 'length',
  yards: 'length',
  thou: 'length',
  thousandths: 'length',
  celsius: 'temperature',
  fahrenheit: 'temperature',
  threads: 'threads',
  thread: 'threads',
  flats: 'flats',
  flat: 'flats',
  speed: 'gears',
  cylinder: 'cylinders',
  cylinders: 'cylinders',
  "o'clock": 'clock',
  oclock: 'clock',
  man: 'people',
  people: 'people',
  guys: 'people',
  person: 'people',
  post: 'posts',
});
