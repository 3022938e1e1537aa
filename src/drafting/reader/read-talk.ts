import type { Heard } from '../extract.ts';
import { emptyTold, type Evidence, type Group, type Told, type ToldFields } from '../groups.ts';
import type { Doubt } from '../talk.ts';
import type { SaidWord } from '../transcripts.ts';
import { judged, mapOf, signsOf, trustIn, type JudgedField } from '../trust.ts';
import { chanceOf, readTrustedFrom } from './chances.ts';
import { readBuilds, withBuilds } from './build-words.ts';
import { readGroups, type ReadGroup } from './merge.ts';
import type { ReadTalk } from './net.ts';
import { viewOf } from './view.ts';

/**
 * The same talk as the net reads it as well. Which numbers belong to the same fasteners is the net's to say, with the rules' answer among
 * what it looks at; how they are called, and all but count, size and torque, stays with the rules. A talk too long for it stays as it was heard.
 */
export function withReading(heard: Heard, said: readonly SaidWord[], read: ReadTalk): Heard {
  const view = viewOf(heard, said);
  const reading = read(view);
  if (reading === null) return heard;
  const map = mapOf(heard);
  const builds = readBuilds(heard, view, reading);
  const found = readGroups(heard, view, reading, builds, (group, field, told) => trustIn(field, signsOf(map, group, field, told)));
  const chances = new Map<Told<unknown>, number>();
  const made = found.map((one) => filled(one, chances));
  // What only the rules heard is told of no fasteners, as the net sees it: of 16 such groups in 36 talks some three were there.
  const groups = made.map((group) => withoutUnlikely(group, chances)).filter((group) => isWorthDrafting(group, chances));
  const taken = new Set(groups.flatMap((group) => judged.flatMap((field) => group.told[field].map(placeOf))));
  groups.sort((one, other) => (one.sentences[0] ?? 0) - (other.sentences[0] ?? 0));
  const ids = new Set(groups.map(({ id }) => id));
  const isOpen = ({ kind, group, evidence }: Doubt) =>
    kind === 'unassigned' ? !taken.has(placeOf({ evidence })) : group === null || ids.has(group.id);
  const doubts = heard.doubts.filter(isOpen);
  const asked = new Set(doubts.map(placeOf));
  // A torque that is nobody's is asked about, whoever heard it.
  const onlyRuled = heard.groups.filter(({ id }) => !made.some((group) => group.id === id));
  for (const told of [...made, ...onlyRuled].flatMap((group) => group.told.torque))
    if (!taken.has(placeOf(told)) && !asked.has(placeOf(told)))
      doubts.push({
        kind: 'unassigned',
        group: null,
        field: 'torque',
        evidence: told.evidence,
        said: told.evidence.words,
        torque: told.value,
      });
  return { ...withBuilds(heard, builds, groups), doubts, chances };
}

/** What is less likely right is not even offered: of such values in 36 talks four of 18 were right. Our own choice. */
const worthOffering = 0.3;

function withoutUnlikely({ told, ...group }: Group, chances: ReadonlyMap<Told<unknown>, number>): Group {
  const isLikely = (one: Told<unknown>) => (chances.get(one) ?? 0) >= worthOffering;
  return {
    ...group,
    told: { ...told, count: told.count.filter(isLikely), size: told.size.filter(isLikely), torque: told.torque.filter(isLikely) },
  };
}

/** Of a group with a name something is asked about that is at least so likely right. Our own choice. */
const worthAsking = 0.4;

/** Something is sure enough to be written of it, or it has a name to be asked about by. */
function isWorthDrafting({ told, head, names, topic, places }: Group, chances: ReadonlyMap<Told<unknown>, number>): boolean {
  const isNamed = head !== null && names.length + topic.length + places.length > 0;
  return judged.some((field) => told[field].some((one) => (chances.get(one) ?? 0) >= (isNamed ? worthAsking : readTrustedFrom[field])));
}

const placeOf = ({ evidence }: { readonly evidence: Evidence }) => `${evidence.sentence} ${evidence.from}`;

/** Of each value the likeliest of what the net and the rules say. */
function filled({ group, candidates }: ReadGroup, chances: Map<Told<unknown>, number>): Group {
  const told: ToldFields = { ...emptyTold(), ...group.told, count: [], size: [], torque: [] };
  const best = new Map<string, { told: Told<unknown>; chance: number; field: JudgedField }>();
  for (const candidate of candidates) {
    const key = `${candidate.field} ${candidate.build}`;
    const chance = chanceOf(candidate.field, candidate.signs);
    if (chance > (best.get(key)?.chance ?? -1)) best.set(key, { told: candidate.told, chance, field: candidate.field });
  }
  for (const { told: one, chance, field } of best.values()) {
    (told[field] as Told<unknown>[]).push(one);
    chances.set(one, chance);
  }
  return { ...group, told };
}
