import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { loadSiteFolder, readSiteFolder } from '../../api/site-folder.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'

export interface SamplePublisher {
  readonly store: Store
  readonly publisher: Publisher
  /** Closes both and removes the folder. */
  close(): Promise<void>
}

/** The sample's records in a store of their own, without readings, and what publishes it as at an instant. */
export async function openSamplePublisher(presentEpochMs: number): Promise<SamplePublisher> {
  const folder = await mkdtemp(join(tmpdir(), 'publisher-'))
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  await loadSiteFolder(store, read.value, 'test', 0)
  const publisher = createPublisher({
    store,
    folder: join(folder, 'slices'),
    now: () => presentEpochMs,
    onFailure: (failure) => {
      throw failure
    },
  })
  return {
    store,
    publisher,
    async close() {
      await publisher.close()
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
