import { parseTorqueUnit } from '../../src/torque/units.ts';
import type { DraftGroup } from '../../src/drafting/draft.ts';
import { stemOf } from '../../src/drafting/word-classes.ts';

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

export interface Comparison {
  readonly scores: Readonly<Record<ScoredField, Score>>;
  readonly misses: readonly string[];
  readonly groupsWanted: number;
  readonly groupsFound: number;
  readonly groupsExtra: number;
}

const small = new Set(['the', 'a', 'an', 'of', 'on', 'at', 'in', 'to', 'by', 'and', 'for', 'up', 'down', 'from', 'with']);
const wordsOf = (text: string) =>
  text
    .toLowerCase()
    .split(/[^a-z0-9/]+/)
    .filter((word) => word !== '' && !small.has(word))
    .map(stemOf);

/** Compares drafted groups with the truth; groups are paired by the words of `match`, never by their values. */
export function compare(truth: readonly TruthRow[], groups: readonly DraftGroup[]): Comparison {
  const scores = Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
  const misses: string[] = [];
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
    const found = rows.find(({ build }) => same(build, row.build ?? null)) ?? rows.find(({ build }) => build === null) ?? rows[0];
    for (const field of scoredFields) judge(scores[field], field, row, found ?? null, misses);
  }
  for (const lot of lots) {
    if (used.has(lot)) continue;
    const extra = groups.find(({ group }) => group === lot);
    if (extra === undefined) continue;
    for (const field of scoredFields) {
      if (valueOf(field, extra) !== null && field !== 'build') scores[field].given++;
    }
    misses.push(`extra group: ${extra.count ?? '?'} ${extra.name} ${extra.size ?? ''} ${extra.torque ?? ''}`);
  }
  return { scores, misses, groupsWanted: matches.length, groupsFound: [...paired.keys()].length, groupsExtra: lots.length - used.size };
}

const same = (one: string | null, other: string | null) => (one ?? '').toLowerCase() === (other ?? '').toLowerCase();

function judge(score: Score, field: ScoredField, row: TruthRow, found: DraftGroup | null, misses: string[]): void {
  const wanted = wantedOf(field, row);
  const given = found === null ? null : valueOf(field, found);
  // A build is compared only where the truth tells builds apart; a drive only where the truth names one.
  if ((field === 'build' || field === 'drive') && wanted === null) return;
  if (wanted !== null) score.wanted++;
  if (given !== null) score.given++;
  if (wanted !== null && given !== null && isRight(field, wanted, given)) score.right++;
  else if (wanted !== null || given !== null)
    misses.push(
      `${field}: "${row.match}"${row.build == null ? '' : ` (${row.build})`} wanted ${wanted ?? 'nothing'}, got ${given ?? 'nothing'}${found === null ? ' (no group)' : ` in "${found.name}"`}`,
    );
}

function wantedOf(field: ScoredField, row: TruthRow): string | null {
  switch (field) {
    case 'count':
      return row.count == null ? null : String(row.count);
    case 'size':
      return row.size == null ? null : `${sizeText(String(row.size))}${row.sizeUnit == null ? '' : ` ${row.sizeUnit}`}`;
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

/** Pairs each `match` with at most one group so that the words shared are as many as can be. */
function pair(matches: readonly string[], lots: readonly (readonly DraftGroup[])[]): ReadonlyMap<string, string> {
  const texts = lots.map((rows) => ({
    group: rows[0]?.group ?? '',
    name: new Set(rows.flatMap(({ name }) => wordsOf(name))),
    text: new Set(rows.flatMap(({ step, evidence }) => wordsOf(`${step} ${evidence.map(({ said }) => said).join(' ')}`))),
  }));
  const rarity = (word: string) =>
    Math.log(1 + (lots.length + 1) / (1 + texts.filter(({ name, text }) => name.has(word) || text.has(word)).length));
  const likeness = matches.map((match, row) =>
    texts.map(({ name, text }, column) => {
      let shared = 0;
      for (const word of new Set(wordsOf(match))) shared += rarity(word) * (name.has(word) ? 3 : text.has(word) ? 1 : 0);
      // Both lists follow the talk, so of two that fit alike the one nearer in order is meant.
      const apart = Math.abs(row / Math.max(1, matches.length) - column / Math.max(1, texts.length));
      return shared === 0 ? 0 : shared + 0.6 * (1 - apart);
    }),
  );
  const columns = assign(likeness);
  const paired = new Map<string, string>();
  for (const [row, match] of matches.entries()) {
    const column = columns[row] ?? -1;
    if (column >= 0 && (likeness[row]?.[column] ?? 0) > 0) paired.set(match, texts[column]?.group ?? '');
  }
  return paired;
}

/** The assignment with the largest sum (Kuhn-Munkres on the negated matrix, made square). */
function assign(likeness: readonly (readonly number[])[]): readonly number[] {
  const size = Math.max(likeness.length, likeness[0]?.length ?? 0);
  const cost = (row: number, column: number) => -(likeness[row]?.[column] ?? 0);
  const u = new Array<number>(size + 1).fill(0);
  const v = new Array<number>(size + 1).fill(0);
  const rowOf = new Array<number>(size + 1).fill(0);
  for (let row = 1; row <= size; row++) {
    const way = new Array<number>(size + 1).fill(0);
    const least = new Array<number>(size + 1).fill(Infinity);
    const used = new Array<boolean>(size + 1).fill(false);
    rowOf[0] = row;
    let column = 0;
    do {
      used[column] = true;
      const here = rowOf[column]!;
      let delta = Infinity;
      let next = 0;
      for (let other = 1; other <= size; other++) {
        if (used[other]) continue;
        const reduced = cost(here - 1, other - 1) - u[here]! - v[other]!;
        if (reduced < least[other]!) {
          least[other] = reduced;
          way[other] = column;
        }
        if (least[other]! < delta) {
          delta = least[other]!;
          next = other;
        }
      }
      for (let other = 0; other <= size; other++) {
        if (used[other]) {
          u[rowOf[other]!]! += delta;
          v[other]! -= delta;
        } else least[other]! -= delta;
      }
      column = next;
    } while (rowOf[column] !== 0);
    do {
      const previous = way[column]!;
      rowOf[column] = rowOf[previous]!;
      column = previous;
    } while (column !== 0);
  }
  const columns = new Array<number>(likeness.length).fill(-1);
  for (let column = 1; column <= size; column++) {
    const row = rowOf[column]! - 1;
    if (row < likeness.length && column - 1 < (likeness[0]?.length ?? 0)) columns[row] = column - 1;
  }
  return columns;
}
