import { formatNumber } from '../../torque/numbers.ts';
import type { NumberSpeech } from '../language.ts';
import { readNumber } from './number-reader.ts';

const figures = ['zéro', 'un', 'deux', 'trois', 'quatre', 'cinq', 'six', 'sept', 'huit', 'neuf'] as const;
const teens = ['dix', 'onze', 'douze', 'treize', 'quatorze', 'quinze', 'seize', 'dix-sept', 'dix-huit', 'dix-neuf'] as const;
const tens = ['', '', 'vingt', 'trente', 'quarante', 'cinquante', 'soixante', 'soixante', 'quatre-vingt', 'quatre-vingt'] as const;
const large = ['', 'mille', 'million', 'milliard'] as const;
const ordinals = [
  'première',
  'deuxième',
  'troisième',
  'quatrième',
  'cinquième',
  'sixième',
  'septième',
  'huitième',
  'neuvième',
  'dixième',
] as const;

/** "moins quatre sept virgule cinq" */
function digits(value: number): string {
  return Array.from(formatNumber(value), (sign) => (sign === '-' ? 'moins' : sign === '.' ? 'virgule' : figureAt(Number(sign)))).join(' ');
}

/** "moins quarante-sept virgule cinq"; figures after the comma are always one by one. */
function word(value: number): string {
  const [whole = '0', decimals] = formatNumber(Math.abs(value)).split('.');
  const spoken = whole.length > large.length * 3 ? digits(Number(whole)) : wholeInWords(Number(whole));
  const sign = value < 0 ? 'moins ' : '';
  return decimals === undefined
    ? `${sign}${spoken}`
    : `${sign}${spoken} virgule ${Array.from(decimals, (sign) => figureAt(Number(sign))).join(' ')}`;
}

function critical(value: number): string {
  const [apart, together] = [digits(value), word(value)];
  return apart === together ? together : `${apart} : ${together}`;
}

function plain(value: number): string {
  return isConfusable(value) ? `${digits(value)}, ${word(value)}` : word(value);
}

/** Whether a part of the number sounds like another: treize and seize, trente and its like, and all from soixante on, where ten more sounds alike. */
export function isConfusable(value: number): boolean {
  const groups = formatNumber(Math.trunc(Math.abs(value))).match(/\d{1,3}(?=(?:\d{3})*$)/gu) ?? [];
  return groups.some((group) => {
    const end = Number(group) % 100;
    return (end >= 13 && end <= 19) || end >= 60 || (end >= 30 && end % 10 === 0);
  });
}

/** "première" to "dixième"; beyond that "numéro un trois". Feminine, as for "passe" and "étape". */
export function ordinal(position: number): string {
  return ordinals[position - 1] ?? `numéro ${digits(position)}`;
}

function wholeInWords(value: number): string {
  if (value === 0) return figures[0];
  const groups: number[] = [];
  for (let rest = value; rest > 0; rest = Math.floor(rest / 1000)) groups.push(rest % 1000);
  return groups
    .map((group, power) => groupInWords(group, power))
    .reverse()
    .filter((part) => part !== '')
    .join(' ');
}

function groupInWords(group: number, power: number): string {
  const name = large[power] ?? '';
  if (group === 0) return '';
  if (power === 0) return belowThousand(group, true);
  // "mille" takes no "un" and no plural, and takes the plural from "cents" and "quatre-vingts" before it.
  if (power === 1) return group === 1 ? name : `${belowThousand(group, false)} ${name}`;
  return `${belowThousand(group, true)} ${name}${group > 1 ? 's' : ''}`;
}

function belowThousand(value: number, last: boolean): string {
  const [hundreds, rest] = [Math.floor(value / 100), value % 100];
  if (hundreds === 0) return belowHundred(rest, last);
  const hundred = hundreds === 1 ? 'cent' : `${figureAt(hundreds)} cent${rest === 0 && last ? 's' : ''}`;
  return rest === 0 ? hundred : `${hundred} ${belowHundred(rest, last)}`;
}

function belowHundred(value: number, last: boolean): string {
  if (value < 10) return figureAt(value);
  if (value < 20) return teens[value - 10] ?? '';
  const ten = Math.floor(value / 10);
  const name = tens[ten] ?? '';
  const rest = ten === 7 || ten === 9 ? value % 20 : value % 10;
  if (rest === 0) return ten === 8 && last ? `${name}s` : name;
  const spoken = rest < 10 ? figureAt(rest) : (teens[rest - 10] ?? '');
  return (rest === 1 || rest === 11) && ten < 8 ? `${name} et ${spoken}` : `${name}-${spoken}`;
}

function figureAt(figure: number): string {
  return figures[figure] ?? '';
}

export const numbers: NumberSpeech = { digits, word, critical, plain, read: readNumber };
