// `npm run audit-check`: works the audit record of a data folder out anew and says where it breaks.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { installLockedPackages } from './install-packages.mjs'

installLockedPackages()
const { status } = spawnSync(
  process.execPath,
  [
    '--import',
    '@oxc-node/core/register',
    fileURLToPath(new URL('check-audit.ts', import.meta.url)),
    ...process.argv.slice(2),
  ],
  { stdio: 'inherit' },
)
process.exit(status ?? 1)
