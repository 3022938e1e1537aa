import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { argv } from 'node:process';
import { hearTalk } from '../../extract.ts';
import type { SaidWord } from '../../transcripts.ts';
import { numberText } from '../lots.ts';
import { readAs, readKinds, viewOf, type Node, type TalkView } from '../view.ts';
import { parseMarked, remarksOn, writerOf, type MarkedRow, type MarkedSpan, type MarkedTalk, type MarkLetter } from './marked.ts';

/** What train.py is told of a node: where it stands, what is known of it, and what the net is to say. */
export interface LineNode {
  /** Kind; first token and the one after the last; what a number says. */
  readonly k: Node['kind'];
  readonly f: number;
  readonly t: number;
  readonly v: string;
  /** As what it was read and how large it is; of words that name builds, which. */
  readonly rk: number;
  readonly rz: number;
  readonly b: readonly string[];
  /** As what the rules told the number, and of which of their groups. */
  readonly ra: number;
  readonly ro: readonly number[];
  /** Nothing ("o"), what its mark says, or unknown ("?"), which is not learnt. */
  role: 'o' | '?' | MarkLetter;
  groups: string[];
  /** How many times over a count holds; -1 is unknown. */
  times: number;
  part: boolean;
  build: string | null;
  /** How many a name stands for; 0 is unsaid. */
  implied: number;
  like: string | null;
  fields: string;
}

/** One talk in one form: a line of the file that train.py reads. */
export interface Line {
  readonly id: string;
  readonly dir: string;
  /** As written, or bare of punctuation and capitals as captions are. */
  readonly style: Form;
  /** The answers come from the rules, where they are right, and not from marks. */
  readonly silver?: true;
  readonly words: readonly string[];
  readonly stems: readonly string[];
  readonly kinds: readonly number[];
  readonly sizes: readonly number[];
  readonly marks: readonly number[];
  readonly gaps: readonly number[];
  readonly items: readonly number[];
  readonly ruled: readonly number[];
  /** Which tokens are marked as a name of fasteners; not known without marks. */
  readonly naming?: readonly (0 | 1)[];
  readonly nodes: readonly LineNode[];
  readonly rows: readonly MarkedRow[];
}
type Form = 'plain' | 'bare';

/** The rows of a view as a line has them. */
export function rowsOfView({ words, stems, kinds, sizes, marks, gaps, items, ruled }: TalkView) {
  return { words, stems, kinds: [...kinds], sizes: [...sizes], marks: [...marks], gaps: [...gaps], items: [...items], ruled: [...ruled] };
}

/** A node that nothing is known of yet. */
export function lineNode(node: Node): LineNode {
  const { kind, from, to, ruledAs, ruledOf } = node;
  // A range is written as the rows of marked talks write it.
  const value = kind === 'number' ? numberText(node).replace(' to ', '-') : '';
  const rules = { ra: ruledAs, ro: ruledOf };
  return {
    k: kind,
    f: from,
    t: to,
    v: value,
    rk: readAs(node).kind,
    rz: readAs(node).size,
    b: node.builds,
    ...rules,
    role: 'o',
    groups: [],
    times: 1,
    part: false,
    build: null,
    implied: 0,
    like: null,
    fields: '',
  };
}

export function writeLines(file: string, lines: readonly Line[]): void {
  writeFileSync(file, lines.map((line) => `${JSON.stringify(line)}\n`).join(''));
}

interface PlacedWord extends SaidWord {
  readonly from: number;
  readonly to: number;
}

function wordsIn(text: string, form: Form): readonly PlacedWord[] {
  let last = 0;
  return [...text.matchAll(/\S+/g)]
    .map(({ 0: word, index }, at): PlacedWord => {
      const opensParagraph = form === 'plain' && (at === 0 || /\n\s*\n/.test(text.slice(last, index)));
      last = index + word.length;
      return {
        text: form === 'plain' ? word : bare(word),
        at: null,
        before: opensParagraph ? 'paragraph' : 'nothing',
        from: index,
        to: last,
      };
    })
    .filter((word) => word.text !== '');
}

