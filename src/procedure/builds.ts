import { joinPath, type YamlNode } from './yaml-tree.ts';

/**
 * What a file says for one build. A map with keys like "build K" (and perhaps "other builds") stands for the value of the
 * build at hand; a list entry with "only: [K]" is there for those builds alone.
 */
export interface Trace {
  /** Where the value stands. */
  readonly offset: number;
  /** Where its key stands; the same as the value in a list. */
  readonly keyOffset: number;
  /** The way to it in the file, with build keys and the places in the lists as written. */
  readonly path: string;
  readonly children: ReadonlyMap<string | number, Trace>;
}

/** "constructor" must not find what every object has: values are only ever own keys of bare objects. */
export type PlainValue = string | number | boolean | null | readonly PlainValue[] | { readonly [key: string]: PlainValue };

export interface Resolved {
  readonly value: PlainValue;
  readonly trace: Trace;
}

export type BuildFault =
  | { readonly code: 'mixed-build-keys'; readonly offset: number; readonly path: string; readonly found: string }
  | { readonly code: 'unknown-build'; readonly offset: number; readonly path: string; readonly found: string }
  /** Not wrong, but worth a question: some builds have a value here and these have none. */
  | { readonly code: 'forgotten'; readonly offset: number; readonly path: string; readonly builds: readonly string[] };

const buildKey = /^build (.+)$/;
const otherBuilds = 'other builds';

const isBuildKey = (key: string) => key === otherBuilds || buildKey.test(key);

/** Everything about build keys that is wrong or missing, whichever build is chosen. */
export function buildFaults(root: YamlNode, builds: ReadonlySet<string>): readonly BuildFault[] {
  const faults: BuildFault[] = [];
  const visit = (node: YamlNode, path: string, inList: boolean): void => {
    if (node.kind === 'value') return;
    if (node.kind === 'list') {
      node.items.forEach((item, index) => visit(item, `${path}[${index}]`, true));
      return;
    }
    const chosen = node.entries.filter(({ key }) => isBuildKey(key));
    if (chosen.length > 0) {
      for (const { key, keyOffset } of node.entries) {
        const here = joinPath(path, key);
        if (!isBuildKey(key)) faults.push({ code: 'mixed-build-keys', offset: keyOffset, path: here, found: `"${key}" beside build keys` });
        const build = buildKey.exec(key)?.[1];
        if (build !== undefined && !builds.has(build))
          faults.push({ code: 'unknown-build', offset: keyOffset, path: here, found: `build "${build}"` });
      }
      const named = new Set(chosen.map(({ key }) => buildKey.exec(key)?.[1] ?? otherBuilds));
      const without = named.has(otherBuilds) ? [] : [...builds].filter((build) => !named.has(build));
      if (without.length > 0) faults.push({ code: 'forgotten', offset: node.offset, path, builds: without });
    }
    for (const { key, value } of node.entries) {
      const here = joinPath(path, key);
      if (key === 'only' && inList) {
        for (const build of onlyBuilds(value)) {
          if (!builds.has(build)) faults.push({ code: 'unknown-build', offset: value.offset, path: here, found: `build "${build}"` });
        }
      }
      visit(value, here, inList && isBuildKey(key));
    }
  };
  visit(root, '', false);
  return faults;
}

/** Makes the value for each build; parts that are the same for all builds are made once and shared. */
export function buildResolver(root: YamlNode): (build: string) => Resolved {
  const shared = new Map<YamlNode, Resolved>();
  const varying = new Map<YamlNode, boolean>();

  const varies = (node: YamlNode): boolean => {
    if (node.kind === 'value') return false;
    const known = varying.get(node);
    if (known !== undefined) return known;
    const found =
      node.kind === 'list'
        ? node.items.some((item) => isOnly(item) || varies(item))
        : node.entries.some(({ key, value }) => isBuildKey(key) || varies(value));
    varying.set(node, found);
    return found;
  };

  const resolve = (node: YamlNode, build: string, keyOffset: number, path: string, inList: boolean): Resolved | null => {
    if (node.kind === 'value') return { value: node.value, trace: { offset: node.offset, keyOffset, path, children: noChildren } };
    const once = !varies(node);
    const known = once ? shared.get(node) : undefined;
    if (known !== undefined) return known;
    const choice = node.kind === 'map' && node.entries.some(({ key }) => isBuildKey(key));
    const made = choice
      ? choose(node.entries, build, path, inList)
      : node.kind === 'list'
        ? list(node, build, keyOffset, path)
        : map(node, build, keyOffset, path, inList);
    if (once && made !== null) shared.set(node, made);
    return made;
  };

  const choose = (entries: YamlMap['entries'], build: string, path: string, inList: boolean): Resolved | null => {
    const entry = entries.find(({ key }) => key === `build ${build}`) ?? entries.find(({ key }) => key === otherBuilds);
    if (entry === undefined || (entry.value.kind === 'value' && entry.value.value === null)) return null;
    return resolve(entry.value, build, entry.keyOffset, joinPath(path, entry.key), inList);
  };

  const list = (node: YamlNode & { kind: 'list' }, build: string, keyOffset: number, path: string): Resolved => {
    const value: PlainValue[] = [];
    const children = new Map<number, Trace>();
    node.items.forEach((item, index) => {
      if (item.kind === 'map') {
        const only = item.entries.find(({ key }) => key === 'only');
        if (only !== undefined && !onlyBuilds(only.value).includes(build)) return;
      }
      const made = resolve(item, build, item.offset, `${path}[${index}]`, true);
      if (made === null) return;
      children.set(value.length, made.trace);
      value.push(made.value);
    });
    return { value, trace: { offset: node.offset, keyOffset, path, children } };
  };

  const map = (node: YamlMap, build: string, keyOffset: number, path: string, inList: boolean): Resolved => {
    const value = Object.create(null) as Record<string, PlainValue>;
    const children = new Map<string, Trace>();
    for (const entry of node.entries) {
      if (entry.key === 'only' && inList) continue;
      const made = resolve(entry.value, build, entry.keyOffset, joinPath(path, entry.key), false);
      if (made === null) continue;
      children.set(entry.key, made.trace);
      value[entry.key] = made.value;
    }
    return { value, trace: { offset: node.offset, keyOffset, path, children } };
  };

  return (build) =>
    resolve(root, build, root.offset, '', false) ?? {
      value: null,
      trace: { offset: root.offset, keyOffset: root.offset, path: '', children: noChildren },
    };
}

type YamlMap = YamlNode & { kind: 'map' };

const noChildren: ReadonlyMap<string | number, Trace> = new Map();

const isOnly = (node: YamlNode) => node.kind === 'map' && node.entries.some(({ key }) => key === 'only');

function onlyBuilds(node: YamlNode): readonly string[] {
  const values = node.kind === 'list' ? node.items : [node];
  return values.map((item) => (item.kind === 'value' ? String(item.value) : '?'));
}

/** The trace at a way through the resolved value, or the nearest one above it where nothing stands there. */
export function traceAt(trace: Trace, path: readonly PropertyKey[]): { readonly trace: Trace; readonly exact: boolean } {
  let here = trace;
  for (const key of path) {
    const next = typeof key === 'symbol' ? undefined : here.children.get(key);
    if (next === undefined) return { trace: here, exact: false };
    here = next;
  }
  return { trace: here, exact: true };
}
