import type { DuckDBConnection } from '@duckdb/node-api'
import type { FieldEffect, StoredFieldEntry } from '#contract/field-entry.ts'
import { thisServer } from '#domain/audit/audit-entry.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { audited } from './audited-records.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import { sha256 } from './sha256.ts'
import type { FieldAddition, Store } from './store.ts'

type FieldVerbs = Pick<Store, 'addFieldEntries' | 'listFieldEntries' | 'recordFieldEffects'>

/** Field entries: only ever added, each with a number of its own, and a log of what happened to them since. */
export function createFieldEntries(file: DuckdbFile, numbering: Numbering): FieldVerbs {
  return {
    async addFieldEntries(slug, entries, receivedAtEpochMs, sender) {
      const site = await numbering.siteNumber(slug)
      return file.transact(async (connection) => {
        const known = await readBodies(
          connection,
          site,
          entries.map(({ id }) => id),
        )
        const fresh: { id: string; differs: boolean; body: string; author: string }[] = []
        const additions = entries.map((entry): FieldAddition => {
          const body = canonicalJson(entry)
          const before = known.get(entry.id) ?? []
          const at = before.indexOf(body)
          if (at >= 0) return at === 0 ? 'repeated' : 'differs'
          known.set(entry.id, [...before, body])
          fresh.push({ id: entry.id, differs: before.length > 0, body, author: entry.author })
          return before.length > 0 ? 'differs' : 'accepted'
        })
        if (fresh.length > 0) {
          await insertEntries(connection, site, fresh, receivedAtEpochMs, sender)
          await file.audit.append(
            connection,
            fresh.map(({ id, differs, body, author }) => ({
              site: slug,
              atEpochMs: receivedAtEpochMs,
              account: null,
              name: author,
              action: 'taken',
              subjectKind: 'field-entry',
              subjectKey: id,
              version: null,
              before: null,
              // What was written stays in the list of entries; here is what shows whether it was altered.
              after: canonicalJson({ differs, sender, sha256: sha256(body) }),
              why: '',
            })),
          )
        }
        return additions
      })
    },

    async listFieldEntries(slug, after) {
      const site = await numbering.findSite(slug)
      if (site === null) return { entries: [], latest: 0 }
      // Before the entries: what is recorded in between is told twice rather than not at all.
      const latest = await latestChange(file.reader, site)
      return { entries: await readEntries(file.reader, site, after), latest }
    },

    async recordFieldEffects(slug, effects) {
      const site = await numbering.siteNumber(slug)
      if (effects.length === 0) return
      const changes = effects.map(({ number, effect }) => ({ entry: number, effect: canonicalJson(effect) }))
      await file.transact(async (connection) => {
        const earlier = await readEffects(
          connection,
          site,
          changes.map(({ entry }) => entry),
        )
        await logFieldChanges(connection, site, changes)
        await file.audit.append(
          connection,
          changes.map(({ entry, effect }) => ({
            site: slug,
            account: null,
            name: thisServer,
            action: 'changed',
            subjectKind: 'field-entry',
            subjectKey: earlier.get(entry)?.id ?? String(entry),
            version: null,
            before: audited(earlier.get(entry)?.effect ?? null),
            after: audited(effect),
            why: '',
          })),
        )
      })
    },
  }
}

/** Ids of entries, and the effects that hold until now, by number. */
async function readEffects(
  connection: DuckDBConnection,
  site: number,
  numbers: readonly number[],
): Promise<ReadonlyMap<number, { readonly id: string; readonly effect: string | null }>> {
  const rows = await queryRows<{ number: number; id: string; effect: string | null }>(
    connection,
    `SELECT e.number, e.id, c.effect FROM field_entry e LEFT JOIN (
       SELECT entry, arg_max(effect, change) AS effect FROM field_change
       WHERE site = $site AND effect IS NOT NULL GROUP BY entry
     ) c ON c.entry = e.number
     WHERE e.site = $site AND e.number IN (SELECT unnest(from_json($numbers, '["INTEGER"]')))`,
    { site, numbers: JSON.stringify(numbers) },
  )
  return new Map(rows.map(({ number, ...row }) => [number, row]))
}

