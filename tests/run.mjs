// Everything that checks the project, in the order in which a fault is cheapest to find: types, lint,
// import direction and dead code; then all tests, those in a real Chromium included.
import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { installLockedPackages } from '../api/install-packages.mjs'
import { findChromium } from './support/find-chromium.mjs'

const project = fileURLToPath(new URL('..', import.meta.url))
const report = `${project}.cache/test-report.json`
const run = (command, words, environment = {}) =>
  spawnSync(command, words, { cwd: project, stdio: 'inherit', env: { ...process.env, ...environment } })
    .status ?? 1

installLockedPackages()
const chromium = await findChromium()
if (!chromium.path) {
  console.error(chromium.message)
  process.exit(1)
}
console.log(`Browser tests use ${chromium.path}`)

const checks = run(process.execPath, ['tests/check.mjs'])
mkdirSync(`${project}.cache`, { recursive: true })
rmSync(report, { force: true })
const tests = run(
  process.execPath,
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--config=tests/vitest.config.ts',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...process.argv.slice(2),
  ],
  { CHROMIUM: chromium.path },
)

const { numPassedTests, numFailedTests, numPendingTests } = JSON.parse(readFileSync(report, 'utf8'))
console.log(checks === 0 ? 'checks passed' : 'CHECKS FAILED (see above)')
console.log(`${numPassedTests} passed, ${numFailedTests} failed, ${numPendingTests} skipped`)
process.exit(checks === 0 && tests === 0 && numPassedTests > 0 ? 0 : 1)
