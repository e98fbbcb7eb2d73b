import type { DuckDBConnection } from '@duckdb/node-api'
import type { Actor, AuditAction } from '#domain/audit/audit-entry.ts'
import { nameOfAccount } from './accounts.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'

interface AccountChange {
  /** Whose it is, and who did it unless `by` says otherwise. */
  readonly account: string
  readonly by?: Actor | undefined
  readonly atEpochMs?: number
  readonly site?: string | null
  readonly action: AuditAction
  readonly subjectKind: string
  /** Empty where a key would be a secret or the hash of one. */
  readonly subjectKey: string
  readonly after?: object
}

/** Records a change of what an account has (passwords, keys, links), in the transaction that makes it. */
export async function appendAccountEntry(
  file: DuckdbFile,
  connection: DuckDBConnection,
  { account, by, site = null, after, ...change }: AccountChange,
): Promise<void> {
  const owner = await nameOfAccount(connection, account)
  await file.audit.append(connection, [
    {
      ...change,
      ...(by ?? { account, name: owner }),
      site,
      version: null,
      before: null,
      after: canonicalJson({ ...(by ? { of: owner } : {}), ...after }),
      why: '',
    },
  ])
}
