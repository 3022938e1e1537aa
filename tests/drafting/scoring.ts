import { parseTorqueUnit } from '../../src/torque/units.ts';
import type { DraftGroup } from '../../src/drafting/draft.ts';
import { pair } from './pairing.ts';

/** One entry of a NAME.truth.json: what the speaker means in the end for one group of like fasteners. */
export interface TruthRow {
  readonly match: string;
  readonly count?: number | null;
  readonly size?: string | number | null;
  readonly sizeUnit?: string | null;
  readonly drive?: string | null;
  readonly torque?: number | string | readonly [number, number] | null;
  readonly unit?: string | null;
  readonly build?: string | null;
}

export const scoredFields = ['count', 'size', 'torque', 'unit', 'drive', 'build'] as const;
export type ScoredField = (typeof scoredFields)[number];

export interface Score {
  /** Values that the draft gives, those of them that are right, and those that the truth has. */
  given: number;
  right: number;
  wanted: number;
}

/** One value of a draft, and whether the truth has it; null where it is not judged. */
export interface Judgement {
  readonly group: string;
  readonly build: string | null;
  readonly field: ScoredField;
  readonly isRight: boolean;
}

export interface Comparison {
  readonly judgements: readonly Judgement[];
  readonly scores: Readonly<Record<ScoredField, Score>>;
  readonly misses: readonly string[];
  readonly groupsWanted: number;
  readonly groupsFound: number;
  readonly groupsExtra: number;
}

/**
 * Compares drafted groups with the truth; groups are paired by the words of `match`, never by their values. Fasteners alike in size and
 * torque may be one entry and several groups, or several entries and one group: then their counts are added.
 */
export function compare(truth: readonly TruthRow[], groups: readonly DraftGroup[]): Comparison {
  const scores = Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
  const misses: string[] = [];
  const judgements: Judgement[] = [];
  const matches = [...new Set(truth.map(({ match }) => match))];
  const lots = [...new Set(groups.map(({ group }) => group))];
  const paired = pair(
    matches,
    lots.map((lot) => groups.filter(({ group }) => group === lot)),
  );
  const used = new Set<string>();
  for (const row of truth) {
    const lot = paired.get(row.match);
    if (lot !== undefined) used.add(lot);
    const rows = groups.filter(({ group }) => group === lot);
    const own = rows.find(({ build }) => same(build, row.build ?? null)) ?? rows.find(({ build }) => build === null) ?? rows[0];
    const found =
      own === undefined
        ? sharedWith(row, truth, groups, paired)
        : (together(row, own, groups, [...used, ...paired.values()], used) ?? partly(row, own, truth, paired));
    for (const field of scoredFields) judge(scores[field], field, row, found, misses, judgements);
  }
  for (const lot of lots) {
    if (used.has(lot)) continue;
    const extra = groups.find(({ group }) => group === lot);
    if (extra === undefined) continue;
    for (const field of scoredFields) {
      if (valueOf(field, extra) === null || field === 'build') continue;
      scores[field].given++;
      judgements.push({ group: lot, build: extra.build, field, isRight: false });
    }
    misses.push(`extra group: ${extra.count ?? '?'} ${extra.name} ${extra.size ?? ''} ${extra.torque ?? ''}`);
  }
  return {
    judgements,
    scores,
    misses,
    groupsWanted: matches.length,
    groupsFound: [...paired.keys()].length,
    groupsExtra: lots.length - used.size,
  };
}

/** Wanted or given, what says that fasteners are alike; null where neither a size nor a torque is told. */
const kindOf = (size: string | null, torque: string | null, unit: string | null) =>
  size === null && torque === null ? null : `${size ?? '?'}, ${torque ?? '?'} ${unit ?? '?'}`;
const kindOfGroup = (group: DraftGroup) => kindOf(valueOf('size', group), valueOf('torque', group), group.unit);
const kindOfRow = (row: TruthRow) => kindOf(wantedOf('size', row), wantedOf('torque', row), wantedOf('unit', row));

