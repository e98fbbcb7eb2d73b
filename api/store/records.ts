import type { DuckDBConnection } from '@duckdb/node-api'
import { type Layout, layoutSchema } from '#contract/layout.ts'
import { assert } from '#domain/assert.ts'
import type { SiteFacts, SiteModel } from '#domain/site/site.ts'
import type { TableName } from '#domain/site/tables.ts'
import { entriesOfRecords, type RecordChange } from './audited-records.ts'
import { logChange, readRevision } from './changes.ts'
import { decideProposal } from './decided-proposals.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import {
  canonicalJson,
  fromRecords,
  type KeptRecord,
  recordKey,
  recordKinds,
  toRecords,
} from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import { RevisionPassed } from './revision-passed.ts'
import type { RecordVersion, Signature, Store, TableRows } from './store.ts'
import { VersionConflict } from './version-conflict.ts'

type RecordVerbs = Pick<
  Store,
  | 'putSite'
  | 'addRows'
  | 'changeSite'
  | 'approveProposal'
  | 'getSite'
  | 'listSites'
  | 'putLayout'
  | 'listLayouts'
  | 'listVersions'
>

/** Records: append-only versions. The latest of each, unless withdrawn, is what holds. */
export function createRecords(file: DuckdbFile, numbering: Numbering): RecordVerbs {
  // Read for every file that arrives, changed seldom. One process has the file open, so what it wrote last holds.
  const models = new Map<number, Promise<SiteModel>>()
  const layouts = new Map<number, Promise<readonly Layout[]>>()

  /** Versions and their entries in the audit record, inside the transaction that makes the change. */
  const saveVersions = async (
    connection: DuckDBConnection,
    slug: string,
    site: number,
    signature: Signature,
    changes: readonly RecordChange[],
  ) => {
    await insertVersions(connection, site, signature, changes)
    await file.audit.append(connection, entriesOfRecords(slug, signature, changes))
  }

  /** A change of a site's model, and what is recorded with it in the same transaction. */
  const changing = async (
    slug: string,
    change: (model: SiteModel) => SiteModel,
    signature: Signature,
    also?: (connection: DuckDBConnection, site: number) => Promise<void>,
  ): Promise<{ changed: number }> => {
    const site = await numbering.findSite(slug)
    assert(site !== null, `site ${slug} is there before it is changed`)
    models.delete(site)
    return file
      .transact(async (connection) => {
        const latest = await readLatest(connection, site, false)
        const model = fromRecords(latest.filter(isKept))
        assert(model !== null, `site ${slug} has records`)
        await also?.(connection, site)
        const changes = findChanges(latest, toRecords(change(model)))
        if (changes.length === 0) return { changed: 0 }
        await saveVersions(connection, slug, site, signature, changes)
        await logChange(connection, site, null)
        return { changed: countChanged(changes) }
      })
      .finally(() => models.delete(site))
  }

  return {
    async putSite(model, signature) {
      const site = await numbering.siteNumber(model.facts.id)
      models.delete(site)
      return file
        .transact(async (connection) => {
          const changes = findChanges(await readLatest(connection, site, false), toRecords(model))
          if (changes.length === 0) return { changed: 0 }
          await saveVersions(connection, model.facts.id, site, signature, changes)
          await logChange(connection, site, null)
          return { changed: countChanged(changes) }
        })
        .finally(() => models.delete(site))
    },

    async addRows(slug, rows, signature) {
      const site = await numbering.findSite(slug)
      assert(site !== null, `site ${slug} is there before rows are added to it`)
      models.delete(site)
      await file
        .transact(async (connection) => {
          const latest = await readLatest(connection, site, false)
          const model = fromRecords(latest.filter(isKept))
          assert(model !== null, `site ${slug} has records`)
          const changes = findChanges(latest, toRecords(withRows(model, rows)))
          await saveVersions(connection, slug, site, signature, changes)
          await logChange(connection, site, null)
        })
        .finally(() => models.delete(site))
    },

    changeSite: (slug, change, signature) => changing(slug, change, signature),

    approveProposal: (slug, kind, number, decision, change, signature, judgedByRevision) =>
      changing(slug, change, signature, async (connection, site) => {
        await decideProposal(file, connection, { slug, site }, kind, number, decision)
        if (judgedByRevision === undefined) return
        const revision = await readRevision(connection, site)
        if (revision !== judgedByRevision) throw new RevisionPassed(slug, judgedByRevision, revision)
      }),

    async getSite(slug) {
      const site = await numbering.findSite(slug)
      if (site === null) return null
      return remembered(models, site, async () => {
        const latest = await readLatest(file.reader, site, false)
        return fromRecords(latest.filter(isKept))
      })
    },

    async listSites() {
      const rows = await queryRows<{ body: string }>(
        file.reader,
        `SELECT body::VARCHAR AS body FROM record WHERE kind = '${recordKinds.facts}'
         QUALIFY row_number() OVER (PARTITION BY site ORDER BY version DESC) = 1 ORDER BY site`,
      )
      return rows.map(({ body }) => JSON.parse(body) as SiteFacts)
    },

    async putLayout(slug, layout, signature) {
      const site = await numbering.siteNumber(slug)
      await file
        .transact(async (connection) => {
          const latest = (await readLatest(connection, site, true)).find(({ key }) => key === layout.id)
          const expected = (latest?.version ?? 0) + 1
          if (layout.version !== expected)
            throw new VersionConflict(`layout ${layout.id}`, layout.version, expected)
          const body = canonicalJson(layoutSchema.parse(layout))
          await saveVersions(connection, slug, site, signature, [
            {
              kind: recordKinds.layout,
              key: layout.id,
              version: expected,
              body,
              before: latest?.body ?? null,
            },
          ])
          await logChange(connection, site, null)
        })
        .finally(() => layouts.delete(site))
    },

    async listLayouts(slug) {
      const site = await numbering.findSite(slug)
      if (site === null) return []
      return remembered(layouts, site, async () => {
        const latest = await readLatest(file.reader, site, true)
        return latest.map(({ body }) => JSON.parse(body as string) as Layout)
      })
    },

    async listVersions(slug, kind, key) {
      const site = await numbering.findSite(slug)
      if (site === null) return []
      const rows = await queryRows<Omit<RecordVersion, 'body'> & { body: string | null }>(
        file.reader,
        `SELECT version, epoch_ms(recorded_at) AS "recordedAtEpochMs", author, reason, body::VARCHAR AS body
         FROM record WHERE site = $site AND kind = $kind AND key = $key ORDER BY version`,
        { site, kind, key },
      )
      return rows.map((row) => ({ ...row, body: row.body === null ? null : JSON.parse(row.body) }))
    },
  }
}

