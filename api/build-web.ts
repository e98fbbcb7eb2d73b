import { createHash } from 'node:crypto'
import { readdir, readFile, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { projectFolder } from './settings.ts'

/** Where the built web part lies. */
export const webFolder = join(projectFolder, '.cache', 'web')

/** Sources whose change makes the built web part out of date. */
const sources = ['web', 'api/contract', 'api/domain', 'package-lock.json']

/** Builds the web part unless what lies in `webFolder` was built from exactly these sources. */
export async function buildWeb(say: (line: string) => void): Promise<void> {
  const stamp = join(webFolder, '.built-from')
  const wanted = await sourcesHash()
  if ((await readFile(stamp, 'utf8').catch(() => '')) === wanted) return
  say('Building the web part …')
  const { build } = await import('vite')
  await build({ configFile: join(projectFolder, 'web', 'vite.config.ts'), logLevel: 'error' })
  await writeFile(stamp, wanted)
}

async function sourcesHash(): Promise<string> {
  const hash = createHash('sha256')
  for (const source of sources) await hashTree(join(projectFolder, source), source, hash)
  return hash.digest('hex')
}

async function hashTree(path: string, name: string, hash: ReturnType<typeof createHash>): Promise<void> {
  if ((await stat(path)).isFile()) {
    hash.update(`${name}\n`).update(await readFile(path))
    return
  }
  for (const entry of (await readdir(path)).sort())
    if (!entry.startsWith('.')) await hashTree(join(path, entry), `${name}/${entry}`, hash)
}
