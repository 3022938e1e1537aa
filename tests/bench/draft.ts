import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { compare, scoredFields, type Score, type ScoredField, type TruthRow } from '../drafting/scoring.ts';
import { readTruth } from '../drafting/truth-file.ts';

/**
 * Precision and recall of the draft by field, as JSON lines and as a table. Without arguments the talk-throughs of this repository are
 * used; `--corpus DIR` takes others, `--misses` tells what was wrong, on standard error. Ends with 2 where a folder or a truth file is
 * no good.
 */
const args = process.argv.slice(2);
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
        // What is wrong with these is not shown, so that nobody tunes the rules to them.
        { name: 'held-out-2', folder: join(here, 'held-out-2'), tell: false },
      ];
const table: string[] = [];

for (const { name, folder, tell } of folders) measure(name, folder, tell);
console.log(['', `${'set'.padEnd(12)}${'field'.padEnd(9)}precision    recall   given   right  wanted`, ...table].join('\n'));

function measure(name: string, folder: string, tell: boolean): void {
  const talks = talksIn(folder);
  const totals = Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
  let withoutEvidence = 0;
  let groups = 0;
  let words = 0;
  let milliseconds = 0;
  for (const { file, stem, truth } of talks) {
    const transcript = readTranscript(readFileSync(join(folder, file), 'utf8'));
    const started = performance.now();
    const draft = draftFrom(transcript, { name: stem });
    milliseconds += performance.now() - started;
    words += transcript.words.length;
    const comparison = compare(truth, draft.groups);
    for (const field of scoredFields) {
      totals[field].given += comparison.scores[field].given;
      totals[field].right += comparison.scores[field].right;
      totals[field].wanted += comparison.scores[field].wanted;
    }
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
    const cells = [precision.toFixed(3), recall.toFixed(3), given, right, wanted];
    table.push(
      `${name.padEnd(12)}${field.padEnd(9)}${cells.map((cell, index) => String(cell).padStart(index === 0 ? 9 : index === 1 ? 10 : 8)).join('')}`,
    );
  }
  print(`${name}: values without evidence`, withoutEvidence, 'values', null);
  print(`${name}: time for 1000 words`, (milliseconds * 1000) / Math.max(1, words), 'ms', null);
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
