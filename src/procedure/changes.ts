import { type Plain, plainOf } from './plain-tree.ts';
import { readYaml } from './yaml-tree.ts';

/** What a change is about. Steps are numbered as a job without builds of its own would number them; a side's step has its side's title. */
export type ChangedThing =
  | { readonly kind: 'procedure' }
  | { readonly kind: 'stage'; readonly number: number; readonly title: string }
  | { readonly kind: 'side'; readonly title: string }
  | { readonly kind: 'step'; readonly number: number; readonly side: string | null; readonly sentence: string }
  /** An entry of any other list: a group of fasteners, a check, a caution, a part. */
  | { readonly kind: 'entry'; readonly of: ChangedThing; readonly list: string; readonly name: string; readonly count: number | null };

/** One difference between two versions of a procedure, as data; each language has words for it. */
export type Change =
  | { readonly what: 'added' | 'removed' | 'moved'; readonly thing: ChangedThing; readonly steps: number | null }
  | {
      readonly what: 'changed';
      readonly thing: ChangedThing;
      readonly key: string;
      /** Where only this build's value changed. */
      readonly build: string | null;
      /** Undefined where nothing stood. */
      readonly from: Plain | undefined;
      readonly to: Plain | undefined;
    };

export type Compared =
  { readonly ok: true; readonly changes: readonly Change[] } | { readonly ok: false; readonly unreadable: 'before' | 'after' };

/**
 * Compares two versions, drafts with faults in them included: only YAML is asked for. Comments, spacing and the order of keys are no
 * change. What has an id is known again by it, wherever it went.
 */
export function compareVersions(before: string, after: string): Compared {
  const [old, now] = [readYaml(before, ''), readYaml(after, '')];
  if (old.root === null || old.problems.length > 0) return { ok: false, unreadable: 'before' };
  if (now.root === null || now.problems.length > 0) return { ok: false, unreadable: 'after' };
  return { ok: true, changes: compareFiles(entryOf(plainOf(old.root)), entryOf(plainOf(now.root))) };
}

type Entry = Readonly<Record<string, Plain>>;

const isList = (value: Plain | undefined): value is readonly Plain[] => Array.isArray(value);
const isEntry = (value: Plain | undefined): value is Entry => typeof value === 'object' && value !== null && !isList(value);
const entryOf = (value: Plain | undefined): Entry => (isEntry(value) ? value : {});
const entriesOf = (value: Plain | undefined): readonly Entry[] => (isList(value) ? value.filter(isEntry) : []);
const textOf = (value: Plain | undefined): string => (typeof value === 'string' || typeof value === 'number' ? String(value) : '');
const same = (one: Plain | undefined, other: Plain | undefined) => JSON.stringify(sorted(one)) === JSON.stringify(sorted(other));

function sorted(value: Plain | undefined): Plain | undefined {
  if (isList(value)) return value.map((item) => sorted(item) ?? null);
  if (!isEntry(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, one]) => [key, sorted(one) ?? null]),
  );
}

/** A step with where it stands. */
interface Standing {
  readonly step: Entry;
  readonly holder: string;
  readonly thing: ChangedThing & { readonly kind: 'step' };
}

/** A stage or a side procedure. */
interface Holder {
  readonly key: string;
  readonly entry: Entry;
  readonly thing: ChangedThing;
  readonly steps: readonly Standing[];
}

function holdersOf(file: Entry): readonly Holder[] {
  let number = 0;
  const stages = entriesOf(file['stages']).map((entry, index): Holder => {
    const key = `stage ${textOf(entry['id']) || index}`;
    const thing: ChangedThing = { kind: 'stage', number: index + 1, title: textOf(entry['title']) };
    return { key, entry, thing, steps: entriesOf(entry['steps']).map((step) => standing(step, key, (number += 1), null)) };
  });
  const sides = entriesOf(file['sides']).map((entry, index): Holder => {
    const [key, title] = [`side ${textOf(entry['id']) || index}`, textOf(entry['title'])];
    return {
      key,
      entry,
      thing: { kind: 'side', title },
      steps: entriesOf(entry['steps']).map((step, place) => standing(step, key, place + 1, title)),
    };
  });
  return [...stages, ...sides];
}

