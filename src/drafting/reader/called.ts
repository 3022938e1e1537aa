import { entry } from './entry.ts';
import type { Group } from '../groups.ts';
import type { Mention } from '../mention.ts';
import { newGroup } from '../talk.ts';
import { stemOf, tellingApart } from '../word-classes.ts';
import type { Lot } from './lots.ts';
import { roles, type Reading } from './net.ts';
import type { Node, TalkView } from './view.ts';

const namesIn = ({ item }: Node): readonly string[] =>
  item?.kind === 'mention' ? [...item.mention.names, ...item.mention.place] : item?.kind === 'component' ? item.words : [];

interface Words {
  /** A word that may name it, and does not only say of which build it is. */
  readonly isTold: (word: string) => boolean;
  /** A word that names others, or nothing. */
  readonly isForeign: (word: string) => boolean;
}

/** The group of the rules, called by what the net took for its names; what the rules call it besides is kept where the net has little. */
export function named(ruled: Group, read: Group, { isTold, isForeign }: Words): Group {
  const group = { ...ruled, names: ruled.names.filter(isTold), places: ruled.places.filter(isTold) };
  const words = [...read.topic, ...read.names];
  if (words.length >= 2)
    return {
      ...group,
      head: read.head === null || read.head === 'fastener' ? group.head : read.head,
      topic: read.topic,
      names: read.names,
      places: read.places.length > 0 ? read.places : group.places,
    };
  const topic = ruled.topic.filter((word) => isTold(word) && !isForeign(word));
  const known = new Set([...topic, ...group.names, ...group.places].map(stemOf));
  const more = words.filter((word) => !known.has(stemOf(word)));
  return { ...group, topic: [...more, ...topic] };
}

/** A word names fasteners where the mentions that have it are worth this much of those of the word that they have most. Our own choice. */
const worthNaming = 0.35;

/** How near to a mention its words are said, in tokens. */
const nameReach = 8;

/** How surely each saying of a word near these nodes is one of a name of fasteners. */
function namingNear(view: TalkView, { naming }: Reading, indices: readonly number[], stem: string, reach: number): readonly number[] {
  const spans = indices.map((index) => entry(view.nodes, index));
  const isNear = (at: number) => spans.some(({ from, to }) => at >= from - reach && at < to + reach);
  return view.stems.flatMap((one, at) => (one === stem && isNear(at) ? [naming[at] ?? 0] : []));
}

/** What the rules carry over into a name is said at most so many tokens before it, or it is not judged; and hardly names anything below this. Our own choices. */
const [carriedOver, hardlyNames] = [60, 0.15];

/** "You want two people or one and a broom handle": words said near a lot that the net takes for no name. */
export function isIdle(view: TalkView, reading: Reading, lot: Lot, word: string): boolean {
  const said = namingNear(view, reading, lot.nodes, stemOf(word), carriedOver);
  return said.length > 0 && said.every((one) => one < hardlyNames);
}

/** How far back what fasteners belong to is said, in tokens, and how surely it is a name. Our own choices. */
const [thingReach, surelyNames] = [30, 0.5];
const plainName = /^(?!(?:bolt|nut|screw|stud|plug|one|pair|fastener)s?$)[a-z]{3,}$/;

/** Says what is meant, and not only which of its like ("front", "long"). */
const saysWhat = (word: string) => !tellingApart.has(word) && !tellingApart.has(stemOf(word));

/** "Torque rod: two bolts. The one into the subframe …": fasteners that are called nothing of their own belong to what was named last before them. */
export function withThing(group: Group, view: TalkView, reading: Reading, lot: Lot, isTold: Words['isTold']): Group {
  if ([...group.topic, ...group.names].some(saysWhat)) return group;
  return { ...group, topic: [...namedBefore(view, reading, lot).filter(isTold), ...group.topic] };
}

function namedBefore({ words, nodes }: TalkView, { naming }: Reading, lot: Lot): readonly string[] {
  const tells = (at: number) => (naming[at] ?? 0) >= surelyNames && plainName.test(words[at] ?? '') && saysWhat(words[at] ?? '');
  const first = entry(nodes, entry(lot.nodes, 0)).from;
  let last = first - 1;
  while (last >= 0 && first - last <= thingReach && !tells(last)) last--;
  let from = last;
  while (from >= 0 && tells(from)) from--;
  return first - last > thingReach ? [] : words.slice(from + 1, last + 1);
}

/** Which words of a lot's mentions name it: those that the surest and nearest of them have. */
export function tellingWords(view: TalkView, lot: Lot, reading: Reading): ReadonlySet<string> {
  const { nodes } = view;
  const worth = new Map<string, number>();
  const all = nodes.length;
  for (const index of lot.names) {
    const links = lot.nodes.filter((other) => other !== index).map((other) => reading.link[index * all + other] ?? 0);
    const near = links.length === 0 ? 1 : links.reduce((sum, link) => sum + link, 0) / links.length;
    const isName = entry(entry(reading.role, index), roles.indexOf('name'));
    for (const word of new Set(namesIn(entry(nodes, index)).map(stemOf))) {
      const isWord = Math.max(0, ...namingNear(view, reading, [index], word, nameReach));
      worth.set(word, (worth.get(word) ?? 0) + isName * near * isWord);
    }
  }
  const most = Math.max(0, ...worth.values());
  return new Set([...worth].filter(([, one]) => one >= worthNaming * most).map(([word]) => word));
}

/** A group that the rules did not hear, named by those words of its mentions that tell. */
export function calledAs(
  id: number,
  { nodes }: TalkView,
  lot: Lot,
  telling: { readonly words: ReadonlySet<string>; readonly isTold: Words['isTold'] },
): Group {
  // Which build it is of is told beside the name.
  const tells = (word: string) => telling.words.has(stemOf(word)) && telling.isTold(word);
  const items = lot.names.map((node) => entry(nodes, node).item);
  const mentions = items.flatMap((item): Mention[] => (item?.kind === 'mention' ? [item.mention] : []));
  const components = items.flatMap((item) => (item?.kind === 'component' ? [item] : []));
  const said = mentions.map((mention) => mention.head).find((one) => one !== null) ?? null;
  const names = [...new Set(mentions.flatMap((mention) => mention.names.filter(tells)))];
  const places = [...new Set(mentions.flatMap((mention) => mention.place.filter(tells)))];
  // What nobody called anything is asked about all the same.
  const head = said ?? (names.length + components.length === 0 ? 'fastener' : null);
  const topic = [...new Set(components.flatMap(({ words }) => words.filter(tells)))].filter((word) => !names.includes(word));
  const made = newGroup(id, {
    head,
    sure: head !== null,
    names,
    places: places.filter((word) => !names.includes(word)),
    thing: null,
    implied: head === null,
  });
  return {
    ...made,
    topic:
      head === null || components.length === 0 || !entry(components, 0).inPlace ? topic : topic.filter((word) => !tellingApart.has(word)),
    sentences: [...new Set(lot.nodes.map((node) => entry(nodes, node).sentence))].sort((one, other) => one - other),
    saidPlural: mentions.some(({ plural }) => plural),
    saidSingular: mentions.some(({ plural }) => !plural),
    saidVaguely: names.length + topic.length === 0,
  };
}

/** How much of what a lot is called the group of the rules is called too. */
export function nameShare(group: Group, lot: Lot, nodes: readonly Node[]): number {
  const own = new Set([...group.own, ...group.topic.map(stemOf)]);
  const words = lot.names.flatMap((node) => namesIn(entry(nodes, node))).map(stemOf);
  return words.length === 0 ? 0 : words.filter((word) => own.has(word)).length / words.length;
}
