import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { killedWriters } from '../support/killed-writers.ts'
import {
  fileNumber,
  killSite,
  newReadings,
  quarantinedReadings,
  repeatedReadings,
} from './kill-store-batches.ts'

const killsWhileWriting = 50
const killsWhileClosing = 10

const writers = await killedWriters('tests/faults/kill-store-writer.ts')
let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kill-store-'))
})
afterEach(() => {
  writers.killAll()
  rmSync(folder, { recursive: true, force: true })
})

test('SIGKILL at any moment loses no acknowledged batch, doubles none and leaves none in part', async () => {
  const file = join(folder, 'stillground.duckdb')
  const random = mulberry32(20270201)
  const acknowledged = new Set<number>()
  let layoutVersion = 0
  let next = 0
  let hits = 0
  const judge = async () => {
    next = await judgeStore(file, acknowledged, layoutVersion)
  }
  const hear = (said: string) => {
    for (const [, what, number] of said.matchAll(/^(taken|layout) (\d+)$/gm))
      if (what === 'taken') acknowledged.add(Number(number))
      else layoutVersion = Number(number)
  }

  // The next process loads its modules while the present one writes and is killed.
  let waiting = writers.start()
  for (let kill = 0; kill < killsWhileWriting; kill++) {
    const writer = waiting
    waiting = writers.start()
    const said = await writers.runUntilKilled(writer, [file, next, 0], 'writing', random() ** 2 * 400)
    hear(said)
    await judge()
  }
  for (let kill = 0; hits < killsWhileClosing && kill < 40; kill++) {
    const writer = waiting
    waiting = writers.start()
    const said = await writers.runUntilKilled(writer, [file, next, 12], 'closing', random() * 20)
    hear(said)
    if (!said.includes('closed')) hits++
    await judge()
  }
  expect(hits).toBe(killsWhileClosing)
  // Otherwise the kills came before anything was written.
  expect(acknowledged.size).toBeGreaterThan(killsWhileWriting)
  await judgeStore(file, acknowledged, layoutVersion, true)
}, 240_000)

test('SIGKILL while the data file is made leaves one that opens', async () => {
  const random = mulberry32(20270202)
  let waiting = writers.start()
  for (let kill = 0; kill < 8; kill++) {
    const file = join(folder, `new-${kill}`, 'stillground.duckdb')
    const writer = waiting
    waiting = writers.start()
    const said = await writers.runUntilKilled(writer, [file, 0, 0], 'opening', random() * 30)
    const acknowledged = [...said.matchAll(/^taken (\d+)$/gm)].map(([, number]) => Number(number))
    await judgeStore(file, new Set(acknowledged), 0, true)
  }
}, 120_000)

/** Opens the store as a start would and compares what it holds with what was acknowledged. Returns the file to offer next. */
async function judgeStore(
  file: string,
  acknowledged: ReadonlySet<number>,
  layoutVersion: number,
  every = false,
): Promise<number> {
  const store = await openDuckdbStore({ file })
  try {
    const receipts = await store.listBatches(killSite)
    const accepted = new Map<number, number>()
    for (const receipt of receipts) {
      const k = fileNumber(receipt.fileName)
      const offered = newReadings(k) + repeatedReadings(k)
      expect([k, receipt.accepted + receipt.repeated, receipt.conflicting]).toEqual([k, offered, 0])
      expect([k, receipt.quarantined]).toEqual([k, quarantinedReadings(k)])
      accepted.set(k, (accepted.get(k) ?? 0) + receipt.accepted)
    }
    for (const k of acknowledged) expect(accepted.has(k), `file ${k} was acknowledged and is gone`).toBe(true)
    for (const [k, count] of accepted) expect([k, count]).toEqual([k, newReadings(k)])

    const connection = await store.connect()
    await store.exposeReadings(connection, 'readings', { site: killSite })
    const counts = await connection.runAndReadAll(
      'SELECT raw, count(*)::INTEGER FROM readings GROUP BY raw ORDER BY raw',
    )
    expect(counts.getRows()).toEqual(
      [...accepted.keys()].sort((a, b) => a - b).map((k) => [k, newReadings(k)]),
    )
    const byBatch = await connection.runAndReadAll(
      'SELECT batch, count(*)::INTEGER FROM readings GROUP BY batch ORDER BY batch',
    )
    expect(byBatch.getRows()).toEqual(
      receipts.filter((receipt) => receipt.accepted > 0).map((receipt) => [receipt.batch, receipt.accepted]),
    )
    if (every) {
      const doubled = await connection.runAndReadAll(
        'SELECT channel, "at" FROM readings GROUP BY channel, "at" HAVING count(*) > 1 LIMIT 1',
      )
      expect(doubled.getRows()).toEqual([])
    }
    connection.closeSync()

    const quarantined = await store.listQuarantined(killSite)
    expect(quarantined).toHaveLength(receipts.reduce((sum, receipt) => sum + receipt.quarantined, 0))
    const layouts = await store.listLayouts(killSite)
    const latest = layouts[0]?.version ?? 0
    expect(latest).toBeGreaterThanOrEqual(layoutVersion)
    // One revision a batch with new readings and one a layout: no change without its entry in the log.
    expect(await store.revision(killSite)).toBe(byBatch.currentRowCount + latest)
    // No change without its entry in the audit record and no entry without its change, whenever it was killed.
    const audit = await store.verifyAudit()
    expect(audit).toMatchObject({ firstBreak: null, recordFaults: [] })
    // Its end is noted within a second, which the first ones did not live to see; never is it noted too far.
    expect(audit.notices.filter((notice) => notice.includes('earlier start'))).toEqual([])
    const entries = await store.listAudit({ site: killSite, limit: 1e6 })
    expect(entries.filter(({ subjectKind }) => subjectKind === 'batch')).toHaveLength(receipts.length)
    expect(entries.filter(({ subjectKind }) => subjectKind === 'layout')).toHaveLength(latest)
    // The last file acknowledged is offered again, as a sender does that did not hear.
    return Math.max(0, ...acknowledged) + (acknowledged.size % 2)
  } finally {
    await store.close()
  }
}

/** Small seeded generator, so that a run can be repeated as far as the machine's timing allows. */
function mulberry32(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}
