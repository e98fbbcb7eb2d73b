import { mkdtemp, readdir, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import { createIntake } from '../../api/intake/create-intake.ts'
import { takeDeliveries } from '../../api/intake/take-deliveries.ts'
import { loadSiteFolder, readSiteFolder } from '../../api/site-folder.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Measurement } from './measurement.ts'

/**
 * Takes the sample's raw files into a fresh store and publishes them; beside it, in the same process,
 * DuckDB's own read_csv reads the same files into tables of a fresh database.
 */
export async function measureIntakeAndPublishing(rawFolder: string): Promise<Measurement[]> {
  const folder = await mkdtemp(join(tmpdir(), 'bench-'))
  try {
    const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
    const read = await readSiteFolder('sample-site')
    if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
    const { model } = read.value
    const site = model.facts.id
    await loadSiteFolder(store, read.value, 'bench', 0)
    const present = model.facts.presentEpochMs ?? Date.now()
    const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: () => present })

    const intakeBegun = performance.now()
    await takeDeliveries({ intake, site, folder: rawFolder })
    const intakeSeconds = (performance.now() - intakeBegun) / 1000
    const receipts = await store.listBatches(site)
    const seen = receipts.reduce(
      (sum, one) => sum + one.accepted + one.repeated + one.conflicting + one.quarantined + one.absent,
      0,
    )
    const stored = receipts.reduce((sum, one) => sum + one.accepted, 0)
    const peerSeconds = await readWithDuckdb(rawFolder, folder)

    const publisher = createPublisher({
      store,
      folder: join(folder, 'slices'),
      now: () => present,
      onFailure: (failure) => {
        throw failure
      },
    })
    const publishBegun = performance.now()
    const report = await publisher.publish(site)
    const publishSeconds = (performance.now() - publishBegun) / 1000
    const list = await publisher.sliceList(site)
    const rawBytes = (list?.slices ?? [])
      .filter((slice) => slice.resolution === 'raw')
      .reduce((sum, slice) => sum + slice.bytes, 0)
    const copy = await copyWithDuckdb(store, site, folder)
    await publisher.close()
    await store.close()
    return [
      {
        name: 'intake of the sample, files to stored readings',
        ours: seen / intakeSeconds,
        unit: 'readings/s',
        peer: { name: "DuckDB's read_csv of the same files into tables", value: seen / peerSeconds },
        goal: 'ratio at least 0.3, above 300,000 readings/s',
      },
      {
        name: 'publishing all slices (reduce, derive, roll up, pack)',
        ours: publishSeconds,
        unit: 's',
        peer: { name: 'DuckDB copying the raw readings into one file', value: copy.seconds },
        goal: 'reported',
      },
      {
        name: 'raw slices, bytes a raw reading',
        ours: rawBytes / stored,
        unit: 'bytes',
        peer: { name: 'the same readings as one DuckDB table', value: copy.bytes / stored },
        goal: 'under 5',
      },
      {
        name: 'all slices (raw, hour and day), bytes a raw reading',
        ours: report.bytes / stored,
        unit: 'bytes',
        peer: { name: 'the same readings as one DuckDB table', value: copy.bytes / stored },
        goal: 'under 5',
      },
    ]
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

async function readWithDuckdb(rawFolder: string, folder: string): Promise<number> {
  const files = (await readdir(rawFolder, { recursive: true }))
    .filter((name) => !name.endsWith('deliveries.csv') && !name.startsWith('.'))
    .map((name) => join(rawFolder, name))
  const instance = await DuckDBInstance.create(join(folder, 'peer.duckdb'))
  const connection = await instance.connect()
  const begun = performance.now()
  let at = 0
  for (const file of files) {
    if (!(await stat(file)).isFile()) continue
    // The peer is given every ease: it may guess, pad short rows and pass over what it cannot read.
    await connection
      .run(
        `create table file_${at++} as from read_csv('${file.replaceAll("'", "''")}', ignore_errors = true, null_padding = true, strict_mode = false)`,
      )
      .catch(() => {})
  }
  const seconds = (performance.now() - begun) / 1000
  connection.closeSync()
  instance.closeSync()
  return seconds
}

async function copyWithDuckdb(
  store: Awaited<ReturnType<typeof openDuckdbStore>>,
  site: string,
  folder: string,
): Promise<{ seconds: number; bytes: number }> {
  const path = join(folder, 'copy.duckdb')
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
  return { seconds, bytes: (await stat(path)).size }
}