/** As captions without punctuation have it; what belongs to a number or to a word stays. */
const bare = (word: string) =>
  word
    .toLowerCase()
    .replace(/(?<!\d)[.,](?=\d)|[^\w\s'./\-·"°½¼¾×]/g, '')
    .replace(/\.+$/, '')
    .replace(/^['-]+|-+$/g, '');

function lineOf(file: string, talk: MarkedTalk, form: Form): Line {
  const said = wordsIn(talk.text, form);
  const heard = hearTalk({ kind: 'plain', words: said });
  const view = viewOf(heard, said);
  const nodes = view.nodes.map(lineNode);
  const tokens = heard.sentences.flatMap((sentence) => sentence.tokens.map(({ word }) => said[word]));
  const isIn = (span: MarkedSpan, word: PlacedWord | undefined) => word !== undefined && word.to > span.from && word.from < span.to;
  const names = talk.spans.filter(({ letter }) => letter === 'n');
  const naming = tokens.map((word) => (names.some((span) => isIn(span, word)) ? 1 : 0));
  for (const span of talk.spans) {
    const isInside = (word: PlacedWord | undefined) => isIn(span, word);
    const from = tokens.findIndex(isInside);
    if (from >= 0) answer(nodes, span, from, tokens.findLastIndex(isInside) + 1);
  }
  const { writer, name } = writerOf(file);
  return { id: name, dir: writer, style: form, ...rowsOfView(view), naming, nodes, rows: talk.rows };
}

/** Writes what a mark says to the node that it is about, if the rules saw one there. */
function answer(nodes: readonly LineNode[], span: MarkedSpan, from: number, to: number): void {
  const isNumber = 'cstx'.includes(span.letter);
  const touched = nodes.filter(({ k, f, t }) => f < to && t > from && (k === 'number') === isNumber);
  if (isNumber) {
    const inside = touched.filter(({ f, t }) => f >= from && t <= to);
    const beyond = touched.filter((node) => !inside.includes(node));
    // "47" is marked and "foot pounds" is not: the number is read with its unit, and "torx 40" with the word before.
    const longer = beyond.filter(
      ({ f, t, rk }) =>
        (span.letter === 't' && rk === readKinds.torque && f >= from) ||
        (span.letter === 's' && (rk === readKinds.width || rk === readKinds.thread) && f >= from) ||
        (span.letter === 's' && rk === readKinds.serration && t === to),
    );
    answerNumber(longer.length > 0 ? longer : inside.length > 0 ? inside : beyond, span);
  } else answerWords(span.letter === '=' ? touched.filter(({ k }) => k === 'same') : touched, span);
}

function answerNumber(touched: readonly LineNode[], { letter, groups, times, isPart, build }: MarkedSpan): void {
  // Of several readings the one that takes in most of what is marked, and the grammar's own before others.
  const node = [...touched].sort(
    (one, other) => Number(other.role === 'o') - Number(one.role === 'o') || other.t - other.f - (one.t - one.f),
  )[0];
  if (node === undefined) return;
  if (node.role === 'o' || node.role === 'x') Object.assign(node, { role: letter, groups: [...groups], times, part: isPart, build });
  else node.groups.push(...groups);
}

function answerWords(touched: readonly LineNode[], { letter, groups, implied, like, likeFields }: MarkedSpan): void {
  const node = touched.findLast(({ role }) => role === 'o') ?? touched.at(-1);
  if (node === undefined) return;
  if (letter === '=') Object.assign(node, { role: letter, groups: [...groups], like, fields: likeFields });
  else if (node.role === 'o') Object.assign(node, { role: letter, groups: [...groups], implied: implied ?? 0 });
  else {
    // A second mark on the same words: a name is more than a reference.
    node.groups = [...new Set([...node.groups, ...groups])];
    if (letter === 'n') node.role = letter;
    if (implied !== null) node.implied = implied;
  }
}

/** `npx tsx export-talks.ts OUT FOLDER…`: the marked talks of the folders as lines for train.py, with remarks on their marks. */
function exportTalks(out: string, folders: readonly string[]): void {
  const lines = folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((file) => file.endsWith('.txt'))
      .sort()
      .flatMap((file) => {
        const talk = parseMarked(readFileSync(join(folder, file), 'utf8'));
        for (const remark of remarksOn(talk)) console.error(`${file}: ${remark}`);
        return (['plain', 'bare'] as const).map((form) => lineOf(file, talk, form));
      }),
  );
  writeLines(out, lines);
  console.error(`${lines.length} lines`);
}

// The types and the writing are also used by tests/bench/reader-training.ts, which is not to start this.
const [, script, out, ...folders] = argv;
if (script === import.meta.filename) {
  if (out === undefined || folders.length === 0) throw new Error('usage: export-talks.ts OUT FOLDER…');
  exportTalks(out, folders);
}
