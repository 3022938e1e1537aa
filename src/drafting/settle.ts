import { countOf, lastTold, type FieldName, type Group, type Told } from './groups.ts';
import { joinBuilds } from './build-groups.ts';
import { joinFigures } from './figures.ts';
import { joinRetold } from './retold.ts';
import { tell, type Talk } from './talk.ts';
import { areApart } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

const inherited = [
  'size',
  'drive',
  'square',
  'torque',
  'angle',
  'thread',
  'condition',
  'single',
  'snug',
  'reach',
  'order',
  'passes',
] as const satisfies readonly FieldName[];

/** After the whole talk: what was said of a lot goes to its parts, parts that turned out alike become one again, copies are made. */
export function settle(talk: Talk, isOneSided = false): readonly Group[] {
  for (const group of talk.groups)
    if ((group.turnsMate || group.told.size.length === 0) && group.mateSizes.length > 0)
      group.told.size.splice(0, group.told.size.length, ...group.mateSizes);
  copySame(talk);
  joinBuilds(talk);
  joinRetold(talk);
  for (const group of talk.groups) for (const part of group.parts) inherit(group, part);
  copySame(talk);
  const groups: Group[] = [];
  for (const group of talk.groups) {
    if (group.whole !== null) continue;
    groups.push(...withParts(talk, group));
  }
  const named = joinFigures(groups);
  for (const group of named) countByThing(group);
  // A number in its sentences that nobody could place may be how many there are.
  for (const group of named) if (!group.sentences.some((sentence) => talk.unread.has(sentence))) countSingle(group, isOneSided);
  return joinSides(withoutMates(named)).filter((group) => isFastened(group));
}

function copySame(talk: Talk): void {
  for (const { to, from, what, evidence } of talk.copies) {
    const fields: readonly FieldName[] =
      what === 'torque' ? ['torque', 'angle'] : what === 'size' ? ['size', 'drive'] : ['size', 'drive', 'torque', 'angle'];
    for (const field of fields) copyField(from, to, field, { ...evidence });
  }
}

function copyField(from: Group, to: Group, field: FieldName, evidence: Told<unknown>['evidence']): void {
  if (to.told[field].length > 0) return;
  const copied = (from.told[field] as readonly Told<unknown>[]).map((told) => ({
    ...told,
    // The sentence that has the value, not the one that says "the same".
    evidence: { ...told.evidence, confidence: Math.min(evidence.confidence, told.evidence.confidence) },
  }));
  (to.told[field] as Told<unknown>[]).push(...copied);
}

function inherit(whole: Group, part: Group): void {
  for (const field of inherited) {
    if (part.told[field].length > 0) continue;
    (part.told[field] as Told<unknown>[]).push(...(whole.told[field] as readonly Told<unknown>[]));
  }
  part.only ??= whole.only;
}

const values = (group: Group) =>
  JSON.stringify(
    (['size', 'drive', 'torque', 'angle', 'passes'] as const).map((field) => group.told[field].map(({ value, build }) => [value, build])),
  );

/** A lot that fell into parts is its parts; one whose parts are all alike stays one. */
function withParts(talk: Talk, group: Group): readonly Group[] {
  const parts = group.parts.filter((part) => countOf(part) !== null || values(part) !== values(group));
  if (parts.length === 0) return [group];
  const all = countOf(group);
  shareLast(group, parts);
  for (const part of parts) {
    if (countOf(part) !== null || all === null) continue;
    const rest = all - parts.reduce((sum, other) => sum + (other === part ? 0 : (countOf(other) ?? 0)), 0);
    const missing = parts.filter((other) => countOf(other) === null).length;
    if (missing === 1 && rest > 0)
      tell(talk, [part], 'count', rest, [], { sentence: part.sentences[0] ?? 0, confidence: 0.75, words: `the rest of ${all}` });
  }
  // "every strut has three: two to the body and one to the carrier", and two struts
  const some = parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
  if (group.times !== null && group.times > 1 && all === some * group.times)
    for (const part of parts) {
      const told = part.told.count.at(-1);
      if (told !== undefined && part.times === null)
        tell(talk, [part], 'count', told.value * group.times, [], { ...told.evidence, confidence: 0.75 }, { replace: true });
    }
  const merged = mergeAlike(talk, parts);
  const sum = merged.reduce((total, part) => total + (countOf(part) ?? 0), 0);
  const [first] = merged;
  if (first === undefined) return [group];
  if (merged.length === 1 && (sum === all || values(first) === values(group))) {
    // All the parts are alike: one lot after all.
    for (const field of inherited) {
      (group.told[field] as Told<unknown>[]).length = 0;
      (group.told[field] as Told<unknown>[]).push(...(first.told[field] as readonly Told<unknown>[]));
    }
    return [group];
  }
  if (all === null || sum === all) return merged;
  if (sum < all && group.told.torque.length + group.told.size.length > 0 && merged.every((part) => values(part) !== values(group))) {
    // The lot's own values hold for those that nothing else was said of.
    tell(
      talk,
      [group],
      'count',
      all - sum,
      [],
      { sentence: group.sentences[0] ?? 0, confidence: 0.7, words: `${all} less ${sum}` },
      { replace: true },
    );
    return [group, ...merged];
  }
  const told = group.told.count.at(-1);
  if (told !== undefined)
    talk.doubts.push({
      kind: 'total',
      group: first,
      field: 'count',
      evidence: told.evidence,
      said: `${all} in all, but ${merged.map((part) => countOf(part) ?? '?').join(' and ')}`,
    });
  return merged;
}

