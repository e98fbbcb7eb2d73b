import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { StoredFieldEntry } from '#contract/field-entry.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'

/**
 * Where an entry of this device stands. `unreadable` and `differs` stay here, are shown, and are never sent again by
 * themselves: a person decides.
 */
export type Delivery = 'waiting' | 'delivered' | 'differs' | 'unreadable'

/** An entry written on this device, in its outbox for good: delivered ones are let go only once the server's list has them. */
export interface OwnEntry {
  readonly entry: FieldEntry
  readonly delivery: Delivery
  /** What the server said against it; null: nothing. */
  readonly problem: string | null
  readonly deliveredAtEpochMs: number | null
}

/** Bytes that the server does not have: it keeps what it confirms, and they are let go of here. */
export interface KeptAttachment {
  readonly sha256: string
  readonly site: string
  readonly mediaType: string
  /** Bytes rather than a Blob: some browsers lose blobs that were kept across a restart. */
  readonly bytes: ArrayBuffer
  /** `refused`: the server will not take it, however often it is sent; it stays here and is shown. */
  readonly delivery: 'waiting' | 'refused'
  /** It was sent before, and the answer may have been lost. */
  readonly tried: boolean
  /** Why it was refused. */
  readonly refused: string | null
}

interface FieldDatabase extends DBSchema {
  own: { key: string; value: OwnEntry; indexes: { delivery: [site: string, Delivery] } }
  attachments: {
    key: string
    value: KeptAttachment
    indexes: { delivery: [site: string, KeptAttachment['delivery']] }
  }
  /** What the server had when last asked, other devices' entries too. */
  received: { key: [site: string, number: number]; value: StoredFieldEntry & { readonly site: string } }
  /** Small facts: device id, counters, when what was last synchronised. */
  facts: { key: string; value: unknown }
}

export type FieldStore = IDBPDatabase<FieldDatabase>

let opening: Promise<FieldStore> | null = null

/** The device's own store of field work; opened once. Rejects where the browser keeps nothing (private windows). */
export function fieldDatabase(): Promise<FieldStore> {
  opening ??= openDB<FieldDatabase>('stillground-field', 1, {
    upgrade(database) {
      database
        .createObjectStore('own', { keyPath: 'entry.id' })
        .createIndex('delivery', ['entry.site', 'delivery'])
      database
        .createObjectStore('attachments', { keyPath: 'sha256' })
        .createIndex('delivery', ['site', 'delivery'])
      database.createObjectStore('received', { keyPath: ['site', 'number'] })
      database.createObjectStore('facts')
    },
    // Another tab brings a newer layout: this one lets go, and asks anew with its next question.
    blocking: (_from, _to, event) => {
      opening = null
      ;(event.target as IDBDatabase).close()
    },
    terminated: () => {
      opening = null
    },
  }).catch((cause) => {
    opening = null
    throw cause
  })
  return opening
}
