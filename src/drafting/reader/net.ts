import { openWeights, type Layer } from '../../nets/weights-file.ts';
import { attend, shares, type Products } from './attention.ts';
import { entry } from './entry.ts';
import { nodeKinds, readAs, type Node, type TalkView } from './view.ts';

/** Matrices and their products, wherever they are worked out (`src/nets/matrices.ts`). Widths are multiples of four. */
export interface Arithmetic<Matrix> extends Products {
  add(rows: number, width: number, weights: Float32Array, bias: Float32Array): Matrix;
  multiply(matrix: Matrix, columns: readonly Float32Array[], cut: boolean): Float32Array[];
}

/** What a node may be: nothing, a count, a size, a torque, a number that does not hold, a name, a reference, "the same as". */
export const roles = ['nothing', 'count', 'size', 'torque', 'void', 'name', 'reference', 'same'] as const;
/** How many times over a count holds; 0 is some other number. */
export const timesOver = [1, 2, 3, 4, 6, 8, 0] as const;
/** How many fasteners a name stands for without a number being said; 0 is unsaid, -1 some other number. */
export const implied = [0, 1, 2, 3, 4, 6, 8, -1] as const;

/** What the net makes of a talk: for each node and each pair of nodes a chance from 0 to 1. */
export interface Reading {
  readonly role: readonly Float32Array[];
  readonly times: readonly Float32Array[];
  readonly implied: readonly Float32Array[];
  /** That a count is a part of the whole and not all of it. */
  readonly part: Float32Array;
  /** Of "the same as": that count, size and torque are meant. */
  readonly fields: readonly Float32Array[];
  /** That two nodes are of the same fasteners, row by row. */
  readonly link: Float32Array;
  /** That the node in the row is said to be the same as that of the column. */
  readonly source: Float32Array;
  /** For each token that it is a word of a name of fasteners. */
  readonly naming: Float32Array;
  /** For each number the words near it that may say of which build it is, the likeliest first, with their chances; the rest is that it is of all. */
  readonly builds: readonly (readonly BuildWord[])[];
}

/** A token that names the one build a value holds for. */
export interface BuildWord {
  readonly at: number;
  readonly chance: number;
}

/** How far from a value the words are that say of which build it is; as BUILD_REACH in training/train.py. */
const buildReach = 40;
/** Words less likely than this are not told. */
const leastBuild = 0.02;

/** Reads talks; a talk that is too long for it gives null. */
export type ReadTalk = (view: TalkView) => Reading | null;

/** About half an hour of talk; what is known of pairs grows with the square, and the training saw talks of at most 700. */
export const mostNodes = 1500;

interface Header {
  readonly width: number;
  readonly heads: number;
  readonly windows: readonly number[];
  readonly pairWidth: number;
  readonly nodeBlocks: number;
  readonly suffixes: number;
  readonly vocabulary: readonly string[];
  readonly rarity: Readonly<Record<string, number>>;
}

/** Words that say nothing of which fasteners are meant; the training leaves out the same. */
const empty = new Set(
  "the a an of on at in to by and for up down from with it they them those these this that is are 's 're get gets go goes you i we so then now one ones two three four <n> all each both side there has have got no not just do n't well okay right on".split(
    ' ',
  ),
);

