interface PersonSeen {
  readonly name: string;
  readonly group: string | null;
}

/**
 * A code for each person: a letter for the group, then a number. Whoever has one already keeps it; the others get the next free
 * ones in the order of their names, so that the same people always come out with the same codes.
 */
export function assignCodeNames(people: readonly PersonSeen[], kept: Readonly<Record<string, string>>): ReadonlyMap<string, string> {
  const groups = [...new Set(people.map(({ group }) => group ?? ''))].sort(plainOrder);
  const codes = new Map<string, string>();
  const taken = new Set<string>();
  for (const { name } of people) {
    const code = Object.hasOwn(kept, name) ? kept[name] : undefined;
    if (code === undefined || taken.has(code)) continue;
    codes.set(name, code);
    taken.add(code);
  }
  for (const { name, group } of people.toSorted((one, other) => plainOrder(one.name, other.name))) {
    if (codes.has(name)) continue;
    const letter = String.fromCharCode(65 + (groups.indexOf(group ?? '') % 26));
    let number = 1;
    while (taken.has(codeOf(letter, number))) number += 1;
    codes.set(name, codeOf(letter, number));
    taken.add(codeOf(letter, number));
  }
  return codes;
}

function codeOf(letter: string, number: number): string {
  return `${letter}${String(number).padStart(2, '0')}`;
}

/** By code unit: the same everywhere, whatever the language of the machine. */
function plainOrder(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
