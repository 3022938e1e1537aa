import type { Spoken } from './lines.ts';

/** The figures of a step's number one by one, the letter of a side procedure before them: single figures cannot be confused. */
export function spelledStep(number: string, digits: (value: number) => string): Spoken {
  const [, letters = '', figures = ''] = /^(\p{L}*)(\d*)$/u.exec(number) ?? [];
  if (figures === '') return { say: number, show: number };
  return { say: `${letters === '' ? '' : `${letters} `}${digits(Number(figures))}`, show: number };
}
