import { createHash } from 'node:crypto'
import type { DuckDBConnection } from '@duckdb/node-api'
import type { AuditDraft } from '#domain/audit/audit-entry.ts'
import type { RecordFault } from '#domain/audit/verification.ts'
import { canonicalJson } from './model-records.ts'
import { queryRows } from './query-rows.ts'
import { sha256 } from './sha256.ts'
import type { Signature } from './store.ts'

/** A version of a record as it is written, and what it takes the place of. */
export interface RecordChange {
  readonly kind: string
  readonly key: string
  readonly version: number
  readonly body: string | null
  readonly before: string | null
}

/** Longer ones stand in the audit record as their SHA-256; the versions of the record have the text. */
const longestBody = 4000

/** A body as the audit record has it. */
export const audited = (body: string | null): string | null =>
  body === null || body.length <= longestBody ? body : canonicalJson({ sha256: sha256(body) })

/**
 * SQL: whether a kept body is the one of an entry. Where the entry has a hash nothing but what has that hash is: a body
 * must not pass because somebody wrote the entry's own words in its place.
 */
export const sameBody = (kept: string, entry: string): string =>
  `CASE WHEN regexp_full_match(coalesce(${entry}, ''), '[{]"sha256":"[0-9a-f]{64}"[}]')
     THEN coalesce(${entry} = '{"sha256":"' || sha256(${kept}) || '"}', false)
     ELSE ${kept} IS NOT DISTINCT FROM ${entry} END`

/** The entries of record versions that are written in one change. */
export const entriesOfRecords = (
  site: string,
  { author, account = null, reason, atEpochMs }: Signature,
  changes: readonly RecordChange[],
): readonly AuditDraft[] =>
  changes.map(({ kind, key, version, body, before }) => ({
    site,
    atEpochMs,
    account,
    name: author,
    action: body === null ? 'withdrawn' : before === null ? 'made' : 'changed',
    subjectKind: kind,
    subjectKey: key,
    version,
    before: audited(before),
    after: audited(body),
    why: reason,
  }))

const keptRecords = `SELECT s.slug AS site, r.kind, r.key, r.version, epoch_ms(r.recorded_at) AS at, r.author, r.reason,
    r.body::VARCHAR AS body
  FROM record r LEFT JOIN site s ON s.number = r.site`

const recordEntries = `SELECT number, site, subject_kind AS kind, subject_key AS key, version, epoch_ms("at") AS at,
    name, why, "after" AS body
  FROM audit WHERE version IS NOT NULL`

/** Record versions that no entry speaks of: how many, and SHA-256 over them in the order of site, kind, key, version. */
export async function recordsWithoutEntry(
  connection: DuckDBConnection,
): Promise<{ readonly records: number; readonly sha256: string }> {
  const rows = await queryRows<{ site: string; kind: string; key: string; version: number }>(
    connection,
    `SELECT * FROM (${keptRecords}) k ANTI JOIN (${recordEntries}) a USING (site, kind, key, version)
     ORDER BY site, kind, key, version`,
  )
  const hash = createHash('sha256')
  for (const row of rows) hash.update(`${canonicalJson(row)}\n`)
  return { records: rows.length, sha256: hash.digest('hex') }
}

/** Kept record versions that are not as their entries say. */
export async function findRecordFaults(
  connection: DuckDBConnection,
  most: number,
): Promise<{
  readonly compared: number
  readonly count: number
  readonly faults: readonly RecordFault[]
}> {
  const rows = await queryRows<Omit<RecordFault, 'sentence'> & FoundFault>(
    connection,
    `WITH held AS (
       SELECT site, kind, key, version, a.number,
         k.author IS NULL AS gone,
         ${sameBody('k.body', 'a.body')} AS same_body,
         k.at = a.at AND k.author = a.name AND k.reason = a.why AS same_signature
       FROM (${recordEntries}) a LEFT JOIN (${keptRecords}) k USING (site, kind, key, version))
     SELECT site, kind, key, version, number, gone, same_body AS "sameBody", all_rows.compared, count(*) OVER () AS count
     FROM held, (SELECT count(*) AS compared FROM held) all_rows
     WHERE gone OR NOT same_body OR NOT same_signature ORDER BY number LIMIT ${most}`,
  )
  const [first] = rows
  const compared = first?.compared ?? (await countRecordEntries(connection))
  return {
    compared,
    count: first?.count ?? 0,
    faults: rows.map(({ site, kind, key, version, ...found }) => ({
      site,
      kind,
      key,
      version,
      sentence: sentenceOf(`Version ${version} of ${[kind, key].join(' ').trim()} at ${site}`, found),
    })),
  }
}

interface FoundFault {
  readonly number: number
  readonly gone: boolean
  readonly sameBody: boolean
  readonly compared: number
  readonly count: number
}

function sentenceOf(subject: string, { number, gone, sameBody }: FoundFault): string {
  if (gone) return `${subject} is gone; entry ${number} says that it was written.`
  if (!sameBody) return `${subject} is not as entry ${number} says: its content was altered.`
  return `${subject} is not signed as entry ${number} says: its author, reason or time was altered.`
}

async function countRecordEntries(connection: DuckDBConnection): Promise<number> {
  const [row] = await queryRows<{ count: number }>(
    connection,
    'SELECT count(*) AS count FROM audit WHERE version IS NOT NULL',
  )
  return row?.count ?? 0
}
