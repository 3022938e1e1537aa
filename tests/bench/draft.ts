import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { talkReader } from '../../src/cli/talk-reader.ts';
import { draftOf, hearAndRead } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { compare, scoredFields, type Score, type ScoredField, type TruthRow } from '../drafting/scoring.ts';
import { readTruth } from '../drafting/truth-file.ts';

/** Precision and recall of the draft by field, as JSON lines and as a table; `--help` says how it compares. */
const help = `npm run bench:draft [-- --corpus DIR] [--misses]

Drafts every NAME.vtt, NAME.srt and NAME.txt of a folder and compares the groups of fasteners with NAME.truth.json beside it.
Without --corpus it measures the talk-throughs of this repository. --misses tells what was wrong, on standard error.

A truth file is a list of entries, one for each group of like fasteners (and one for each build where builds differ):
  { "match": words that name the group, "count", "size", "sizeUnit", "drive", "torque", "unit", "build" }

- Entries and groups are paired by the words of "match" alone: words of the group's name weigh three times those of the sentences about
  it, rare words more than common ones, and of two that fit alike the one nearer in order is taken. Values never pair anything. Several
  entries with one "match" are one group on several builds. Each group is paired once.
- A field that an entry lacks is not judged. null says that the speaker tells nothing, so that a value given is wrong.
- "torque" is a number, [low, high] or "5-7"; a range is right where its ends are, or its middle where the entry has one number.
- "unit" is read in any way of writing: ft-lb, lbf·ft, foot pounds, Nm. "size" is "17", "9/16", "1 1/8", 0.5 or "T40"; "sizeUnit" mm or in.
- "drive" and "build" are judged only where an entry names them; "late", "later" and "build late" are one build.
- Fasteners alike in size and torque may be one entry and several groups, or several entries and one group: their counts are added.
- A value that is offered with its question, and not written, counts as not given. What was heard in all, written and offered, is printed
  as "heard".
- A group that no entry names counts as wrong in every field that it tells, so a truth file lists every group of the talk.

Precision is right / given, recall is right / wanted. Ends with 2 where a folder or a truth file is no good.`;

