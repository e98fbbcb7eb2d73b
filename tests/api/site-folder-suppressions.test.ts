import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { loadSiteFolder } from '../../api/site-folder.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { smallSite } from '../contract/small-site.ts'

const day = 86_400_000

it('a folder that holds sending back for four weeks by two records is refused whole', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'held-ahead-'))
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const model = smallSite()
  const present = model.facts.presentEpochMs ?? Date.UTC(2027, 9, 21)
  const row = (id: string, from: number) => ({
    id,
    covers: 'instrument' as const,
    name: model.instruments[0]?.id ?? '',
    fromAt: present + from * day,
    untilAt: present + (from + 14) * day,
    reason: 'works beside it',
    author: 'Ada Marsh',
  })
  const load = (suppressions: ReturnType<typeof row>[]) =>
    loadSiteFolder(store, { model: { ...model, suppressions }, layouts: [], hash: '' }, 'test', present)
  await expect(load([row('a', 0), row('b', 14)])).rejects.toThrow('14 days on end')
  expect(await store.getSite('small-quay')).toBeNull()
  expect((await load([row('a', 0)])).changed).toBeGreaterThan(0)
  await store.close()
  await rm(folder, { recursive: true, force: true })
})
