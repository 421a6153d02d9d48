import { defineConfig } from 'vitest/config';

/** The benches alone; they print as they go. */
export default defineConfig({
  test: {
    include: ['test/bench/**/*.bench.ts'],
    testTimeout: 1_800_000,
    hookTimeout: 600_000,
    pool: 'forks',
    fileParallelism: false,
    disableConsoleIntercept: true,
  },
});