const args = process.argv.slice(2);
if (args.includes('--help')) {
  console.log(help);
  process.exit(0);
}
const corpusAt = args.indexOf('--corpus');
const showMisses = args.includes('--misses');
const aims: Partial<Record<ScoredField, { precision: number; recall: number }>> = {
  count: { precision: 0.95, recall: 0.9 },
  size: { precision: 0.95, recall: 0.9 },
  torque: { precision: 0.95, recall: 0.9 },
};
const here = join(import.meta.dirname, '../drafting/corpus');
const folders =
  corpusAt >= 0
    ? [{ name: 'corpus', folder: args[corpusAt + 1] ?? '', tell: true }]
    : [
        { name: 'known', folder: join(here, 'known'), tell: true },
        ...[2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map((number) => ({
          name: `known-${number}`,
          folder: join(here, `known-${number}`),
          tell: true,
        })),
        // What is wrong with these is not shown, so that nobody tunes the rules to it.
        ...[9, 10, 11].map((number) => ({ name: `held-out-${number}`, folder: join(here, `held-out-${number}`), tell: false })),
      ];
const table: string[] = [];
const read = talkReader();

for (const { name, folder, tell } of folders) measure(name, folder, tell);
console.log(['', `${'set'.padEnd(12)}${'field'.padEnd(9)}precision    recall   given   right  wanted   heard`, ...table].join('\n'));

function measure(name: string, folder: string, tell: boolean): void {
  const talks = talksIn(folder);
  const totals = nothing();
  const heardTotals = nothing();
  let withoutEvidence = 0;
  let groups = 0;
  let words = 0;
  let milliseconds = 0;
  for (const { file, stem, truth } of talks) {
    const transcript = readTranscript(readFileSync(join(folder, file), 'utf8'));
    const started = performance.now();
    const heard = hearAndRead(transcript, read);
    const draft = draftOf(heard, { name: stem });
    milliseconds += performance.now() - started;
    const { scores } = compare(truth, draftOf(heard, { name: stem, holdBack: false }).groups);
    for (const field of scoredFields) add(heardTotals[field], scores[field]);
    words += transcript.words.length;
    const comparison = compare(truth, draft.groups);
    for (const field of scoredFields) add(totals[field], comparison.scores[field]);
    withoutEvidence += draft.groups.flatMap(({ evidence, ...group }) =>
      (['count', 'size', 'torque', 'drive', 'square'] as const).filter(
        (field) => group[field] !== null && !evidence.some((one) => one.field === field && one.said !== ''),
      ),
    ).length;
    groups += comparison.groupsWanted;
    if (showMisses && tell) {
      console.error(`${file}: ${comparison.groupsWanted} groups, ${comparison.groupsExtra} extra`);
      for (const miss of comparison.misses) console.error(`  ${miss}`);
    }
  }
  print(`${name}: talk-throughs`, talks.length, 'talks', null);
  print(`${name}: groups`, groups, 'groups', null);
  for (const field of scoredFields) {
    const { given, right, wanted } = totals[field];
    const precision = given === 0 ? 1 : right / given;
    const recall = wanted === 0 ? 1 : right / wanted;
    print(`${name}: ${field} precision`, precision, 'share', aims[field]?.precision ?? null);
    print(`${name}: ${field} recall`, recall, 'share', aims[field]?.recall ?? null);
    const all = heardTotals[field];
    const heard = `${(all.right / Math.max(1, all.given)).toFixed(3)} / ${(all.right / Math.max(1, wanted)).toFixed(3)}`;
    const cells = [precision.toFixed(3), recall.toFixed(3), given, right, wanted];
    table.push(
      `${name.padEnd(12)}${field.padEnd(9)}${cells.map((cell, index) => String(cell).padStart(index === 0 ? 9 : index === 1 ? 10 : 8)).join('')}   ${heard}`,
    );
  }
  print(`${name}: values without evidence`, withoutEvidence, 'values', null);
  print(`${name}: time for 1000 words`, (milliseconds * 1000) / Math.max(1, words), 'ms', null);
}

function nothing(): Record<ScoredField, Score> {
  return Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
}

function add(total: Score, one: Score): void {
  total.given += one.given;
  total.right += one.right;
  total.wanted += one.wanted;
}

/** The talk-throughs of a folder with their truth; says what is wrong with the folder, and ends. */
function talksIn(folder: string): readonly { readonly file: string; readonly stem: string; readonly truth: readonly TruthRow[] }[] {
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    refuse(folder === '' ? '--corpus needs a folder.' : `${folder}: no such folder.`);
  const talks = readdirSync(folder)
    .sort()
    .flatMap((file) => {
      const stem = /^(.+)\.(?:vtt|srt|txt)$/.exec(file)?.[1];
      if (stem === undefined) return [];
      const path = join(folder, `${stem}.truth.json`);
      if (!existsSync(path)) refuse(`${path}: missing, though ${file} is there.`);
      const truth = readTruth(readFileSync(path, 'utf8'));
      if (!truth.ok) refuse(`${path}: ${truth.problem}`);
      return [{ file, stem, truth: truth.rows }];
    });
  if (talks.length === 0) refuse(`${folder}: no NAME.vtt, NAME.srt or NAME.txt in it.`);
  return talks;
}

function refuse(problem: string): never {
  console.error(problem);
  process.exit(2);
}

/** `versus` is the aim, where there is one. */
function print(name: string, value: number, unit: string, versus: number | null): void {
  const rounded = Math.round(value * 10_000) / 10_000;
  console.log(
    JSON.stringify({ name, value: rounded, unit, versus, ratio: versus === null ? null : Math.round((value / versus) * 10_000) / 10_000 }),
  );
}
