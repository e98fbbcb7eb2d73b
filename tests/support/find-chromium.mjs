import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome']
const places = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
]
// Mesa's software GL is two to three times faster than Chromium's own; it is not a dependency of chromium.
const debianPackages = ['chromium', 'libegl-mesa0', 'libgl1-mesa-dri']

/**
 * Finds a Chromium or Chrome to test in: CHROMIUM if set, else one that is installed, else (as root on
 * Debian) installs the package, else unpacks the one that a registry package ships.
 */
export async function findChromium() {
  const named = process.env.CHROMIUM
  if (named) {
    if (starts(named)) return { path: named }
    return { path: null, message: `CHROMIUM is ${named}, but it does not start. Unset it or name another.` }
  }
  const installed = findInstalled()
  if (installed) return { path: installed }
  if (process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log('Installing the chromium package (once) …')
    const quiet = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    }
    spawnSync('apt-get', ['update', '-qq'], quiet)
    spawnSync('apt-get', ['install', '-y', '-qq', ...debianPackages], quiet)
    const fresh = findInstalled()
    if (fresh) return { path: fresh }
  }
  const shipped = await unpackShipped()
  if (shipped) return { path: shipped }
  return {
    path: null,
    message:
      'No Chromium or Chrome was found, and none could be installed. Install one (on Debian: apt-get install chromium) or set CHROMIUM to the path of its program, then run the same command again.',
  }
}

function findInstalled() {
  const folders = (process.env.PATH ?? '').split(delimiter)
  const candidates = [...folders.flatMap((folder) => names.map((name) => join(folder, name))), ...places]
  return candidates.find((path) => existsSync(path) && starts(path)) ?? null
}

async function unpackShipped() {
  try {
    const { default: chromium } = await import('@sparticuz/chromium')
    const path = await chromium.executablePath()
    return starts(path) ? path : null
  } catch {
    return null
  }
}

/** A program of that name may be there and still not run (a snap's stand-in, missing libraries). */
function starts(path) {
  const asked = spawnSync(path, ['--version', '--no-sandbox'], { timeout: 20_000, encoding: 'utf8' })
  return asked.status === 0 && /chrom/i.test(asked.stdout)
}
