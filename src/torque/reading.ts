/** Something that was read and cannot be used. Text for people is made from it at the edge. */
export interface Problem<Code extends string = string> {
  readonly code: Code;
  /** Where inside what was read, such as "wrenches[2].max"; '' when all of it is meant. */
  readonly path: string;
  readonly found: string;
  readonly expected: string;
}

/** What came of reading something that a person or a file wrote. */
export type Reading<T, Code extends string = string> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem<Code> };

export function read<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export function unread<Code extends string>(
  code: Code,
  found: string,
  expected: string,
  path = '',
): { readonly ok: false; readonly problem: Problem<Code> } {
  return { ok: false, problem: { code, path, found, expected } };
}
