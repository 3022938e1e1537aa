import { Document, isMap, isScalar, isSeq, type Pair, parseDocument, stringify, type YAMLMap, type YAMLSeq } from 'yaml';
import { type KeyPath, nodeAt, type Plain } from './plain-tree.ts';
import { readYaml, type YamlNode } from './yaml-tree.ts';

/** One change to a procedure's text, by the way through it. */
export type ProcedureEdit =
  /** Puts a value there; a key that is not there yet takes its place after those before it in `order`. */
  | { readonly kind: 'set'; readonly path: KeyPath; readonly value: Plain; readonly order?: readonly string[] }
  /** Takes a key or an entry away. A list that would be left empty goes with its last entry. */
  | { readonly kind: 'remove'; readonly path: KeyPath }
  /** Puts an entry into a list, which is begun where there is none. */
  | {
      readonly kind: 'insert';
      readonly path: KeyPath;
      readonly index: number;
      readonly value: Plain;
      /** Where the list's own key belongs. */
      readonly order?: readonly string[];
    }
  | { readonly kind: 'move'; readonly path: KeyPath; readonly from: number; readonly to: number };

export type Edited =
  | { readonly ok: true; readonly text: string }
  /** The text is no YAML that could be edited, or has nothing at that place. */
  | { readonly ok: false; readonly code: 'not-yaml' | 'no-such-place' };

/**
 * Changes a procedure's text and leaves the rest of it, comments and spacing included, letter by letter as it was. Where the text is
 * written in a way that allows no such cut, the YAML library writes the whole anew: comments stay, spacing may not. Either way the
 * result is read again and must say exactly what was wanted.
 */
export function editText(text: string, edits: readonly ProcedureEdit[]): Edited {
  let now = text;
  for (const edit of edits) {
    const { root, problems } = readYaml(now, '');
    if (root === null || problems.length > 0) return { ok: false, code: 'not-yaml' };
    const edited = editOnce(now, withoutEmptyList(root, edit));
    if (edited === null) return { ok: false, code: 'no-such-place' };
    now = edited;
  }
  return { ok: true, text: now };
}

/** The last entry of a list takes the list's key along: an empty list says nothing. */
function withoutEmptyList(root: YamlNode, edit: ProcedureEdit): ProcedureEdit {
  if (edit.kind !== 'remove') return edit;
  const path = edit.path.slice(0, -1);
  const holder = nodeAt(root, path);
  return holder?.kind === 'list' && holder.items.length === 1 && edit.path.at(-1) === 0 ? { kind: 'remove', path } : edit;
}

const parseOptions = { keepSourceTokens: true, schema: 'core', merge: false, uniqueKeys: false } as const;

function editOnce(text: string, edit: ProcedureEdit): string | null {
  const before = parseDocument(text, parseOptions);
  const wanted = plainEdit(before.toJS() as Plain, edit);
  if (wanted === undefined) return null;
  const says = (candidate: string) => {
    const after = parseDocument(candidate, parseOptions);
    return after.errors.length === 0 && sameText(after.toJS() as Plain, wanted);
  };
  const cut = surgical(text, before, edit);
  if (cut !== null && says(cut)) return cut;
  const whole = wholesale(before, wanted, edit);
  return says(whole) ? whole : null;
}

const sameText = (one: Plain, other: Plain) => JSON.stringify(one) === JSON.stringify(other);

/** What the file should say afterwards; undefined where the edit has no place. Key order counts: a new key is put where it belongs. */
function plainEdit(root: Plain, edit: ProcedureEdit): Plain | undefined {
  const [last, inner] = [edit.path.at(-1), edit.path.slice(0, -1)];
  switch (edit.kind) {
    case 'set':
      if (last === undefined) return edit.value;
      return plainAt(root, inner, (holder) => {
        if (isList(holder))
          return typeof last === 'number' && last < holder.length
            ? holder.map((item, index) => (index === last ? edit.value : item))
            : undefined;
        return isEntry(holder) ? withKey(holder, String(last), edit.value, edit.order ?? []) : undefined;
      });
    case 'remove':
      return plainAt(root, inner, (holder) => {
        if (isList(holder))
          return last === undefined || holder[Number(last)] === undefined ? undefined : holder.filter((_, index) => index !== last);
        if (!isEntry(holder) || last === undefined || !Object.hasOwn(holder, last)) return undefined;
        return Object.fromEntries(Object.entries(holder).filter(([key]) => key !== last));
      });
    case 'insert':
      return plainAt(root, inner, (holder) => {
        const list = isEntry(holder) ? holder[String(last)] : isList(holder) && typeof last === 'number' ? holder[last] : undefined;
        const items = isList(list) ? list : [];
        const index = Math.max(0, Math.min(edit.index, items.length));
        const next = [...items.slice(0, index), edit.value, ...items.slice(index)];
        if (isList(holder)) return holder.map((item, place) => (place === last ? next : item));
        return isEntry(holder) ? withKey(holder, String(last), next, edit.order ?? []) : undefined;
      });
    case 'move':
      return plainAt(root, edit.path, (list) => (isList(list) ? moved(list, edit.from, edit.to) : undefined));
  }
}

