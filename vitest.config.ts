import { defineConfig } from 'vitest/config';
import { fileURLToPath } from 'node:url';
import { LongestFirst } from './tests/support/longest-first.js';

/**
 * Tests that only compute: they share the two processes they run in, so that the library is read once and not by each of sixty
 * files. They change nothing outside themselves; a file that does belongs to the others.
 */
const COMPUTING = [
  'tests/{core,log,views,exercises,published,lab,support}/**/*.test.ts',
  'tests/{house,report}.test.ts',
];

export default defineConfig({
  resolve: {
    alias: { 'cocked-hat': fileURLToPath(new URL('./src/index.ts', import.meta.url)) },
  },
  test: {
    // Limits only end what hangs: no test may fail because the machine is slow or busy.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 30_000 } },
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        extends: true,
        test: {
          name: 'each alone',
          include: ['tests/**/*.test.ts'],
          exclude: COMPUTING,
          globalSetup: ['tests/support/shared-setup.ts'],
        },
      },
      {
        extends: true,
        test: { name: 'computing', include: COMPUTING, isolate: false },
      },
    ],
  },
});
