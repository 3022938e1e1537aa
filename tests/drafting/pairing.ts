import type { DraftGroup } from '../../src/drafting/draft.ts';
import { stemOf } from '../../src/drafting/word-classes.ts';

const small = new Set(['the', 'a', 'an', 'of', 'on', 'at', 'in', 'to', 'by', 'and', 'for', 'up', 'down', 'from', 'with']);
const wordsOf = (text: string) =>
  text
    .toLowerCase()
    .split(/[^a-z0-9/]+/)
    .filter((word) => word !== '' && !small.has(word))
    .map(stemOf);

/** Pairs each `match` with at most one group so that the words shared are as many as can be. */
export function pair(matches: readonly string[], lots: readonly (readonly DraftGroup[])[]): ReadonlyMap<string, string> {
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
