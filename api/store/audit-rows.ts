import type { DuckDBConnection } from '@duckdb/node-api'
import type { AuditEntry, ChainedEntry, ChainHead } from '#domain/audit/audit-entry.ts'
import { queryRows, type SqlValue } from './query-rows.ts'

interface AuditRow extends AuditEntry {
  readonly hash: string
}

const columns = `number, site, epoch_ms("at") AS "atEpochMs", account, name, action, subject_kind AS "subjectKind",
  subject_key AS "subjectKey", version, "before", "after", why, hash`

/** Entries by the order of their numbers, or of their numbers backwards; `where` narrows them by columns of `audit`. */
export async function selectEntries(
  connection: DuckDBConnection,
  where: string,
  values: Record<string, SqlValue>,
  { newestFirst, limit }: { readonly newestFirst: boolean; readonly limit: number },
): Promise<readonly ChainedEntry[]> {
  const rows = await queryRows<AuditRow>(
    connection,
    `SELECT ${columns} FROM audit WHERE ${where}
     ORDER BY number ${newestFirst ? 'DESC, rowid DESC' : ', rowid'} LIMIT ${Math.round(limit)}`,
    values,
  )
  return rows.map(({ hash, ...entry }) => ({ entry, hash }))
}

/** The last entry's number and hash; null: there is none. */
export async function selectHead(connection: DuckDBConnection): Promise<ChainHead | null> {
  const [row] = await queryRows<ChainHead>(
    connection,
    'SELECT number, hash FROM audit ORDER BY number DESC, rowid DESC LIMIT 1',
  )
  return row ?? null
}

const insertInto =
  'INSERT INTO audit (number, site, "at", account, name, action, subject_kind, subject_key, version, "before", "after", why, hash)'

/** Adds entries with their hashes as they are. */
export async function insertChained(
  connection: DuckDBConnection,
  chained: readonly ChainedEntry[],
): Promise<void> {
  const [only] = chained
  if (only && chained.length === 1) {
    const { atEpochMs, ...entry } = only.entry
    await connection.run(
      `${insertInto} VALUES ($number, $site, epoch_ms($at::BIGINT), $account, $name, $action, $subjectKind,
         $subjectKey, $version, $before, $after, $why, $hash)`,
      { ...entry, at: atEpochMs, hash: only.hash },
    )
    return
  }
  const shape = JSON.stringify([
    {
      number: 'BIGINT',
      site: 'VARCHAR',
      atEpochMs: 'BIGINT',
      account: 'VARCHAR',
      name: 'VARCHAR',
      action: 'VARCHAR',
      subjectKind: 'VARCHAR',
      subjectKey: 'VARCHAR',
      version: 'INTEGER',
      before: 'VARCHAR',
      after: 'VARCHAR',
      why: 'VARCHAR',
      hash: 'VARCHAR',
    },
  ])
  await connection.run(
    `${insertInto} SELECT number, site, epoch_ms("atEpochMs"), account, name, action, "subjectKind", "subjectKey", version,
       "before", "after", why, hash
     FROM (SELECT unnest(from_json($rows, '${shape}'), recursive := true))`,
    { rows: JSON.stringify(chained.map(({ entry, hash }) => ({ ...entry, hash }))) },
  )
}
