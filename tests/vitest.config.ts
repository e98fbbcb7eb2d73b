import { availableParallelism } from 'node:os'
import solid from 'vite-plugin-solid'
import { defineConfig } from 'vitest/config'

// Two kinds of test in one run: plain Node, and the web's state under Solid's browser build
// (in Node, solid-js resolves to its server build, where memos do not update).
// Left to itself vitest keeps one core free, which on two is half of them.
const workers = Math.max(2, availableParallelism() - 1)

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    projects: [
      {
        test: {
          name: 'node',
          root: new URL('..', import.meta.url).pathname,
          maxWorkers: workers,
          include: ['tests/{published,domain,contract,api,faults,sample-site,documents}/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
      {
        plugins: [solid({ hot: false })],
        resolve: { conditions: ['browser', 'development'] },
        test: {
          name: 'web',
          root: new URL('..', import.meta.url).pathname,
          maxWorkers: workers,
          environment: 'jsdom',
          include: ['tests/web/**/*.test.{ts,tsx}'],
          server: { deps: { inline: [/solid-js/] } },
        },
      },
      {
        test: {
          name: 'chromium',
          root: new URL('..', import.meta.url).pathname,
          include: ['tests/{views,journeys}/**/*.test.ts'],
          globalSetup: ['tests/support/serve-sample-site.ts'],
          testTimeout: 120_000,
          hookTimeout: 300_000,
          fileParallelism: false,
          // One page at a time, after all others: frames are waited for.
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
