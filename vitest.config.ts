import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/{common,client,server,published,convergence,architecture}/**/*.test.{ts,tsx}'],
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/support/find-chromium.ts'],
          testTimeout: 120_000,
          hookTimeout: 60_000,
          // Three pages and a relay share a small machine, and a tempo waits for its beat: a second is too short.
          expect: { poll: { timeout: 15_000, interval: 100 } },
          fileParallelism: false,
        },
      },
    ],
  },
});
