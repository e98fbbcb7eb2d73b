import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const project = fileURLToPath(new URL('..', import.meta.url))
const stamp = `${project}node_modules/.locked-by`

/** Runs `npm ci` unless node_modules already holds exactly what the lock file says. Stops the process on failure. */
export function installLockedPackages() {
  const locked = createHash('sha256')
    .update(readFileSync(`${project}package-lock.json`))
    .digest('hex')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === locked) return
  console.log('Installing the locked packages (once; about half a minute) …')
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
  const outcome = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: project,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  })
  if (outcome.status !== 0) {
    console.error(
      'The packages could not be installed. Check that this machine reaches the package registry (or its mirror), then run the same command again.',
    )
    process.exit(1)
  }
  writeFileSync(stamp, locked)
}
