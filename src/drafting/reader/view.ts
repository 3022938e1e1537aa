import type { Heard } from '../extract.ts';
import type { Item } from '../items.ts';
import { tens, teens, unitWords } from '../number-words.ts';
import type { QuantitySpan } from '../quantities.ts';
import { otherReadings, usable } from './other-readings.ts';
import type { SaidWord } from '../transcripts.ts';
import { stemOf } from '../word-classes.ts';
import { tableOf } from '../../torque/table.ts';

/** What the reader looks at: a number that may be a count, a size or a torque, or words that may name fasteners. */
export interface Node {
  readonly kind: (typeof nodeKinds)[number];
  /** Tokens of the whole talk. */
  readonly from: number;
  readonly to: number;
  readonly sentence: number;
  /** As the grammar read the number; null for "both" and "a pair", and for words. */
  readonly quantity: QuantitySpan | null;
  readonly item: Item | null;
  /** As what the rules told the number, and of which of their groups. */
  readonly ruledAs: number;
  readonly ruledOf: readonly number[];
  /** Of words that name builds, which. */
  readonly builds: readonly string[];
}
export const nodeKinds = ['number', 'mention', 'component', 'pronoun', 'same', 'build'] as const;

/** A talk as the reader sees it: all its tokens in a row, each as a word and some small numbers. */
export interface TalkView {
  readonly words: readonly string[];
  readonly stems: readonly string[];
  /** What the grammar took the token for, how large the number is, the punctuation after it, and what came before it. */
  readonly kinds: Uint8Array;
  readonly sizes: Uint8Array;
  readonly marks: Uint8Array;
  readonly gaps: Uint8Array;
  /** What the rules took it for, and what they told the number as. */
  readonly items: Uint8Array;
  readonly ruled: Uint8Array;
  readonly nodes: readonly Node[];
  /** For each sentence, how many tokens stand before it. */
  readonly starts: readonly number[];
}

const kindNames = [
  'torque',
  'width',
  'serration',
  'thread',
  'number',
  'plural',
  'square',
  'cross-head',
  'length',
  'angle',
  'time',
  'distance',
  'other',
  'pair',
] as const;

const itemNames = [
  'mention',
  'lot',
  'component',
  'pronoun',
  'all',
  'eachOne',
  'each',
  'oneOfEach',
  'same',
  'correction',
  'swap',
  'not',
  'build',
  'reach',
  'drive',
  'counterhold',
  'feature',
] as const;

const ruledNames = ['count', 'size', 'torque', 'passes', 'square', 'thread', 'angle', 'reach'] as const;

const steps = [30, 40, 60, 90, 130, 200, 400];
const exact = 24;
/** Whole numbers to 24 by themselves, fractions as one, the rest in steps. */
function sizeOf(value: number): number {
  if (Number.isInteger(value) && value >= 1 && value <= exact) return value;
  if (value < exact) return exact + 1;
  const step = steps.findIndex((most) => value <= most);
  return exact + 2 + (step === -1 ? steps.length : step);
}

const markIds: Readonly<Record<string, number>> = tableOf<number>({
  '': 0,
  ',': 1,
  '.': 2,
  '?': 2,
  '!': 2,
  ':': 3,
  ';': 3,
  '…': 4,
  '—': 4,
});
const gapIds: Readonly<Record<SaidWord['before'], number>> = { nothing: 0, line: 0, pause: 1, paragraph: 2 };

const isNumberWord = (word: string) =>
  /^\d/.test(word) || word in unitWords || word in teens || word in tens || /^(?:hundred|half|quarter)$/.test(word);

/** What only some nodes have. */
const bare = { quantity: null, item: null, ruledAs: 0, ruledOf: [], builds: [] };

