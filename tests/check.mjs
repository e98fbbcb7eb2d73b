// Types, lint and format, import direction (by project references and lint rules), dead code: side by side, told in
// this order.
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { installLockedPackages } from '../api/install-packages.mjs'

installLockedPackages()
const project = fileURLToPath(new URL('..', import.meta.url))
const checks = [
  ['types', 'typescript/bin/tsc', ['-b']],
  ['lint, format and import direction', '@biomejs/biome/bin/biome', ['ci', '--error-on-warnings', '.']],
  ['dead code', 'knip/bin/knip.js', []],
]
const run = (program, words) =>
  new Promise((done) => {
    const begun = performance.now()
    const check = spawn(process.execPath, [`node_modules/${program}`, ...words], {
      cwd: project,
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    const said = []
    for (const stream of [check.stdout, check.stderr]) stream.on('data', (chunk) => said.push(chunk))
    check.once('close', (status) =>
      done({ status, said: Buffer.concat(said), seconds: (performance.now() - begun) / 1000 }),
    )
  })
let failed = 0
const running = checks.map(([what, program, words]) => [what, run(program, words)])
for (const [what, outcome] of running) {
  const { status, said, seconds } = await outcome
  process.stdout.write(said)
  console.log(`${status === 0 ? 'passed' : 'FAILED'}  ${what} (${seconds.toFixed(1)} s)`)
  if (status !== 0) failed++
}
process.exitCode = failed === 0 ? 0 : 1
