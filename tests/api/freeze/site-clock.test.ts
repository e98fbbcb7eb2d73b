import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { by, cutOff, openKillFreezing, killFreezingSite as site } from '../../faults/kill-freezing-site.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'site-clock-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

test('a set of invented data is frozen by the clock of its site, never before its own cut-off', async () => {
  const { store, freezing } = await openKillFreezing(folder)
  try {
    await store.changeSite(
      site,
      (model) => ({ ...model, facts: { ...model.facts, invented: true, presentEpochMs: cutOff(30) } }),
      { author: 'tester', reason: 'test', atEpochMs: 1 },
    )
    const frozen = await freezing.freeze(site, cutOff(20), by)
    expect(frozen.ok && frozen.value.set).toMatchObject({
      cutOffEpochMs: cutOff(20),
      frozenAtEpochMs: cutOff(30),
    })
    expect((await store.verifyAudit()).recordFaults).toEqual([])
  } finally {
    await freezing.close()
    await store.close()
  }
})
