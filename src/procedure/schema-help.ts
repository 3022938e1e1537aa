import type { KeyPath } from './plain-tree.ts';

/** A JSON Schema, as far as this reads it. */
export interface Schema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly description?: string;
  readonly type?: string;
  readonly const?: string | number | boolean | null;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly patternProperties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
}

export interface KeyHelp {
  readonly key: string;
  readonly about: string;
  readonly required: boolean;
  readonly holds: 'value' | 'entry' | 'list';
}

/** What may be written at places of a file, from its JSON Schema. */
export interface SchemaHelp {
  /** The keys of the entry at a path, in the schema's order. */
  readonly keysAt: (path: KeyPath) => readonly KeyHelp[];
  /** The fixed values that may stand at a path. */
  readonly valuesAt: (path: KeyPath) => readonly string[];
  /** What the schema says of a path, or null. */
  readonly aboutAt: (path: KeyPath) => string | null;
  /** Whether the value at a path may differ by build. */
  readonly variesByBuild: (path: KeyPath) => boolean;
}

export function schemaHelp(root: Schema): SchemaHelp {
  const resolved = (schema: Schema): readonly Schema[] => {
    if (schema.$ref !== undefined) {
      const found = root.$defs?.[decodeURIComponent(schema.$ref.replace('#/$defs/', ''))];
      return found === undefined ? [] : resolved(found);
    }
    return schema.anyOf === undefined ? [schema] : [schema, ...schema.anyOf.flatMap(resolved)];
  };
  const descend = (schemas: readonly Schema[], key: string | number): readonly Schema[] =>
    schemas.flatMap((schema): readonly Schema[] => {
      if (typeof key === 'number') return schema.items === undefined ? [] : resolved(schema.items);
      const own = schema.properties?.[key];
      if (own !== undefined) return resolved(own);
      const pattern = Object.entries(schema.patternProperties ?? {}).find(([one]) => new RegExp(one).test(key));
      if (pattern !== undefined) return resolved(pattern[1]);
      const rest = schema.additionalProperties;
      return typeof rest === 'object' ? resolved(rest) : [];
    });
  const at = (path: KeyPath) => path.reduce<readonly Schema[]>(descend, resolved(root));
  const about = (schemas: readonly Schema[]) => schemas.find(({ description }) => description !== undefined)?.description ?? null;
  const holds = (schemas: readonly Schema[]): KeyHelp['holds'] =>
    schemas.some(({ type }) => type === 'array') ? 'list' : schemas.some(({ properties }) => properties !== undefined) ? 'entry' : 'value';
  return {
    keysAt: (path) =>
      at(path).flatMap(({ properties = {}, required = [] }) =>
        Object.entries(properties).map(([key, schema]) => ({
          key,
          about: about(resolved(schema)) ?? '',
          required: required.includes(key),
          holds: holds(resolved(schema)),
        })),
      ),
    valuesAt: (path) => [
      ...new Set(
        at(path).flatMap((schema) => [
          ...(schema.enum ?? []).map(String),
          ...(schema.const === undefined ? [] : [String(schema.const)]),
          ...(schema.type === 'boolean' ? ['true', 'false'] : []),
        ]),
      ),
    ],
    aboutAt: (path) => about(at(path)),
    variesByBuild: (path) => at(path).some(({ patternProperties }) => patternProperties !== undefined),
  };
}

/** Where a cursor is in a text that may be half written. */
export interface CursorPlace {
  /** The entry or list that is being written in, or with `key` the value. */
  readonly path: KeyPath;
  readonly wants: 'key' | 'value';
  /** Where what is being written begins. */
  readonly from: number;
  readonly typed: string;
  /** Keys that the entry has already. */
  readonly present: readonly string[];
  /** The column at which the keys of the entry stand. */
  readonly column: number;
}

interface Frame {
  readonly column: number;
  readonly key: string | number;
}

