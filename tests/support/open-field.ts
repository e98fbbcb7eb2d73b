import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import type { SiteModel } from '#domain/site/site.ts'
import { createApp } from '../../api/app.ts'
import { createFieldWork, type FieldWork } from '../../api/field/create-field-work.ts'
import { createIntake, type Intake } from '../../api/intake/create-intake.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { readWindow } from '../contract/reading-batches.ts'

/** Headers as a page that this server served sends them. */
export const ownPage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }

export interface OpenField {
  readonly store: Store
  readonly intake: Intake
  readonly field: FieldWork
  readonly app: Hono
  /** Sites that were said to have changed. */
  readonly changed: string[]
  readonly reports: string[]
  /** Stored readings, as `logger/channel`, epoch milliseconds and raw value, in order of channel and time. */
  readings(): Promise<readonly (readonly [string, number, number])[]>
  close(): Promise<void>
}

/** The server's side of field work over a store of its own with one site, without what publishes it. */
export async function openField(
  model: SiteModel,
  now: () => number = () => Date.UTC(2027, 9, 21),
): Promise<OpenField> {
  const folder = await mkdtemp(join(tmpdir(), 'field-'))
  const store = await openDuckdbStore({ file: join(folder, 'stillground.duckdb') })
  await store.putSite(model, { author: 'tester', reason: 'test', atEpochMs: 0 })
  const intake = createIntake({
    store,
    filesFolder: join(folder, 'files'),
    presentEpochMs: () => model.facts.presentEpochMs ?? now(),
  })
  const changed: string[] = []
  const reports: string[] = []
  const report = (line: string) => void reports.push(line)
  const publisher = { changed: (site: string) => void changed.push(site) }
  const field = createFieldWork({ store, intake, publisher, now, report })
  const app = createApp({
    store,
    intake,
    publisher: publisher as never,
    field,
    now,
    allowedHosts: ['localhost'],
    ingestTokenSha256: null,
    loopbackOnly: true,
    report,
  })
  return {
    store,
    intake,
    field,
    app,
    changed,
    reports,
    async readings() {
      const site = model.facts.id
      const channels = await store.listChannels(site)
      const names = new Map(channels.map(({ channel, logger, name }) => [channel, `${logger}/${name}`]))
      const rows = await readWindow(store, { site })
      return rows
        .map(({ channel, atEpochMs, raw }) => [names.get(channel) ?? '', atEpochMs, raw] as const)
        .sort((one, other) => one[0].localeCompare(other[0]) || one[1] - other[1])
    },
    async close() {
      await field.settled()
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
