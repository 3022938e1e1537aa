import { fastenersOf, focusOn } from './aim.ts';
import { tellCount } from './counting.ts';
import type { FieldName, Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Item } from './items.ts';
import type { Mention } from './mention.ts';
import { addGroup } from './talk.ts';
import { thingOf } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

type Naming = Extract<Item, { kind: 'component' | 'mention' }>;

/**
 * A second and different value of what has one already says that the talk went on to something else, and that its name was not heard as
 * a new one: "tilt hoses 36 … the lift hose is a 22". These are the fasteners of what was named last since the first value; null where
 * nothing else was named, or where something is put right.
 */
export function movedOn(hearing: Hearing, groups: readonly Group[], field: FieldName, at: number): readonly Group[] | null {
  const [group] = groups;
  if (group === undefined || hearing.correcting || hearing.correctedAt !== null || hearing.builds.length > 0) return null;
  const told = group.told[field].at(-1)?.evidence;
  if (told === undefined || told.from === undefined) return null;
  const since = told.sentence * 10_000 + told.from;
  const naming = namedSince(hearing, since, at).findLast((item) => isOther(item, group));
  if (naming === undefined) return null;
  if (naming.kind === 'component') {
    const thing = thingOf(hearing.talk, naming, hearing.sentence.index);
    return focusOn(hearing, freshOf(hearing, thing, field, group));
  }
  return focusOn(hearing, [splitFrom(hearing, naming.mention, group)]);
}

function namedSince(hearing: Hearing, since: number, at: number): readonly Naming[] {
  const { talk, sentence } = hearing;
  const earlier = talk.lately.filter((one) => one.sentence >= sentence.index - 2 && one.sentence < sentence.index);
  return [...earlier, { sentence: sentence.index, items: hearing.items }]
    .flatMap((one) =>
      one.items
        .filter((item) => one.sentence < sentence.index || item.to <= at)
        .map((item) => ({ item, place: one.sentence * 10_000 + item.from })),
    )
    .filter(({ place }) => place > since)
    .flatMap(({ item }) => (item.kind === 'component' || item.kind === 'mention' ? [item] : []));
}

function isOther(item: Naming, group: Group): boolean {
  const known = new Set([...group.own, ...group.topic.map(stemOf)]);
  if (item.kind === 'component') return !item.inPlace && !item.isUsedUp && item.isPart && !known.has(item.noun);
  const { names, head, article } = item.mention;
  const own = names.filter((name) => !tellingApart.has(name));
  return head !== null && article !== 'definite' && own.some((name) => !known.has(stemOf(name)));
}

function freshOf(hearing: Hearing, thing: ReturnType<typeof thingOf>, field: FieldName, not: Group): readonly Group[] {
  const groups = fastenersOf(hearing, thing, field);
  if (!groups.includes(not)) return groups;
  return [addGroup(hearing.talk, hearing.sentence, { head: null, sure: false, names: thing.words, places: [], thing, implied: true })];
}

function splitFrom(hearing: Hearing, mention: Mention, group: Group): Group {
  const made = addGroup(hearing.talk, hearing.sentence, {
    head: mention.head,
    sure: mention.sure,
    names: mention.names,
    places: mention.place,
    thing: mention.names.some((name) => !tellingApart.has(name)) ? null : group.thing,
  });
  made.saidPlural = mention.plural;
  made.saidSingular = !mention.plural;
  made.saidVaguely = false;
  if (mention.count !== null) tellCount(hearing, made, mention, false);
  return made;
}
