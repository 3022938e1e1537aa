import { isAlias, isMap, isNode, isScalar, isSeq, LineCounter, parseDocument } from 'yaml';
import { limits } from './format.ts';
import type { Problem, ProblemCode } from './problem.ts';

/**
 * A YAML file as plain data that remembers where everything stands. Nothing of YAML beyond maps, lists and plain values gets
 * through: no aliases, no tags, no second document, no key twice. Offsets count characters from the start of the text.
 */
export type YamlNode =
  | { readonly kind: 'value'; readonly value: string | number | boolean | null; readonly offset: number }
  | { readonly kind: 'list'; readonly items: readonly YamlNode[]; readonly offset: number }
  | { readonly kind: 'map'; readonly entries: readonly YamlEntry[]; readonly offset: number };

export interface YamlEntry {
  readonly key: string;
  readonly keyOffset: number;
  readonly value: YamlNode;
}

/** Gives the line and column of an offset. */
export type Ruler = (offset: number) => { readonly line: number; readonly column: number };

export interface YamlTree {
  /** Null where the text is no YAML at all. */
  readonly root: YamlNode | null;
  readonly ruler: Ruler;
  readonly problems: readonly Problem[];
}

/** Enough of what was found to know it again. */
function clip(text: string): string {
  return text.length > 80 ? `${text.slice(0, 77)}…` : text;
}

const unsafeKeys: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

export function readYaml(text: string, file: string): YamlTree {
  const problems: Problem[] = [];
  const counter = new LineCounter();
  const ruler: Ruler = (offset) => {
    const { line, col } = counter.linePos(Math.max(0, offset));
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const report = (code: ProblemCode, offset: number, path: string, found: string, expected: string) => {
    if (problems.length < limits.problems) problems.push({ code, file, ...ruler(offset), path, found: clip(found), expected, build: null });
  };
  if (text.length > limits.fileLength) {
    report('too-large', 0, '', `${text.length} characters`, `at most ${limits.fileLength}`);
    return { root: null, ruler, problems };
  }
  const deep = whereTooDeep(text);
  if (deep !== null) {
    // The parser below is recursive, so such a text must not reach it.
    counter.addNewLine(0);
    for (let at = text.indexOf('\n'); at >= 0 && at < deep; at = text.indexOf('\n', at + 1)) counter.addNewLine(at + 1);
    report('too-deep', deep, '', 'more levels than that', `at most ${limits.depth} levels`);
    return { root: null, ruler, problems };
  }
  const document = parseYaml(text, counter);
  if (document === null) {
    report('too-deep', 0, '', 'more levels than that', `at most ${limits.depth} levels`);
    return { root: null, ruler, problems };
  }
  for (const error of document.errors) report('not-yaml', error.pos[0], '', error.message.split('\n')[0] ?? error.code, 'YAML');

  const convert = (node: unknown, path: string, depth: number, fallback: number): YamlNode => {
    if (isAlias(node)) {
      report('alias', node.range?.[0] ?? fallback, path, `the alias *${node.source}`, 'everything written out, without aliases');
      return { kind: 'value', value: null, offset: fallback };
    }
    if (!isScalar(node) && !isSeq(node) && !isMap(node)) return { kind: 'value', value: null, offset: fallback };
    const offset = node.range?.[0] ?? fallback;
    if (node.tag !== undefined) report('tag', offset, path, `the tag ${node.tag}`, 'no tags');
    if (node.anchor !== undefined) report('alias', offset, path, `the anchor &${node.anchor}`, 'everything written out, without anchors');
    if (isScalar(node)) return { kind: 'value', value: plainValue(node.value), offset };
    if (depth >= limits.depth) {
      report('too-deep', offset, path, 'more levels than that', `at most ${limits.depth} levels`);
      return { kind: 'value', value: null, offset };
    }
    if (isSeq(node))
      return { kind: 'list', items: node.items.map((item, index) => convert(item, `${path}[${index}]`, depth + 1, offset)), offset };
    const seen = new Map<string, number>();
    const entries: YamlEntry[] = [];
    for (const pair of node.items) {
      const keyOffset = (isNode(pair.key) ? pair.key.range?.[0] : undefined) ?? offset;
      const keyValue = isScalar(pair.key) ? plainValue(pair.key.value) : null;
      const key = keyValue === null ? null : String(keyValue);
      const here = joinPath(path, key ?? '?');
      if (key === null || unsafeKeys.has(key)) {
        report('bad-key', keyOffset, here, key === null ? 'a key that is not a word' : `the key "${key}"`, 'a plain word as key');
        continue;
      }
      const first = seen.get(key);
      if (first !== undefined) {
        report('duplicate-key', keyOffset, here, `"${key}" a second time`, `it once (first in line ${ruler(first).line})`);
        continue;
      }
      seen.set(key, keyOffset);
      entries.push({ key, keyOffset, value: convert(pair.value, here, depth + 1, keyOffset) });
    }
    return { kind: 'map', entries, offset };
  };
  const root = document.errors.length > 0 && document.contents === null ? null : convert(document.contents, '', 0, 0);
  return { root, ruler, problems };
}

export function joinPath(path: string, key: string): string {
  return path === '' ? key : `${path}.${key}`;
}

function plainValue(value: unknown): string | number | boolean | null {
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null;
}

function parseYaml(text: string, lineCounter: LineCounter) {
  try {
    // Keys are compared above: the library's own comparison takes the square of a map's length.
    return parseDocument(text, { lineCounter, uniqueKeys: false, prettyErrors: false, merge: false, schema: 'core' });
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/**
 * Where brackets, dashes or indentation nest deeper than any procedure needs, or null. Brackets inside quotes count too,
 * which only matters to somebody who writes dozens that never close.
 */
function whereTooDeep(text: string): number | null {
  const allowed = limits.depth * 4;
  let open = 0;
  let marks = 0;
  let indent = 0;
  let inIndent = true;
  for (let at = 0; at < text.length; at++) {
    const letter = text[at];
    if (letter === '[' || letter === '{') open++;
    else if ((letter === ']' || letter === '}') && open > 0) open--;
    if (letter === '-' || letter === '?' || letter === ':') marks++;
    else if (letter !== ' ') marks = 0;
    if (letter === '\n') inIndent = true;
    if (letter !== ' ') indent = 0;
    else if (inIndent) indent++;
    if (letter !== ' ' && letter !== '\n') inIndent = false;
    if (open > allowed || marks > allowed || indent > allowed * 2) return at;
  }
  return null;
}
