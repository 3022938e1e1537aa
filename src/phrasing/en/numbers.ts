import { formatNumber } from '../../torque/numbers.ts';
import type { NumberSpeech } from '../language.ts';
import { readNumber } from './number-reader.ts';

const units = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'] as const;
const teens = ['ten', 'eleven', 'twelve', 'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen'] as const;
const tens = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const;
const thousands = ['', 'thousand', 'million', 'billion', 'trillion'] as const;
const ordinals = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
  'eleventh',
  'twelfth',
] as const;

/** "minus four seven point five" */
function digits(value: number): string {
  return Array.from(formatNumber(value), (figure) => (figure === '-' ? 'minus' : figure === '.' ? 'point' : unitAt(Number(figure)))).join(
    ' ',
  );
}

/** "minus forty-seven point five"; figures after the point are always one by one. */
function word(value: number): string {
  const [whole = '0', decimals] = formatNumber(Math.abs(value)).split('.');
  const spoken = whole.length > thousands.length * 3 ? digits(Number(whole)) : wholeInWords(Number(whole));
  const sign = value < 0 ? 'minus ' : '';
  return decimals === undefined
    ? `${sign}${spoken}`
    : `${sign}${spoken} point ${Array.from(decimals, (figure) => unitAt(Number(figure))).join(' ')}`;
}

function critical(value: number): string {
  const [apart, together] = [digits(value), word(value)];
  return apart === together ? together : `${apart}: ${together}`;
}

function plain(value: number): string {
  return isConfusable(value) ? `${digits(value)}, ${word(value)}` : word(value);
}

/** Whether a part of the number ends in a teen or in bare tens: thirteen sounds like thirty, fourteen like forty. */
export function isConfusable(value: number): boolean {
  const groups = formatNumber(Math.trunc(Math.abs(value))).match(/\d{1,3}(?=(?:\d{3})*$)/gu) ?? [];
  return groups.some((group) => {
    const end = Number(group) % 100;
    return (end >= 13 && end <= 19) || (end >= 30 && end % 10 === 0);
  });
}

/** "first" to "twelfth"; beyond that "number one three". */
export function ordinal(position: number): string {
  return ordinals[position - 1] ?? `number ${digits(position)}`;
}

function wholeInWords(value: number): string {
  if (value === 0) return units[0];
  const groups: number[] = [];
  for (let rest = value; rest > 0; rest = Math.floor(rest / 1000)) groups.push(rest % 1000);
  const parts = groups.map((group, power) => (group === 0 ? '' : `${belowThousand(group)} ${thousands[power] ?? ''}`.trim())).reverse();
  const last = groups[0] ?? 0;
  // "one thousand and four", but "one thousand two hundred and four".
  const joined = parts.filter((part) => part !== '');
  return groups.length > 1 && last > 0 && last < 100 ? `${joined.slice(0, -1).join(' ')} and ${joined.at(-1) ?? ''}` : joined.join(' ');
}

function belowThousand(value: number): string {
  if (value >= 100) {
    const rest = value % 100;
    return `${unitAt(Math.floor(value / 100))} hundred${rest === 0 ? '' : ` and ${belowThousand(rest)}`}`;
  }
  if (value >= 20) return `${tens[Math.floor(value / 10) - 2] ?? ''}${value % 10 === 0 ? '' : `-${unitAt(value % 10)}`}`;
  return value >= 10 ? (teens[value - 10] ?? '') : unitAt(value);
}

function unitAt(figure: number): string {
  return units[figure] ?? '';
}

export const numbers: NumberSpeech = { digits, word, critical, plain, read: readNumber };
