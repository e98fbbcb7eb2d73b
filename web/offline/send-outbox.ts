import { mostEntriesAtOnce } from '#contract/field-entry.ts'
import type { Delivery, FieldStore } from './field-database.ts'
import { type FieldServer, problemOf } from './field-server.ts'

export interface SendingProgress {
  readonly done: number
  readonly total: number
}

export interface SendingRequest {
  readonly site: string
  readonly database: FieldStore
  readonly server: FieldServer
  readonly now: () => number
  readonly onProgress?: (progress: SendingProgress) => void
  readonly signal?: AbortSignal
}

/**
 * Sends what waits for one site, then reads what the server has. Entries go before their files, in the order in which
 * they were written: a reading is not to wait for a photo. Everything can be sent again: the server knows each entry
 * by its id and each file by its bytes. Rejects at the first question that gets no answer; what was
 * confirmed by then stays confirmed, the rest waits.
 */
export async function sendOutbox(request: SendingRequest): Promise<void> {
  const { site, database, now, onProgress } = request
  const entries = (await database.getAllFromIndex('own', 'delivery', [site, 'waiting'])).sort(
    (a, b) => a.entry.sequence - b.entry.sequence,
  )
  const files = await database.getAllKeysFromIndex('attachments', 'delivery', [site, 'waiting'])
  const total = entries.length + files.length
  let done = 0
  const advance = (by: number) => {
    done += by
    onProgress?.({ done, total })
  }
  if (total > 0) advance(0)
  for (let from = 0; from < entries.length; from += mostEntriesAtOnce)
    advance(await sendEntries(request, entries.slice(from, from + mostEntriesAtOnce)))
  for (const sha256 of files) {
    await sendFile(request, sha256)
    advance(1)
  }
  await receive(request)
  await database.put('facts', now(), `synchronised ${site}`)
}

async function sendEntries(
  { site, database, server, now, signal }: SendingRequest,
  batch: readonly { readonly entry: Parameters<FieldServer['send']>[1][number] }[],
): Promise<number> {
  const askedAtEpochMs = now()
  const { results, serverEpochMs } = await server.send(
    site,
    batch.map(({ entry }) => entry),
    signal,
  )
  const answeredAtEpochMs = now()
  await database.put('facts', (askedAtEpochMs + answeredAtEpochMs) / 2 - serverEpochMs, 'clock-ahead')
  const transaction = database.transaction('own', 'readwrite')
  for (const result of results) {
    const own = await transaction.store.get(result.id)
    if (!own) continue
    const delivery: Delivery =
      result.outcome === 'accepted' || result.outcome === 'repeated' ? 'delivered' : result.outcome
    await transaction.store.put({
      ...own,
      delivery,
      problem: problemOf(result),
      deliveredAtEpochMs: delivery === 'unreadable' ? null : answeredAtEpochMs,
    })
  }
  await transaction.done
  return batch.length
}

async function sendFile({ site, database, server, signal }: SendingRequest, sha256: string): Promise<void> {
  const file = await database.get('attachments', sha256)
  if (!file) return
  // An answer may have been lost on the way back: asking costs less than sending a photo twice.
  const isThere = file.tried && (await server.hasAttachment(site, sha256, signal))
  if (!file.tried) await database.put('attachments', { ...file, tried: true })
  const refused = isThere ? null : await server.sendAttachment(file, signal)
  if (refused === null) await database.delete('attachments', sha256)
  else await database.put('attachments', { ...file, delivery: 'refused', refused })
}

/** Takes in what the server has since last time. */
async function receive({ site, database, server, now, signal }: SendingRequest): Promise<void> {
  const after = ((await database.get('facts', `latest ${site}`)) as number | undefined) ?? 0
  const askedAtEpochMs = now()
  const document = await server.receive(site, after, signal)
  const clockAheadMs = (askedAtEpochMs + now()) / 2 - document.serverEpochMs
  const transaction = database.transaction(['received', 'facts'], 'readwrite')
  for (const stored of document.entries) await transaction.objectStore('received').put({ ...stored, site })
  await transaction.objectStore('facts').put(document.latest, `latest ${site}`)
  await transaction.objectStore('facts').put(clockAheadMs, 'clock-ahead')
  await transaction.done
}
