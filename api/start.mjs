// Starts Stillground on a machine that has nothing but Node and this folder: installs the locked
// packages when they are missing, then hands over to main.ts. Plain JavaScript, no imports of ours,
// because nothing is installed yet when it runs.
import { installLockedPackages } from './install-packages.mjs'

const [major, minor] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Stillground needs Node 20.19 or newer; this is ${process.versions.node}.`)
  process.exit(1)
}

installLockedPackages()
await import('@oxc-node/core/register')
const { start } = await import('./main.ts')
await start(process.argv.slice(2))
