import type { DuckDBConnection } from '@duckdb/node-api'
import type { Quarantined, Receipt } from '#contract/receipt.ts'
import { assert } from '#domain/assert.ts'
import { addReadings } from './add-readings.ts'
import { entryOfReceipt, insertReceipt, nextBatch } from './batch-rows.ts'
import { logChange } from './changes.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import { openStage, type StagedReadings } from './staged-readings.ts'
import type { BatchHead, BatchWriter } from './store.ts'
import type { StoredSpans } from './stored-spans.ts'

/** Entries handed to DuckDB in one statement. */
const quarantineSlice = 5000

/**
 * A batch being written, on a connection of its own: what is appended lies in temporary tables, which are
 * outside the data file and its log, until the commit moves it in one transaction.
 */
export async function openBatchWriter(
  file: DuckdbFile,
  numbering: Numbering,
  stored: StoredSpans,
  head: BatchHead,
  onEnd: () => void,
): Promise<BatchWriter> {
  const site = await numbering.siteNumber(head.site)
  const connection = await file.connect()
  const stage = await openStage(connection)
  await connection.run(
    'CREATE TEMP TABLE aside (line BIGINT, "column" VARCHAR, code VARCHAR, message VARCHAR, value VARCHAR, readings BIGINT)',
  )
  let state: 'open' | 'committing' | 'ended' = 'open'
  const end = () => {
    if (state === 'ended') return
    state = 'ended'
    connection.closeSync()
    onEnd()
  }

  return {
    async append(block) {
      assert(state === 'open', `append to a batch of ${head.fileName} that is ${state}`)
      if (block.count > 0) await stage.append(block, await numbering.highestChannel(site))
    },

    async quarantine(entries) {
      assert(state === 'open', `quarantine in a batch of ${head.fileName} that is ${state}`)
      for (let from = 0; from < entries.length; from += quarantineSlice)
        await setAside(connection, entries.slice(from, from + quarantineSlice))
    },

    async commit({ absent, message = null }: { absent: number; message?: string | null }) {
      assert(state === 'open', `commit of a batch of ${head.fileName} that is ${state}`)
      state = 'committing'
      // From here on it ends by itself: closing the store waits for it instead of abandoning it.
      onEnd()
      try {
        const receipt = await file.transact(
          async () =>
            commitBatch(file, connection, site, head, stage, await stored.of(connection, site), {
              absent,
              message,
            }),
          connection,
        )
        stored.widen(site, stage.spans)
        return receipt
      } catch (cause) {
        stored.forget(site)
        throw new Error(
          `The batch of ${head.fileName} was not stored; nothing of it remains. Offer the file again.`,
          {
            cause,
          },
        )
      } finally {
        end()
      }
    },

    async abandon() {
      assert(state !== 'committing', `abandon of a batch of ${head.fileName} that is being committed`)
      end()
    },
  }
}

async function commitBatch(
  file: DuckdbFile,
  connection: DuckDBConnection,
  site: number,
  head: BatchHead,
  stage: StagedReadings,
  stored: Parameters<typeof addReadings>[4],
  { absent, message }: { absent: number; message: string | null },
): Promise<Receipt> {
  const batch = await nextBatch(connection, site)
  const { spans } = stage
  const { acceptedRange, ...counts } = await addReadings(connection, site, batch, spans, stored)
  const [aside] = await queryRows<{ entries: number; readings: number }>(
    connection,
    'SELECT count(*) AS entries, coalesce(sum(readings), 0)::BIGINT AS readings FROM temp.aside',
  )
  const entries = aside?.entries ?? 0
  if (entries > 0)
    await connection.run(
      `INSERT INTO quarantined SELECT ${site}, ${batch}, line, "column", code, message, value, readings FROM temp.aside`,
    )
  const receipt: Receipt = {
    ...head,
    batch,
    outcome: entries === 0 ? 'taken' : 'taken-in-part',
    message,
    ...counts,
    quarantined: aside?.readings ?? 0,
    absent,
    firstEpochMs: spans.count === 0 ? null : spans.firstMicros / 1000,
    lastEpochMs: spans.count === 0 ? null : spans.lastMicros / 1000,
  }
  await insertReceipt(connection, site, receipt)
  await file.audit.append(connection, [entryOfReceipt(receipt)])
  if (acceptedRange !== null) await logChange(connection, site, { batch, ...acceptedRange })
  return receipt
}

async function setAside(
  connection: DuckDBConnection,
  entries: readonly Omit<Quarantined, 'batch'>[],
): Promise<void> {
  const shape =
    '[{"line":"BIGINT","column":"VARCHAR","code":"VARCHAR","message":"VARCHAR","value":"VARCHAR","readings":"BIGINT"}]'
  await connection.run(
    `INSERT INTO temp.aside SELECT line, "column", code, message, value, readings
     FROM (SELECT unnest(from_json($entries, '${shape}'), recursive := true))`,
    { entries: JSON.stringify(entries) },
  )
}