/** Reads a file written by training/train.py. Throws when it is something else. */
export function readerFrom<Matrix>(bytes: Uint8Array, arithmetic: Arithmetic<Matrix>): ReadTalk {
  const { header, layer } = openWeights<Header>(bytes, 'RDR1', 'reader of talks');
  const matrix = (name: string): Matrix => {
    const { rows, width, weights, bias } = layer(name);
    return arithmetic.add(rows, width, weights, bias);
  };
  const { width, heads, windows, suffixes, pairWidth, nodeBlocks } = header;
  const words = new Map(header.vocabulary.map((word, index) => [word, index]));
  const tables = ['word', 'suf', 'kind', 'size', 'mark', 'gap', 'item', 'ruled'].map((name) => layer(name).weights) as [
    Float32Array,
    Float32Array,
    Float32Array,
    Float32Array,
    Float32Array,
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  const block = (name: string): Block<Matrix> => ({
    before: layer(`${name}.n1`),
    qkv: matrix(`${name}.qkv`),
    out: matrix(`${name}.out`),
    between: layer(`${name}.n2`),
    up: matrix(`${name}.up`),
    down: matrix(`${name}.down`),
  });
  const blocks = windows.map((window, index) => ({
    window,
    speak: byDistance(layer(`blocks.${index}.bias`).weights, heads, window),
    ...block(`blocks.${index}`),
  }));
  const nodeLayers = Array.from({ length: nodeBlocks }, (_, index) => ({
    feature: byColumn(layer(`nodeblocks.${index}.feat`)),
    ...block(`nodeblocks.${index}`),
  }));
  const norm = layer('norm');
  const [node, lq, lk, bq, bk, sq, sk] = ['node', 'lq', 'lk', 'bq', 'bk', 'sq', 'sk'].map(matrix) as [
    Matrix,
    Matrix,
    Matrix,
    Matrix,
    Matrix,
    Matrix,
    Matrix,
  ];
  const [role, times, part, impliedHead, fields, namingHead, wq, wk, none] = [
    'role',
    'times',
    'part',
    'implied',
    'fields',
    'naming',
    'wq',
    'wk',
    'none',
  ].map(matrix) as [Matrix, Matrix, Matrix, Matrix, Matrix, Matrix, Matrix, Matrix, Matrix];
  const [kindOf, readKindOf, readSizeOf] = [layer('nk').weights, layer('rk').weights, layer('rz').weights];
  const wordSteps = layer('wd').weights;
  const pair = { feature: byColumn(layer('feat')), score: layer('score') };

  /** What a block adds to the columns; `mix` says how they look at each other. */
  function passed(columns: readonly Float32Array[], block: Block<Matrix>, mix: (qkv: readonly Float32Array[]) => Float32Array[]) {
    const mixed = mix(arithmetic.multiply(block.qkv, normed(columns, block.before), false));
    const between = added(columns, arithmetic.multiply(block.out, mixed, false));
    const wide = arithmetic.multiply(block.up, normed(between, block.between), true);
    return added(between, arithmetic.multiply(block.down, wide, false));
  }

  function encode(view: TalkView): Float32Array[] {
    let columns: Float32Array[] = view.words.map((word, at) => {
      const column = new Float32Array(width);
      const ids = [
        words.get(word) ?? 1,
        suffixOf(word, suffixes),
        view.kinds[at] ?? 0,
        view.sizes[at] ?? 0,
        view.marks[at] ?? 0,
        view.gaps[at] ?? 0,
        view.items[at] ?? 0,
        view.ruled[at] ?? 0,
      ];
      ids.forEach((id, table) => {
        const values = entry(tables, table);
        for (let k = 0; k < width; k++) column[k] = (column[k] ?? 0) + (values[id * width + k] ?? 0);
      });
      return column;
    });
    for (const block of blocks) columns = passed(columns, block, (qkv) => attend(arithmetic, qkv, block.window, heads, block.speak));
    return normed(columns, norm);
  }

  return (view) => {
    const { nodes } = view;
    if (nodes.length > mostNodes || nodes.length === 0) return null;
    const columns = encode(view);
    const ends = nodes.map(({ from, to }) => {
      const both = new Float32Array(2 * width);
      both.set(entry(columns, from));
      both.set(entry(columns, Math.min(to, columns.length) - 1), width);
      return both;
    });
    const near = closeness(view, header.rarity);
    let seen = arithmetic.multiply(node, ends, false);
    seen.forEach((column, index) => {
      const kind = nodeKinds.indexOf(entry(nodes, index).kind) * width;
      const read = readAs(entry(nodes, index));
      const [readKind, readSize] = [read.kind * width, read.size * width];
      for (let k = 0; k < width; k++)
        column[k] = Math.max(
          0,
          (column[k] ?? 0) + (kindOf[kind + k] ?? 0) + (readKindOf[readKind + k] ?? 0) + (readSizeOf[readSize + k] ?? 0),
        );
    });
    for (const block of nodeLayers)
      seen = passed(seen, block, (qkv) => attend(arithmetic, qkv, nodes.length, heads, byWhatIsKnown(near, block.feature)));
    const heads8 = (head: Matrix) => arithmetic.multiply(head, seen, false);
    return {
      role: heads8(role).map(shares),
      times: heads8(times).map(shares),
      implied: heads8(impliedHead).map(shares),
      part: chances(heads8(part)),
      fields: heads8(fields).map((one) => one.map(chance)),
      naming: chances(arithmetic.multiply(namingHead, columns, false)),
      builds: buildsOf(view, columns, seen),
      ...pairs(view, seen, near),
    };
  };

  function buildsOf({ nodes }: TalkView, columns: readonly Float32Array[], seen: readonly Float32Array[]): Reading['builds'] {
    const [asks, words, rest] = [
      arithmetic.multiply(wq, seen, false),
      arithmetic.multiply(wk, columns, false),
      arithmetic.multiply(none, seen, false),
    ];
    return nodes.map(({ kind, from }, index) => {
      if (kind !== 'number') return [];
      const [first, last] = [Math.max(0, from - buildReach), Math.min(columns.length - 1, from + buildReach)];
      const scores = [entry(rest, index)[0] ?? 0];
      for (let at = first; at <= last; at++)
        scores.push(dot(entry(asks, index), entry(words, at)) / 8 + (wordSteps[bucketOf(at - from)] ?? 0));
      return [...shares(Float32Array.from(scores)).slice(1)]
        .map((chance, step) => ({ at: first + step, chance }))
        .filter(({ chance }) => chance > leastBuild)
        .sort((one, other) => other.chance - one.chance);
    });
  }

  function pairs(view: TalkView, seen: readonly Float32Array[], near: Closeness): Pick<Reading, 'link' | 'source'> {
    const count = seen.length;
    const [left, right, ask, answer, from, to] = [lq, lk, bq, bk, sq, sk].map((one) => arithmetic.multiply(one, seen, false)) as [
      Float32Array[],
      Float32Array[],
      Float32Array[],
      Float32Array[],
      Float32Array[],
      Float32Array[],
    ];
    const raw = new Float32Array(count * count);
    const source = new Float32Array(count * count);
    const scores = pair.score.weights;
    const isCopy = view.nodes.map(({ kind }) => kind === 'same');
    const hidden = new Float32Array(pairWidth);
    for (let i = 0; i < count; i++) {
      const [mine, asks] = [entry(left, i), entry(ask, i)];
      for (let j = 0; j < count; j++) {
        const yours = entry(right, j);
        for (let k = 0; k < pairWidth; k++) hidden[k] = (mine[k] ?? 0) + (yours[k] ?? 0);
        addKnown(hidden, near, i, j, pair.feature);
        let link = pair.score.bias[0] ?? 0;
        for (let k = 0; k < pairWidth; k++) link += Math.max(0, hidden[k] ?? 0) * (scores[k] ?? 0);
        raw[i * count + j] = link + dot(asks, entry(answer, j)) / 8;
        if (!isCopy[i]) continue;
        let copy = pair.score.bias[1] ?? 0;
        for (let k = 0; k < pairWidth; k++) copy += Math.max(0, hidden[k] ?? 0) * (scores[pairWidth + k] ?? 0);
        source[i * count + j] = chance(copy + dot(entry(from, i), entry(to, j)) / 8);
      }
    }
    const link = new Float32Array(count * count);
    for (let i = 0; i < count; i++)
      for (let j = 0; j < count; j++) link[i * count + j] = chance(((raw[i * count + j] ?? 0) + (raw[j * count + i] ?? 0)) / 2);
    return { link, source };
  }
}

interface Block<Matrix> {
  readonly before: Layer;
  readonly qkv: Matrix;
  readonly out: Matrix;
  readonly between: Layer;
  readonly up: Matrix;
  readonly down: Matrix;
}

type Closeness = ReturnType<typeof closeness>;

/** What is known of two nodes: steps of their distance and names between them, one of each being one; then the features. */
const [distanceSteps, betweenSteps] = [23, 15];
/** Overlaps of words three ways, three numbers each, and what the rules put together or apart. */
const featureCount = 11;
const knownCount = distanceSteps + betweenSteps + featureCount;

/** Adds to `out` what speaks from what is known of the two. */
function addKnown(out: Float32Array, near: Closeness, i: number, j: number, weights: Float32Array): void {
  const many = out.length;
  const distance = near.distance(i, j) * many;
  const between = (distanceSteps + near.between(i, j)) * many;
  const features = near.features(i, j);
  for (let k = 0; k < many; k++) out[k] = (out[k] ?? 0) + (weights[distance + k] ?? 0) + (weights[between + k] ?? 0);
  for (let f = 0; f < featureCount; f++) {
    const feature = features[f] ?? 0;
    if (feature === 0) continue;
    const column = (distanceSteps + betweenSteps + f) * many;
    for (let k = 0; k < many; k++) out[k] = (out[k] ?? 0) + (weights[column + k] ?? 0) * feature;
  }
}

/** The weights of what is known, one row for each thing known. */
function byColumn({ rows, weights }: Layer): Float32Array {
  const turned = new Float32Array(rows * knownCount);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < knownCount; column++) turned[column * rows + row] = weights[row * knownCount + column] ?? 0;
  return turned;
}

