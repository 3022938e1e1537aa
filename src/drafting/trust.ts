import { fastenerHead } from './fastener-words.ts';
import type { FieldName, Group, Told } from './groups.ts';
import { isPart, nounOf } from './parts.ts';
import type { Doubt } from './talk.ts';
import type { SaidSentence } from './sentences.ts';
import { stemOf, tellingApart } from './word-classes.ts';

export interface HeardTalk {
  readonly sentences: readonly SaidSentence[];
  readonly groups: readonly Group[];
  readonly doubts: readonly Doubt[];
}

type Judged = 'count' | 'size' | 'torque';

interface Place {
  readonly at: number;
  readonly field: Judged;
  readonly group: Group;
}

/** The whole talk as one row of tokens, and where each value of each group was said in it. */
export interface TalkMap {
  readonly heard: HeardTalk;
  readonly starts: readonly number[];
  readonly words: readonly string[];
  readonly stems: readonly string[];
  readonly heads: readonly boolean[];
  readonly places: readonly Place[];
  /** Quantities that no group took: where, and what they may be. */
  readonly loose: readonly { readonly at: number; readonly kind: string }[];
  readonly quantities: readonly { readonly at: number; readonly kind: string }[];
  readonly order: readonly Group[];
}

const judged = ['count', 'size', 'torque'] as const;

export function mapOf(heard: HeardTalk): TalkMap {
  const starts: number[] = [];
  const words: string[] = [];
  const heads: boolean[] = [];
  for (const { tokens } of heard.sentences) {
    starts.push(words.length);
    for (const [index, { bare }] of tokens.entries()) {
      words.push(bare);
      heads.push(fastenerHead(tokens, index) !== null);
    }
  }
  const places: Place[] = [];
  const taken = new Set<string>();
  for (const group of heard.groups)
    for (const list of [group, ...group.parts])
      for (const field of [...judged, 'passes', 'mateSizes'] as const)
        for (const { evidence } of field === 'mateSizes' ? list.mateSizes : list.told[field]) {
          const at = (starts[evidence.sentence] ?? 0) + (evidence.from ?? 0);
          if (evidence.from !== undefined) {
            const length = evidence.words.split(' ').length;
            for (let index = 0; index < length; index++) taken.add(String(at + index));
          }
          if (field !== 'passes' && field !== 'mateSizes') places.push({ at, field, group });
        }
  const quantities = heard.sentences.flatMap(({ index, quantities: all }) =>
    all.map(({ kind, from }) => ({ at: (starts[index] ?? 0) + from, kind })),
  );
  const loose = quantities.filter(({ at, kind }) => /^(?:torque|width|serration|number)$/.test(kind) && !taken.has(String(at)));
  const order = [...heard.groups].sort((one, other) => (one.sentences[0] ?? 0) - (other.sentences[0] ?? 0));
  return { heard, starts, words, stems: words.map(stemOf), heads, places, loose, quantities, order };
}