/** Lays a talk out for the reader. */
export function viewOf(heard: Heard, said: readonly SaidWord[]): TalkView {
  const { sentences } = heard;
  const length = sentences.reduce((sum, { tokens }) => sum + tokens.length, 0);
  const words: string[] = [];
  const stems: string[] = [];
  const row = () => new Uint8Array(length);
  const [kinds, sizes, marks, gaps, itemRow, ruled] = [row(), row(), row(), row(), row(), row()];
  const starts: number[] = [];
  const nodes: Node[] = [];
  const rules = ruledAt(heard);
  let before = -1;
  for (const sentence of sentences) {
    const { index, tokens, quantities } = sentence;
    const start = words.length;
    starts.push(start);
    for (const token of tokens) {
      const at = words.length;
      marks[at] = markIds[token.mark] ?? 0;
      if (token.word !== before) gaps[at] = gapIds[said[token.word]?.before ?? 'nothing'];
      before = token.word;
      words.push(/^\d/.test(token.bare) ? '<n>' : token.bare);
      stems.push(stemOf(token.bare));
    }
    const add = (kind: Node['kind'], from: number, to: number, more: Partial<Node>) =>
      nodes.push({ ...bare, kind, from: start + from, to: start + to, sentence: index, ...more });
    const number = (from: number, to: number, quantity: QuantitySpan | null) => {
      const told = rules.get(`${index} ${from}`);
      const ruledAs = told === undefined ? 0 : 1 + ruledNames.indexOf(told.field);
      ruled[start + from] = ruledAs;
      add('number', from, to, { quantity, ruledAs, ruledOf: told?.groups ?? [] });
    };
    for (const quantity of quantities) {
      const { kind, from, to } = quantity;
      const name = kind === 'number' && quantity.plural ? 'plural' : kind;
      const size = sizeOf(valueOf(quantity));
      note(kinds, start + from, start + to, kindNames.indexOf(name));
      for (let at = from; at < to; at++) {
        sizes[start + at] = size;
        if (isNumberWord(tokens[at]?.bare ?? '')) words[start + at] = '<n>';
      }
      if (usable.has(kind)) number(from, to, quantity);
    }
    tokens.forEach(({ bare }, at) => {
      if (kinds[start + at] !== 0 || !/^(?:both|pair|couple)$/.test(bare)) return;
      note(kinds, start + at, start + at + 1, kindNames.indexOf('pair'));
      sizes[start + at] = 2;
      number(at, at + 1, null);
    });
    for (const other of otherReadings(tokens, quantities)) add('number', other.from, other.to, { quantity: other });
    for (const item of heard.itemsOf(sentence)) {
      const name = item.kind === 'mention' && item.mention.head === null ? 'lot' : item.kind;
      const id = (itemNames as readonly string[]).indexOf(name);
      if (id < 0) continue;
      note(itemRow, start + item.from, Math.min(start + Math.max(item.to, item.from + 1), words.length), id);
      const kind = name === 'lot' ? 'mention' : name === 'all' || name === 'eachOne' ? 'pronoun' : name;
      if (kind === 'mention' || kind === 'component' || kind === 'pronoun' || kind === 'same' || kind === 'build')
        add(kind, item.from, Math.max(item.to, item.from + 1), { item, builds: item.kind === 'build' ? item.builds : [] });
    }
  }
  nodes.sort((one, other) => one.from - other.from || one.to - other.to);
  return { words, stems, kinds, sizes, marks, gaps, items: itemRow, ruled, nodes, starts };
}

interface Ruled {
  readonly field: (typeof ruledNames)[number];
  readonly groups: number[];
}

/** Where each number stands that the rules put to a group. */
function ruledAt({ groups, sentences }: Heard): ReadonlyMap<string, Ruled> {
  const all = new Map<string, Ruled>();
  for (const group of groups)
    for (const one of [group, ...group.parts])
      for (const field of ruledNames)
        for (const { evidence } of one.told[field]) {
          // A count is told with the words around it: "the two front bolts".
          const from = evidence.from ?? -1;
          const to = from + evidence.words.split(' ').length;
          const number = sentences[evidence.sentence]?.quantities.find((one) => one.from >= from && one.from < to);
          const key = `${evidence.sentence} ${number?.from ?? from}`;
          const known = all.get(key);
          if (known === undefined) all.set(key, { field, groups: [group.id] });
          else if (!known.groups.includes(group.id)) known.groups.push(group.id);
        }
  return all;
}

/** A token is of nothing of the row's kinds, or begins one, or goes on with one. */
function note(row: Uint8Array, from: number, to: number, kind: number): void {
  for (let at = from; at < to; at++) row[at] = 1 + 2 * kind + (at === from ? 0 : 1);
}

/** Some of what `readAs` gives. */
export const readKinds = {
  torque: 1 + kindNames.indexOf('torque'),
  width: 1 + kindNames.indexOf('width'),
  serration: 1 + kindNames.indexOf('serration'),
  thread: 1 + kindNames.indexOf('thread'),
} as const;

/** What the number of a node was read as, and how large it is, as the rows of a view have both; 0 for words. */
export function readAs({ kind, quantity }: Node): { readonly kind: number; readonly size: number } {
  if (kind !== 'number') return { kind: 0, size: 0 };
  if (quantity === null) return { kind: 1 + kindNames.indexOf('pair'), size: 2 };
  const name = quantity.kind === 'number' && quantity.plural ? 'plural' : quantity.kind;
  return { kind: 1 + kindNames.indexOf(name), size: sizeOf(valueOf(quantity)) };
}

function valueOf(quantity: QuantitySpan): number {
  switch (quantity.kind) {
    case 'torque':
      return quantity.low;
    case 'width':
    case 'number':
    case 'distance':
    case 'other':
      return quantity.value;
    case 'serration':
    case 'thread':
      return Number(/\d+/.exec(quantity.text)?.[0] ?? 0);
    case 'length':
      return quantity.millimetres;
    case 'angle':
      return quantity.degrees;
    case 'time':
      return quantity.seconds;
    case 'square':
    case 'cross-head':
      return 0.5;
  }
}
