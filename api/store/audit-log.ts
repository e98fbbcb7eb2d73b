import type { DuckDBConnection } from '@duckdb/node-api'
import {
  type AuditDraft,
  type ChainedEntry,
  type ChainHead,
  chainHash,
  chainStart,
} from '#domain/audit/audit-entry.ts'
import { noteHeads } from './audit-head-notes.ts'
import { auditOpenings, isHeadNoted } from './audit-openings.ts'
import { insertChained, selectHead } from './audit-rows.ts'
import { sha256 } from './sha256.ts'

/**
 * Appends to the audit record. A verb that changes something calls `append` in its own transaction, on the connection
 * it was given, so that there is neither a change without its entry nor an entry without its change:
 *
 *     file.transact(async (connection) => {
 *       await connection.run('UPDATE …')
 *       await file.audit.append(connection, [{ site, atEpochMs, account, name, action: 'acknowledged', … }])
 *     })
 *
 * `before` and `after` are JSON text as `canonicalJson` gives it, without secrets and without hashes of secrets;
 * `version` is for the table `record` alone, null for everything else.
 */
export interface AuditLog {
  /** A draft without a time is of the moment at which it is appended. */
  append(connection: DuckDBConnection, drafts: readonly AppendedDraft[]): Promise<void>
  /** Told by the data file once a transaction has reached the disk, or has left nothing. */
  committed(): void
  rolledBack(): void
  /** Notes the end outside the data file, if it has grown since; otherwise done within a second. To be called at closing. */
  noteEnd(): Promise<void>
}

export type AppendedDraft = Omit<AuditDraft, 'atEpochMs'> & { readonly atEpochMs?: number }

/** Opens the audit record of a data file; what does not fit is reported, and recorded before the next entry. */
export async function openAuditLog(
  dataFile: string,
  writer: DuckDBConnection,
  { report, now }: { readonly report: (line: string) => void; readonly now: () => number },
): Promise<AuditLog> {
  const last = (await selectHead(writer)) ?? chainStart
  let openings = await auditOpenings(dataFile, writer, last)
  for (const { action, why } of openings)
    if (action === 'mismatch') report(`Audit record of ${dataFile}: ${why}`)
  const notes = noteHeads(dataFile, report)
  // Before anything is in it: a start after a kill in the first second must not look like one whose note was taken away.
  if (last.number === 0 && !isHeadNoted(dataFile)) {
    notes.note(last)
    await notes.noteNow()
  }
  let standing = last
  let head: ChainHead | null = last

  return {
    async append(connection, drafts) {
      const [first] = drafts
      if (first === undefined) return
      if (head === null) {
        // A commit has failed, and whether it stands is for the tables to say.
        standing = (await selectHead(connection)) ?? chainStart
        if (standing.number > last.number) openings = []
      }
      let end = head ?? standing
      const chained: ChainedEntry[] = []
      const own = end === last ? openings.map((one) => ({ ...one, atEpochMs: first.atEpochMs ?? now() })) : []
      for (const draft of [...own, ...drafts].map(asItIsKept)) {
        const entry = { ...draft, atEpochMs: Math.round(draft.atEpochMs ?? now()), number: end.number + 1 }
        const hash = chainHash(end.hash, entry, sha256)
        chained.push({ entry, hash })
        end = { number: entry.number, hash }
      }
      await insertChained(connection, chained)
      head = end
    },

    committed() {
      if (head === null || head === standing) return
      standing = head
      notes.note(head)
    },

    rolledBack() {
      if (head !== standing) head = null
    },

    noteEnd: () => notes.noteNow(),
  }
}

/** Half of a pair of code units has no UTF-8 and would be kept as another character than was hashed: the chain would break. */
const asItIsKept = <D extends object>(draft: D): D =>
  Object.fromEntries(
    Object.entries(draft).map(([column, value]) => [
      column,
      typeof value === 'string' ? value.replace(/\p{Surrogate}/gu, '\ufffd') : value,
    ]),
  ) as D
