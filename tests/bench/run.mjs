// Measures what the project promises, each figure beside a named peer in the same run. Not part of the
// tests: machines are noisy.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { installLockedPackages } from '../../api/install-packages.mjs'
import { findChromium } from '../support/find-chromium.mjs'

installLockedPackages()
const chromium = await findChromium()
if (!chromium.path) {
  console.error(chromium.message)
  process.exit(1)
}
const { status } = spawnSync(
  process.execPath,
  ['--import', '@oxc-node/core/register', 'tests/bench/main.ts', ...process.argv.slice(2)],
  {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    stdio: 'inherit',
    env: { ...process.env, CHROMIUM: chromium.path },
  },
)
process.exit(status ?? 1)
