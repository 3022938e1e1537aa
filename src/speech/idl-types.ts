/** What the Web IDL binding makes of a value before an attribute or argument of type DOMString sees it. */
export function toDOMString(value: unknown): string {
  // `concat` converts as the binding does: it calls toString and throws for symbols.
  return ''.concat(value as string);
}

export function toBoolean(value: unknown): boolean {
  return Boolean(value);
}
