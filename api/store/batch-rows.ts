import type { DuckDBConnection } from '@duckdb/node-api'
import type { Receipt } from '#contract/receipt.ts'
import type { AuditDraft } from '#domain/audit/audit-entry.ts'
import { canonicalJson } from './model-records.ts'
import { queryRows } from './query-rows.ts'

/** Number for the next batch of a site, inside the transaction that writes it. */
export async function nextBatch(connection: DuckDBConnection, site: number): Promise<number> {
  const [row] = await queryRows<{ next: number }>(
    connection,
    'SELECT coalesce(max(number), 0) + 1 AS next FROM batch WHERE site = $site',
    { site },
  )
  return row?.next ?? 1
}

export async function insertReceipt(
  connection: DuckDBConnection,
  site: number,
  receipt: Receipt,
): Promise<void> {
  const { firstEpochMs, lastEpochMs } = receipt
  await connection.run(
    `INSERT INTO batch VALUES ($site, $batch, $fileName, $sha256, $bytes, epoch_ms($received::BIGINT), $from,
       $layout, $layoutVersion, $outcome, $message, $accepted, $repeated, $conflicting, $quarantined, $absent,
       make_timestamp($first::BIGINT), make_timestamp($last::BIGINT))`,
    {
      site,
      batch: receipt.batch,
      fileName: receipt.fileName,
      sha256: receipt.sha256,
      bytes: receipt.bytes,
      received: Math.round(receipt.receivedAtEpochMs),
      from: receipt.from,
      layout: receipt.layout,
      layoutVersion: receipt.layoutVersion,
      outcome: receipt.outcome,
      message: receipt.message,
      accepted: receipt.accepted,
      repeated: receipt.repeated,
      conflicting: receipt.conflicting,
      quarantined: receipt.quarantined,
      absent: receipt.absent,
      first: firstEpochMs === null ? null : Math.round(firstEpochMs * 1000),
      last: lastEpochMs === null ? null : Math.round(lastEpochMs * 1000),
    },
  )
}

/** What the audit record says of a batch that was taken or refused. */
export const entryOfReceipt = ({
  site,
  batch,
  receivedAtEpochMs,
  from,
  message,
  ...facts
}: Receipt): AuditDraft => ({
  site,
  atEpochMs: receivedAtEpochMs,
  account: null,
  name: from,
  action: facts.outcome === 'refused' ? 'refused' : 'taken',
  subjectKind: 'batch',
  subjectKey: String(batch),
  version: null,
  before: null,
  after: canonicalJson(facts),
  why: message ?? '',
})

/** Receipts of a site in the order of commit; `where` narrows them by columns of `batch`. */
export async function selectReceipts(
  connection: DuckDBConnection,
  slug: string,
  site: number,
  where = 'true',
  values: Record<string, string | number> = {},
): Promise<Receipt[]> {
  const rows = await queryRows<Omit<Receipt, 'site'>>(
    connection,
    `SELECT number AS batch, file_name AS "fileName", sha256, bytes, epoch_ms(received_at) AS "receivedAtEpochMs",
       sender AS "from", layout, layout_version AS "layoutVersion", outcome, message,
       accepted, repeated, conflicting, quarantined, absent,
       epoch_us(first_at) / 1000 AS "firstEpochMs", epoch_us(last_at) / 1000 AS "lastEpochMs"
     FROM batch WHERE site = $site AND ${where} ORDER BY number`,
    { site, ...values },
  )
  return rows.map((row) => ({ ...row, site: slug }))
}
