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
    async close() {
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
