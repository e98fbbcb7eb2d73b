import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import type { SliceList } from '#contract/slice-list.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Alerts } from '../../api/alerts/alerts.ts'
import { createAlerts } from '../../api/alerts/create-alerts.ts'
import { createEvaluator } from '../../api/alerts/evaluator.ts'
import { createFreezing } from '../../api/freeze/create-freezing.ts'
import type { Freezing } from '../../api/freeze/freezing.ts'
import type { FrozenDocument } from '../../api/freeze/frozen-parts.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'

/** A reading with its receipt to the microsecond. */
export interface ReceivedReading {
  readonly sensor: string
  readonly atEpochMs: number
  readonly raw: number
  readonly receivedMicros: bigint
}

export interface OpenFreezing {
  readonly site: string
  readonly folder: string
  readonly store: Store
  readonly publisher: Publisher
  readonly alerts: Alerts
  readonly freezing: Freezing
  nowEpochMs: number
  /** Takes readings in as one batch, by the wiring in force. */
  take(readings: readonly ReceivedReading[]): Promise<void>
  freeze(cutOffEpochMs: number | null): Promise<FrozenSet>
  /** Every value of the slices of a set, by resolution, month, series and instant. */
  frozenValues(set: FrozenSet): Promise<readonly string[]>
  /** The same of what is published now. */
  publishedValues(): Promise<readonly string[]>
  json<T>(set: FrozenSet, name: FrozenDocument): Promise<T>
  /** The process ends and another starts on the same folder. */
  restart(): Promise<void>
  close(): Promise<void>
}

const by = { account: null, name: 'A. Tester' }

/** A store with a publisher, evaluation and frozen sets in a folder of their own, at a clock that is set by hand. */
export async function openFreezing(model: SiteModel, beginEpochMs: number): Promise<OpenFreezing> {
  const folder = await mkdtemp(join(tmpdir(), 'freezing-'))
  const site = model.facts.id
  const engine = await (await DuckDBInstance.create(':memory:')).connect()
  let nowEpochMs = beginEpochMs
  const now = () => nowEpochMs
  const onFailure = (failure: unknown) => {
    throw failure
  }
  const begin = async () => {
    const store = await openDuckdbStore({ file: join(folder, 'site.duckdb'), report: () => {} })
    const publisher = createPublisher({ store, folder: join(folder, 'slices'), now, onFailure })
    const alerts = createAlerts({
      store,
      evaluation: (onRecorded) =>
        createEvaluator({
          store,
          folder: join(folder, 'levels'),
          now,
          gatherMs: 0,
          onEvents: onRecorded,
          onFailure: (_, failure) => onFailure(failure),
        }),
      ways: [],
      waysSetUp: [],
      now,
      random: () => 0.5,
      report: onFailure,
    })
    const freezing = createFreezing({
      store,
      alerts,
      folder: join(folder, 'frozen'),
      slicesFolder: join(folder, 'slices'),
      software: 'test',
      now,
    })
    return { store, publisher, alerts, freezing }
  }
  let running = await begin()
  await running.store.putSite(model, { author: 'tester', reason: 'test', atEpochMs: 0 })

  const valuesOf = async (slices: SliceList['slices'], pathOf: (name: string) => Promise<string | null>) => {
    const lines: string[] = []
    for (const { url, resolution, month } of slices) {
      await engine.run(`attach '${await pathOf(url.split('/').at(-1) ?? '')}' as one (read_only)`)
      const table = resolution === 'raw' ? 'value' : 'rollup'
      const rows = await engine.runAndReadAll(`select one::varchar from one.${table} one order by 1`)
      for (const [row] of rows.getRows()) lines.push(`${resolution} ${month} ${String(row)}`)
      await engine.run('detach one')
    }
    return lines
  }
  const end = async () => {
    await running.freezing.close()
    await running.alerts.close()
    await running.publisher.close()
    await running.store.close()
  }

  return {
    get nowEpochMs() {
      return nowEpochMs
    },
    set nowEpochMs(atEpochMs) {
      nowEpochMs = atEpochMs
    },
    site,
    folder,
    get store() {
      return running.store
    },
    get publisher() {
      return running.publisher
    },
    get alerts() {
      return running.alerts
    },
    get freezing() {
      return running.freezing
    },
    async take(readings: readonly ReceivedReading[]) {
      const { wiring } = (await running.store.getSite(site)) ?? model
      const wires = readings.map(({ sensor, atEpochMs }) => {
        const wire = wiring.find(
          (one) => one.sensor === sensor && one.fromAt <= atEpochMs && (one.untilAt ?? Infinity) > atEpochMs,
        )
        if (!wire) throw new Error(`${sensor} is not wired at ${atEpochMs}`)
        return { logger: wire.logger, name: wire.channel }
      })
      const channels = await running.store.channelNumbers(site, wires)
      const writer = await running.store.beginBatch({
        site,
        fileName: 'given.csv',
        sha256: String(Math.random()),
        bytes: 1,
        receivedAtEpochMs: Number(readings.at(-1)?.receivedMicros ?? 0n) / 1000,
        from: 'test',
        layout: null,
        layoutVersion: null,
      })
      await writer.append({
        count: readings.length,
        channel: Int32Array.from(channels),
        atMicros: BigInt64Array.from(readings.map((one) => BigInt(one.atEpochMs) * 1000n)),
        raw: Float64Array.from(readings.map((one) => one.raw)),
        receivedMicros: BigInt64Array.from(readings.map((one) => one.receivedMicros)),
      })
      await writer.commit({ absent: 0 })
    },
    async freeze(cutOffEpochMs: number | null) {
      const frozen = await running.freezing.freeze(site, cutOffEpochMs, by)
      if (!frozen.ok) throw new Error(frozen.issues.map(({ message }) => message).join(' '))
      return frozen.value.set
    },
    async frozenValues(set: FrozenSet) {
      const { slices } = JSON.parse(
        Buffer.from(await running.freezing.document(set, 'slices')).toString(),
      ) as SliceList
      return valuesOf(slices, (name) => running.freezing.sliceFile(site, name))
    },
    async publishedValues() {
      const list = await running.publisher.sliceList(site)
      return valuesOf(list?.slices ?? [], (name) => running.publisher.sliceFile(site, name))
    },
    async json<T>(set: FrozenSet, name: FrozenDocument) {
      return JSON.parse(Buffer.from(await running.freezing.document(set, name)).toString()) as T
    },
    async restart() {
      await end()
      running = await begin()
    },
    async close() {
      await end()
      engine.closeSync()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
