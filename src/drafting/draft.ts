import type { TorqueUnit } from '../torque/quantities.ts';
import type { TalkBuild } from './builds.ts';
import { outlined, type DraftOutline } from './draft-steps.ts';
import { hearTalk, type Heard } from './extract.ts';
import { lastTold, type Group, type Told } from './groups.ts';
import { readReach } from '../procedure/notation.ts';
import { driveText, torqueText } from './file-fasteners.ts';
import { readTrustedFrom } from './reader/chances.ts';
import type { ReadTalk } from './reader/net.ts';
import { withReading } from './reader/read-talk.ts';
import { questionsOf, type OpenQuestion } from './questions.ts';
import type { Transcript } from './transcripts.ts';
import { isJudged, mapOf, signsOf, trustedFrom, trustIn, type JudgedField, type TalkMap } from './trust.ts';

/** Where one value of a group came from. */
export interface DraftEvidence {
  readonly field: string;
  /** The whole sentence, word for word. */
  readonly said: string;
  /** Milliseconds from the start of the recording, or null where the transcript has no times. */
  readonly at: number | null;
  /** From 0 to 1: of a count, a size and a torque how likely it is right, else our own scale by the rule that heard it. */
  readonly confidence: number;
  /** Taken from the way another value was said, such as hex from a size in millimetres. */
  readonly inferred: boolean;
}

/** A value that was heard but is not sure enough to be written: it is asked about, and offered with the sentence that says it. */
export interface HeldBack {
  readonly field: JudgedField;
  /** As the procedure file would write it; null where the file has no such value, such as a torque without a unit. */
  readonly text: string | null;
  readonly said: string;
  readonly at: number | null;
  readonly confidence: number;
}

/** A group of like fasteners as drafted, for one build or for all (null); a group that differs by build has several. */
export interface DraftGroup {
  readonly group: string;
  readonly name: string;
  readonly build: string | null;
  /** There on this build only. */
  readonly only: string | null;
  readonly count: number | null;
  readonly size: string | null;
  readonly sizeUnit: 'mm' | 'in' | null;
  readonly drive: string | null;
  readonly square: string | null;
  readonly torque: number | null;
  readonly torqueRange: readonly [number, number] | null;
  readonly unit: TorqueUnit | null;
  /** Degrees further after the torque. */
  readonly angle: number | null;
  readonly thread: string | null;
  readonly reach: readonly string[];
  readonly order: 'cross' | 'circular' | null;
  readonly condition: string | null;
  readonly singleUse: boolean;
  /** The sentences about it, in the order of the talk, and when the first was said. */
  readonly step: string;
  readonly firstSaid: string;
  readonly at: number | null;
  readonly evidence: readonly DraftEvidence[];
  readonly heldBack: readonly HeldBack[];
}

export interface Draft extends DraftOutline {
  readonly name: string;
  readonly builds: readonly TalkBuild[];
  readonly groups: readonly DraftGroup[];
  readonly questions: readonly OpenQuestion[];
}

/** Drafts from a talk-through. What was not said stays null and becomes a question. */
export function draftFrom(
  transcript: Transcript,
  { name, read = null }: { readonly name: string; readonly read?: ReadTalk | null },
): Draft {
  return draftOf(hearAndRead(transcript, read), { name });
}

/** Listens to a talk by the rules and, where there is a net, reads it by that too. */
export function hearAndRead(transcript: Transcript, read: ReadTalk | null): Heard {
  const heard = hearTalk(transcript);
  return read === null ? heard : withReading(heard, transcript.words, read);
}

/** The same of a talk that was listened to; `holdBack: false` writes whatever was heard, to measure what holding back is worth. */
export function draftOf(heard: Heard, { name, holdBack = true }: { readonly name: string; readonly holdBack?: boolean }): Draft {
  const map = mapOf(heard);
  const groups = heard.groups.flatMap((group) =>
    buildsOfGroup(group, heard).map((build) =>
      withoutUnsure(draftGroup(group, build, heard, map), holdBack, heard.chances === undefined ? trustedFrom : readTrustedFrom),
    ),
  );
  const outline = outlined(heard, nameOf);
  const questions = questionsOf(groups, heard.doubts, outline, (sentence) => saidIn(heard, sentence));
  // Captions have no capitals: a build that is a code is called as its code is written.
  const builds = heard.builds.map((build) => (build.name.toLowerCase() === build.id.toLowerCase() ? { ...build, name: build.id } : build));
  return { name, builds, groups, questions, ...outline };
}

/** What it belongs to, what it is called, and where it is: "gearbox mount bracket bolt, left". */
function nameOf(group: Group): string {
  const head = group.head ?? '';
  const own = [...new Set([...group.topic, ...group.names])].filter((word) => word !== '' && !group.places.includes(word));
  const called =
    head === ''
      ? own
      : [...own.map((word, index) => (index === own.length - 1 && group.topic.includes(word) ? singular(word) : word)), head];
  const where = group.places.filter((word) => word !== 'each');
  return [called.join(' '), where.join(' ')].filter((part) => part !== '').join(', ');
}

/** "brackets bolt" is said "bracket bolt". */
const singular = (word: string) => (/(?:ss|us|is)$/.test(word) || word.length < 4 ? word : word.replace(/s$/, ''));

function saidIn({ sentences }: Heard, sentence: number): { said: string; at: number | null } {
  return { said: sentences[sentence]?.text ?? '', at: sentences[sentence]?.at ?? null };
}