const keyForm = /^("[^"]*"|'[^']*'|[^\s#:[\]{}"'&*!|>%@`-][^:#]*?|[^\s#:[\]{}"'&*!|>%@`][^:#]*?)\s*:(?=\s|$)/;

/** Reads lines and their indentation only, because a text with a cursor in it is seldom whole YAML. */
export function cursorPlace(text: string, cursor: number): CursorPlace | null {
  let frames: Frame[] = [];
  const keys = new Map<string, string[]>();
  let blockColumn: number | null = null;
  let found: Omit<CursorPlace, 'present'> | null = null;
  let start = 0;
  for (const line of text.split('\n')) {
    const end = start + line.length;
    const here = cursor >= start && cursor <= end;
    const seen = here ? line.slice(0, cursor - start) : line;
    const indent = line.length - line.trimStart().length;
    const blank = line.trim() === '' || line.trimStart().startsWith('#');
    if (blockColumn !== null && !blank && indent <= blockColumn) blockColumn = null;
    if (blockColumn === null && (!blank || here)) {
      const { column, rest, next } = takeDashes(blank && here ? ' '.repeat(seen.length) : line, frames);
      frames = next;
      if (here) {
        if (line.trimStart().startsWith('#') || seen.includes(' #')) return null;
        found = placeInLine(seen, start, Math.min(column, seen.length), frames);
      }
      const key = keyForm.exec(rest);
      if (key !== null) {
        const name = unquoted(key[1] ?? '');
        frames = [...frames.filter((frame) => frame.column < column), { column, key: name }];
        const holder = pathKey(frames.slice(0, -1));
        keys.set(holder, [...(keys.get(holder) ?? []), name]);
        if (/^\s*[|>][-+\d]*\s*(?:#.*)?$/.test(rest.slice(key[0].length))) blockColumn = column;
      }
    } else if (here) return null;
    start = end + 1;
  }
  return found === null ? null : { ...found, present: keys.get(JSON.stringify(found.path)) ?? [] };
}

const pathKey = (frames: readonly Frame[]) => JSON.stringify(frames.map(({ key }) => key));
const unquoted = (text: string) => (/^["']/.test(text) ? text.slice(1, -1) : text);

/** Enters the list entries that a line begins with its dashes. */
function takeDashes(line: string, before: readonly Frame[]): { column: number; rest: string; next: Frame[] } {
  let column = line.length - line.trimStart().length;
  let rest = line.slice(column);
  let next = [...before];
  while (/^-(?:\s|$)/.test(rest)) {
    const top = next.findLast((frame) => frame.column === column && typeof frame.key === 'number');
    const index = top === undefined ? 0 : Number(top.key) + 1;
    // A list may stand at the column of its own key.
    next = [
      ...next.filter((frame) => frame.column < column || (frame.column === column && typeof frame.key === 'string')),
      { column, key: index },
    ];
    const skip = rest.length - rest.slice(1).trimStart().length;
    column += rest.slice(1).trim() === '' ? 2 : skip;
    rest = rest.slice(skip);
  }
  return { column, rest, next };
}

function placeInLine(seen: string, start: number, column: number, frames: readonly Frame[]): Omit<CursorPlace, 'present'> {
  const rest = seen.slice(column);
  const around = frames.filter((frame) => frame.column < column).map(({ key }) => key);
  const key = keyForm.exec(rest);
  if (key === null) return { path: around, wants: 'key', from: start + column, typed: rest, column };
  const path = [...around, unquoted(key[1] ?? '')];
  const value = rest.slice(key[0].length);
  const valueAt = start + column + key[0].length;
  const open = /^\s*[[{]/.test(value) ? Math.max(value.lastIndexOf('['), value.lastIndexOf('{'), value.lastIndexOf(',')) + 1 : 0;
  const part = value.slice(open);
  const begins = valueAt + open + (part.length - part.trimStart().length);
  if (open > 0 && value.trimStart().startsWith('{')) {
    const inner = keyForm.exec(part.trimStart());
    if (inner === null) return { path, wants: 'key', from: begins, typed: part.trimStart(), column };
    const from = begins + inner[0].length;
    const typed = part.trimStart().slice(inner[0].length);
    return {
      path: [...path, unquoted(inner[1] ?? '')],
      wants: 'value',
      from: from + (typed.length - typed.trimStart().length),
      typed: typed.trimStart(),
      column,
    };
  }
  return { path: open > 0 ? [...path, 0] : path, wants: 'value', from: begins, typed: part.trimStart(), column };
}
