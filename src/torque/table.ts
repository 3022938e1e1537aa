/**
 * A table to look words up in that come from outside. A plain object would answer "constructor" and its like with what it inherits.
 */
export function tableOf<T>(entries: Readonly<Record<string, T>>): Readonly<Record<string, T>> {
  return Object.assign(Object.create(null) as Record<string, T>, entries);
}