function buildsOfGroup(group: Group, { builds }: Heard): readonly (string | null)[] {
  if (group.only !== null) return [group.only];
  const told = new Set([...group.told.size, ...group.told.torque, ...group.told.drive, ...group.told.count].map(({ build }) => build));
  if (told.size === 0 || (told.size === 1 && told.has(null))) return [null];
  const kinds = new Set(builds.filter(({ id }) => told.has(id)).map(({ kind }) => kind));
  const ids = builds.filter(({ kind }) => kinds.has(kind)).map(({ id }) => id);
  return ids.length > 1 ? ids : [null, ...ids];
}

/** Takes out the values that are likelier wrong than the draft may be. */
function withoutUnsure(group: DraftGroup, holdBack: boolean, from: Readonly<Record<JudgedField, number>>): DraftGroup {
  const unsure = group.evidence.filter(
    (one): one is DraftEvidence & { readonly field: JudgedField } => isJudged(one.field) && one.confidence < from[one.field],
  );
  if (!holdBack || unsure.length === 0) return group;
  const held = new Set<string>(unsure.map(({ field }) => field));
  const texts = { count: group.count === null ? null : String(group.count), size: driveText(group), torque: torqueText(group) };
  const isDriveSaid = group.evidence.some(({ field, inferred }) => field === 'drive' && !inferred) && !(group.size ?? '').startsWith('T');
  return {
    ...group,
    ...(held.has('count') ? { count: null } : {}),
    ...(held.has('size') ? { size: null, sizeUnit: null, drive: isDriveSaid ? group.drive : null } : {}),
    ...(held.has('torque') ? { torque: null, torqueRange: null, unit: null } : {}),
    evidence: group.evidence.filter(({ field }) => !held.has(field) && (field !== 'drive' || !held.has('size') || isDriveSaid)),
    heldBack: unsure.map(({ field, said, at, confidence }) => ({ field, text: texts[field], said, at, confidence })),
  };
}

/** Where one of these is spoken of beside a size, nobody can say that the size is a hex's. */
const otherDrives =
  /\b(?:allens?|torx|splined?|(?:twelve|12)[ -]?points?|hex keys?|(?:socket|cap|button)[ -]heads?|phillips|cross[ -]?heads?|square holes?|triple squares?)\b/i;

function draftGroup(group: Group, build: string | null, heard: Heard, map: TalkMap): DraftGroup {
  const told = {
    count: lastTold(group, 'count', build) ?? group.told.count.at(-1) ?? null,
    size: lastTold(group, 'size', build),
    drive: lastTold(group, 'drive', build),
    square: lastTold(group, 'square', build),
    torque: lastTold(group, 'torque', build),
    angle: lastTold(group, 'angle', build),
    thread: lastTold(group, 'thread', build),
    order: lastTold(group, 'order', build),
    condition: lastTold(group, 'condition', build),
    'single use': lastTold(group, 'single', build),
  };
  const reach = [...new Map(group.told.reach.map((one) => [one.value, one])).values()]
    .filter(({ value }) => readReach(value) !== null)
    .slice(0, 6);
  const sureOf = (field: string, one: Told<unknown>) =>
    field === 'count' || field === 'size' || field === 'torque'
      ? (heard.chances?.get(one) ?? trustIn(field, signsOf(map, group, field, one)))
      : one.evidence.confidence;
  const evidence = Object.entries(told).flatMap(([field, one]): DraftEvidence[] =>
    one === null ? [] : [{ field, ...saidIn(heard, one.evidence.sentence), confidence: sureOf(field, one), inferred: false }],
  );
  for (const one of reach)
    evidence.push({ field: 'reach', ...saidIn(heard, one.evidence.sentence), confidence: one.evidence.confidence, inferred: false });
  const { size } = told;
  const isGuessed = told.drive === null && size !== null && !size.value.text.startsWith('T');
  const mayBeOther =
    isGuessed && [...group.sentences, size.evidence.sentence].some((sentence) => otherDrives.test(saidIn(heard, sentence).said));
  if (told.drive === null && size !== null && !mayBeOther) {
    const bySize = size.value.text.startsWith('T');
    const confidence = bySize ? size.evidence.confidence : Math.min(0.6, size.evidence.confidence);
    evidence.push({ field: 'drive', ...saidIn(heard, size.evidence.sentence), confidence, inferred: !bySize });
  }
  const first = saidIn(heard, Math.min(...group.sentences));
  return {
    group: String(group.id),
    name: nameOf(group),
    build,
    only: group.only,
    count: told.count?.value ?? null,
    size: size?.value.text ?? null,
    sizeUnit: size?.value.unit ?? null,
    drive: told.drive?.value ?? (size === null || mayBeOther ? null : size.value.text.startsWith('T') ? 'internal serration' : 'hex'),
    square: told.square?.value ?? null,
    torque: told.torque?.value.value ?? null,
    torqueRange: told.torque?.value.range ?? null,
    unit: told.torque?.value.unit ?? null,
    angle: told.angle?.value ?? null,
    thread: told.thread?.value ?? null,
    reach: reach.map(({ value }) => value),
    order: told.order?.value === 'cross' || told.order?.value === 'circular' ? told.order.value : null,
    condition: told.condition?.value ?? null,
    singleUse: told['single use'] !== null,
    step: group.sentences.map((sentence) => saidIn(heard, sentence).said).join(' '),
    firstSaid: first.said,
    at: first.at,
    evidence,
    heldBack: [],
  };
}
