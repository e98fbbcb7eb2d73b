import type { Conflict, Quarantined } from '#contract/receipt.ts'
import { thisServer } from '#domain/audit/audit-entry.ts'
import { entryOfReceipt, insertReceipt, nextBatch, selectReceipts } from './batch-rows.ts'
import { openBatchWriter } from './batch-writer.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import type { BatchWriter, Store } from './store.ts'
import { createStoredSpans } from './stored-spans.ts'

type BatchVerbs = Pick<
  Store,
  | 'beginBatch'
  | 'refuseBatch'
  | 'findTaken'
  | 'listBatches'
  | 'listQuarantined'
  | 'listConflicts'
  | 'supersedeBatch'
>

/** Batches: files taken in, what was set aside of them, and where they disagree with what was there. */
export function createBatches(
  file: DuckdbFile,
  numbering: Numbering,
): BatchVerbs & { abandonAll(): Promise<void> } {
  const stored = createStoredSpans()
  const open = new Set<BatchWriter>()
  return {
    async beginBatch(head) {
      const writer = await openBatchWriter(file, numbering, stored, head, () => open.delete(writer))
      open.add(writer)
      return writer
    },

    async abandonAll() {
      await Promise.all([...open].map((writer) => writer.abandon()))
    },

    async refuseBatch(head, message) {
      const site = await numbering.siteNumber(head.site)
      return file.transact(async (connection) => {
        const receipt = {
          ...head,
          batch: await nextBatch(connection, site),
          outcome: 'refused' as const,
          message,
          accepted: 0,
          repeated: 0,
          conflicting: 0,
          quarantined: 0,
          absent: 0,
          firstEpochMs: null,
          lastEpochMs: null,
        }
        await insertReceipt(connection, site, receipt)
        await file.audit.append(connection, [entryOfReceipt(receipt)])
        return receipt
      })
    },

    async findTaken(slug, sha256) {
      const site = await numbering.findSite(slug)
      if (site === null) return null
      const where = `outcome = 'taken' AND sha256 = $sha256`
      return (await selectReceipts(file.reader, slug, site, where, { sha256 }))[0] ?? null
    },

    async listBatches(slug) {
      const site = await numbering.findSite(slug)
      return site === null ? [] : selectReceipts(file.reader, slug, site)
    },

    async listQuarantined(slug, batch) {
      const site = await numbering.findSite(slug)
      if (site === null) return []
      return queryRows<Quarantined>(
        file.reader,
        `SELECT batch, line, "column", code, message, value, readings FROM quarantined q
         WHERE site = $site AND ${
           batch === undefined
             ? 'NOT EXISTS (SELECT 1 FROM superseded s WHERE s.site = q.site AND s.batch = q.batch)'
             : 'batch = $batch'
         } ORDER BY batch, line, rowid`,
        batch === undefined ? { site } : { site, batch },
      )
    },

    async listConflicts(slug) {
      const site = await numbering.findSite(slug)
      if (site === null) return []
      return queryRows<Conflict>(
        file.reader,
        `SELECT f.batch, n.logger, n.name AS channel, epoch_us(f."at") / 1000 AS "atEpochMs",
           f.kept_raw AS "keptRaw", f.offered_raw AS "offeredRaw"
         FROM conflict f JOIN channel n ON n.site = f.site AND n.number = f.channel
         WHERE f.site = $site ORDER BY f.batch, f."at", f.channel, f.offered_raw`,
        { site },
      )
    },

    async supersedeBatch(slug, batch, by) {
      const site = await numbering.siteNumber(slug)
      await file.transact(async (connection) => {
        const known = await selectReceipts(connection, slug, site, 'number IN ($batch, $by)', { batch, by })
        if (known.length !== 2 || by <= batch)
          throw new Error(
            `Batch ${batch} of ${slug} cannot be superseded by ${by}: both must exist, the later by the number.`,
          )
        const added = await connection.run(
          'INSERT INTO superseded VALUES ($site, $batch, $by) ON CONFLICT DO NOTHING',
          { site, batch, by },
        )
        if (added.rowsChanged === 0) return
        await file.audit.append(connection, [
          {
            site: slug,
            atEpochMs: known[1]?.receivedAtEpochMs ?? 0,
            account: null,
            name: thisServer,
            action: 'replaced',
            subjectKind: 'batch',
            subjectKey: String(batch),
            version: null,
            before: null,
            after: canonicalJson({ byBatch: by }),
            why: 'The same file was taken in again.',
          },
        ])
      })
    },
  }
}
