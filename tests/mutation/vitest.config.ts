import { defineConfig } from 'vitest/config';

/** The tests of the folders that are mutated, and of published values: a change that only others notice is a gap in a folder's own tests. */
export default defineConfig({
  test: {
    include: [`tests/{${process.env['MUTATED'] ?? 'torque'},published}/**/*.test.ts`],
    testTimeout: 120_000,
  },
});
