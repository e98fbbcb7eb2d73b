// Types, lint and format, import direction (by project references and lint rules), dead code.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { installLockedPackages } from '../api/install-packages.mjs'

installLockedPackages()
const project = fileURLToPath(new URL('..', import.meta.url))
const checks = [
  ['types', 'typescript/bin/tsc', ['-b']],
  ['lint, format and import direction', '@biomejs/biome/bin/biome', ['ci', '--error-on-warnings', '.']],
  ['dead code', 'knip/bin/knip.js', []],
]
let failed = 0
for (const [what, program, words] of checks) {
  const begun = performance.now()
  const { status } = spawnSync(process.execPath, [`node_modules/${program}`, ...words], {
    cwd: project,
    stdio: 'inherit',
  })
  console.log(
    `${status === 0 ? 'passed' : 'FAILED'}  ${what} (${((performance.now() - begun) / 1000).toFixed(1)} s)`,
  )
  if (status !== 0) failed++
}
process.exit(failed === 0 ? 0 : 1)
