import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { talkReader } from '../../src/cli/talk-reader.ts';
import { draftOf } from '../../src/drafting/draft.ts';
import { hearTalk } from '../../src/drafting/extract.ts';
import { emptyTold, type Group, type Told, type ToldFields } from '../../src/drafting/groups.ts';
import { readBuilds, withBuilds } from '../../src/drafting/reader/build-words.ts';
import type { ReadCandidate } from '../../src/drafting/reader/candidates.ts';
import { readGroups, type ReadGroup } from '../../src/drafting/reader/merge.ts';
import type { ReadSigns } from '../../src/drafting/reader/signs.ts';
import { lineNode, rowsOfView, writeLines, type Line, type LineNode } from '../../src/drafting/reader/training/export-talks.ts';
import { isForChances, isHeldOut, parseMarked, type MarkedRow } from '../../src/drafting/reader/training/marked.ts';
import { viewOf } from '../../src/drafting/reader/view.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { judged, mapOf, signsOf, trustIn, type JudgedField } from '../../src/drafting/trust.ts';
import { compare, type ScoredField, type TruthRow } from '../drafting/scoring.ts';
import { readTruth } from '../drafting/truth-file.ts';

/** What the training of the reader (src/drafting/reader/training) needs from talks whose truth is known. */
const help = `npx tsx tests/bench/reader-training.ts silver OUT FOLDER…
npx tsx tests/bench/reader-training.ts chances OUT FOLDER…

silver:  lines for train.py from talks with a NAME.truth.json beside them. What the rules read rightly is the answer; what they read wrongly
         or missed is left open, so that it is not learnt.
chances: values that the net and the rules put to groups, with their signs and whether they are right, for fit-chances.py, as OUT (CSV) and
         OUT.wants.json (how many values there are). Of the training's own talks only those are taken that were held out
         or are kept for this.`;

interface Talk {
  readonly file: string;
  readonly source: string;
  readonly truth: readonly TruthRow[];
  readonly isMarked: boolean;
}

function talksOf(folder: string): readonly Talk[] {
  return readdirSync(folder)
    .filter((file) => /\.(?:vtt|srt|txt)$/.test(file))
    .sort()
    .map((file): Talk => {
      const source = readFileSync(join(folder, file), 'utf8');
      const truthFile = join(folder, file.replace(/\.\w+$/, '.truth.json'));
      if (!existsSync(truthFile)) {
        const { text, rows } = parseMarked(source);
        return { file, source: text, truth: rows.map(truthOf), isMarked: true };
      }
      const truth = readTruth(readFileSync(truthFile, 'utf8'));
      if (!truth.ok) throw new Error(`${file}: ${truth.problem}`);
      return { file, source, truth: truth.rows, isMarked: false };
    });
}

/** A row of a marked talk ("9/16 in", "25-30 N·m") as a truth file has it. */
function truthOf({ name, count, size, torque, build }: MarkedRow): TruthRow {
  const { text = null, sizeUnit } = /^#?(?<text>.*?)\s*(?<sizeUnit>mm|in|inch|")?$/i.exec(size ?? '')?.groups ?? {};
  const { low, high, unit } = /^(?<low>[\d.]+)(?:\s*(?:-|–|to)\s*(?<high>[\d.]+))?\s*(?<unit>.*)$/.exec(torque ?? '')?.groups ?? {};
  return {
    match: name,
    count,
    build,
    size: size === null ? null : text,
    sizeUnit: sizeUnit === undefined ? null : /mm/i.test(sizeUnit) ? 'mm' : 'in',
    torque: low === undefined ? null : high === undefined ? Number(low) : [Number(low), Number(high)],
    unit: unit === undefined || unit === '' ? null : unit,
  };
}

const isReadField = (field: ScoredField): field is JudgedField => (judged as readonly ScoredField[]).includes(field);
const letters = { count: 'c', size: 's', torque: 't' } as const;

/** A talk without marks as a line for train.py, answered by what the rules read rightly. */
function silverLine({ file, source, truth }: Talk): Line {
  const transcript = readTranscript(source);
  const heard = hearTalk(transcript);
  const view = viewOf(heard, transcript.words);
  const { judgements, misses } = compare(truth, draftOf(heard, { name: file, holdBack: false }).groups);
  const keysOf = (isRight: boolean) =>
    new Set(judgements.filter((one) => isReadField(one.field) && one.isRight === isRight).map(({ group, field }) => `${group} ${field}`));
  const [right, wrong] = [keysOf(true), keysOf(false)];
  // Names are not known without marks, and the rules' answers are no longer a hint where they are the answer itself.
  const nodes = view.nodes.map((node): LineNode => ({ ...lineNode(node), ra: 0, ro: [], role: node.kind === 'number' ? 'o' : '?' }));
  const rows = { ...rowsOfView(view), ruled: [...view.ruled].map(() => 0) };

  for (const group of heard.groups)
    for (const one of [group, ...group.parts])
      for (const field of [...judged, 'passes'] as const)
        for (const told of one.told[field] as readonly Told<unknown>[]) {
          const node = nodeTold(field, told);
          if (node === undefined) continue;
          if (field === 'passes') {
            if (node.role === 'o') node.role = 'x';
          } else if (!right.has(`${group.id} ${field}`) || wrong.has(`${group.id} ${field}`) || isTakenBack(one.told[field], told)) {
            node.role = '?';
          } else if (node.role === 'o' || node.role === letters[field]) {
            node.role = letters[field];
            if (!node.groups.includes(String(group.id))) node.groups.push(String(group.id));
            if (field === 'count') node.times = timesOver(Number(told.value) / Number(node.v));
          }
        }
  // A number that the truth wants and no group has may be any that says so.
  const missed = new Set(
    misses.map((miss) => /^(?:count|size|torque): .* wanted ([\d./ ]+?)(?: mm| in)?, got/.exec(miss)?.[1]?.replace(' to ', '-')),
  );
  for (const node of nodes) if (node.k === 'number' && node.role === 'o' && missed.has(node.v)) node.role = '?';
  return { id: file, dir: 'silver', style: 'plain', silver: true, ...rows, nodes, rows: [] };

  function nodeTold(field: JudgedField | 'passes', { evidence }: Told<unknown>): LineNode | undefined {
    const { sentence, words, from = -1 } = evidence;
    const to = from + words.split(' ').length;
    const quantity = heard.sentences[sentence]!.quantities.find(
      (one) => from >= 0 && one.from >= from && one.from < to && (field !== 'count' || one.kind === 'number'),
    );
    if (quantity === undefined) return undefined;
    const start = view.starts[sentence]!;
    return nodes.find(({ k, f, t }) => k === 'number' && f === start + quantity.from && t === start + quantity.to);
  }
}

