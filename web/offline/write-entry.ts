import { entrySubject } from '#domain/field/entry-subject.ts'
import type { FieldBody } from '#domain/field/field-bodies.ts'
import type { Attachment, DevicePosition, FieldEntry } from '#domain/field/field-entry.ts'
import { latestIds } from '#domain/field/standing-entries.ts'
import { fieldDatabase, type KeptAttachment } from './field-database.ts'

export interface EntryDraft {
  readonly site: string
  readonly body: FieldBody
  readonly author: string
  readonly position: DevicePosition | null
  readonly files: readonly File[]
  readonly writtenAtEpochMs: number
}

/**
 * Writes an entry and its files into this device's outbox, all of it or nothing, and returns it as it will be sent.
 * Rejects with the browser's `QuotaExceededError` where there is no room: nothing was written then.
 */
export async function writeEntry(draft: EntryDraft): Promise<FieldEntry> {
  const database = await fieldDatabase()
  // Hashed before the transaction is opened: one that waits for anything else is closed by the browser.
  const kept = await Promise.all(draft.files.map((file) => keepable(file, draft.site)))
  const id = crypto.randomUUID()
  const transaction = database.transaction(['own', 'attachments', 'received', 'facts'], 'readwrite')
  const facts = transaction.objectStore('facts')
  const device = ((await facts.get('device')) as string | undefined) ?? crypto.randomUUID()
  const sequence = (((await facts.get('sequence')) as number | undefined) ?? 0) + 1
  const clockAheadMs = ((await facts.get('clock-ahead')) as number | undefined) ?? null
  const subject = entrySubject({ id, body: draft.body })
  const written =
    subject === id
      ? []
      : [
          ...(await transaction.objectStore('received').getAll()),
          ...(await transaction.objectStore('own').getAll()),
        ].map(({ entry }) => entry)
  const entry: FieldEntry = {
    id,
    site: draft.site,
    follows: latestIds(
      written.filter(({ site }) => site === draft.site),
      subject,
    ),
    body: draft.body,
    author: draft.author.trim(),
    device,
    sequence,
    writtenAtEpochMs: draft.writtenAtEpochMs,
    clockAheadMs,
    position: draft.position,
    attachments: kept.map(({ attachment }) => attachment),
  }
  try {
    await Promise.all([
      facts.put(device, 'device'),
      facts.put(sequence, 'sequence'),
      ...kept.map(({ row }) => transaction.objectStore('attachments').put(row)),
      transaction
        .objectStore('own')
        .add({ entry, delivery: 'waiting', problem: null, deliveredAtEpochMs: null }),
      transaction.done,
    ])
  } catch (cause) {
    // What had been asked for before it failed must not stay behind.
    try {
      transaction.abort()
    } catch {
      // It has ended by itself.
    }
    throw cause
  }
  return entry
}

async function keepable(
  file: File,
  site: string,
): Promise<{ readonly attachment: Attachment; readonly row: KeptAttachment }> {
  const bytes = await file.arrayBuffer()
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  const sha256 = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  const mediaType = file.type || 'application/octet-stream'
  return {
    attachment: { sha256, bytes: bytes.byteLength, mediaType, name: file.name },
    row: { sha256, site, mediaType, bytes, delivery: 'waiting', refused: null, tried: false },
  }
}