/** How near two nodes are: in tokens, in names between them, and in words. */
function closeness({ nodes, stems, words }: TalkView, rarity: Readonly<Record<string, number>>) {
  const unseen = rarity[''] ?? 0;
  const ids = new Map<string, number>();
  const weights: number[] = [];
  const idAt = stems.map((stem, at) => {
    if (empty.has(words[at] ?? '') || (words[at] ?? '').startsWith('<')) return -1;
    let id = ids.get(stem);
    if (id === undefined) {
      id = ids.size;
      ids.set(stem, id);
      weights.push(Object.hasOwn(rarity, stem) ? (rarity[stem] ?? unseen) : unseen);
    }
    return id;
  });
  const spans = (span: (node: Node) => readonly [number, number] | null): Spans => {
    const sets = nodes.map((node) => {
      const [from, to] = span(node) ?? [0, 0];
      return [...new Set(idAt.slice(Math.max(0, from), to))].filter((id) => id >= 0);
    });
    const having: number[][] = weights.map(() => []);
    sets.forEach((set, index) => {
      for (const id of set) entry(having, id).push(index);
    });
    return { sets, having, sums: sets.map((set) => set.reduce((sum, id) => sum + (weights[id] ?? 0), 0)) };
  };
  const near = spans(({ from, to }) => [from - 12, to + 6]);
  const own = spans(({ kind, from, to }) => (kind === 'number' ? null : [from, to]));
  const tight = spans(({ from, to }) => [from - 4, to + 2]);
  const pairs = [
    { ours: near, theirs: own },
    { ours: own, theirs: own },
    { ours: tight, theirs: tight },
  ].map((pair) => ({ ...pair, shared: new Float32Array(nodes.length) }));
  let names = 0;
  const rank = nodes.map(({ kind }) => (kind === 'mention' ? ++names : names));
  const features = new Float32Array(featureCount);
  let row = -1;
  /** Most have no word in common, so what is shared is added up from the words of the row. */
  const begin = (i: number) => {
    row = i;
    for (const { ours, theirs, shared } of pairs) {
      shared.fill(0);
      for (const id of entry(ours.sets, i)) {
        const weight = weights[id] ?? 0;
        for (const j of entry(theirs.having, id)) shared[j] = (shared[j] ?? 0) + weight;
      }
    }
  };
  return {
    distance: (i: number, j: number) => bucketOf(entry(nodes, j).from - entry(nodes, i).from),
    between: (i: number, j: number) => 7 + Math.max(-7, Math.min(7, (rank[j] ?? 0) - (rank[i] ?? 0))),
    features: (i: number, j: number): Float32Array => {
      if (row !== i) begin(i);
      for (let at = 0; at < pairs.length; at++) {
        const { ours, theirs, shared } = entry(pairs, at);
        const sum = shared[j] ?? 0;
        features[3 * at] = sum / Math.max(ours.sums[i] ?? 0, 1e-6);
        features[3 * at + 1] = sum / Math.max(theirs.sums[j] ?? 0, 1e-6);
        features[3 * at + 2] = Math.min(1, sum / 10);
      }
      const [one, other] = [entry(nodes, i).ruledOf, entry(nodes, j).ruledOf];
      const both = one.length > 0 && other.length > 0;
      const together = both && one.some((group) => other.includes(group));
      features[9] = together ? 1 : 0;
      features[10] = both && !together ? 1 : 0;
      return features;
    },
  };
}

