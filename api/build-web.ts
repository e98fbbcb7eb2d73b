import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { buildPushWorker, buildServiceWorker } from './build-service-worker.ts'
import { hashTrees } from './hash-tree.ts'
import { precompress } from './precompress.ts'
import { projectFolder } from './settings.ts'

/** Where the built web part lies. */
export const webFolder = join(projectFolder, '.cache', 'web')

/** Sources whose change makes the built web part out of date. */
const sources = ['web', 'api/contract', 'api/domain', 'api/build-service-worker.ts', 'package-lock.json']

/** Builds the web part unless what lies in `webFolder` was built from exactly these sources. */
export async function buildWeb(say: (line: string) => void): Promise<void> {
  const stamp = join(webFolder, '.built-from')
  const wanted = await hashTrees(projectFolder, sources)
  if ((await readFile(stamp, 'utf8').catch(() => '')) === wanted) return
  say('Building the web part …')
  const { build } = await import('vite')
  await build({ configFile: join(projectFolder, 'web', 'vite.config.ts'), logLevel: 'error' })
  const workers = join(projectFolder, 'web', 'service-worker')
  await buildServiceWorker(join(workers, 'service-worker.ts'), webFolder)
  await buildPushWorker(join(workers, 'push-worker.ts'), webFolder)
  await precompress(webFolder)
  await writeFile(stamp, wanted)
}