const isKept = (record: LatestRecord): record is LatestRecord & KeptRecord => record.body !== null

/** The model with more rows; a key that is already there is a conflict. */
function withRows(model: SiteModel, rows: TableRows): SiteModel {
  const tables = Object.keys(rows) as TableName[]
  const joined = tables.map((table) => {
    const before = model[table] as readonly Record<string, unknown>[]
    const added = (rows[table] ?? []) as readonly Record<string, unknown>[]
    const known = new Set(before.map((row) => recordKey(table, row)))
    for (const row of added) {
      const key = recordKey(table, row)
      if (known.has(key)) throw new VersionConflict(`${table} ${key}`, 1, 2)
    }
    return [table, [...before, ...added]]
  })
  return { ...model, ...Object.fromEntries(joined) }
}

/** What was read once, until it is forgotten; a failure is not remembered. */
function remembered<T>(kept: Map<number, Promise<T>>, site: number, read: () => Promise<T>): Promise<T> {
  const known = kept.get(site)
  if (known) return known
  const reading = read()
  kept.set(site, reading)
  reading.catch(() => kept.delete(site))
  return reading
}

interface LatestRecord {
  readonly kind: string
  readonly key: string
  readonly version: number
  /** Null: withdrawn. */
  readonly body: string | null
}

/** Latest versions of the layouts, or of everything else. */
function readLatest(connection: DuckDBConnection, site: number, layouts: boolean): Promise<LatestRecord[]> {
  return queryRows<LatestRecord>(
    connection,
    `SELECT kind, key, version, body::VARCHAR AS body FROM record
     WHERE site = $site AND kind ${layouts ? '=' : '<>'} '${recordKinds.layout}'
     QUALIFY row_number() OVER (PARTITION BY kind, key ORDER BY version DESC) = 1 ORDER BY kind, key`,
    { site },
  )
}

/** The versions to write so that the records given hold: differing ones, new ones, and withdrawals of missing ones. */
function findChanges(
  latest: readonly LatestRecord[],
  wanted: readonly KeptRecord[],
): readonly RecordChange[] {
  const known = new Map(latest.map((record) => [JSON.stringify([record.kind, record.key]), record]))
  const changes: RecordChange[] = []
  for (const { kind, key, body } of wanted) {
    const id = JSON.stringify([kind, key])
    const before = known.get(id)
    known.delete(id)
    if (before === undefined && kind === recordKinds.order && body === '[]') continue
    if (before?.body !== body)
      changes.push({ kind, key, body, before: before?.body ?? null, version: (before?.version ?? 0) + 1 })
  }
  for (const { kind, key, version, body } of known.values())
    if (body !== null) changes.push({ kind, key, body: null, before: body, version: version + 1 })
  return changes
}

/** A new order counts only where nothing else of its table changed. */
function countChanged(changes: readonly RecordChange[]): number {
  const records = changes.filter(({ kind }) => kind !== recordKinds.order)
  const kinds = new Set(records.map(({ kind }) => kind))
  return (
    records.length + changes.filter(({ kind, key }) => kind === recordKinds.order && !kinds.has(key)).length
  )
}

async function insertVersions(
  connection: DuckDBConnection,
  site: number,
  signature: Signature,
  changes: readonly RecordChange[],
): Promise<void> {
  const shape = '[{"kind":"VARCHAR","key":"VARCHAR","version":"INTEGER","body":"VARCHAR"}]'
  await connection.run(
    `INSERT INTO record SELECT $site, kind, key, version, epoch_ms($at::BIGINT), $author, $reason, body
     FROM (SELECT unnest(from_json($versions, '${shape}'), recursive := true))`,
    {
      site,
      at: Math.round(signature.atEpochMs),
      author: signature.author,
      reason: signature.reason,
      versions: JSON.stringify(changes.map(({ kind, key, version, body }) => ({ kind, key, version, body }))),
    },
  )
}
