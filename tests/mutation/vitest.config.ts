import { defineConfig } from 'vitest/config';

/** The tests that can notice a change in the folders that are mutated; the browser and the adapters have no say in them. */
export default defineConfig({
  test: {
    include: ['tests/{torque,procedure,phrasing,job,published}/**/*.test.ts'],
    testTimeout: 20_000,
  },
});
