import { defineConfig } from 'vitest/config'
import { svelte } from '@sveltejs/vite-plugin-svelte'
import { svelteTesting } from '@testing-library/svelte/vite'

/** They put another module in a module's place, which must reach no other file. */
const ALONE = ['tests/core/analysis/effects.test.ts']

/** A suite that is green is green again: other draws are asked for with EVENSWING_SEED. */
const setupFiles = ['tests/helpers/drawnAlike.ts']

export default defineConfig({
  test: {
    // Left alone it keeps one core free, and on two cores runs everything in a row.
    maxWorkers: '100%',
    projects: [
      {
        test: {
          name: 'core',
          environment: 'node',
          setupFiles,
          include: ['tests/{core,reference,robustness}/**/*.test.ts'],
          exclude: ALONE,
          // The core keeps nothing but what it can work out again: its files share one loaded copy.
          pool: 'threads',
          isolate: false,
          testTimeout: 60_000,
        },
      },
      { test: { name: 'alone', environment: 'node', setupFiles, include: ALONE, testTimeout: 60_000 } },
      {
        test: {
          name: 'host',
          environment: 'node',
          setupFiles,
          include: ['tests/host/**/*.test.ts'],
          testTimeout: 120_000,
        },
      },
      {
        // svelteTesting() adds the "browser" resolve condition and the clean-up after each test.
        plugins: [svelte(), svelteTesting()],
        test: {
          name: 'renderer',
          environment: 'happy-dom',
          setupFiles,
          include: ['tests/renderer/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'interface',
          environment: 'node',
          include: ['tests/interface/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          // A busy machine may take its time over a picture.
          expect: { poll: { timeout: 20_000 } },
          // After the others: its browsers take what the cores have.
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
