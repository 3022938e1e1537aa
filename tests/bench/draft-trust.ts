import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { draftOf } from '../../src/drafting/draft.ts';
import { hearTalk } from '../../src/drafting/extract.ts';
import { lastTold } from '../../src/drafting/groups.ts';
import { readTranscript } from '../../src/drafting/transcripts.ts';
import { mapOf, signsFor, signsOf, type JudgedField, type Signs } from '../../src/drafting/trust.ts';
import { compare } from '../drafting/scoring.ts';
import { readTruth } from '../drafting/truth-file.ts';

/*
 * Fits the weights of src/drafting/trust.ts to the talks that were read: for each value that the rules hear, how likely it is right.
 * Every batch is left out in turn, and what holds on it is printed, so that nothing is told of talk that the weights were fitted to.
 * Later batches were written by somebody who had not read the rules, so they weigh more.
 */
const corpus = join(import.meta.dirname, '../drafting/corpus');
const batches = {
  known: 1,
  'known-2': 1.5,
  'known-3': 3,
  'known-4': 3,
  'known-5': 3,
  'known-6': 3,
  'known-7': 1,
  'known-8': 1,
  'known-9': 2,
  'known-10': 2,
} as const;
type Batch = keyof typeof batches;
const fields = ['count', 'size', 'torque'] as const;
/** Keeps weights of rare signs small. */
const ridge = 8;

interface Case {
  readonly batch: Batch;
  readonly field: JudgedField;
  readonly signs: Signs;
  readonly isRight: boolean;
}

const wanted: Record<Batch, Record<JudgedField, number>> = Object.fromEntries(
  Object.keys(batches).map((batch) => [batch, { count: 0, size: 0, torque: 0 }]),
) as Record<Batch, Record<JudgedField, number>>;
const cases: readonly Case[] = (Object.keys(batches) as Batch[]).flatMap(casesOf);

for (const field of fields) {
  const own = cases.filter((one) => one.field === field);
  for (const batch of Object.keys(batches) as Batch[]) {
    const weights = fit(
      field,
      own.filter((one) => one.batch !== batch),
    );
    const left = own.filter((one) => one.batch === batch);
    const cells = [0, 0.7, 0.75, 0.8, 0.85, 0.9].map((from) => {
      const kept = left.filter(({ signs }) => chance(weights, field, signs) >= from);
      const right = kept.filter(({ isRight }) => isRight).length;
      return `${from}: ${(right / Math.max(1, kept.length)).toFixed(3)} / ${(right / wanted[batch][field]).toFixed(3)}`;
    });
    console.log(`${field.padEnd(7)} fitted without ${batch.padEnd(8)} precision / recall from ${cells.join('   ')}`);
  }
  const weights = fit(field, own);
  const told = signsFor(field).map((sign, index) => `${sign}: ${weights[index + 1]!.toFixed(2)}`);
  console.log(`${field}: { before: ${weights[0]!.toFixed(2)}, ${told.join(', ')} },\n`);
}

function casesOf(batch: Batch): readonly Case[] {
  const folder = join(corpus, batch);
  return readdirSync(folder)
    .filter((file) => /\.(?:vtt|srt|txt)$/.test(file))
    .sort()
    .flatMap((file) => {
      const truth = readTruth(readFileSync(join(folder, file.replace(/\.\w+$/, '.truth.json')), 'utf8'));
      if (!truth.ok) throw new Error(`${file}: ${truth.problem}`);
      const heard = hearTalk(readTranscript(readFileSync(join(folder, file), 'utf8')));
      const map = mapOf(heard);
      const comparison = compare(truth.rows, draftOf(heard, { name: file, holdBack: false }).groups);
      for (const field of fields) wanted[batch][field] += comparison.scores[field].wanted;
      return comparison.judgements.flatMap(({ group: id, build, field, isRight }): Case[] => {
        if (field !== 'count' && field !== 'size' && field !== 'torque') return [];
        const group = heard.groups.find((one) => String(one.id) === id)!;
        const told = lastTold(group, field, build) ?? group.told[field].at(-1)!;
        return [{ batch, field, signs: signsOf(map, group, field, told), isRight }];
      });
    });
}

function chance(weights: readonly number[], field: JudgedField, signs: Signs): number {
  return 1 / (1 + Math.exp(-rowOf(field, signs).reduce((sum, value, index) => sum + value * weights[index]!, 0)));
}

function rowOf(field: JudgedField, signs: Signs): readonly number[] {
  return [1, ...signsFor(field).map((sign) => signs[sign])];
}

/** Logistic regression by Newton's method, with a ridge on all but the constant. */
function fit(field: JudgedField, own: readonly Case[]): readonly number[] {
  const rows = own.map(({ signs }) => rowOf(field, signs));
  const size = rows[0]!.length;
  const spread = Array.from({ length: size }, (_, index) => {
    const mean = rows.reduce((sum, row) => sum + row[index]!, 0) / rows.length;
    return rows.reduce((sum, row) => sum + (row[index]! - mean) ** 2, 0) / rows.length;
  });
  const weights = new Array<number>(size).fill(0);
  for (let turn = 0; turn < 30; turn++) {
    const slope = weights.map((weight, index) => (index === 0 ? 0 : -ridge * spread[index]! * weight));
    const bend = weights.map((_, index) =>
      weights.map((__, other) => (index === other ? (index === 0 ? 1e-6 : ridge * spread[index]! + 1e-9) : 0)),
    );
    rows.forEach((row, at) => {
      const p = 1 / (1 + Math.exp(-row.reduce((sum, value, index) => sum + value * weights[index]!, 0)));
      const { batch, isRight } = own[at]!;
      for (let index = 0; index < size; index++) {
        slope[index]! += batches[batch] * ((isRight ? 1 : 0) - p) * row[index]!;
        for (let other = 0; other < size; other++) bend[index]![other]! += batches[batch] * p * (1 - p) * row[index]! * row[other]!;
      }
    });
    const step = solve(bend, slope);
    step.forEach((change, index) => (weights[index]! += change));
  }
  return weights;
}

/** Gaussian elimination with the largest pivot. */
function solve(matrix: readonly (readonly number[])[], values: readonly number[]): readonly number[] {
  const rows = matrix.map((row, index) => [...row, values[index]!]);
  for (let column = 0; column < rows.length; column++) {
    const pivot = rows
      .slice(column)
      .reduce((best, row, index) => (Math.abs(row[column]!) > Math.abs(rows[best]![column]!) ? column + index : best), column);
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const head = rows[column]!;
    rows.forEach((row, index) => {
      if (index === column) return;
      const share = row[column]! / head[column]!;
      for (let at = column; at < row.length; at++) row[at]! -= share * head[at]!;
    });
  }
  return rows.map((row, index) => row.at(-1)! / row[index]!);
}
