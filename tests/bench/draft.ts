import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { draftFrom } from '../../src/drafting/draft.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { compare, scoredFields, type Score, type ScoredField, type TruthRow } from '../drafting/scoring.ts';

/**
 * Precision and recall of the draft by field, as JSON lines. Without arguments the talk-throughs of this repository are used;
 * `--corpus DIR` takes others, `--misses` tells what was wrong, on standard error.
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
    ? [{ name: 'corpus', folder: args[corpusAt + 1] ?? '.', tell: true }]
    : [
        { name: 'known', folder: join(here, 'known'), tell: true },
        // What is wrong with these is not shown, so that nobody tunes the rules to them.
        { name: 'held-out-2', folder: join(here, 'held-out-2'), tell: false },
      ];

for (const { name, folder, tell } of folders) {
  const totals = Object.fromEntries(scoredFields.map((field) => [field, { given: 0, right: 0, wanted: 0 }])) as Record<ScoredField, Score>;
  let withoutEvidence = 0;
  let talks = 0;
  let groups = 0;
  let milliseconds = 0;
  for (const file of readdirSync(folder).sort()) {
    const stem = /^(.+)\.(?:vtt|srt|txt)$/.exec(file)?.[1];
    if (stem === undefined) continue;
    const truth = JSON.parse(readFileSync(join(folder, `${stem}.truth.json`), 'utf8')) as readonly TruthRow[];
    const text = readFileSync(join(folder, file), 'utf8');
    const started = performance.now();
    const draft = draftFrom(readTranscript(text), { name: stem });
    milliseconds += performance.now() - started;
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
    talks++;
    groups += comparison.groupsWanted;
    if (showMisses && tell) {
      console.error(`${file}: ${comparison.groupsWanted} groups, ${comparison.groupsExtra} extra`);
      for (const miss of comparison.misses) console.error(`  ${miss}`);
    } else if (showMisses) {
      const { count, size, torque } = comparison.scores;
      console.error(`${file}: ${[count, size, torque].map(({ right, given, wanted }) => `${right}/${given}/${wanted}`).join('  ')}`);
    }
  }
  print(`${name}: talk-throughs`, talks, 'talks', null);
  print(`${name}: groups`, groups, 'groups', null);
  for (const field of scoredFields) {
    const { given, right, wanted } = totals[field];
    print(`${name}: ${field} precision`, given === 0 ? 1 : right / given, 'share', aims[field]?.precision ?? null);
    print(`${name}: ${field} recall`, wanted === 0 ? 1 : right / wanted, 'share', aims[field]?.recall ?? null);
  }
  print(`${name}: values without evidence`, withoutEvidence, 'values', null);
  print(`${name}: time a talk-through`, milliseconds / Math.max(1, talks), 'ms', null);
}

/** `versus` is the aim, where there is one. */
function print(name: string, value: number, unit: string, versus: number | null): void {
  const rounded = Math.round(value * 10_000) / 10_000;
  console.log(
    JSON.stringify({ name, value: rounded, unit, versus, ratio: versus === null ? null : Math.round((value / versus) * 10_000) / 10_000 }),
  );
}