/** What speaks for a value and against it. */
export function signsOf(map: TalkMap, group: Group, field: Judged, told: Told<unknown>): Readonly<Record<string, number>> {
  const { starts, words, stems, heads, heard } = map;
  const { evidence } = told;
  const sentence = heard.sentences[evidence.sentence];
  const start = starts[evidence.sentence] ?? 0;
  const at = start + (evidence.from ?? 0);
  const isKnown = evidence.from !== undefined;
  const names = new Set([...group.names, ...group.topic].filter((word) => !tellingApart.has(word)).map(stemOf));
  if (group.head !== null) names.add(group.head);
  const isName = (index: number) => names.has(stems[index] ?? '');
  // How far before the value its group was last named, and what was named and told between.
  let back = 0;
  while (back < 60 && at - back >= 0 && !isName(at - back)) back++;
  let ahead = 0;
  while (ahead < 12 && !isName(at + ahead)) ahead++;
  const named = at - back;
  let rivals = 0;
  for (let index = named + 1; index < at; index++) if (heads[index] === true || (isPart(stems[index] ?? '') && !isName(index))) rivals++;
  const sameKind = { torque: /^torque$/, size: /^(?:width|serration)$/, count: /^number$/ }[field];
  const between = map.quantities.filter((one) => one.at > named && one.at < at && sameKind.test(one.kind)).length;
  const near = (from: number, to: number) => map.loose.filter((one) => one.at >= from && one.at <= to);
  const sharing = map.places.filter((one) => one.at === at && one.field === field && one.group !== group).length;
  const length = sentence?.tokens.length ?? 0;
  const index = map.order.indexOf(group);
  const others = (other: Group | undefined) =>
    other === undefined ? [] : map.places.filter(({ group: one }) => one === other).map((one) => one.at);
  const previous = others(map.order[index - 1]);
  const next = others(map.order[index + 1]);
  const text = (sentence?.tokens ?? []).map(({ bare }) => bare).join(' ');
  const inSentence = new Set(heard.groups.filter((one) => one.sentences.includes(evidence.sentence))).size;
  const all = group.sentences.map((one) => (heard.sentences[one]?.tokens ?? []).map(({ bare }) => bare).join(' ')).join(' . ');
  const value = told.value as number;
  const flag = (is: boolean) => (is ? 1 : 0);
  const fields: readonly FieldName[] = judged;
  const count = group.told.count.at(-1)?.value ?? null;
  return {
    confidence: evidence.confidence,
    assumed: flag(!isKnown),
    unit: flag(
      /[a-z]/.test(
        evidence.words.replace(
          /^(?:[\d./ ]|and|a|half|point|hundred|[a-z]+ty|[a-z]+teen|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|to)+$/,
          '',
        ),
      ),
    ),
    back: Math.min(back, 60),
    far: flag(back >= 25),
    ahead: flag(ahead < Math.min(back, 12)),
    rivals: Math.min(rivals, 4),
    between: Math.min(between, 3),
    looseNear: near(at - 12, at + 12).length,
    looseSentence: near(start, start + length).length,
    looseAny: near(starts[group.sentences[0] ?? 0] ?? 0, at + 15).length,
    looseTorque: near(at - 25, at + 25).filter(({ kind }) => kind === 'torque').length,
    sharing,
    length,
    long: flag(length > 30),
    before: flag(previous.length > 0 && at < Math.min(...previous)),
    after: flag(next.length > 0 && at > Math.min(...next)),
    inSentence,
    crowded: flag(inSentence > 2),
    sameSentence: flag(group.sentences[0] === evidence.sentence),
    wait: evidence.sentence - (group.sentences[0] ?? 0),
    correct: flag(/\b(?:no|sorry|wait|actually|mean|hang on|tell a lie|scratch|correction|rather|wrong)\b/.test(text)),
    not: flag(/\b(?:not|isn't|aren't|don't)\b/.test(text)),
    missing: fields.filter((one) => group.told[one].length === 0).length,
    noTorque: flag(group.told.torque.length === 0),
    noSize: flag(group.told.size.length === 0),
    noCount: flag(group.told.count.length === 0),
    headless: flag(group.head === null),
    implied: flag(group.implied),
    vague: flag(group.saidVaguely),
    names: Math.min(4, names.size),
    places: Math.min(4, group.places.length),
    topicless: flag(group.topic.length === 0),
    nameless: flag(group.names.filter((word) => !tellingApart.has(word)).length + group.topic.length === 0),
    doubts: Math.min(3, heard.doubts.filter((one) => one.group === group).length),
    doubtField: flag(heard.doubts.some((one) => one.group === group && one.field === field)),
    unassigned: heard.doubts.filter((one) => one.kind === 'unassigned' && Math.abs(one.evidence.sentence - evidence.sentence) <= 1).length,
    parts: flag(group.parts.length > 0),
    isPart: flag(group.whole !== null),
    mate: flag(group.mate !== null || group.mateSizes.length > 0),
    told: Math.min(3, group.told[field].length),
    builds: flag(told.build !== null),
    only: flag(group.only !== null),
    mentions: Math.min(6, group.sentences.length),
    one: flag(field === 'count' && value === 1),
    many: flag(field === 'count' && value > 12),
    plural: flag(group.saidPlural),
    onePlural: flag(count === 1 && group.saidPlural),
    both: flag(group.bothSides),
    times: flag(group.times !== null),
    sides: flag(/\b(?:each|per|every|apiece|side|sides|both|other|left|right|either|a side|per side|ends?|corners?)\b/.test(all)),
    each: flag(/\b(?:each|per|every|apiece|a side|a piece)\b/.test(all)),
    same: flag(/\b(?:same|likewise|identical|ditto)\b/.test(all)),
    other: flag(/\b(?:other|opposite|more|another|rest|others)\b/.test(all)),
    sum: flag(/\b(?:all|total|altogether|makes|so that)\b/.test(all)),
    talkMissing: map.order.filter((one) => one.told.torque.length === 0).length / Math.max(1, map.order.length),
    talkNoSize: map.order.filter((one) => one.told.size.length === 0).length / Math.max(1, map.order.length),
    talkLoose: map.loose.length / Math.max(1, map.order.length),
    talkDoubts: heard.doubts.length / Math.max(1, map.order.length),
    prevLacks: flag(map.order[index - 1] !== undefined && map.order[index - 1]!.told[field].length === 0),
    nextLacks: flag(map.order[index + 1] !== undefined && map.order[index + 1]!.told[field].length === 0),
    prevHalf: flag([map.order[index - 1]].some((one) => one !== undefined && (one.told.torque.length === 0 || one.told.size.length === 0))),
    nextHalf: flag([map.order[index + 1]].some((one) => one !== undefined && (one.told.torque.length === 0 || one.told.size.length === 0))),
    unpart: flag(group.head === null && !isPart(nounOf(group.names))),
    unthing: flag(group.thing !== null && !isPart(group.thing.noun)),
    twinHead: flag(
      map.order.some(
        (one) => one !== group && one.topic.join() === group.topic.join() && one.head === group.head && group.topic.length > 0,
      ),
    ),
    likeOther: Math.min(
      3,
      map.order.filter(
        (one) =>
          one !== group &&
          [...names].some((word) => !/^(?:bolt|nut|screw)$/.test(word) && (one.own.has(word) || one.topic.map(stemOf).includes(word))),
      ).length,
    ),
    namedHere: flag((sentence?.tokens ?? []).some(({ bare }) => names.has(stemOf(bare)) && stemOf(bare) !== group.head)),
    ownNamed: flag(back < 60 && stems[named] !== group.head),
    secondPass: flag(field === 'torque' && evidence.sentence - (group.told.size[0]?.evidence.sentence ?? evidence.sentence) > 3),
    sizeFar: flag(field === 'torque' && Math.abs(evidence.sentence - (group.told.size[0]?.evidence.sentence ?? evidence.sentence)) > 1),
    sizeHere: flag(group.told.size.some((one) => one.evidence.sentence === evidence.sentence)),
    countHere: flag(group.told.count.some((one) => one.evidence.sentence === evidence.sentence)),
    torqueNear: flag(field !== 'torque' && group.told.torque.some((one) => Math.abs(one.evidence.sentence - evidence.sentence) <= 2)),
    number: flag(words[at] !== undefined && /^\d/.test(words[at])),
  };
}