const isList = (value: Plain | undefined): value is readonly Plain[] => Array.isArray(value);
const isEntry = (value: Plain | undefined): value is { readonly [key: string]: Plain } =>
  typeof value === 'object' && value !== null && !isList(value);

function plainAt(root: Plain, path: KeyPath, change: (holder: Plain) => Plain | undefined): Plain | undefined {
  const [first, ...rest] = path;
  if (first === undefined) return change(root);
  if (isList(root)) {
    const item = typeof first === 'number' ? root[first] : undefined;
    const next = item === undefined ? undefined : plainAt(item, rest, change);
    return next === undefined ? undefined : root.map((one, index) => (index === first ? next : one));
  }
  if (!isEntry(root) || !Object.hasOwn(root, first)) return undefined;
  const next = plainAt(root[first] ?? null, rest, change);
  return next === undefined ? undefined : Object.fromEntries(Object.entries(root).map(([key, one]) => [key, key === first ? next : one]));
}

/** The place of a new key: after the last of those that `order` puts before it, else first; unordered keys come last. */
function placeOfKey(keys: readonly string[], key: string, order: readonly string[]): number {
  const rank = order.indexOf(key);
  if (rank < 0) return keys.length;
  const before = keys.findLastIndex((one) => order.indexOf(one) >= 0 && order.indexOf(one) < rank);
  return before + 1;
}

function withKey(holder: { readonly [key: string]: Plain }, key: string, value: Plain, order: readonly string[]): Plain {
  const entries = Object.entries(holder);
  if (Object.hasOwn(holder, key)) return Object.fromEntries(entries.map(([one, old]) => [one, one === key ? value : old]));
  const place = placeOfKey(
    entries.map(([one]) => one),
    key,
    order,
  );
  return Object.fromEntries([...entries.slice(0, place), [key, value], ...entries.slice(place)]);
}

function moved<Item>(items: readonly Item[], from: number, to: number): readonly Item[] | undefined {
  const taken = items[from];
  if (taken === undefined || to < 0 || to >= items.length) return undefined;
  const rest = items.filter((_, index) => index !== from);
  return [...rest.slice(0, to), taken, ...rest.slice(to)];
}

/** The library's way, for texts that cannot be cut: the part that changed is made anew, the rest keeps its comments. */
function wholesale(document: Document.Parsed, wanted: Plain, edit: ProcedureEdit): string {
  const holder = edit.kind === 'move' || edit.kind === 'insert' ? edit.path : edit.path.slice(0, -1);
  const value = holder.reduce<Plain | undefined>(
    (here, key) => (isList(here) ? here[Number(key)] : isEntry(here) ? here[String(key)] : undefined),
    wanted,
  );
  if (holder.length === 0) document.contents = document.createNode(wanted) as typeof document.contents;
  else if (value !== undefined) document.setIn(holder, document.createNode(value));
  return document.toString({ lineWidth: 0, nullStr: '' });
}

type MapNode = YAMLMap;
type ListNode = YAMLSeq;

