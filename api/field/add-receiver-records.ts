import { createHash } from 'node:crypto'
import type { ReceiverRecords } from '#contract/receiver-records.ts'
import type { ReceiverRecordBody } from '#domain/field/field-bodies.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { latestIds } from '#domain/field/standing-entries.ts'
import { type Outcome, reject } from '#domain/outcome.ts'
import type { Store } from '../store/store.ts'
import { readReceiverRecords } from './read-receiver-records.ts'

export interface RecordsFile {
  readonly site: string
  readonly fileName: string
  readonly author: string
  readonly bytes: Uint8Array
  readonly atEpochMs: number
}

/**
 * The entries that a receiver's file becomes, one a test, each following what stands on its test. Ids are made of the
 * file and the test, so that the same file sent again adds nothing. `keep` keeps the bytes before the first entry.
 */
export async function addReceiverRecords(
  store: Store,
  { site, fileName, author, bytes, atEpochMs }: RecordsFile,
  keep: (sha256: string) => Promise<unknown>,
): Promise<Outcome<ReceiverRecords>> {
  const text = readText(fileName, bytes)
  if (!text.ok) return text
  const bodies = readReceiverRecords(fileName, text.value)
  if (!bodies.ok) return bodies
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  await keep(sha256)
  const { entries } = await store.listFieldEntries(site, 0)
  const known = entries.map(({ entry }) => entry)
  const device = uuidOf('desk', site)
  let sequence = known.filter((one) => one.device === device).length
  const made = bodies.value.map((body: ReceiverRecordBody): FieldEntry => {
    const id = uuidOf('receiver record', site, sha256, body.test)
    const before = known.find((one) => one.id === id)
    if (before) return before
    sequence += 1
    return {
      id,
      site,
      follows: latestIds(known, `receiver-record:${body.test}`),
      body,
      author,
      device,
      sequence,
      writtenAtEpochMs: atEpochMs,
      clockAheadMs: 0,
      position: null,
      attachments: [{ sha256, bytes: bytes.length, mediaType: 'text/csv', name: fileName }],
    }
  })
  const outcomes = await store.addFieldEntries(site, made, atEpochMs, author)
  return {
    ok: true,
    value: {
      sha256,
      records: bodies.value.map(({ test }, i) => ({
        test,
        id: made[i]?.id ?? '',
        outcome: outcomes[i] ?? 'accepted',
      })),
    },
  }
}

function readText(file: string, bytes: Uint8Array): Outcome<string> {
  try {
    return { ok: true, value: new TextDecoder('utf-8', { fatal: true }).decode(bytes) }
  } catch {
    return reject({
      code: 'encoding',
      file,
      expected: 'UTF-8',
      message: 'The file is not UTF-8 text. Save it as CSV in UTF-8, then send that.',
    })
  }
}

/** A UUID (RFC 9562, version 8) that stands for these words and no others. */
function uuidOf(...words: readonly string[]): string {
  const hex = createHash('sha256').update(JSON.stringify(words)).digest('hex')
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`
}