/** "four bolts, two in front, two behind, sixteens, fifty": what was told after the last part, of parts that have nothing else, is all theirs. */
function shareLast(group: Group, parts: readonly Group[]): void {
  const sum = parts.reduce((total, part) => total + (countOf(part) ?? 0), 0);
  if (sum !== countOf(group) || group.told.size.length + group.told.torque.length > 0) return;
  const told = parts.filter((part) => part.told.size.length + part.told.torque.length > 0);
  const [last] = told;
  if (last === undefined || told.length > 1 || last !== parts.at(-1)) return;
  if (!parts.every((part) => part.sentences[0] === last.told.size[0]?.evidence.sentence)) return;
  for (const part of parts)
    if (part !== last)
      for (const field of ['size', 'drive', 'torque', 'angle'] as const)
        (part.told[field] as Told<unknown>[]).push(...(last.told[field] as readonly Told<unknown>[]));
}

function mergeAlike(talk: Talk, parts: readonly Group[]): readonly Group[] {
  const out: Group[] = [];
  for (const part of parts) {
    const same = out.find((other) => values(other) === values(part) && other.head === part.head && other.only === part.only);
    const count = countOf(part);
    const sofar = same === undefined ? null : countOf(same);
    if (same === undefined || count === null || sofar === null) {
      out.push(part);
      continue;
    }
    tell(
      talk,
      [same],
      'count',
      sofar + count,
      [],
      { ...(part.told.count.at(-1)?.evidence ?? { sentence: 0, words: '', confidence: 0 }), confidence: 0.8 },
      { replace: true },
    );
    for (const word of [...part.names, ...part.places]) {
      if (same.own.has(stemOf(word))) continue;
      same.own.add(stemOf(word));
      same.places.push(word);
    }
    same.sentences.push(...part.sentences.filter((sentence) => !same.sentences.includes(sentence)));
  }
  return out;
}

/** "the links: a top nut", and "there's two links": one for each of them. */
function countByThing(group: Group): void {
  const { thing } = group;
  const [count] = group.told.count;
  const many = thing !== null && /s$/.test(thing.words.at(-1) ?? '') ? thing.count : null;
  const ownName = group.names.some((name) => !tellingApart.has(name) && !(thing?.words.includes(name) ?? false));
  if (ownName && group.head === 'plug') return;
  if (many === null || many < 2 || group.saidPlural || group.head === null || group.perUnknown !== null || count !== undefined) return;
  group.told.count.push({
    value: many,
    build: null,
    evidence: { sentence: group.sentences[0] ?? 0, confidence: 0.65, words: `${many} ${thing?.words.join(' ') ?? ''}` },
  });
}

/** What a vehicle has on either side: one bolt spoken of may be two. */
const isOfPair = (group: Group) =>
  /\b(?:ball joint|tie rod|track rod|drop link|sway bar link|bar link|shock|shocks|strut|struts|knuckle|hub|axle nut|caliper|calliper|disc|rotor|wheel|wheels|half ?shaft|halfshaft|cv|driveshaft nut|control arm|wishbone|trailing arm|lower arm|upper arm|jam nut|spring pin|abs sensor|wheel speed sensor|brake hose|brake pipe|outer|inner)\b/.test(
    [...group.topic, ...group.names, group.head ?? '']
      .map((word) => (/s$/.test(word) && !/ss$/.test(word) ? word.slice(0, -1) : word))
      .join(' '),
  );

