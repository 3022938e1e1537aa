/**
 * Mutation tests, `npm run mutation -- torque` (or job, phrasing, or a file such as torque/units.ts): changes the code in small ways, runs
 * the unit tests of that folder and those of published values, and says how many changes they notice. Ends with 1 below 85 %.
 * `--sample N` changes only every Nth stretch of lines: an estimate in a fraction of the time. `--offset K`, from 0 to N − 1, begins at the
 * Kth stretch instead of the first, so that gaps found in one sample can be judged by another.
 * It wants a checkout whose `node_modules` is a folder: where it is a link, the copy that is changed has no dictionaries and phrasing fails.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';

const { values, positionals: wanted } = parseArgs({
  options: { sample: { type: 'string', default: '1' }, offset: { type: 'string', default: '0' } },
  allowPositionals: true,
});
const every = Number(values.sample);
const offset = Number(values.offset);
if (wanted.length === 0) throw new Error('which folder or file of src: torque, job, phrasing, …?');
if (!(Number.isInteger(every) && every >= 1)) throw new Error(`--sample: found "${values.sample}", expected a whole number from 1`);
if (!(values.offset !== '' && Number.isInteger(offset) && offset >= 0 && offset < every))
  throw new Error(`--offset: found "${values.offset}", expected a whole number from 0 to ${every - 1}, less than --sample`);
process.env['MUTATED'] = wanted.map((one) => one.split('/')[0] ?? one).join(',');

/** Lines of one stretch of a sample: long enough for most functions. */
const stretch = 24;

function filesOf(one: string): string[] {
  if (one.endsWith('.ts')) return [`src/${one}`];
  return readdirSync(join('src', one), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => `src/${one}/${file}`)
    .sort();
}

/** Every Nth stretch from the offset on, counted through all files, so that a small file is not always in. */
function sampled(files: readonly string[]): string[] {
  let count = 0;
  return files.flatMap((file) => {
    const lines = readFileSync(file, 'utf8').split('\n').length;
    const starts = Array.from({ length: Math.ceil(lines / stretch) }, (_, index) => 1 + index * stretch);
    return starts.filter(() => count++ % every === offset).map((start) => `${file}:${start}-${Math.min(lines, start + stretch - 1)}`);
  });
}

const files = wanted.flatMap(filesOf);

const results = await new Stryker({
  mutate: every === 1 ? files : sampled(files),
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
  coverageAnalysis: 'perTest',
  concurrency: 2,
  // A change that makes a test slow is noticed; a machine that does something else beside this is not a change.
  timeoutMS: 40_000,
  // A changed text of a spoken line is for a native ear to judge, not for a test to repeat.
  mutator: { excludedMutations: ['StringLiteral'] },
  ignoreStatic: true,
  reporters: ['clear-text', 'progress-append-only'],
  clearTextReporter: { allowColor: false, reportTests: false, reportScoreTable: true },
  tempDirName: '.cache/stryker',
  ignorePatterns: ['dist', 'audio', '.cache', 'demo-data', 'src/app'],
  ...(every === 1 ? { incremental: true, incrementalFile: `.cache/stryker-${wanted.join('-').replaceAll('/', '-')}.json` } : {}),
  checkers: [],
  thresholds: { high: 90, low: 85, break: 85 },
}).runMutationTest();
console.log(`${results.length} changes`);
