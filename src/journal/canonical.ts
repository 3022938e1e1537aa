/**
 * The one way to write a value as JSON: keys sorted, no spaces, numbers as ECMAScript writes them (RFC 8785, JSON Canonicalization
 * Scheme). Anybody can check a hash made over it with an ordinary tool. Throws on what JSON cannot carry: a bug of the caller.
 */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new TypeError(`JSON has no ${value}`);
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value === 'object') {
    const entries = Object.entries(value).filter(([, entry]) => entry !== undefined);
    // Plain comparison orders by UTF-16 code unit, as the standard asks; localeCompare would not.
    entries.sort(([one], [other]) => (one < other ? -1 : 1));
    return `{${entries.map(([key, entry]) => `${JSON.stringify(key)}:${canonicalJson(entry)}`).join(',')}}`;
  }
  throw new TypeError(`JSON has no ${typeof value}`);
}
