import { typeset } from '../../phrasing/fr/typeset.ts';

/** French words of a screen with their spaces kept on the line, so that whoever writes them need not think of it. */
export function typesetWords<W extends object>(words: W): W {
  return Object.fromEntries(Object.entries(words).map(([key, value]) => [key, typesetValue(value)])) as W;
}

function typesetValue(value: unknown): unknown {
  if (typeof value === 'string') return typeset(value);
  if (typeof value === 'function') return (...of: unknown[]) => typesetValue((value as (...of: unknown[]) => unknown)(...of));
  if (Array.isArray(value)) return value.map(typesetValue);
  return typeof value === 'object' && value !== null ? typesetWords(value) : value;
}
