import { createAccessKeys } from './access-keys.ts'
import { createAccounts } from './accounts.ts'
import { createAlertEvents } from './alert-events.ts'
import { createAttachments } from './attachments.ts'
import { createAudit } from './audit.ts'
import { createBatches } from './batches.ts'
import { readArrived, readRevision, readTouched } from './changes.ts'
import { createDecidedProposals } from './decided-proposals.ts'
import { type DuckdbFileOptions, openDuckdbFile } from './duckdb-file.ts'
import { exposeReadings } from './expose-readings.ts'
import { createFieldEntries } from './field-entries.ts'
import { createFrozenSets } from './frozen-sets.ts'
import { createIssuedReports } from './issued-reports.ts'
import { createNumbering } from './numbering.ts'
import { createPushSubscriptions } from './push-subscriptions.ts'
import { createRecords } from './records.ts'
import { createSessions } from './sessions.ts'
import type { Store } from './store.ts'
import { createWebhooks } from './webhooks.ts'

/**
 * Opens the embedded store: one DuckDB file, one process. Throws `StoreInUse` when another process, or this
 * one, has it open. Every acknowledged write has reached the disk (write-ahead log, flushed at COMMIT);
 * the log is folded into the tables whenever it passes 16 MB and by `close`. What a kill left is put right first.
 */
export async function openDuckdbStore(options: DuckdbFileOptions): Promise<Store> {
  const file = await openDuckdbFile(options)
  const numbering = createNumbering(file)
  const { abandonAll, ...batches } = createBatches(file, numbering)
  return {
    ...createRecords(file, numbering),
    ...batches,
    ...createFieldEntries(file, numbering),
    ...createAttachments(file, numbering),
    ...createAlertEvents(file, numbering),
    ...createDecidedProposals(file, numbering),
    ...createFrozenSets(file, numbering),
    ...createIssuedReports(file, numbering),
    ...createAccounts(file),
    ...createSessions(file),
    ...createWebhooks(file, numbering),
    ...createPushSubscriptions(file),
    ...createAudit(file),
    ...createAccessKeys(file),
    channelNumbers: numbering.channelNumbers,
    seriesNumbers: numbering.seriesNumbers,
    listChannels: numbering.listChannels,

    async revision(slug) {
      const site = await numbering.findSite(slug)
      return site === null ? 0 : readRevision(file.reader, site)
    },
    async touchedSince(slug, revision) {
      const site = await numbering.findSite(slug)
      return site === null ? null : readTouched(file.reader, site, revision)
    },
    async arrivedSince(slug, revision) {
      const site = await numbering.findSite(slug)
      return site === null
        ? { revision, channels: [], recordsChanged: false }
        : readArrived(file.reader, site, revision)
    },

    async exposeReadings(connection, name, window) {
      await exposeReadings(connection, file.catalog, await numbering.findSite(window.site), name, window)
    },
    connect: () => file.connect(),

    async close() {
      await abandonAll()
      await file.close()
    },
  }
}
