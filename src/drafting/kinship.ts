import { lastTold, type Group } from './groups.ts';
import type { Hearing } from './hearing.ts';
import type { Mention } from './mention.ts';
import { areApart, areTogether, type Thing } from './things.ts';
import { stemOf, tellingApart } from './word-classes.ts';

export interface Named {
  readonly groups: readonly Group[];
  readonly isNew: boolean;
  /** Only the nut of a bolt or the bolt of a nut: what is told next may be about either. */
  readonly mate: boolean;
}

export const nobody: Named = { groups: [], isNew: false, mate: false };

export const found = (groups: readonly Group[]): Named => ({ groups, isNew: false, mate: false });

export const made = (group: Group): Named => ({ groups: [group], isNew: true, mate: false });

/** What the sentence speaks of when the fasteners are named: a thing in it, or the thing the talk is at. */
export const sceneOf = (hearing: Hearing): Thing | null =>
  hearing.thing !== null && hearing.thingAt >= hearing.valueEnd ? hearing.thing : hearing.talk.topic;

export const isFull = (group: Group, build: string | null = null): boolean =>
  lastTold(group, 'torque', build) !== null && lastTold(group, 'size', build) !== null;

export const isBare = (group: Group): boolean => group.told.torque.length + group.told.size.length === 0;

export const sentencesSince = (hearing: Hearing, group: Group): number => hearing.sentence.index - (group.sentences.at(-1) ?? -99);

export const sameKind = (group: Group, mention: Mention): boolean =>
  mention.head === null ||
  (group.head === null && mention.sure) ||
  group.head === mention.head ||
  mention.head === 'fastener' ||
  group.head === 'fastener' ||
  (/^(?:screw|bolt|cap screw|stud)$/.test(mention.head) && /^(?:screw|bolt|cap screw|stud)$/.test(group.head ?? ''));

export const isOfThing = (group: Group, thing: Thing): boolean =>
  areTogether(group.thing, thing) ||
  ([...thing.stems].some((stem) => !tellingApart.has(stem) && (group.own.has(stem) || group.topic.map(stemOf).includes(stem))) &&
    !areApart(thing.stems, group.own));

/** True while the talk is still at what the group belongs to. */
export function isOfScene(hearing: Hearing, group: Group): boolean {
  if (sentencesSince(hearing, group) > 4) return false;
  const scene =
    hearing.thing !== null && hearing.thingAt > hearing.freshAt
      ? hearing.thing
      : hearing.talk.topicAt > hearing.talk.focusAt
        ? hearing.talk.topic
        : null;
  if (scene !== null) return isOfThing(group, scene);
  // What the talk has just turned to still counts after its first fasteners were named.
  const turned = hearing.talk.topicLeads && hearing.talk.topicSentence >= hearing.sentence.index - 1 ? hearing.talk.topic : null;
  return (
    turned === null ||
    hearing.talk.focus.includes(group) ||
    hearing.talk.focus.some(({ whole }) => whole === group) ||
    isOfThing(group, turned)
  );
}
