import { defineConfig } from 'vitest/config';

/** Nothing is built and no browser unpacked: mutants live in the source, and the tests that meet them import it. */
export default defineConfig({
  test: {
    include: (process.env['LUGWRIGHT_MUTATION_TESTS'] ?? 'tests/**/*.test.ts').split(','),
    environment: 'node',
    pool: 'threads',
    isolate: false,
    testTimeout: 60_000,
  },
});