/** Something else is told later for all builds. */
const isTakenBack = (all: readonly Told<unknown>[], { build, value }: Told<unknown>) =>
  build === null && JSON.stringify(all.at(-1)?.value) !== JSON.stringify(value);

/** How many times over a count holds, or -1 where that cannot be. */
const timesOver = (ratio: number) => (Number.isInteger(ratio) && ratio >= 1 && ratio <= 8 ? ratio : -1);

interface Judged {
  readonly batch: string;
  readonly file: string;
  readonly group: string;
  readonly field: JudgedField;
  readonly build: string | null;
  /** Which of the candidates for the value. */
  readonly place: number;
  readonly right: 0 | 1;
  readonly signs: ReadSigns;
}

function writeCandidates(file: string, from: readonly string[]): void {
  const read = talkReader();
  const wants: Record<string, Record<JudgedField, number>> = {};
  const rated = from.flatMap((folder) =>
    talksOf(folder)
      .filter(
        ({ isMarked, file }) => !isMarked || isHeldOut(file) || isForChances(file) || !resolve(folder).endsWith('reader/training/talks'),
      )
      .flatMap((talk) => candidatesOf(talk, talk.isMarked ? 'marked' : basename(folder))),
  );
  const rows = rated.map(({ signs, build, right, ...more }) => ({ ...more, build: build ?? '', right, ...signs }));
  const columns = [
    'batch',
    'file',
    'group',
    'field',
    'build',
    'place',
    'right',
    ...Object.keys(rated[0]?.signs ?? {}),
  ] as (keyof (typeof rows)[number])[];
  const lines = rows.map((row) => columns.map((column) => String(row[column]).replaceAll(',', ' ')).join(','));
  writeFileSync(file, [columns.join(','), ...lines].join('\n'));
  writeFileSync(`${file}.wants.json`, JSON.stringify(wants));

  function candidatesOf({ file: talk, source, truth }: Talk, batch: string): readonly Judged[] {
    const transcript = readTranscript(source);
    const heard = hearTalk(transcript);
    const view = viewOf(heard, transcript.words);
    const reading = read(view);
    if (reading === null) return [];
    const map = mapOf(heard);
    const builds = readBuilds(heard, view, reading);
    const groups = readGroups(heard, view, reading, builds, (group, field, told) => trustIn(field, signsOf(map, group, field, told)));
    // Whether a value is right shows only in a draft that has it, so there are as many drafts as one value has candidates.
    const most = Math.max(0, ...groups.map(({ candidates }) => Math.max(0, ...candidates.map((one) => rivalsOf(one, candidates).length))));
    return Array.from({ length: most }, (_, place) => place).flatMap((place) => {
      const filled = groups.map((one) => filledFrom(one, place));
      const drafted = draftOf(withBuilds(heard, builds, filled), { name: talk, holdBack: false });
      const { judgements, scores } = compare(truth, drafted.groups);
      if (place === 0) {
        const own = (wants[batch] ??= { count: 0, size: 0, torque: 0 });
        for (const field of judged) own[field] += scores[field].wanted;
      }
      return judgements.flatMap(({ group: id, build, field, isRight }): readonly Judged[] => {
        if (!isReadField(field)) return [];
        const ofField = groups.find(({ group }) => String(group.id) === id)!.candidates.filter((one) => one.field === field);
        const ofBuild = ofField.filter((one) => one.build === build);
        const candidate = (ofBuild.length > 0 ? ofBuild : ofField)[place];
        // Where there are fewer the draft is one that was judged already.
        return candidate === undefined
          ? []
          : [{ batch, file: talk, group: id, field, build, place, right: isRight ? 1 : 0, signs: candidate.signs }];
      });
    });
  }
}

const rivalsOf = ({ field, build }: ReadCandidate, all: readonly ReadCandidate[]) =>
  all.filter((one) => one.field === field && one.build === build);

/** The group with the candidates of that place, or the last where there are fewer. */
function filledFrom({ group, candidates }: ReadGroup, place: number): Group {
  const told: ToldFields = { ...emptyTold(), ...group.told, count: [], size: [], torque: [] };
  for (const one of candidates) {
    const rivals = rivalsOf(one, candidates);
    if (rivals[Math.min(place, rivals.length - 1)] === one) (told[one.field] as Told<unknown>[]).push(one.told);
  }
  return { ...group, told };
}

const [verb, out, ...folders] = process.argv.slice(2);
if (out === undefined || folders.length === 0 || (verb !== 'silver' && verb !== 'chances')) {
  console.log(help);
  process.exit(2);
}
if (verb === 'silver') writeLines(out, folders.flatMap(talksOf).map(silverLine));
else writeCandidates(out, folders);