function surgical(text: string, document: Document.Parsed, edit: ProcedureEdit): string | null {
  if (edit.kind === 'move') {
    const list = walk(document, edit.path);
    return isSeq(list) ? moveItem(text, list, edit.from, edit.to) : null;
  }
  if (edit.kind === 'insert') {
    const list = walk(document, edit.path);
    if (isSeq(list) && list.items.length > 0) return insertItem(text, list, edit.index, edit.value);
    return surgical(text, document, {
      kind: 'set',
      path: edit.path,
      value: [edit.value],
      ...(edit.order === undefined ? {} : { order: edit.order }),
    });
  }
  const holder = walk(document, edit.path.slice(0, -1));
  const last = edit.path.at(-1);
  if (isSeq(holder) && typeof last === 'number') {
    if (edit.kind === 'remove') return removeItem(text, holder, last);
    const item = holder.items[last];
    return isScalar(item) && !isCollection(edit.value)
      ? splice(text, item.range, scalarText(edit.value, holder.flow === true, item))
      : null;
  }
  if (!isMap(holder) || last === undefined) return null;
  const pair = holder.items.find((one) => keyOf(one) === String(last));
  if (edit.kind === 'remove') return pair === undefined ? null : removePair(text, holder, pair);
  return pair === undefined
    ? addPair(text, holder, String(last), edit.value, edit.order ?? [])
    : setPair(text, holder, pair, String(last), edit.value);
}

function walk(document: Document.Parsed, path: KeyPath): unknown {
  let here: unknown = document.contents;
  for (const key of path) {
    if (isMap(here)) here = here.items.find((pair) => keyOf(pair) === String(key))?.value;
    else if (isSeq(here)) here = here.items[Number(key)];
    else return null;
  }
  return here;
}

const keyOf = (pair: Pair): string | null => (isScalar(pair.key) ? String(pair.key.value) : null);
const rangeOf = (node: unknown): readonly [number, number] | null => {
  const range = isScalar(node) || isMap(node) || isSeq(node) ? node.range : null;
  return range === null || range === undefined ? null : [range[0], range[1]];
};
const splice = (text: string, range: readonly [number, number, ...number[]] | null | undefined, put: string): string | null =>
  range === null || range === undefined ? null : text.slice(0, range[0]) + put + text.slice(range[1]);
const lineStart = (text: string, at: number) => text.lastIndexOf('\n', at - 1) + 1;
const lineEnd = (text: string, at: number) => {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end;
};
const isCollection = (value: Plain) => typeof value === 'object' && value !== null;
const spaces = (count: number) => ' '.repeat(count);

/** Where what a node says ends, without the comments and empty lines after it. */
function contentEnd(text: string, node: unknown, from: number): number {
  if (isMap(node) && node.flow !== true) {
    const pair = node.items.at(-1);
    return pair === undefined ? from : pairEnd(text, pair);
  }
  if (isSeq(node) && node.flow !== true) {
    const dash = dashes(node)?.at(-1);
    return node.items.length === 0 || dash === undefined ? from : contentEnd(text, node.items.at(-1), dash + 1);
  }
  const range = rangeOf(node);
  if (range === null || range[1] <= range[0]) return from;
  // A block text takes the line ends after it along.
  return range[0] + text.slice(range[0], range[1]).trimEnd().length;
}

const colonOf = (text: string, pair: Pair): number => text.indexOf(':', rangeOf(pair.key)?.[1] ?? 0);
const pairEnd = (text: string, pair: Pair): number => contentEnd(text, pair.value, colonOf(text, pair) + 1);

/** Where each entry's dash stands. */
function dashes(list: ListNode): readonly number[] | null {
  const token = list.srcToken;
  if (token?.type !== 'block-seq') return null;
  const found = token.items.map(({ start }) => start.find(({ type }) => type === 'seq-item-ind')?.offset);
  return found.every((one) => one !== undefined) && found.length === list.items.length ? found : null;
}

