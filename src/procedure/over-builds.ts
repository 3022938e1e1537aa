/** What shows in every build alike is told once, without naming a build. */
export function mergeOverBuilds<Told extends { readonly build: string | null }>(told: readonly Told[], builds: number): readonly Told[] {
  const groups = new Map<string, Told[]>();
  for (const one of told) {
    const key = JSON.stringify({ ...one, build: null });
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    return new Set(group.map(({ build }) => build)).size === builds ? [{ ...first, build: null }] : group;
  });
}