/** Adds to the log of a site's entries, inside the transaction that makes the change. */
export async function logFieldChanges(
  connection: DuckDBConnection,
  site: number,
  changes: readonly { readonly entry: number; readonly effect: string | null }[],
): Promise<void> {
  const latest = await latestChange(connection, site)
  const rows = changes.map((row, i) => ({ change: latest + 1 + i, ...row }))
  const shape = '[{"change":"INTEGER","entry":"INTEGER","effect":"VARCHAR"}]'
  await connection.run(
    `INSERT INTO field_change SELECT $site, change, entry, effect
     FROM (SELECT unnest(from_json($rows, '${shape}'), recursive := true))`,
    { site, rows: JSON.stringify(rows) },
  )
}

async function latestChange(connection: DuckDBConnection, site: number): Promise<number> {
  const [row] = await queryRows<{ latest: number }>(
    connection,
    'SELECT coalesce(max(change), 0) AS latest FROM field_change WHERE site = $site',
    { site },
  )
  return row?.latest ?? 0
}

/** Bodies kept under ids, the first that came first. */
async function readBodies(
  connection: DuckDBConnection,
  site: number,
  ids: readonly string[],
): Promise<Map<string, readonly string[]>> {
  const rows = await queryRows<{ id: string; body: string }>(
    connection,
    `SELECT id, body FROM field_entry
     WHERE site = $site AND id IN (SELECT unnest(from_json($ids, '["VARCHAR"]'))) ORDER BY number`,
    { site, ids: JSON.stringify(ids) },
  )
  const bodies = new Map<string, readonly string[]>()
  for (const { id, body } of rows) bodies.set(id, [...(bodies.get(id) ?? []), body])
  return bodies
}

async function insertEntries(
  connection: DuckDBConnection,
  site: number,
  fresh: readonly { readonly id: string; readonly differs: boolean; readonly body: string }[],
  receivedAtEpochMs: number,
  sender: string | null,
): Promise<void> {
  const [row] = await queryRows<{ next: number }>(
    connection,
    'SELECT coalesce(max(number), 0) + 1 AS next FROM field_entry WHERE site = $site',
    { site },
  )
  const rows = fresh.map(({ id, differs, body }, i) => ({ number: (row?.next ?? 1) + i, id, differs, body }))
  const shape = '[{"number":"INTEGER","id":"VARCHAR","differs":"BOOLEAN","body":"VARCHAR"}]'
  await connection.run(
    `INSERT INTO field_entry SELECT $site, number, id, epoch_ms($received::BIGINT), differs, body, $sender
     FROM (SELECT unnest(from_json($rows, '${shape}'), recursive := true))`,
    { site, received: Math.round(receivedAtEpochMs), sender, rows: JSON.stringify(rows) },
  )
  await logFieldChanges(
    connection,
    site,
    rows.map(({ number }) => ({ entry: number, effect: null })),
  )
}

async function readEntries(
  connection: DuckDBConnection,
  site: number,
  after: number,
): Promise<readonly StoredFieldEntry[]> {
  const rows = await queryRows<{
    number: number
    receivedAtEpochMs: number
    differs: boolean
    sender: string | null
    body: string
    effect: string | null
  }>(
    connection,
    `SELECT e.number, epoch_ms(e.received_at) AS "receivedAtEpochMs", e.differs, e.sender, e.body, c.effect
     FROM field_entry e JOIN (
       SELECT entry, max(change) AS latest, arg_max(effect, change) FILTER (effect IS NOT NULL) AS effect
       FROM field_change WHERE site = $site GROUP BY entry
     ) c ON c.entry = e.number
     WHERE e.site = $site AND c.latest > $after ORDER BY e.number`,
    { site, after },
  )
  const held = await queryRows<{ sha256: string }>(
    connection,
    'SELECT sha256 FROM attachment WHERE site = $site',
    { site },
  )
  const here = new Set(held.map(({ sha256 }) => sha256))
  return rows.map(({ body, effect, ...row }) => {
    const entry = JSON.parse(body) as FieldEntry
    return {
      ...row,
      entry,
      effect: effect === null ? null : (JSON.parse(effect) as FieldEffect),
      missingAttachments: entry.attachments.map(({ sha256 }) => sha256).filter((one) => !here.has(one)),
    }
  })
}