/** For each node its words by number and their weight in all, and for each word which nodes have it. */
interface Spans {
  readonly sets: readonly (readonly number[])[];
  readonly having: readonly (readonly number[])[];
  readonly sums: readonly number[];
}

/** Signed steps of distance that double, 0 to 22. */
function bucketOf(distance: number): number {
  const size = Math.abs(distance);
  const step = size === 0 ? 0 : Math.min(10, 1 + Math.floor(Math.log2(size)));
  return distance >= 0 ? 11 + step : 11 - step;
}

/** What the distance of two tokens says for each head. */
function byDistance(table: Float32Array, heads: number, reach: number) {
  const buckets = Uint8Array.from({ length: 2 * reach + 1 }, (_, index) => bucketOf(index - reach));
  return (at: number, other: number, bias: Float32Array) => {
    const bucket = buckets[other - at + reach] ?? 0;
    for (let head = 0; head < heads; head++) bias[head] = table[head * distanceSteps + bucket] ?? 0;
  };
}

/** What is known of two nodes says for each head. */
function byWhatIsKnown(near: Closeness, weights: Float32Array) {
  return (at: number, other: number, bias: Float32Array) => {
    bias.fill(0);
    addKnown(bias, near, at, other, weights);
  };
}

function normed(columns: readonly Float32Array[], { weights, bias }: Layer): Float32Array[] {
  return columns.map((column) => {
    let mean = 0;
    for (const value of column) mean += value;
    mean /= column.length;
    let spread = 0;
    for (const value of column) spread += (value - mean) ** 2;
    const scale = 1 / Math.sqrt(spread / column.length + 1e-5);
    return column.map((value, index) => (value - mean) * scale * (weights[index] ?? 0) + (bias[index] ?? 0));
  });
}

