import { read, unread } from './reading.ts';
import type { Reading } from './reading.ts';

export type NumberCode = 'not-a-number' | 'ambiguous-number';

const vulgarFractions: Readonly<Record<string, number>> = {
  '¼': 0.25,
  '½': 0.5,
  '¾': 0.75,
  '⅛': 0.125,
  '⅜': 0.375,
  '⅝': 0.625,
  '⅞': 0.875,
};

const grouped = /^\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?:[.,]\d+)?$/u;
const plain = /^(?:\d+(?:[.,]\d+)?|[.,]\d+)$/u;
const mixed = /^(?:(\d+)(?:[ -]+))?(\d+)\/(\d+)$/u;
const vulgar = /^(\d*)\s*([¼½¾⅛⅜⅝⅞])$/u;

/**
 * Reads an unsigned number as people write it in a workshop: "47", "5.5", "5,5", "1 200", "7 1/2", "7½".
 * "1,200" is refused: it is 1200 in one country and 1.2 in the next, and a wrong torque must not be guessed.
 */
export function parseNumber(text: string): Reading<number, NumberCode> {
  const trimmed = text.trim();
  const fraction = parseFraction(trimmed);
  if (fraction !== null) return read(fraction);
  if (!plain.test(trimmed) && !grouped.test(trimmed)) return unread('not-a-number', text, 'a number such as 47 or 5.5');
  if (/^[1-9]\d{0,2},\d{3}$/u.test(trimmed)) {
    return unread('ambiguous-number', text, 'decimals after a point, and nothing (or a space) between thousands');
  }
  return read(Number(trimmed.replace(/[^\d.,]/gu, '').replace(',', '.')));
}

function parseFraction(text: string): number | null {
  const sign = vulgar.exec(text);
  if (sign) return Number(sign[1] || 0) + (vulgarFractions[sign[2] ?? ''] ?? 0);
  const slash = mixed.exec(text);
  if (!slash || Number(slash[3]) === 0) return null;
  return Number(slash[1] ?? 0) + Number(slash[2]) / Number(slash[3]);
}

/** Takes the noise of binary arithmetic off a result: 14.100000000000001 becomes 14.1. Twelve figures stay. */
export function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

/** Writes a number for people: at most twelve figures, no exponent, no trailing zeros. */
export function formatNumber(value: number): string {
  const text = String(tidy(value));
  return text.includes('e')
    ? tidy(value)
        .toFixed(15)
        .replace(/\.?0+$/u, '')
    : text;
}
