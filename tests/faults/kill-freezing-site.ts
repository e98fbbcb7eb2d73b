import { join } from 'node:path'
import { noEvaluation } from '../../api/alerts/levels-standing.ts'
import { createFreezing } from '../../api/freeze/create-freezing.ts'
import type { Freezing } from '../../api/freeze/freezing.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { quarter, watchedChannels, watchedFrom, watchedSite } from '../support/watched-site.ts'

export const killFreezingSite = 'test-quay'
export const by = { account: null, name: 'writer' }
const readings = 60

/** Every reading is received a second after its instant. */
export const cutOff = (k: number): number => watchedFrom + (k % (readings - 1)) * quarter + 1000 + (k % 7)

export interface KillFreezing {
  readonly store: Store
  readonly freezing: Freezing
  readonly frozenFolder: string
}

/** A store with some readings and what freezes it, in a folder. */
export async function openKillFreezing(folder: string): Promise<KillFreezing> {
  const store = await openDuckdbStore({ file: join(folder, 'stillground.duckdb'), report: () => {} })
  if (!(await store.getSite(killFreezingSite)))
    await store.putSite(watchedSite(), { author: 'tester', reason: 'test', atEpochMs: 0 })
  if ((await store.listBatches(killFreezingSite)).length === 0) await takeAll(store)
  const frozenFolder = join(folder, 'frozen')
  const standing = await noEvaluation.standing(killFreezingSite)
  const freezing = createFreezing({
    store,
    alerts: { evaluated: async () => ({ standing, ways: [] }) },
    folder: frozenFolder,
    slicesFolder: join(folder, 'slices'),
    software: 'test',
    now: () => watchedFrom + 30 * 86_400_000,
  })
  return { store, freezing, frozenFolder }
}

async function takeAll(store: Store): Promise<void> {
  const names = Object.keys(watchedChannels)
  const channels = await store.channelNumbers(
    killFreezingSite,
    names.map((name) => ({ logger: name.slice(0, 5), name: name.slice(6) })),
  )
  const writer = await store.beginBatch({
    site: killFreezingSite,
    fileName: 'all.csv',
    sha256: 'a'.repeat(64),
    bytes: 1,
    receivedAtEpochMs: watchedFrom,
    from: 'test',
    layout: null,
    layoutVersion: null,
  })
  const rows = Array.from({ length: readings }, (_, at) =>
    channels.map((channel) => ({ channel, atEpochMs: watchedFrom + at * quarter, raw: (at * channel) % 9 })),
  ).flat()
  await writer.append({
    count: rows.length,
    channel: Int32Array.from(rows, ({ channel }) => channel),
    atMicros: BigInt64Array.from(rows, ({ atEpochMs }) => BigInt(atEpochMs) * 1000n),
    raw: Float64Array.from(rows, ({ raw }) => raw),
    receivedMicros: BigInt64Array.from(rows, ({ atEpochMs }) => BigInt(atEpochMs + 1000) * 1000n),
  })
  await writer.commit({ absent: 0 })
}
