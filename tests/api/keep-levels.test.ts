import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { folderAuthor } from '#domain/site/folder-author.ts'
import { keepLevels } from '../../api/keep-levels.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { smallSite } from '../contract/small-site.ts'
import { levelFor } from '../support/level-for.ts'

let folder: string
let store: Store
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keep-levels-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  await store.putSite(brought, { author: folderAuthor, reason: 'folder', atEpochMs: 0 })
  await store.changeSite('small-quay', (model) => ({ ...model, triggerLevels: [ended, added] }), {
    author: 'Ben Holm',
    reason: 'approved',
    atEpochMs: 1,
  })
})
afterEach(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const own = levelFor({ id: 'own' })
const ended = levelFor({ id: 'own', validUntil: 900 })
const added = levelFor({ id: 'added' })
const brought = { ...smallSite('small-quay'), triggerLevels: [own] }

test('a folder loaded again neither brings back a level that was ended nor takes one away', async () => {
  const kept = await keepLevels(store, brought)
  expect(kept.ok ? kept.value.triggerLevels : kept.issues).toMatchObject([ended, added])
})

test('nor does one that has taken them in change anything', async () => {
  const whole = { ...brought, triggerLevels: [ended, added] }
  const kept = await keepLevels(store, whole)
  expect(kept.ok && kept.value).toBe(whole)
})

test('a level that was withdrawn before it began is not brought back either', async () => {
  await store.changeSite('small-quay', (model) => ({ ...model, triggerLevels: [added] }), {
    author: 'Ben Holm',
    reason: 'approved',
    atEpochMs: 2,
  })
  const kept = await keepLevels(store, brought)
  expect(kept.ok ? kept.value.triggerLevels : kept.issues).toMatchObject([added])
  expect(kept.ok && kept.value.triggerLevels).toHaveLength(1)
})

test('a folder that says something else of such a level is refused', async () => {
  const kept = await keepLevels(store, { ...brought, triggerLevels: [levelFor({ id: 'own', value: 99 })] })
  expect(kept.ok ? [] : kept.issues).toMatchObject([{ code: 'level-approved-otherwise', value: 'own' }])
})
