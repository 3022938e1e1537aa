/**
 * N name, r reference, c count, s size, t torque, x a number that does not hold in the end, = "the same as". README.md says when each is
 * put. The letters go on into the lines for train.py.
 */
export type MarkLetter = 'n' | 'r' | 'c' | 's' | 't' | 'x' | '=';

/** Words of a talk that were marked. */
export interface MarkedSpan {
  readonly letter: MarkLetter;
  /** The numbers of the groups that the words are about. */
  readonly groups: readonly string[];
  readonly words: string;
  /** Characters of the talk's text. */
  readonly from: number;
  readonly to: number;
  /** Of a count: it is to be added to others, and how many times over it holds. */
  readonly isPart: boolean;
  readonly times: number;
  /** The one build that it holds for. */
  readonly build: string | null;
  /** Of a name: how many there are, where no number says it. */
  readonly implied: number | null;
  /** Of "the same as": the other group, and the letters of what is the same. */
  readonly like: string | null;
  readonly likeFields: string;
}

/** What the speaker means in the end for one group of fasteners, or for one build of it. */
export interface MarkedRow {
  readonly id: string;
  readonly name: string;
  readonly count: number | null;
  readonly size: string | null;
  readonly torque: string | null;
  readonly build: string | null;
}

export interface MarkedTalk {
  /** The talk without its marks. */
  readonly text: string;
  readonly spans: readonly MarkedSpan[];
  readonly rows: readonly MarkedRow[];
}

const mark =
  /\[(?<groups>\d+(?:\s*,\s*\d+)*)\s*(?:(?<letter>[nrcstx])(?<more>[^\s\]]*)|=(?<like>\d+)(?<likeFields>[cst,]+))\s+(?<words>[^[\]]+)\]/g;

/** Reads a marked talk; throws where no line of --- parts the rows from the talk. */
export function parseMarked(source: string): MarkedTalk {
  const [head = '', ...rest] = source.replace(/\r/g, '').split(/^---\s*$/m);
  if (rest.length === 0) throw new Error('no line of --- between the rows and the talk');
  return { rows: rowsOf(head), ...spansOf(rest.join('---').trim()) };
}

function rowsOf(head: string): readonly MarkedRow[] {
  return head
    .split('\n')
    .filter((line) => line.includes('|'))
    .map((line) => {
      const [id = '', name = '', ...values] = line.split('|').map((cell) => cell.trim());
      const [count = null, size = null, torque = null, build = null] = values.map((value) => (/^[-–—]?$/.test(value) ? null : value));
      return { id, name, count: count === null ? null : Number(count), size, torque, build };
    });
}

function spansOf(body: string): Pick<MarkedTalk, 'text' | 'spans'> {
  const spans: MarkedSpan[] = [];
  let text = '';
  let last = 0;
  for (const found of body.matchAll(mark)) {
    const { groups = '', letter = '=', more = '', like = null, likeFields = '', words = '' } = found.groups ?? {};
    text += body.slice(last, found.index);
    last = found.index + found[0].length;
    const from = text.length;
    text += words.trim();
    const implied = /=(\d+)/.exec(more)?.[1];
    spans.push({
      letter: letter as MarkLetter, // The pattern has no other letters.
      groups: groups.split(',').map((group) => group.trim()),
      words: words.trim(),
      from,
      to: text.length,
      isPart: more.includes('+'),
      times: Number(/\*(\d+)/.exec(more)?.[1] ?? 1),
      build: /\/([^*+=]+)/.exec(more)?.[1] ?? null,
      implied: implied === undefined ? null : Number(implied),
      like,
      likeFields,
    });
  }
  return { text: text + body.slice(last), spans };
}

/** What does not fit together in a marked talk, for whoever marks one. Some of it may be meant. */
export function remarksOn({ text, spans, rows }: MarkedTalk): readonly string[] {
  const known = new Set(rows.map(({ id }) => id));
  return [
    ...rows.flatMap((row) => remarksOnRow(row, spans)),
    ...[...text.matchAll(/[[\]]/g)].map(({ index }) => `stray bracket near "${text.slice(Math.max(0, index - 25), index + 25)}"`),
    ...spans.flatMap(({ groups, words }) =>
      groups.filter((id) => !known.has(id)).map((id) => `mark of a group without a row: ${id} "${words}"`),
    ),
  ];
}

function remarksOnRow({ id, name, count, size, torque, build }: MarkedRow, spans: readonly MarkedSpan[]): readonly string[] {
  const own = spans.filter(({ groups }) => groups.includes(id));
  const remarks: string[] = [];
  if (!/^\d+$/.test(id)) remarks.push(`row without a number: ${name}`);
  if (count !== null && !Number.isInteger(count)) remarks.push(`group ${id} (${name}) has a count that is no whole number`);
  if (torque !== null && !/\d/.test(torque)) remarks.push(`group ${id} (${name}) has a torque without a number: ${torque}`);
  if (!own.some(({ letter }) => letter === 'n')) remarks.push(`group ${id} (${name}) has no n mark`);
  for (const [letter, value] of [
    ['c', count],
    ['s', size],
    ['t', torque],
  ] as const) {
    const saying = own.filter((span) => span.letter === letter || (letter === 'c' && span.implied !== null));
    const isSaid =
      saying.some((span) => span.build === null || build === null || span.build.toLowerCase() === build.toLowerCase()) ||
      own.some(({ likeFields }) => likeFields.includes(letter));
    if (value !== null && !isSaid) remarks.push(`group ${id} (${name}) has ${letter} ${value} in its row but no mark says it`);
    if (value === null && saying.length > 0) remarks.push(`group ${id} (${name}) has a mark ${letter} but none in its row`);
  }
  return remarks;
}

/** DIR-FILE.txt: who wrote the talk, and its own name. */
export function writerOf(file: string): { readonly writer: string; readonly name: string } {
  const dash = file.indexOf('-');
  return { writer: file.slice(0, Math.max(0, dash)), name: file.slice(dash + 1) };
}

/** The talks of this writer are kept for fitting the chances; as FOR_CHANCES in train.py. */
export const isForChances = (file: string) => writerOf(file).writer === 'u8';

/** One talk of twelve is not trained on; as is_held_out in train.py. */
export function isHeldOut(file: string): boolean {
  const { writer, name } = writerOf(file);
  let code = 0;
  for (const letter of writer + name) code = (code * 31 + (letter.codePointAt(0) ?? 0)) & 0xffffff;
  return code % 12 === 0;
}
