// Prints what is held against values from outside the project, and fails where one differs.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { installLockedPackages } from '../../api/install-packages.mjs'

installLockedPackages()
const { status } = spawnSync(
  process.execPath,
  ['--import', '@oxc-node/core/register', 'tests/published/print.ts'],
  { cwd: fileURLToPath(new URL('../..', import.meta.url)), stdio: 'inherit' },
)
process.exit(status ?? 1)
