import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
    testTimeout: 120_000, // laws that plan some dozens of jobs, on a machine that does other things too
    hookTimeout: 60_000,
    maxWorkers: 2,
  },
});