/** One entry, told as several groups alike: "five bolts", drafted as two in front and three behind. */
function together(
  row: TruthRow,
  own: DraftGroup,
  groups: readonly DraftGroup[],
  taken: readonly string[],
  used: Set<string>,
): DraftGroup | null {
  const kind = kindOfGroup(own);
  if (row.count == null || own.count === null || own.count >= row.count || kind === null) return null;
  const words = new Set(own.name.split(/[ ,]+/));
  const others = groups.filter(
    (group) =>
      !taken.includes(group.group) &&
      group.build === own.build &&
      kindOfGroup(group) === kind &&
      group.name.split(/[ ,]+/).filter((word) => words.has(word)).length >= 2,
  );
  const sum = others.reduce((all, group) => all + (group.count ?? 0), own.count);
  if (others.length === 0 || sum !== row.count) return null;
  for (const { group } of others) used.add(group);
  return { ...own, count: sum };
}

/** The other entry of such a pair: 16 of the 19 are this one's. */
function partly(row: TruthRow, own: DraftGroup, truth: readonly TruthRow[], paired: ReadonlyMap<string, string>): DraftGroup {
  const kind = kindOfRow(row);
  if (kind === null || row.count == null || own.count === null || kindOfGroup(own) !== kind) return own;
  const other = truth.find(
    (one) =>
      one !== row && !paired.has(one.match) && kindOfRow(one) === kind && one.count != null && one.count + (row.count ?? 0) === own.count,
  );
  return other === undefined ? own : { ...own, count: row.count };
}

/** An entry without a group of its own, told together with another that is alike: 16 and 3 bolts, drafted as 19. */
function sharedWith(
  row: TruthRow,
  truth: readonly TruthRow[],
  groups: readonly DraftGroup[],
  paired: ReadonlyMap<string, string>,
): DraftGroup | null {
  const kind = kindOfRow(row);
  if (kind === null || row.count == null) return null;
  for (const other of truth) {
    if (other === row || kindOfRow(other) !== kind || other.count == null) continue;
    const group = groups.find((one) => one.group === paired.get(other.match));
    if (group?.count === other.count + row.count && kindOfGroup(group) === kind) return { ...group, count: row.count };
  }
  return null;
}

/** "late", "later" and "build late" call the same build, and so do "tow pack" and "tow-pack", as a file has to write it. */
const buildText = (build: string | null) =>
  (build ?? '')
    .toLowerCase()
    .replace(/[- ]+/g, ' ')
    .replace(/^builds? /, '')
    .replace(/^(early|late|new|old)(?:er|r|est)$/, '$1');
/** One of them may be called by more words: "short" and "short wheelbase". */
function same(one: string | null, other: string | null): boolean {
  const [first, second] = [buildText(one), buildText(other)].map((text) => text.split(' ').filter((word) => word !== ''));
  const [few = [], many = []] = (first?.length ?? 0) <= (second?.length ?? 0) ? [first, second] : [second, first];
  return few.length === 0 ? many.length === 0 : few.every((word) => many.includes(word));
}

function judge(score: Score, field: ScoredField, row: TruthRow, found: DraftGroup | null, misses: string[], judgements: Judgement[]): void {
  const wanted = wantedOf(field, row);
  const given = found === null ? null : valueOf(field, found);
  if (!isJudged(field, row)) return;
  if (wanted !== null) score.wanted++;
  if (given !== null) score.given++;
  const right = wanted !== null && given !== null && isRight(field, wanted, given);
  if (found !== null && given !== null) judgements.push({ group: found.group, build: found.build, field, isRight: right });
  if (right) score.right++;
  else if (wanted !== null || given !== null)
    misses.push(
      `${field}: "${row.match}"${row.build == null ? '' : ` (${row.build})`} wanted ${wanted ?? 'nothing'}, got ${given ?? 'nothing'}${found === null ? ' (no group)' : ` in "${found.name}"`}`,
    );
}

