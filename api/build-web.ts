import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { buildPushWorker, buildServiceWorker } from './build-service-worker.ts'
import { precompress } from './precompress.ts'
import { projectFolder } from './settings.ts'
import { softwareVersion } from './software-version.ts'

/** Where the built web part lies. */
export const webFolder = join(projectFolder, '.cache', 'web')

/** Builds the web part unless what lies in `webFolder` is of this very version, which the page then says of itself. */
export async function buildWeb(say: (line: string) => void): Promise<void> {
  const stamp = join(webFolder, '.built-from')
  const wanted = await softwareVersion()
  if ((await readFile(stamp, 'utf8').catch(() => '')) === wanted) return
  say('Building the web part …')
  const { build } = await import('vite')
  await build({
    configFile: join(projectFolder, 'web', 'vite.config.ts'),
    logLevel: 'error',
    define: { 'import.meta.env.VITE_SOFTWARE': JSON.stringify(wanted) },
  })
  const workers = join(projectFolder, 'web', 'service-worker')
  await buildServiceWorker(join(workers, 'service-worker.ts'), webFolder)
  await buildPushWorker(join(workers, 'push-worker.ts'), webFolder)
  await precompress(webFolder)
  await writeFile(stamp, wanted)
}
