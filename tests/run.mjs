// Everything that checks the project, in the order in which a fault is cheapest to find: types, lint,
// import direction and dead code; then all tests. A page in a real Chromium leaves some of the cores idle, and files that
// look at one follow each other: where there are more than two cores, the others are tested meanwhile.
import { spawn } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { installLockedPackages } from '../api/install-packages.mjs'
import { findChromium } from './support/find-chromium.mjs'

const project = fileURLToPath(new URL('..', import.meta.url))
/** Ends with the status of a program; what it says goes where `hear` takes it, else straight to the terminal. */
const run = (words, { environment = {}, hear } = {}) =>
  new Promise((done) => {
    const program = spawn(process.execPath, words, {
      cwd: project,
      stdio: ['inherit', hear ? 'pipe' : 'inherit', hear ? 'pipe' : 'inherit'],
      env: { ...process.env, ...environment },
    })
    for (const stream of hear ? [program.stdout, program.stderr] : []) stream.on('data', hear)
    program.once('close', (status) => done(status ?? 1))
  })

installLockedPackages()
const chromium = await findChromium()
if (!chromium.path) {
  console.error(chromium.message)
  process.exit(1)
}
console.log(`Browser tests use ${chromium.path}`)

// Tests of both kinds start the program, and each would build the web part that is missing.
const [checks, built] = await Promise.all([
  run(['tests/check.mjs']),
  run(['--import', '@oxc-node/core/register', 'tests/build-web.mjs']),
])

mkdirSync(`${project}.cache`, { recursive: true })
const reports = []
const runTests = (name, words, hear) => {
  const report = `${project}.cache/test-report${name}.json`
  rmSync(report, { force: true })
  reports.push(report)
  return run(
    [
      'node_modules/vitest/vitest.mjs',
      'run',
      '--config=tests/vitest.config.ts',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${report}`,
      ...words,
    ],
    { environment: { CHROMIUM: chromium.path }, hear },
  )
}

// A page beside two others on two cores is slow enough to be given up by those who wait for it.
const isRoomBeside = availableParallelism() > 2
const asked = process.argv.slice(2)
let tests
if (asked.length > 0 || !isRoomBeside) tests = await runTests('', asked)
else {
  // Told one after the other.
  let held = []
  const hear = (chunk) => (held ? held.push(chunk) : process.stdout.write(chunk))
  const inChromium = runTests('-chromium', ['--project=chromium'], hear)
  const others = await runTests('', ['--project=!chromium'])
  for (const chunk of held) process.stdout.write(chunk)
  held = null
  tests = Math.max(others, await inChromium)
}

const counts = reports.map((report) => JSON.parse(readFileSync(report, 'utf8')))
const all = (what) => counts.reduce((sum, one) => sum + one[what], 0)
const passed = all('numPassedTests')
console.log(checks === 0 ? 'checks passed' : 'CHECKS FAILED (see above)')
console.log(`${passed} passed, ${all('numFailedTests')} failed, ${all('numPendingTests')} skipped`)
const isWhole = counts.every(({ numPassedTests }) => numPassedTests > 0)
process.exit(checks === 0 && built === 0 && tests === 0 && isWhole ? 0 : 1)
