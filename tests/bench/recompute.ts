import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { SiteModel } from '#domain/site/site.ts'
import { loadSiteFolder, readSiteFolder } from '../../api/site-folder.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import type { Measurement } from './measurement.ts'

const channels = 120
const readings = 10_000_000
const fromEpochMs = Date.UTC(2027, 1, 2)
const untilEpochMs = Date.UTC(2027, 9, 28)

/** Raw readings that every chain of the sample can take, by raw unit. */
const typical: Readonly<Record<string, number>> = { us: 345, Hz: 2900, ohm: 5200, mA: 12, V: 2, 'mV/V': 1 }

/**
 * Ten million readings published, then all of them worked out anew because calibrations from the first day on have
 * changed, while batches go on arriving; beside it, DuckDB copies the same raw readings into one file.
 */
export async function measureRecompute(): Promise<Measurement[]> {
  const folder = await mkdtemp(join(tmpdir(), 'recompute-'))
  try {
    const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
    const read = await readSiteFolder('sample-site')
    if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
    await loadSiteFolder(store, read.value, 'bench', 0)
    const { model } = read.value
    const site = model.facts.id
    const numbers = await numberChannels(store, model)
    await fill(store, site, numbers, fromEpochMs, untilEpochMs, readings)
    const publisher = createPublisher({
      store,
      folder: join(folder, 'slices'),
      now: () => untilEpochMs,
      onFailure: (failure) => {
        throw failure
      },
    })
    await publisher.publish(site)
    await recalibrate(store, model)

    let running = true
    let arrived = 0
    const arrivals = (async () => {
      for (let batch = 0; running; batch++) {
        const from = untilEpochMs + batch * 60_000
        await fill(store, site, numbers, from, from + 60_000, numbers.length)
        arrived += numbers.length
        await new Promise((resolve) => setTimeout(resolve, 200))
      }
    })()
    const begun = performance.now()
    const report = await publisher.publish(site)
    const seconds = (performance.now() - begun) / 1000
    running = false
    await arrivals
    if (report.rawRows < readings) throw new Error(`only ${report.rawRows} values were worked out anew`)
    if (arrived === 0) throw new Error('nothing arrived meanwhile')
    const peer = await copy(store, site, join(folder, 'copy.duckdb'))
    await publisher.close()
    await store.close()
    return [
      {
        name: `recompute of 10 million readings, ${arrived} arriving meanwhile`,
        ours: seconds,
        unit: 's',
        peer: { name: 'DuckDB copying the same raw readings into one file', value: peer },
        goal: 'under 60 s on two cores',
      },
    ]
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

interface Wire {
  readonly channel: number
  readonly raw: number
}

/** Channels of the sample that are wired all the time, with a raw reading each. */
async function numberChannels(store: Store, model: SiteModel): Promise<readonly Wire[]> {
  const unitOf = new Map(model.sensors.map(({ id, rawUnit }) => [id, rawUnit]))
  const wires = model.wiring
    .filter((wire) => wire.fromAt <= fromEpochMs && wire.untilAt === null)
    .filter((wire) => typical[unitOf.get(wire.sensor) ?? ''] !== undefined)
    .slice(0, channels)
  const numbers = await store.channelNumbers(
    model.facts.id,
    wires.map(({ logger, channel }) => ({ logger, name: channel })),
  )
  return wires.map(({ sensor }, at) => ({
    channel: numbers[at] as number,
    raw: typical[unitOf.get(sensor) ?? ''] as number,
  }))
}

/** One batch of readings spread evenly over channels and time. */
async function fill(
  store: Store,
  site: string,
  wires: readonly Wire[],
  from: number,
  until: number,
  count: number,
): Promise<void> {
  const writer = await store.beginBatch({
    site,
    fileName: 'bench.csv',
    sha256: `${from}-${until}`,
    bytes: 1,
    receivedAtEpochMs: until,
    from: 'bench',
    layout: null,
    layoutVersion: null,
  })
  const each = Math.floor(count / wires.length)
  const stepMs = Math.max(1, Math.floor((until - from) / each))
  for (const { channel, raw } of wires) {
    const at = BigInt64Array.from({ length: each }, (_, n) => BigInt(from + n * stepMs) * 1000n)
    await writer.append({
      count: each,
      channel: new Int32Array(each).fill(channel),
      atMicros: at,
      raw: Float64Array.from({ length: each }, (_, n) => raw * (1 + 0.01 * Math.sin(n / 500))),
      receivedMicros: at.map((micros) => micros + 5_000_000n),
    })
  }
  await writer.commit({ absent: 0 })
}

/** Every calibration is entered again from its own first instant on: no value stays as it was published. */
async function recalibrate(store: Store, model: SiteModel): Promise<void> {
  const steps = model.calibrationSteps
  const next = model.calibrations.filter(({ version }) => version === 1)
  await store.addRows(
    model.facts.id,
    {
      calibrations: next.map((row) => ({ ...row, id: `${row.id}/anew`, version: 9 })),
      calibrationSteps: next.flatMap(({ id }) => {
        const own = steps.filter(({ calibration }) => calibration === id)
        const last = {
          calibration: `${id}/anew`,
          step: own.length + 1,
          kind: 'zero',
          parameters: 'value=0.01',
        } as const
        return [...own.map((step) => ({ ...step, calibration: `${id}/anew` })), last]
      }),
    },
    { author: 'bench', reason: 'bench', atEpochMs: 0 },
  )
}

async function copy(store: Store, site: string, path: string): Promise<number> {
  const connection = await store.connect()
  await store.exposeReadings(connection, 'bench_reading', { site })
  const begun = performance.now()
  await connection.run(`attach '${path}' as copy_of_readings`)
  await connection.run(
    'create table copy_of_readings.reading as select channel, "at", raw from bench_reading order by channel, "at"',
  )
  await connection.run('checkpoint copy_of_readings')
  await connection.run('detach copy_of_readings')
  const seconds = (performance.now() - begun) / 1000
  connection.closeSync()
  return seconds
}
