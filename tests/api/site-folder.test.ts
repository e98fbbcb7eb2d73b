import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { loadSiteFolder, readSiteFolder } from '../../api/site-folder.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'

it('a folder loaded again changes nothing, its layouts included', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'site-folder-'))
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join())
  expect((await loadSiteFolder(store, read.value, 'first', 0)).changed).toBeGreaterThan(100)
  expect(await loadSiteFolder(store, read.value, 'again', 1)).toEqual({ changed: 0 })
  const [layout] = await store.listLayouts(read.value.model.facts.id)
  expect(layout?.version).toBe(1)
  await store.close()
  await rm(folder, { recursive: true, force: true })
}, 60_000)
