import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    // No profile and no kept parts of the user who runs the tests.
    env: { XDG_CONFIG_HOME: '/nonexistent', PATTERNWRIGHT_CACHE: 'none' },
    include: ['test/**/*.test.ts'],
    setupFiles: ['test/helpers/seed.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'forks',
    maxWorkers: availableParallelism(),
  },
});