/** "the pinch bolt" is one where nothing says otherwise. */
function countSingle(group: Group, isOneSided: boolean): void {
  if (group.told.count.length > 0 || group.perUnknown !== null) return;
  const [name] = group.names.slice(-1);
  const ofPair = !isOneSided && group.places.length > 0 && isOfPair(group);
  if (group.implied && group.head === null && name !== undefined && !/s$/.test(name) && !ofPair) {
    group.told.count.push({
      value: 1,
      build: null,
      evidence: { sentence: group.sentences[0] ?? 0, confidence: 0.55, words: group.names.join(' ') },
    });
    return;
  }
  if (group.implied || group.head === null) return;
  if (/s$/.test(group.topic.at(-1) ?? '') && group.thing?.count !== 1) return;
  const sentence = group.sentences[0] ?? 0;
  if (group.saidPlural || !group.saidSingular || (!isOneSided && isOfPair(group))) return;
  group.told.count.push({
    value: 1,
    build: null,
    evidence: { sentence, confidence: 0.7, words: `the ${[...group.names, group.head].join(' ')}` },
  });
}

/** "a bolt and a nut at the bottom, 18 both": they hold one thing together, and are one. */
function withoutMates(groups: readonly Group[]): readonly Group[] {
  const isMate = (nut: Group, bolt: Group) =>
    nut.head === 'nut' &&
    bolt.head === 'bolt' &&
    bolt.thing === nut.thing &&
    (bolt.places.length === 0 || nut.places.length === 0) &&
    bolt.sentences[0] === nut.sentences[0] &&
    countOf(bolt) === countOf(nut) &&
    toldTogether(bolt, nut) &&
    values(bolt) === values(nut);
  return groups.filter((group, index) => !groups.some((other, at) => Math.abs(at - index) === 1 && isMate(group, other)));
}

/** "three on the left and three on the right", all alike, are six. */
function joinSides(groups: readonly Group[]): readonly Group[] {
  const out: Group[] = [];
  for (const group of groups) {
    const twin = out.findLast(
      (other) => other.head === group.head && other.only === group.only && values(other) === values(group) && areTwins(other, group),
    );
    const [one, other] = twin === undefined ? [null, null] : [countOf(twin), countOf(group)];
    if (twin === undefined || one === null || other === null) {
      out.push(group);
      continue;
    }
    const evidence = group.told.count.at(-1)?.evidence;
    if (evidence !== undefined) twin.told.count.push({ value: one + other, build: null, evidence });
    twin.sentences.push(...group.sentences.filter((sentence) => !twin.sentences.includes(sentence)));
    for (const word of group.places) twin.places.push(word);
  }
  return out;
}

/** Counted together, or named together at opposite places of one thing: "one at the front and one at the back". */
function areTwins(one: Group, other: Group): boolean {
  if (one.told.size.length + one.told.torque.length === 0) return false;
  if (other.beside === one && toldTogether(one, other)) return true;
  const telling = (group: Group) => [...group.own, ...group.topic.map(stemOf)].filter((word) => tellingApart.has(word));
  const opposite = areApart(telling(one), telling(other));
  if (one.summed && other.summed) return opposite || one.thing === other.thing;
  if (countOf(one) !== countOf(other) || one.bothSides || other.bothSides)
    return other.beside === one && opposite && isLeftRight(one, other);
  return opposite && (other.beside === one || (one.thing === other.thing && one.sentences[0] === other.sentences[0]));
}

/** "two at the flange and one at the bracket, all three 10 mil": what was told was told of both at once. */
const toldTogether = (one: Group, other: Group) =>
  one.told.torque.length > 0 &&
  other.names.every((name) => !tellingApart.has(name) || one.names.includes(name)) &&
  (['size', 'torque'] as const).every((field) => one.told[field].at(-1)?.evidence.sentence === other.told[field].at(-1)?.evidence.sentence);

const sidewards = /^(?:left|right|driver|passenger|nearside|offside)$/;
const isLeftRight = (one: Group, other: Group) => [...one.own, ...other.own].some((word) => sidewards.test(word));

/** Bolts, nuts and screws always; plugs, studs and things named in their stead only where a size or a torque was told. */
function isFastened(group: Group): boolean {
  const told = lastTold(group, 'torque') !== null || group.told.torque.length > 0 || group.told.size.length > 0;
  if (group.untouched && group.told.torque.length === 0) return false;
  if ((group.carriesOthers || group.listed) && !told) return false;
  if (group.implied && group.head === null)
    return group.told.torque.length > 0 || (group.told.size.length > 0 && group.told.count.length > 0) || group.told.size.length > 0;
  if (!told && group.saidVaguely && group.told.snug.length === 0) return false;
  if (told) return true;
  // Fasteners of which nothing was told but how many are asked about, not drafted.
  return group.sure && [group.told.snug, group.told.drive, group.told.thread].some((list) => list.length > 0);
}
