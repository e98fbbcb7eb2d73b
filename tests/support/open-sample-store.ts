import { copyFile, mkdir, mkdtemp, rename, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createIntake } from '../../api/intake/create-intake.ts'
import { sampleVersion } from '../../api/outdated-sample.ts'
import { prepareSample } from '../../api/prepare-sample.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'

export interface SampleStore {
  readonly store: Store
  readonly folder: string
  /** Of the sample, as `sampleVersion` gives it. */
  readonly version: string
  /** Closes it and removes its folder. */
  close(): Promise<void>
}

/**
 * A store of its own with everything of the sample site, readings too. What it is copied from is kept between runs and
 * made anew (about 15 s) when the sample changes.
 */
export async function openSampleStore(cacheFolder = join('.cache', 'sample-store')): Promise<SampleStore> {
  const version = await sampleVersion('sample-site')
  const made = join(cacheFolder, `${version.slice(0, 16)}.duckdb`)
  if (!(await isThere(made))) await alone(cacheFolder, made, () => makeStore(made, version))
  const folder = await mkdtemp(join(tmpdir(), 'sample-store-'))
  await copyFile(made, join(folder, 'site.duckdb'))
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  return {
    store,
    folder,
    version,
    async close() {
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

async function makeStore(made: string, version: string): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'sample-made-'))
  try {
    const file = join(folder, 'site.duckdb')
    const store = await openDuckdbStore({ file })
    const present = async (site: string) => (await store.getSite(site))?.facts.presentEpochMs ?? Date.now()
    const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: present })
    await prepareSample({
      store,
      intake,
      dataFolder: folder,
      folder: 'sample-site',
      version,
      now: () => Date.now(),
      say: () => {},
    })
    await store.close()
    await copyFile(file, `${made}.part`)
    await rename(`${made}.part`, made)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Makes what is to lie at `made`, unless another process does, and then waits for that one. */
export async function alone(folder: string, made: string, make: () => Promise<void>): Promise<void> {
  await mkdir(folder, { recursive: true })
  const lock = `${made}.lock`
  for (;;) {
    try {
      await writeFile(lock, String(process.pid), { flag: 'wx' })
      break
    } catch {
      if (await isThere(made)) return
      const age = Date.now() - ((await stat(lock).catch(() => null))?.mtimeMs ?? Date.now())
      if (age > 180_000) await rm(lock, { force: true })
      await new Promise((resolve) => setTimeout(resolve, 200))
    }
  }
  try {
    if (!(await isThere(made))) await make()
  } finally {
    await rm(lock, { force: true })
  }
}

export const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  )