/**
 * A field that the entry lacks is not judged; null says that the speaker tells nothing, so a value given is wrong. A unit is judged
 * with its torque, where the entry names one; a build and a drive only where the entry names them.
 */
function isJudged(field: ScoredField, row: TruthRow): boolean {
  if (field === 'unit') return row.torque !== undefined && (row.torque === null || row.unit != null);
  return field === 'build' || field === 'drive' ? row[field] != null : row[field] !== undefined;
}

function wantedOf(field: ScoredField, row: TruthRow): string | null {
  switch (field) {
    case 'count':
      return row.count == null ? null : String(row.count);
    case 'size':
      return row.size == null ? null : `${sizeText(String(row.size))}${row.sizeUnit == null ? '' : ` ${sizeUnitText(row.sizeUnit)}`}`;
    case 'torque':
      return row.torque == null
        ? null
        : Array.isArray(row.torque)
          ? row.torque.join(' to ')
          : String(row.torque).replace(/\s*[-–]\s*/, ' to ');
    case 'unit':
      return row.unit == null ? null : unitText(row.unit);
    case 'drive':
      return row.drive == null ? null : driveText(row.drive);
    case 'build':
      return row.build ?? null;
  }
}

function valueOf(field: ScoredField, group: DraftGroup): string | null {
  switch (field) {
    case 'count':
      return group.count === null ? null : String(group.count);
    case 'size':
      return group.size === null ? null : `${sizeText(group.size)}${group.sizeUnit === null ? '' : ` ${group.sizeUnit}`}`;
    case 'torque':
      return group.torque === null ? null : group.torqueRange === null ? String(group.torque) : group.torqueRange.join(' to ');
    case 'unit':
      return group.unit;
    case 'drive':
      return group.drive ?? (group.square === null ? null : group.square);
    case 'build':
      return group.build;
  }
}

function isRight(field: ScoredField, wanted: string, given: string): boolean {
  if (field === 'torque') {
    if (wanted === given) return true;
    const [low, high] = given.split(' to ').map(Number);
    const value = Number(wanted);
    return Number.isFinite(value) && (high === undefined ? value === low : value === ((low ?? 0) + high) / 2);
  }
  if (field === 'build') return same(wanted, given);
  if (field === 'drive') return given === wanted || given.startsWith(`${wanted} `);
  if (field === 'size' && !/ (?:mm|in)$/.test(wanted)) return wanted === given.replace(/ (?:mm|in)$/, '');
  return wanted === given;
}

const decimals: Readonly<Record<string, string>> = {
  '0.25': '1/4',
  '0.375': '3/8',
  '0.5': '1/2',
  '0.5625': '9/16',
  '0.625': '5/8',
  '0.75': '3/4',
  '0.875': '7/8',
  '0.4375': '7/16',
  '0.9375': '15/16',
  '1.125': '1 1/8',
  '1.25': '1 1/4',
};
const sizeText = (text: string) =>
  (decimals[text] ?? text)
    .trim()
    .toUpperCase()
    .replace(/^(\d+)-(\d+\/\d+)$/, '$1 $2');
const sizeUnitText = (text: string) => (/^(?:"|in|inch|inches)$/i.test(text.trim()) ? 'in' : 'mm');
const unitText = (text: string) => {
  const unit = parseTorqueUnit(text);
  return unit.ok ? unit.value : text;
};
function driveText(text: string): string {
  const lower = text.toLowerCase().replace(/[-_]/g, ' ');
  const square = /^(1\/4|3\/8|1\/2|3\/4|1)(?: ?in(?:ch)?)?(?: drive)?$/.exec(lower);
  if (square !== null) return square[1] ?? '';
  if (/allen|socket head|hex key|internal hex/.test(lower)) return 'socket-head hex';
  if (/torx|serration|star/.test(lower)) return 'internal serration';
  if (/12|twelve|bihex|double/.test(lower)) return 'bihex';
  if (/phillips|cross/.test(lower)) return 'cross-head';
  return lower === 'hex' || lower === 'socket' || lower === 'hexagon' ? 'hex' : lower;
}
