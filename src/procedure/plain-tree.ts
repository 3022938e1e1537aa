import type { YamlNode } from './yaml-tree.ts';

/** What a file says, without its places. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/** The way through a file as it is written, build keys included: `['stages', 0, 'steps', 2, 'torque', 'build K']`. */
export type KeyPath = readonly (string | number)[];

export function plainOf(node: YamlNode): Plain {
  switch (node.kind) {
    case 'value':
      return node.value;
    case 'list':
      return node.items.map(plainOf);
    case 'map':
      return Object.fromEntries(node.entries.map(({ key, value }) => [key, plainOf(value)]));
  }
}

/** What stands at a path, or null where nothing does. */
export function nodeAt(root: YamlNode, path: KeyPath): YamlNode | null {
  let here: YamlNode | undefined = root;
  for (const key of path) {
    if (here?.kind === 'map') here = here.entries.find((entry) => entry.key === String(key))?.value;
    else if (here?.kind === 'list' && typeof key === 'number') here = here.items[key];
    else return null;
  }
  return here ?? null;
}

/** The innermost path whose key or value begins at or before an offset: where a cursor is. */
export function pathAt(root: YamlNode, offset: number): KeyPath {
  const path: (string | number)[] = [];
  let here = root;
  for (;;) {
    const inside: readonly (readonly [string | number, number, YamlNode])[] =
      here.kind === 'map'
        ? here.entries.map(({ key, keyOffset, value }) => [key, keyOffset, value] as const)
        : here.kind === 'list'
          ? here.items.map((item, index) => [index, item.offset, item] as const)
          : [];
    const next = inside.filter(([, begins]) => begins <= offset).at(-1);
    if (next === undefined) return path;
    path.push(next[0]);
    here = next[2];
  }
}
