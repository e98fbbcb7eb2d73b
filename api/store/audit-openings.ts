import type { DuckDBConnection } from '@duckdb/node-api'
import { type AuditDraft, type ChainHead, thisServer } from '#domain/audit/audit-entry.ts'
import { type ChainBreak, compareHead } from '#domain/audit/check-chain.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import { readAuditHead } from './audit-head.ts'
import { selectEntries } from './audit-rows.ts'
import { recordsWithoutEntry } from './audited-records.ts'
import { canonicalJson } from './model-records.ts'

/** What the audit record says of itself. */
export const auditSubject = 'audit'

/**
 * Entries that precede the next one: the first of all, with a hash of the records that were there before; and that the
 * end does not fit to what was noted outside, since the next note takes that trace away.
 */
export async function auditOpenings(
  dataFile: string,
  connection: DuckDBConnection,
  end: ChainHead,
): Promise<readonly AuditDraft[]> {
  const own = {
    site: null,
    atEpochMs: 0,
    account: null,
    name: thisServer,
    subjectKind: auditSubject,
    subjectKey: '',
    version: null,
    before: null,
  }
  const openings: AuditDraft[] = []
  if (end.number === 0)
    openings.push({
      ...own,
      action: 'began',
      after: canonicalJson(await recordsWithoutEntry(connection)),
      why: 'Everything that changes from here on is in this record.',
    })
  const mismatch = (await headBreak(dataFile, connection, end))?.sentence ?? headMissing(dataFile, end)
  if (mismatch !== null) openings.push({ ...own, action: 'mismatch', after: null, why: mismatch })
  return openings
}

/** That nobody could tell at this start whether an end was cut off: the next note would hide it. Null: it was noted. */
const headMissing = (dataFile: string, end: ChainHead): string | null =>
  end.number === 0 || isHeadNoted(dataFile)
    ? null
    : `Where the record ended was not noted outside the data file any more: whether entries after ${end.number} were cut off could not be told.`

/** Whether there is a note, readable or not. */
export function isHeadNoted(dataFile: string): boolean {
  try {
    return readAuditHead(dataFile) !== null
  } catch {
    return true
  }
}

/** What does not fit between the end of the record and what was noted of it outside; null: it fits, or nothing was noted. */
export async function headBreak(
  dataFile: string,
  connection: DuckDBConnection,
  end: ChainHead,
): Promise<ChainBreak | null> {
  let known: ChainHead | null
  try {
    known = readAuditHead(dataFile)
  } catch (cause) {
    const sentence = wordsOfFailure(cause)
    return { kind: 'cut-off', number: end.number + 1, sentence }
  }
  return known === null ? null : breakFromHead(connection, end, known)
}

/** What does not fit between the end of the record and an end that is known from elsewhere. */
export async function breakFromHead(
  connection: DuckDBConnection,
  end: ChainHead,
  known: ChainHead,
): Promise<ChainBreak | null> {
  const [there] = await selectEntries(
    connection,
    'number = $number',
    { number: known.number },
    { newestFirst: true, limit: 1 },
  )
  return compareHead(end, known, there?.hash ?? null)
}
