import { defineConfig } from 'vitest/config'

/** What needs no database, browser or child process: the gate before every commit. */
const FAST = [
  'tests/*.test.ts',
  'tests/domain/**/*.test.ts',
  'tests/api/**/*.test.ts',
  'tests/cli/calc.test.ts',
  'tests/phone/**/*.test.ts',
  'tests/fuzz/**/*.test.ts',
  'tests/sim/*.test.ts',
  'tests/store/memory.test.ts',
  'tests/vectors/**/*.test.ts',
  'tests/demo/figures.test.ts',
]

export default defineConfig({
  test: {
    testTimeout: 120_000,
    hookTimeout: 120_000,
    projects: [
      { extends: true, test: { name: 'fast', include: FAST } },
      {
        extends: true,
        test: {
          name: 'whole',
          include: ['tests/**/*.test.ts'],
          exclude: FAST,
          fileParallelism: false,
          globalSetup: 'tests/kit/postgres.ts',
        },
      },
    ],
  },
})
