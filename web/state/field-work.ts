import { createSignal } from 'solid-js'
import type { StoredFieldEntry } from '#contract/field-entry.ts'
import type { FieldBody } from '#domain/field/field-bodies.ts'
import type { DevicePosition, FieldEntry } from '#domain/field/field-entry.ts'
import { fieldDatabase, type OwnEntry } from '../offline/field-database.ts'
import { writeEntry } from '../offline/write-entry.ts'

/** An entry as this device knows it: what the server has of it, where it stands in the outbox, or both. */
export interface KnownEntry {
  readonly entry: FieldEntry
  /** Null: another device wrote it. */
  readonly own: OwnEntry | null
  /** Null: the server's list does not have it yet. */
  readonly stored: StoredFieldEntry | null
}

const [knownEntries, setKnownEntries] = createSignal<readonly KnownEntry[]>([])
const [lastSynchronised, setLastSynchronised] = createSignal<number | null>(null)

export {
  /** Everything written at the open site that this device knows of, oldest first. */
  knownEntries,
  /** When (this device's clock) all that waited was last delivered and the server's list read; null: never. */
  lastSynchronised as lastSynchronisedEpochMs,
}

/** How many entries of this device, at the open site, the server has not confirmed. */
export const waitingCount = (): number =>
  knownEntries().filter(({ own }) => own !== null && own.delivery !== 'delivered').length

/** How many entries of this device, at whichever site, the server has not confirmed. */
export async function waitingOnDevice(): Promise<number> {
  const own = await (await fieldDatabase()).getAll('own')
  return own.filter(({ delivery }) => delivery !== 'delivered').length
}

/** Reads what the device knows of a site's field work again: after something was written, sent or received. */
export async function readKnownEntries(site: string): Promise<void> {
  const database = await fieldDatabase()
  const [received, own, synchronised] = await Promise.all([
    database.getAll('received', IDBKeyRange.bound([site, 0], [site, Number.POSITIVE_INFINITY])),
    database.getAll('own'),
    database.get('facts', `synchronised ${site}`),
  ])
  const known = new Map<string, KnownEntry>()
  for (const stored of received) known.set(keyOf(stored), { entry: stored.entry, own: null, stored })
  for (const one of own) {
    if (one.entry.site !== site) continue
    const stored = known.get(one.entry.id)?.stored ?? null
    known.set(one.entry.id, { entry: one.entry, own: one, stored })
  }
  setKnownEntries([...known.values()].sort((a, b) => a.entry.writtenAtEpochMs - b.entry.writtenAtEpochMs))
  setLastSynchronised((synchronised as number | undefined) ?? null)
}

/** Two entries that came with one id are two. */
const keyOf = ({ entry, differs, number }: StoredFieldEntry) => (differs ? `${entry.id} ${number}` : entry.id)

/** Writes an entry into the outbox and shows it at once. Sending goes on by itself. */
export async function writeDown(draft: {
  readonly site: string
  readonly body: FieldBody
  readonly author: string
  readonly position?: DevicePosition | null
  readonly files?: readonly File[]
}): Promise<FieldEntry> {
  const entry = await writeEntry({
    ...draft,
    position: draft.position ?? null,
    files: draft.files ?? [],
    writtenAtEpochMs: Date.now(),
  })
  await readKnownEntries(draft.site)
  dispatchEvent(new CustomEvent('field-work-written'))
  return entry
}
