import { mkdtempSync, rmSync } from 'node:fs'
import { readdir } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { clearLeftovers } from '../../api/freeze/clear-leftovers.ts'
import { frozenDocuments } from '../../api/freeze/frozen-parts.ts'
import { killedWriters } from '../support/killed-writers.ts'
import { by, cutOff, openKillFreezing, killFreezingSite as site } from './kill-freezing-site.ts'

const kills = 12

const writers = await killedWriters('tests/faults/kill-freezing-writer.ts')
let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kill-freezing-'))
})
afterEach(() => {
  writers.killAll()
  rmSync(folder, { recursive: true, force: true })
})

test('SIGKILL while sets are frozen leaves whole ones and no others', async () => {
  const acknowledged = new Map<number, string>()
  let unfinished = 0
  let waiting = writers.start()
  for (let kill = 0; kill < kills; kill++) {
    const writer = waiting
    waiting = writers.start()
    const first = acknowledged.size === 0 ? 0 : Math.max(...acknowledged.keys()) + 1
    // Half of them while the first is made, however slow the machine; half after it.
    const word = kill % 2 === 0 ? 'writing' : 'frozen'
    const delayMs = ((kill * 37) % kills) * 40
    const said = await writers.runUntilKilled(writer, [folder, first], word, delayMs)
    for (const [, k, id] of said.matchAll(/^frozen (\d+) (\w+)$/gm)) acknowledged.set(Number(k), id ?? '')
    unfinished += await judge(acknowledged)
  }
  // Otherwise no kill came while one was being made.
  expect(unfinished).toBeGreaterThan(3)
  expect(acknowledged.size).toBeGreaterThan(5)
}, 180_000)

/** Looks at everything as a start would, and freezes once more. Returns how many unfinished folders lay there. */
async function judge(acknowledged: ReadonlyMap<number, string>): Promise<number> {
  const { store, freezing, frozenFolder } = await openKillFreezing(folder)
  try {
    const sets = await freezing.list(site)
    const ids = new Set(sets.map(({ id }) => id))
    for (const [k, id] of acknowledged)
      expect(ids.has(id), `set ${k} was acknowledged and is gone`).toBe(true)
    for (const { id } of sets) {
      const set = await freezing.find(site, id)
      if (!set) throw new Error(`${id} is listed and not found`)
      for (const name of frozenDocuments) await freezing.document(set, name)
      for (const { name } of set.parts)
        if (name.endsWith('.duckdb')) expect(await freezing.sliceFile(site, name)).not.toBeNull()
    }
    const lying = async () => (await readdir(join(frozenFolder, site)).catch(() => [])) as readonly string[]
    const unfinished = (await lying()).filter((name) => name.startsWith('.'))
    const told: string[] = []
    await clearLeftovers(store, frozenFolder, (line) => told.push(line))
    expect(told).toEqual([])
    expect(new Set(await lying())).toEqual(ids)
    const entries = await store.listAudit({ site, subjectKind: 'frozen-set', limit: 1000 })
    expect(new Set(entries.map(({ subjectKey }) => subjectKey))).toEqual(ids)

    const k = Math.max(0, ...acknowledged.keys())
    const again = await freezing.freeze(site, cutOff(k), by)
    if (acknowledged.has(k)) expect(again.ok && again.value.set.id).toBe(acknowledged.get(k))
    expect((await lying()).filter((name) => name.startsWith('.'))).toEqual([])
    return unfinished.length
  } finally {
    await freezing.close()
    await store.close()
  }
}