function standing(step: Entry, holder: string, number: number, side: string | null): Standing {
  return { step, holder, thing: { kind: 'step', number, side, sentence: textOf(step['do']) } };
}

function compareFiles(before: Entry, after: Entry): readonly Change[] {
  const changes: Change[] = [];
  const own = (file: Entry) => Object.fromEntries(Object.entries(file).filter(([key]) => key !== 'stages' && key !== 'sides'));
  changes.push(...compareEntry(own(before), own(after), { kind: 'procedure' }));
  const [old, now] = [holdersOf(before), holdersOf(after)];
  const holders = pair(old, now, ({ key }) => [key]);
  for (const holder of holders.gone) changes.push({ what: 'removed', thing: holder.thing, steps: holder.steps.length });
  for (const holder of holders.come) changes.push({ what: 'added', thing: holder.thing, steps: holder.steps.length });
  for (const [one, other, hasMoved] of holders.both) {
    if (hasMoved) changes.push({ what: 'moved', thing: other.thing, steps: null });
    changes.push(...compareEntry(withoutSteps(one.entry), withoutSteps(other.entry), other.thing));
  }
  const steps = pair(
    old.flatMap((holder) => holder.steps),
    now.flatMap((holder) => holder.steps),
    ({ step }) => [textOf(step['id']), textOf(step['do'])],
  );
  // The steps of a stage that came or went are told with it.
  const wholly = (gone: readonly Holder[], { holder }: Standing) => gone.some(({ key }) => key === holder);
  for (const one of steps.gone) if (!wholly(holders.gone, one)) changes.push({ what: 'removed', thing: one.thing, steps: null });
  for (const one of steps.come) if (!wholly(holders.come, one)) changes.push({ what: 'added', thing: one.thing, steps: null });
  for (const [one, other, hasMoved] of steps.both) {
    const elsewhere = one.holder !== other.holder;
    const withStage = holders.both.some(([, holder, stageMoved]) => stageMoved && holder.key === other.holder);
    if (elsewhere || (hasMoved && !withStage)) changes.push({ what: 'moved', thing: other.thing, steps: null });
    changes.push(...compareEntry(one.step, other.step, other.thing));
  }
  return changes;
}

const withoutSteps = (entry: Entry): Entry => Object.fromEntries(Object.entries(entry).filter(([key]) => key !== 'steps'));

function compareEntry(before: Entry, after: Entry, thing: ChangedThing): readonly Change[] {
  const keys = [...new Set([...Object.keys(after), ...Object.keys(before)])];
  return keys.flatMap((key): readonly Change[] => {
    const [from, to] = [before[key], after[key]];
    if (same(from, to)) return [];
    if (holdsEntries(from) || holdsEntries(to)) {
      if ((from === undefined || isList(from)) && (to === undefined || isList(to)))
        return compareList(entriesOf(from), entriesOf(to), key, thing);
    }
    if (isByBuild(from) || isByBuild(to)) return compareBuilds(from, to, key, thing);
    if (isEntry(from) && isEntry(to)) return compareEntry(from, to, { kind: 'entry', of: thing, list: key, name: '', count: null });
    return [{ what: 'changed', thing, key, build: null, from, to }];
  });
}

const holdsEntries = (value: Plain | undefined) => isList(value) && value.some(isEntry);
const buildOf = (key: string): string | null => (key === 'other builds' ? key : (/^build (.+)$/.exec(key)?.[1] ?? null));
const isByBuild = (value: Plain | undefined): value is Entry =>
  isEntry(value) && Object.keys(value).length > 0 && Object.keys(value).every((key) => buildOf(key) !== null);

