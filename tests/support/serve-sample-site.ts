import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import type { TestProject } from 'vitest/node'
import { webFolder } from '../../api/build-web.ts'
import { softwareVersion } from '../../api/software-version.ts'
import { beginServer } from './start-server.ts'

/**
 * One server on the sample site for all browser tests of a run. Its data folder is kept between runs; a
 * changed sample site makes it anew. Only the web part is waited for, since other tests would build it too: the sample
 * is made while they run, and browser tests wait for it in `await-sample-site.ts`.
 */
export default async function serveSampleSite({ provide }: TestProject) {
  const file = join('.cache', 'sample-served.json')
  await mkdir('.cache', { recursive: true })
  await rm(file, { force: true })
  const server = beginServer(join('.cache', 'test-data'))
  let isTold = false
  const tell = async (outcome: { address: string } | { failure: string }) => {
    await writeFile(`${file}.part`, JSON.stringify(outcome))
    await rename(`${file}.part`, file)
    isTold = true
  }
  void server.address.then(
    (address) => tell({ address }),
    (failure: unknown) => tell({ failure: String(failure) }),
  )
  provide('sampleServed', file)
  const wanted = await softwareVersion()
  const built = () => readFile(join(webFolder, '.built-from'), 'utf8').catch(() => '')
  while (!isTold && (await built()) !== wanted) await pause(200)
  return server.stop
}
