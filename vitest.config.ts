import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['packages/*/src/**/*.test.{ts,tsx}', 'scripts/**/*.test.ts'],
    pool: 'threads',
    maxWorkers: 2,
    testTimeout: 240_000,
    hookTimeout: 240_000,
  },
})
