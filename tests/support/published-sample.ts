import { cp, mkdtemp, readdir, rename, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import { readIndex } from '../../api/slices/slice-index.ts'
import { softwareVersion } from '../../api/software-version.ts'
import { alone, isThere, type SampleStore } from './open-sample-store.ts'

const code = 'skarrow-quay'
const kept = join('.cache', 'sample-published')

/**
 * Puts into the folder of a sample's store what the program as it stands publishes of the sample: a folder of slices. It
 * is published once by each version of the program and each sample (20 s of a core), and copied from then on.
 */
export async function bringPublished({ store, folder, version }: SampleStore): Promise<string> {
  const made = join(kept, `${version.slice(0, 16)}-${(await softwareVersion()).split('+')[1]}`)
  if (!(await isThere(made)))
    await alone(kept, made, async () => {
      for (const older of await readdir(kept))
        if (!older.endsWith('.lock')) await rm(join(kept, older), { recursive: true, force: true })
      const part = await mkdtemp(join(kept, 'part-'))
      const publisher = createPublisher({
        store,
        folder: part,
        now: () => Date.now(),
        onFailure: (failure) => {
          throw failure
        },
      })
      await publisher.publish(code)
      await publisher.close()
      await rename(part, made)
    })
  const slices = join(folder, 'slices')
  await cp(made, slices, { recursive: true })
  return slices
}

/** Where the readings of a month lie as the program publishes them of the sample, every one of them. */
export async function publishedReadings(sample: SampleStore): Promise<(month: string) => string> {
  const folder = join(await bringPublished(sample), code)
  const index = await readIndex(folder)
  return (month) => {
    const slice = index.months[month]?.slices.find(({ resolution }) => resolution === 'raw')
    if (!slice) throw new Error(`nothing is published of ${month}`)
    return join(folder, slice.url.split('/').at(-1) ?? '')
  }
}
