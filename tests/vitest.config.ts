import { availableParallelism } from 'node:os'
import solid from 'vite-plugin-solid'
import { defineConfig } from 'vitest/config'

// Left to itself vitest keeps one core free, which on two is half of them.
const workers = Math.max(2, availableParallelism() - 1)
const root = new URL('..', import.meta.url).pathname
// They put values into state that the whole page shares.
const apart = ['tests/web/{offline,panels,service-worker,state}/**/*.test.{ts,tsx}']
const ofWeb = {
  // In Node, solid-js resolves to its server build, where memos do not update.
  plugins: [solid({ hot: false })],
  resolve: { conditions: ['browser', 'development'] },
}
const inDocument = {
  root,
  maxWorkers: workers,
  environment: 'jsdom',
  testTimeout: 60_000,
  hookTimeout: 120_000,
  server: { deps: { inline: [/solid-js/] } },
}

// A process, its modules and its document take longer to make than most files take to run. Files of `node`, `server`
// and `web` test what keeps nothing between calls and share them; those of `panels` share process and document.
export default defineConfig({
  test: {
    root,
    projects: [
      {
        test: {
          name: 'node',
          root,
          maxWorkers: workers,
          isolate: false,
          include: ['tests/{published,domain}/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'server',
          root,
          maxWorkers: workers,
          isolate: false,
          include: ['tests/{contract,api,faults,sample-site,documents}/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
      {
        ...ofWeb,
        test: {
          ...inDocument,
          name: 'web',
          isolate: false,
          include: ['tests/web/**/*.test.{ts,tsx}'],
          exclude: apart,
          setupFiles: ['tests/support/leave-no-trace.ts'],
        },
      },
      {
        ...ofWeb,
        test: {
          ...inDocument,
          name: 'panels',
          isolate: false,
          include: apart,
          setupFiles: ['tests/support/modules-anew.ts', 'tests/support/leave-no-trace.ts'],
          // Anew for each file, as the modules of the page: idb remembers the classes of the database that it first saw.
          server: { deps: { inline: [/solid-js/, /fake-indexeddb/, /node_modules.idb.build/] } },
        },
      },
      {
        test: {
          name: 'chromium',
          root,
          include: ['tests/{views,journeys}/**/*.test.ts'],
          globalSetup: ['tests/support/serve-sample-site.ts'],
          setupFiles: ['tests/support/await-sample-site.ts'],
          testTimeout: 120_000,
          hookTimeout: 300_000,
          fileParallelism: false,
          // One page at a time: frames are waited for. `npm test` runs them beside the others, by themselves.
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
