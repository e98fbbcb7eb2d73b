import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, lstatSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const project = fileURLToPath(new URL('..', import.meta.url))
const stamp = `${project}node_modules/.locked-by`

/** Runs `npm ci` unless node_modules already holds exactly what the lock file says. Stops the process on failure. */
export function installLockedPackages() {
  const locked = createHash('sha256')
    .update(readFileSync(`${project}package-lock.json`))
    .digest('hex')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === locked) return
  if (lstatSync(`${project}node_modules`, { throwIfNoEntry: false })?.isSymbolicLink()) {
    console.error(
      'node_modules is a link to packages of another lock file. It is left as it is, since others may be using it: remove the link, or bring its own project to the same lock file.',
    )
    process.exit(1)
  }
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
