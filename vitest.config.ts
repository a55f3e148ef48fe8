import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/bench/**', 'node_modules/**'],
    // Only a hang fails: the long run is ten times the work, on a machine that may be busy.
    testTimeout: process.env.COPEWRIGHT_LONG === '1' ? 3_600_000 : 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    reporters: ['default'],
  },
});
