import { defineConfig } from 'vitest/config';

/** The tests of the folders that are mutated, and of published values: a change that only others notice is a gap in a folder's own tests. */
export default defineConfig({
  test: {
    include: [`tests/{${process.env['MUTATED'] ?? 'torque'},published}/**/*.test.ts`],
    // A machine that does something else beside this is slow, not wrong.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
