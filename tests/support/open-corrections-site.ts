import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import type { Hono } from 'hono'
import { expect } from 'vitest'
import type { CorrectionTaken } from '#contract/correction-proposals.ts'
import type { RawAnswer } from '#contract/raw-readings.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { offeredCorrections } from '#domain/corrections/offered-corrections.ts'
import { reduceRaw } from '#domain/what-if/reduce-raw.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { runSandbox } from '#domain/what-if/run-sandbox.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { unpackReadings } from '#domain/what-if/unpack-readings.ts'
import { createApp } from '../../api/app.ts'
import { createIntake } from '../../api/intake/create-intake.ts'
import { loadSiteFolder, readSiteFolder } from '../../api/site-folder.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { type GivenReading, takeReadings } from './take-readings.ts'

const site = 'skarrow-quay'
const path = `/api/sites/${site}`
const hourMs = 3_600_000

export interface CorrectionsSite {
  readonly folder: string
  readonly store: Store
  readonly publisher: Publisher
  readonly app: Hono
  post(part: string, content: unknown): Promise<{ status: number; body: ReturnType<typeof JSON.parse> }>
  /** Raw readings and recipe from the server, and what changes make of them. */
  sandbox(changes: readonly SandboxChange[]): Promise<{
    readonly official: ReadonlyMap<string, ReducedSeries>
    readonly run: ReturnType<typeof runSandbox>
    readonly offered: ReturnType<typeof offeredCorrections>
  }>
  /** Published values of a series by instant. */
  published(series: string): Promise<ReadonlyMap<number, number>>
  /** Tries changes, offers and approves them, and publishes; answers with what the sandbox showed and the proposal's answer. */
  correct(changes: readonly SandboxChange[]): Promise<{
    readonly official: ReadonlyMap<string, ReducedSeries>
    readonly values: ReadonlyMap<string, ReducedSeries>
    readonly taken: CorrectionTaken
  }>
  close(): Promise<void>
}

/**
 * Records of the sample with three weeks of hourly invented raw readings from `from` until `until`, of some sensors, and a
 * server beside them. `series`: those that sandboxes ask for.
 */
export async function openCorrectionsSite(given: {
  readonly from: number
  readonly until: number
  readonly series: readonly string[]
  /** Raw reading of a sensor; `swing` goes to and fro between −1 and 1. */
  readonly rawOf: Readonly<Record<string, (swing: number) => number>>
}): Promise<CorrectionsSite> {
  const { from, until, series, rawOf } = given
  const folder = await mkdtemp(join(tmpdir(), 'corrections-'))
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  await loadSiteFolder(store, read.value, 'test', 0)
  const now = () => read.value.model.facts.presentEpochMs ?? 0
  const publisher = createPublisher({ store, folder: join(folder, 'slices'), now, onFailure: () => {} })
  const app = createApp({
    store,
    publisher,
    intake: createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now }),
    now,
    allowedHosts: ['localhost'],
    ingestTokenSha256: null,
    loopbackOnly: true,
    report: () => {},
  })
  const readings: GivenReading[] = []
  for (let atEpochMs = from; atEpochMs < until; atEpochMs += hourMs) {
    const swing = Math.sin(atEpochMs / (24 * hourMs))
    for (const [sensor, raw] of Object.entries(rawOf)) readings.push({ sensor, atEpochMs, raw: raw(swing) })
  }
  await takeReadings(store, site, readings, until)
  await publisher.publish(site)

  async function post(part: string, content: unknown) {
    const answer = await app.request(path + part, {
      method: 'POST',
      headers: { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' },
      body: JSON.stringify(content),
    })
    return { status: answer.status, body: await answer.json() }
  }

  async function sandbox(changes: readonly SandboxChange[]) {
    const query = new URLSearchParams([
      ...series.map((id) => ['series', id]),
      ['from', new Date(from).toISOString()],
      ['until', new Date(until).toISOString()],
    ])
    const answer = (await (await app.request(`${path}/raw?${query}`)).json()) as RawAnswer
    const standing = {
      recipe: answer.recipe,
      readings: unpackReadings(answer.channels, answer.fromEpochMs, answer.recipe),
    }
    const run = runSandbox(standing, changes, from, until)
    expect(run.faults).toEqual([])
    return {
      official: reduceRaw(standing.recipe, standing.readings, from, until),
      run,
      offered: offeredCorrections(standing.recipe, run.recipe, changes),
    }
  }

  async function published(id: string) {
    const document = (await (await app.request(path)).json()) as SiteDocument
    const number = document.series.find((one) => one.id === id)?.series
    const instance = await DuckDBInstance.create(':memory:')
    const connection = await instance.connect()
    const found = new Map<number, number>()
    for (const slice of (await publisher.sliceList(site))?.slices ?? []) {
      if (slice.resolution !== 'raw') continue
      const file = await publisher.sliceFile(site, slice.url.split('/').at(-1) ?? '')
      await connection.run(`attach '${file}' as slice (read_only)`)
      const reader = await connection.runAndReadAll(
        `select epoch_ms("at")::double, value from slice.value where series = ${number}`,
      )
      for (const [at, value] of reader.getRows()) found.set(Number(at), Number(value))
      await connection.run('detach slice')
    }
    connection.closeSync()
    instance.closeSync()
    return found
  }

  async function correct(changes: readonly SandboxChange[]) {
    const { official, run, offered } = await sandbox(changes)
    expect(offered.hindrances).toEqual([])
    const asked = {
      changes: offered.changes,
      sandbox: '?sheet=what-if',
      reason: 'tried beside its twin',
      author: 'Ada Marsh',
    }
    const proposed = await post('/correction-proposals', asked)
    expect([proposed.status, proposed.body.issues]).toEqual([201, undefined])
    const taken = proposed.body as CorrectionTaken
    const decision = { reason: 'the sandbox shows it', author: 'Ben Holm' }
    const approved = await post(`/correction-proposals/${taken.number}/approval`, decision)
    expect(approved.status).toBe(200)
    await publisher.publish(site)
    return { official, values: run.values, taken }
  }

  return {
    folder,
    store,
    publisher,
    app,
    post,
    sandbox,
    published,
    correct,
    async close() {
      await publisher.close()
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
