import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { createFieldWork } from '../../api/field/create-field-work.ts'
import { createIntake } from '../../api/intake/create-intake.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { readWindow } from '../contract/reading-batches.ts'
import { fieldPresent } from '../support/field-site.ts'
import { killedWriters } from '../support/killed-writers.ts'
import { sending, killFieldSite as site } from './kill-field-sendings.ts'

const kills = 15

const writers = await killedWriters('tests/faults/kill-field-writer.ts')
let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kill-field-'))
})
afterEach(() => {
  writers.killAll()
  rmSync(folder, { recursive: true, force: true })
})

test('SIGKILL between an entry and what comes of it loses neither and doubles nothing', async () => {
  const acknowledged = new Set<number>()
  let pending = 0
  let waiting = writers.start()
  // A slow machine acknowledges little before each of them, and needs more.
  const isEnough = () => acknowledged.size > kills && pending > kills
  for (let kill = 0; kill < kills || (!isEnough() && kill < 3 * kills); kill++) {
    const writer = waiting
    waiting = writers.start()
    // The last one acknowledged is sent again, as a device does that did not hear.
    const first = Math.max(0, ...acknowledged)
    const said = await writers.runUntilKilled(writer, [folder, first], 'writing', ((kill * 37) % kills) * 35)
    for (const [, number] of said.matchAll(/^taken (\d+)$/gm)) acknowledged.add(Number(number))
    pending += await judge(acknowledged)
  }
  // Otherwise no kill came between an entry and its effect.
  expect(pending).toBeGreaterThan(kills)
  expect(acknowledged.size).toBeGreaterThan(kills)
}, 120_000)

/** Opens the store as a start would, lets the work go on, and compares. Returns how many entries waited for it. */
async function judge(acknowledged: ReadonlySet<number>): Promise<number> {
  const store = await openDuckdbStore({ file: join(folder, 'stillground.duckdb') })
  try {
    const now = () => fieldPresent
    const reports: string[] = []
    const field = createFieldWork({
      store,
      intake: createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now }),
      publisher: { changed: () => undefined },
      now,
      report: (line) => void reports.push(line),
    })
    const before = await field.list(site, 0)
    const waited = before.entries.filter(({ effect }) => effect === null).length
    await field.work(site)
    const { entries } = await field.list(site, 0)
    const numbers = [...new Set(entries.map(({ entry }) => Math.floor((entry.sequence - 1) / 4)))]
    for (const k of acknowledged) expect(numbers, `sending ${k} was acknowledged`).toContain(k)
    expect(entries.map(({ entry }) => entry.id).sort()).toEqual(
      numbers.flatMap((k) => sending(k).map(({ id }) => id)).sort(),
    )
    expect(entries.filter(({ differs, effect }) => differs || effect?.outcome !== 'taken')).toEqual([])
    expect(reports).toEqual([])
    const sorted = numbers.toSorted((one, other) => one - other)
    expect((await readWindow(store, { site })).map(({ raw }) => raw)).toEqual(sorted)
    const model = await store.getSite(site)
    expect(model?.diary.map(({ text }) => Number(text.slice(5))).sort((a, b) => a - b)).toEqual(sorted)
    expect(model?.coverageTests.map(({ test: name }) => Number(name.slice(2))).sort((a, b) => a - b)).toEqual(
      sorted,
    )
    expect(await store.listConflicts(site)).toEqual([])
    return waited
  } finally {
    await store.close()
  }
}
