import type { DuckDBConnection } from '@duckdb/node-api'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import { alertEntry } from './alert-entries.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import type { NewAlertEvent, Store, StoredAlertEvent } from './store.ts'
import { VersionConflict } from './version-conflict.ts'

type AlertVerbs = Pick<Store, 'appendAlertEvents' | 'listAlertEvents'>

/** What happened to the alerts of a site: a log that is only ever added to. */
export function createAlertEvents(file: DuckdbFile, numbering: Numbering): AlertVerbs {
  return {
    async appendAlertEvents(slug, events, unlessChanged) {
      const site = await numbering.siteNumber(slug)
      if (events.length === 0) return []
      return file.transact(async (connection) => {
        const latest = await latestNumbers(connection, site)
        if (unlessChanged) await refuseChanged(connection, site, unlessChanged)
        let { alert } = latest
        const stored = events.map(({ account: _, ...event }, i): StoredAlertEvent => {
          if (event.alert === null) alert += 1
          return { ...event, alert: event.alert ?? alert, number: latest.number + 1 + i }
        })
        await insertEvents(connection, site, stored)
        const entries = stored.map((event, i) => alertEntry(slug, event, events[i] ?? {}))
        await file.audit.append(connection, entries)
        return stored
      })
    },

    async listAlertEvents(slug, after) {
      const site = await numbering.findSite(slug)
      return site === null ? [] : readEvents(file.reader, site, after)
    },
  }
}

async function latestNumbers(
  connection: DuckDBConnection,
  site: number,
): Promise<{ number: number; alert: number }> {
  const [row] = await queryRows<{ number: number; alert: number }>(
    connection,
    `SELECT coalesce(max(number), 0) AS number, coalesce(max(alert), 0) AS alert
     FROM alert_event WHERE site = $site`,
    { site },
  )
  return row ?? { number: 0, alert: 0 }
}

async function refuseChanged(
  connection: DuckDBConnection,
  site: number,
  { alert, number }: { readonly alert: number; readonly number: number },
): Promise<void> {
  const [row] = await queryRows<{ latest: number | null }>(
    connection,
    `SELECT max(number) AS latest FROM alert_event WHERE site = $site AND alert = $alert AND number > $number
       AND json_extract_string(body, '$.kind') IN ('acknowledged', 'verified', 'closed', 'reopened')`,
    { site, alert, number },
  )
  const latest = row?.latest ?? null
  if (latest !== null) throw new VersionConflict(`alert ${alert}`, number, latest)
}

async function insertEvents(
  connection: DuckDBConnection,
  site: number,
  events: readonly StoredAlertEvent[],
): Promise<void> {
  const rows = events.map(({ number, alert, atEpochMs, by, happening }) => ({
    number,
    alert,
    at: Math.round(atEpochMs),
    by,
    body: canonicalJson(happening),
  }))
  const shape = '[{"number":"INTEGER","alert":"INTEGER","at":"BIGINT","by":"VARCHAR","body":"VARCHAR"}]'
  await connection.run(
    `INSERT INTO alert_event SELECT $site, number, alert, epoch_ms("at"), "by", body
     FROM (SELECT unnest(from_json($rows, '${shape}'), recursive := true))`,
    { site, rows: JSON.stringify(rows) },
  )
}

async function readEvents(
  connection: DuckDBConnection,
  site: number,
  after: number,
): Promise<readonly StoredAlertEvent[]> {
  const rows = await queryRows<Omit<NewAlertEvent, 'happening' | 'alert'> & EventRow>(
    connection,
    `SELECT number, alert, epoch_ms("at") AS "atEpochMs", "by", body FROM alert_event
     WHERE site = $site AND number > $after ORDER BY number`,
    { site, after },
  )
  return rows.map(({ body, ...row }) => ({ ...row, happening: JSON.parse(body) as AlertHappening }))
}

interface EventRow {
  readonly number: number
  readonly alert: number
  readonly body: string
}
