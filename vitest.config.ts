import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    // No profile and no kept parts of the user who runs the tests.
    env: { XDG_CONFIG_HOME: '/nonexistent', PATTERNWRIGHT_CACHE: 'none' },
    include: ['test/**/*.test.ts'],
    setupFiles: ['test/helpers/seed.ts'],
    // Nothing is judged by its time here: these end what hangs, on a machine however busy.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 60_000 } },
    pool: 'forks',
    maxWorkers: availableParallelism(),
  },
});