function scalarText(value: Plain, inFlow: boolean, like: unknown = null): string {
  if (value === null) return '';
  if (typeof value === 'string' && isScalar(like) && (like.type === 'QUOTE_DOUBLE' || like.type === 'QUOTE_SINGLE'))
    return like.type === 'QUOTE_DOUBLE' || /[\n']/.test(value) ? JSON.stringify(value) : `'${value}'`;
  const written = stringify(value, { lineWidth: 0, blockQuote: false }).trimEnd();
  return inFlow && /[,[\]{}]/.test(written) && !/^["']/.test(written) ? JSON.stringify(value) : written;
}

/** One line where that reads well: lists of plain values, and one plain value for each build. */
function flowText(value: Plain): string | null {
  if (!isCollection(value)) return scalarText(value, true);
  if (isList(value)) return value.some(isCollection) ? null : `[${value.map((item) => scalarText(item, true)).join(', ')}]`;
  if (!isEntry(value) || Object.keys(value).some((key) => !/^(?:build .+|other builds)$/.test(key))) return null;
  const parts = Object.entries(value).map(([key, one]) => {
    const text = flowText(one);
    return text === null ? null : `${scalarText(key, true)}: ${text}`;
  });
  return parts.includes(null) ? null : `{ ${parts.join(', ')} }`;
}

/** "key: value" for a block map, its further lines at that indentation. */
function pairText(key: string, value: Plain, indent: number): string {
  const flow = flowText(value);
  if (flow !== null) return `${scalarText(key, false)}:${flow === '' ? '' : ` ${isCollection(value) ? flow : scalarText(value, false)}`}`;
  return blockText({ [key]: value }, indent);
}

function blockText(value: Plain, indent: number): string {
  return flowInside(new Document(value))
    .toString({ lineWidth: 0, nullStr: '' })
    .trimEnd()
    .replace(/\[ ([^\n]*?) \]$/gm, '[$1]')
    .split('\n')
    .join(`\n${spaces(indent)}`);
}

/** Lists of plain values and values by build in one line, as the project's own files are written. */
function flowInside(document: Document): Document {
  const visit = (node: unknown): void => {
    if (isSeq(node)) {
      if (node.items.every((item) => isScalar(item))) node.flow = true;
      node.items.forEach(visit);
    } else if (isMap(node)) {
      if (flowText(node.toJSON() as Plain) !== null && node.items.length > 0) node.flow = true;
      node.items.forEach(({ value }) => visit(value));
    }
  };
  visit(document.contents);
  return document;
}

const indentOf = (text: string, map: MapNode): number => {
  const start = rangeOf(map.items[0]?.key)?.[0] ?? 0;
  return start - lineStart(text, start);
};

function setPair(text: string, map: MapNode, pair: Pair, key: string, value: Plain): string | null {
  const inFlow = map.flow === true;
  const range = rangeOf(pair.value);
  const empty = range === null || range[1] <= range[0];
  if (!empty && isScalar(pair.value) && !isCollection(value)) {
    const isBlock = pair.value.type === 'BLOCK_FOLDED' || pair.value.type === 'BLOCK_LITERAL';
    return splice(text, isBlock ? [range[0], pairEnd(text, pair)] : range, scalarText(value, inFlow, pair.value));
  }
  const flow = flowText(value);
  const from = colonOf(text, pair) + 1;
  const to = pairEnd(text, pair);
  if (flow !== null) return splice(text, [from, to], flow === '' ? '' : ` ${flow}`);
  if (inFlow) return null;
  const start = rangeOf(pair.key)?.[0];
  return start === undefined ? null : splice(text, [start, to], pairText(key, value, indentOf(text, map)));
}

function addPair(text: string, map: MapNode, key: string, value: Plain, order: readonly string[]): string | null {
  const keys = map.items.map((pair) => keyOf(pair) ?? '');
  const place = placeOfKey(keys, key, order);
  const before = map.items[place - 1];
  const first = map.items[0];
  if (first === undefined) return null;
  if (map.flow === true) {
    const flow = flowText(value);
    if (flow === null) return null;
    const put = `${scalarText(key, true)}: ${flow}`;
    if (before === undefined) return splice(text, [rangeOf(first.key)?.[0] ?? 0, rangeOf(first.key)?.[0] ?? 0], `${put}, `);
    const end = pairEnd(text, before);
    return splice(text, [end, end], `, ${put}`);
  }
  const indent = indentOf(text, map);
  const put = pairText(key, value, indent);
  if (before === undefined) {
    const start = rangeOf(first.key)?.[0] ?? 0;
    return splice(text, [start, start], `${put}\n${spaces(indent)}`);
  }
  const end = lineEnd(text, pairEnd(text, before));
  // Sections of the file stand apart.
  const apart = indent === 0 && put.includes('\n') ? '\n' : '';
  return splice(text, [end, end], `\n${apart}${spaces(indent)}${put}`);
}

function removePair(text: string, map: MapNode, pair: Pair): string | null {
  const index = map.items.indexOf(pair);
  const [next, before] = [map.items[index + 1], map.items[index - 1]];
  const start = rangeOf(pair.key)?.[0];
  if (start === undefined || (next === undefined && before === undefined)) return null;
  if (map.flow === true) {
    if (next !== undefined) return splice(text, [start, rangeOf(next.key)?.[0] ?? start], '');
    return before === undefined ? null : splice(text, [pairEnd(text, before), pairEnd(text, pair)], '');
  }
  const end = lineEnd(text, pairEnd(text, pair));
  const begin = lineStart(text, start);
  // The first key of a list's entry shares its line with the dash, and the next one moves up to it.
  if (text.slice(begin, start).trim() !== '') return next === undefined ? null : splice(text, [start, rangeOf(next.key)?.[0] ?? start], '');
  return splice(text, [begin, Math.min(text.length, end + 1)], '');
}

interface Piece {
  readonly from: number;
  readonly to: number;
}

/** Each entry of a block list with the comment lines right above it; null where one does not begin its line. */
function pieces(text: string, list: ListNode): readonly Piece[] | null {
  const marks = dashes(list);
  if (marks === null) return null;
  const found: Piece[] = [];
  for (const [index, dash] of marks.entries()) {
    let from = lineStart(text, dash);
    if (text.slice(from, dash).trim() !== '') return null;
    const floor = found.at(-1)?.to ?? -1;
    while (
      from - 1 > floor &&
      text
        .slice(lineStart(text, from - 1), from)
        .trimStart()
        .startsWith('#')
    )
      from = lineStart(text, from - 1);
    found.push({ from: Math.max(from, floor + 1), to: lineEnd(text, contentEnd(text, list.items[index], dash + 1)) });
  }
  return found;
}

function flowItems(text: string, list: ListNode): readonly string[] | null {
  const slices = list.items.map((item) => {
    const range = rangeOf(item);
    return range === null ? null : text.slice(range[0], range[1]);
  });
  return slices.every((slice) => slice !== null) ? slices : null;
}

function writeFlow(text: string, list: ListNode, items: readonly string[]): string | null {
  return splice(text, list.range, `[${items.join(', ')}]`);
}

function insertItem(text: string, list: ListNode, index: number, value: Plain): string | null {
  if (list.flow === true) {
    const items = flowItems(text, list);
    const put = flowText(value);
    return items === null || put === null ? null : writeFlow(text, list, [...items.slice(0, index), put, ...items.slice(index)]);
  }
  const all = pieces(text, list);
  const [first, second] = all ?? [];
  const dash = dashes(list)?.[0];
  if (all === null || first === undefined || dash === undefined) return null;
  const indent = spaces(dash - lineStart(text, dash));
  const put = indent + blockText([value], indent.length);
  const apart = second !== undefined && /\n[ \t]*\n/.test(text.slice(first.to, second.from + 1)) ? '\n' : '';
  const next = all[index];
  if (next !== undefined) return splice(text, [next.from, next.from], `${put}\n${apart}`);
  const end = all.at(-1)?.to ?? text.length;
  return splice(text, [end, end], `\n${apart}${put}`);
}

function removeItem(text: string, list: ListNode, index: number): string | null {
  if (list.flow === true) {
    const items = flowItems(text, list);
    return items === null
      ? null
      : writeFlow(
          text,
          list,
          items.filter((_, place) => place !== index),
        );
  }
  const all = pieces(text, list);
  const [piece, before] = [all?.[index], all?.[index - 1]];
  if (all === null || piece === undefined || all.length === 1) return null;
  if (before !== undefined && index === all.length - 1) return splice(text, [before.to, piece.to], '');
  let end = piece.to + 1;
  while (end < text.length && text.slice(end, lineEnd(text, end)).trim() === '') end = lineEnd(text, end) + 1;
  return splice(text, [piece.from, end], '');
}

function moveItem(text: string, list: ListNode, from: number, to: number): string | null {
  if (list.flow === true) {
    const items = flowItems(text, list);
    const order = items === null ? undefined : moved(items, from, to);
    return order === undefined ? null : writeFlow(text, list, order);
  }
  const all = pieces(text, list);
  const order = all === null ? undefined : moved(all, from, to);
  const [first, last] = [all?.[0], all?.at(-1)];
  if (all === null || order === undefined || first === undefined || last === undefined) return null;
  // The spaces between the entries stay where they are; the entries change places.
  const gaps = all.map((piece, index) => text.slice(piece.to, all[index + 1]?.from ?? piece.to));
  return splice(text, [first.from, last.to], order.map((piece, index) => text.slice(piece.from, piece.to) + (gaps[index] ?? '')).join(''));
}
