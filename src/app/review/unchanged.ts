import { canonicalJson } from '../../journal/canonical.ts';
import { sha256Hex } from '../../journal/chain.ts';

/** True when the line's hash is that of its other fields. False as well for what is no JSON object. */
export function isUnchanged(line: string): boolean {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return false;
  }
  if (typeof value !== 'object' || value === null) return false;
  const { hash, ...rest } = value as Readonly<Record<string, unknown>>;
  return sha256Hex(canonicalJson(rest)) === hash;
}
