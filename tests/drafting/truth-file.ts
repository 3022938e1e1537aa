import type { TruthRow } from './scoring.ts';

export type ReadTruth = { readonly ok: true; readonly rows: readonly TruthRow[] } | { readonly ok: false; readonly problem: string };

const fields = ['match', 'count', 'size', 'sizeUnit', 'drive', 'torque', 'unit', 'build'];

/** Reads a NAME.truth.json; the problem names the entry, what was found and what was expected. */
export function readTruth(text: string): ReadTruth {
  let rows: unknown;
  try {
    rows = JSON.parse(text);
  } catch (error) {
    return { ok: false, problem: `not JSON: ${error instanceof Error ? error.message : String(error)}` };
  }
  if (!Array.isArray(rows)) return { ok: false, problem: `expected a list of entries with "match", found ${typeof rows}.` };
  for (const [index, row] of rows.entries()) {
    const problem = problemOf(row);
    if (problem !== null) return { ok: false, problem: `entry ${index + 1}: ${problem}` };
  }
  return { ok: true, rows: rows as readonly TruthRow[] };
}

function problemOf(row: unknown): string | null {
  if (typeof row !== 'object' || row === null || Array.isArray(row))
    return `expected an object with "match", found ${JSON.stringify(row)}.`;
  const entry = row as Record<string, unknown>;
  const unknown = Object.keys(entry).find((key) => !fields.includes(key));
  if (unknown !== undefined) return `unknown field "${unknown}", expected ${fields.join(', ')}.`;
  if (typeof entry['match'] !== 'string' || entry['match'].trim() === '') return 'expected "match", the words that name the group.';
  const { count, torque } = entry;
  if (count != null && !(Number.isInteger(count) && Number(count) > 0))
    return `count: expected a whole number, found ${JSON.stringify(count)}.`;
  const number = (value: unknown) => typeof value === 'number' && Number.isFinite(value);
  const range = Array.isArray(torque) && torque.length === 2 && torque.every(number);
  const written = typeof torque === 'string' && /^\d+(?:\.\d+)?(?:\s*(?:[-–]|to)\s*\d+(?:\.\d+)?)?$/.test(torque.trim());
  if (torque != null && !number(torque) && !range && !written)
    return `torque: expected a number, [low, high] or "5-7", found ${JSON.stringify(torque)}.`;
  return null;
}
