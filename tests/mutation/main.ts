/**
 * Mutation tests, `npm run mutation -- torque` (or job, phrasing, or a file such as torque/units.ts): changes the code in small ways, runs
 * the unit tests that cover each change, and says how many changes they notice. Ends with 1 below 85 %.
 */
import { Stryker } from '@stryker-mutator/core';

const wanted = process.argv.slice(2);
if (wanted.length === 0) throw new Error('which folder or file of src: torque, job, phrasing, …?');

const results = await new Stryker({
  mutate: wanted.map((one) => (one.endsWith('.ts') ? `src/${one}` : `src/${one}/**/*.ts`)),
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: true },
  coverageAnalysis: 'perTest',
  concurrency: 2,
  // A changed text of a spoken line is for a native ear to judge, not for a test to repeat.
  mutator: { excludedMutations: ['StringLiteral'] },
  ignoreStatic: true,
  reporters: ['clear-text', 'progress-append-only'],
  clearTextReporter: { allowColor: false, reportTests: false, reportScoreTable: true },
  tempDirName: '.cache/stryker',
  ignorePatterns: ['dist', 'audio', '.cache', 'demo-data', 'src/app'],
  incremental: true,
  incrementalFile: `.cache/stryker-${wanted.join('-').replaceAll('/', '-')}.json`,
  checkers: [],
  thresholds: { high: 90, low: 85, break: 85 },
}).runMutationTest();
console.log(`${results.length} changes`);