function compareBuilds(from: Plain | undefined, to: Plain | undefined, key: string, thing: ChangedThing): readonly Change[] {
  const keys = [...new Set([...Object.keys(isByBuild(to) ? to : {}), ...Object.keys(isByBuild(from) ? from : {})])];
  const forBuild = (value: Plain | undefined, build: string) => (isByBuild(value) ? (value[build] ?? value['other builds']) : value);
  return keys.flatMap((build): readonly Change[] => {
    const [old, now] = [forBuild(from, build), forBuild(to, build)];
    return same(old, now) ? [] : [{ what: 'changed', thing, key, build: buildOf(build), from: old, to: now }];
  });
}

function compareList(before: readonly Entry[], after: readonly Entry[], list: string, of: ChangedThing): readonly Change[] {
  const entries = pair(before, after, (entry) => [textOf(entry['id']) || textOf(entry['number']), nameOf(entry)]);
  const thing = (entry: Entry): ChangedThing => ({
    kind: 'entry',
    of,
    list,
    name: nameOf(entry),
    count: typeof entry['count'] === 'number' ? entry['count'] : null,
  });
  return [
    ...entries.gone.map((entry): Change => ({ what: 'removed', thing: thing(entry), steps: null })),
    ...entries.come.map((entry): Change => ({ what: 'added', thing: thing(entry), steps: null })),
    ...entries.both.flatMap(([one, other, hasMoved]): readonly Change[] => [
      ...(hasMoved ? [{ what: 'moved', thing: thing(other), steps: null } as const] : []),
      ...compareEntry(one, other, thing(other)),
    ]),
  ];
}

/** What people would call an entry by. */
function nameOf(entry: Entry): string {
  const key = ['name', 'title', 'ask', 'check', 'text', 'say', 'do', 'value'].find((one) => textOf(entry[one]) !== '');
  return key === undefined ? '' : textOf(entry[key]);
}

interface Paired<Item> {
  readonly gone: readonly Item[];
  readonly come: readonly Item[];
  /** With whether it stands elsewhere among those that stayed. */
  readonly both: readonly (readonly [Item, Item, boolean])[];
}

/** Knows things again by their ids first, then by what they say. */
function pair<Item>(before: readonly Item[], after: readonly Item[], names: (item: Item) => readonly string[]): Paired<Item> {
  const partner = new Map<number, number>();
  const taken = new Set<number>();
  const rounds = Math.max(0, ...[...before, ...after].map((item) => names(item).length));
  for (let round = 0; round < rounds; round++) {
    const free = new Map<string, number[]>();
    before.forEach((item, index) => {
      const name = names(item)[round] ?? '';
      if (name === '' || taken.has(index)) return;
      free.set(name, [...(free.get(name) ?? []), index]);
    });
    after.forEach((item, index) => {
      const found = partner.has(index) ? undefined : free.get(names(item)[round] ?? '')?.shift();
      if (found === undefined) return;
      partner.set(index, found);
      taken.add(found);
    });
  }
  const matches = [...partner].sort(([a], [b]) => a - b);
  const stayed = longestRising(matches.map(([, old]) => old));
  return {
    gone: before.filter((_, index) => !taken.has(index)),
    come: after.filter((_, index) => !partner.has(index)),
    both: matches.flatMap(([now, old], index) => {
      const [one, other] = [before[old], after[now]];
      return one === undefined || other === undefined ? [] : [[one, other, !stayed.has(index)] as const];
    }),
  };
}

/** The places of a longest rising run: the fewest others are then told as moved (patience sorting, common practice). */
function longestRising(values: readonly number[]): ReadonlySet<number> {
  const ends: number[] = [];
  const previous: (number | null)[] = [];
  values.forEach((value, index) => {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((values[ends[middle] ?? 0] ?? 0) < value) low = middle + 1;
      else high = middle;
    }
    previous.push(low > 0 ? (ends[low - 1] ?? null) : null);
    ends[low] = index;
  });
  const run = new Set<number>();
  for (let at = ends.at(-1) ?? null; at !== null; at = previous[at] ?? null) run.add(at);
  return run;
}