function added(columns: readonly Float32Array[], more: readonly Float32Array[]): Float32Array[] {
  return columns.map((column, at) => {
    const other = entry(more, at);
    return column.map((value, index) => value + (other[index] ?? 0));
  });
}

function dot(one: Float32Array, other: Float32Array): number {
  let sum = 0;
  for (let index = 0; index < one.length; index++) sum += (one[index] ?? 0) * (other[index] ?? 0);
  return sum;
}

const chance = (value: number) => 1 / (1 + Math.exp(-value));

/** Of a head that says one thing of each column. */
const chances = (columns: readonly Float32Array[]) => Float32Array.from(columns, (one) => chance(one[0] ?? 0));

/** FNV-1a over the last three letters in UTF-8, so that words never seen are known by their ends. */
function suffixOf(word: string, many: number): number {
  let hash = 0x811c9dc5;
  for (const letter of Array.from(word).slice(-3))
    for (const byte of utf8(letter.codePointAt(0) ?? 0)) hash = Math.imul(hash ^ byte, 0x01000193);
  return (hash >>> 0) % many;
}

function utf8(code: number): readonly number[] {
  if (code < 0x80) return [code];
  const rest = (shift: number) => 0x80 | ((code >> shift) & 0x3f);
  if (code < 0x800) return [0xc0 | (code >> 6), rest(0)];
  if (code < 0x10000) return [0xe0 | (code >> 12), rest(6), rest(0)];
  return [0xf0 | (code >> 18), rest(12), rest(6), rest(0)];
}
