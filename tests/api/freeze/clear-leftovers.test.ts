import { mkdir, mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { noEvaluation } from '../../../api/alerts/levels-standing.ts'
import { clearLeftovers } from '../../../api/freeze/clear-leftovers.ts'
import { createFreezing } from '../../../api/freeze/create-freezing.ts'
import { by, cutOff, openKillFreezing, killFreezingSite as site } from '../../faults/kill-freezing-site.ts'
import { watchedFrom } from '../../support/watched-site.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'leftovers-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

test('a start takes away what kills left, keeps every listed set, and tells of a folder that it does not know', async () => {
  const { store, freezing, frozenFolder } = await openKillFreezing(folder)
  try {
    const frozen = await freezing.freeze(site, cutOff(20), by)
    if (!frozen.ok) throw new Error(frozen.issues[0]?.message)
    const { id } = frozen.value.set
    const standing = await noEvaluation.standing(site)
    const dying = createFreezing({
      store: { ...store, addFrozenSet: () => Promise.reject(new Error('killed here')) },
      alerts: { evaluated: async () => ({ standing, ways: [] }) },
      folder: frozenFolder,
      slicesFolder: join(folder, 'slices'),
      software: 'test',
      now: () => watchedFrom + 30 * 86_400_000,
    })
    await expect(dying.freeze(site, cutOff(10), by)).rejects.toThrow('killed here')
    await mkdir(join(frozenFolder, site, '.unfinished-one', 'slices'), { recursive: true })
    await mkdir(join(frozenFolder, site, 'f'.repeat(16)))
    expect(await readdir(join(frozenFolder, site))).toHaveLength(4)

    const told: string[] = []
    await clearLeftovers(store, frozenFolder, (line) => told.push(line))
    expect((await readdir(join(frozenFolder, site))).toSorted()).toEqual([id, 'f'.repeat(16)].toSorted())
    expect(told).toHaveLength(1)
    expect(told[0]).toContain('f'.repeat(16))
    expect((await freezing.document(frozen.value.set, 'state')).byteLength).toBeGreaterThan(10)
    expect(await readdir(join(frozenFolder, site, id))).not.toContain('.not-listed-yet')
  } finally {
    await freezing.close()
    await store.close()
  }
})
