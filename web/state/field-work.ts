import { createSignal } from 'solid-js'
import type { StoredFieldEntry } from '#contract/field-entry.ts'
import type { FieldBody } from '#domain/field/field-bodies.ts'
import type { DevicePosition, FieldEntry } from '#domain/field/field-entry.ts'
import { fieldDatabase, type OwnEntry } from '../offline/field-database.ts'
import { writeEntry } from '../offline/write-entry.ts'
import { isFrozen } from './frozen.ts'

/** An entry as this device knows it: what the server has of it, where it stands in the outbox, or both. */
export interface KnownEntry {
  readonly entry: FieldEntry
  /** Null: another device wrote it. */
  readonly own: OwnEntry | null
  /** Null: the server's list does not have it yet. */
  readonly stored: StoredFieldEntry | null
}

/** What of this device's work the server has not confirmed. */
export interface WaitingWork {
  /** Entries of the open site on their way. */
  readonly entries: number
  /** Photos and files of the open site on their way; their entries may have arrived. */
  readonly files: number
  /** Entries and files that the server would not take, or has otherwise: a person decides. */
  readonly stuck: number
  /** Entries of other sites: they go when their site is open. */
  readonly elsewhere: number
}

const [knownEntries, setKnownEntries] = createSignal<readonly KnownEntry[]>([])
const [waiting, setWaiting] = createSignal<WaitingWork>({ entries: 0, files: 0, stuck: 0, elsewhere: 0 })
const [refusedFiles, setRefusedFiles] = createSignal<ReadonlyMap<string, string>>(new Map())
const [clockAhead, setClockAhead] = createSignal<number | null>(null)
const [lastSynchronised, setLastSynchronised] = createSignal<number | null>(null)

export {
  /** How far this device's clock is ahead of the server's, by the last answer; negative: behind; null: not known. */
  clockAhead as clockAheadMs,
  /** Everything written at the open site that this device knows of, oldest first. */
  knownEntries,
  /** When (this device's clock) all that waited was last delivered and the server's list read; null: never. */
  lastSynchronised as lastSynchronisedEpochMs,
  /** Why the server would not take a photo or file of this device, by its SHA-256. */
  refusedFiles,
  waiting as waitingWork,
}

/** How many entries and files exist on this device alone. */
export const waitingCount = (): number => {
  const { entries, files, stuck, elsewhere } = waiting()
  return entries + files + stuck + elsewhere
}

/** How many entries of this device, at whichever site, the server has not confirmed. */
export async function waitingOnDevice(): Promise<number> {
  const own = await (await fieldDatabase()).getAll('own')
  return own.filter(({ delivery }) => delivery !== 'delivered').length
}

/** Reads what the device knows of a site's field work again: after something was written, sent or received. */
export async function readKnownEntries(site: string): Promise<void> {
  // Field work is no part of frozen data, and this device knows what was written since.
  if (isFrozen()) return
  const database = await fieldDatabase()
  const [received, own, synchronised, files, refused, ahead] = await Promise.all([
    database.getAll('received', IDBKeyRange.bound([site, 0], [site, Number.POSITIVE_INFINITY])),
    database.getAll('own'),
    database.get('facts', `synchronised ${site}`),
    database.countFromIndex('attachments', 'delivery', [site, 'waiting']),
    database.getAllFromIndex('attachments', 'delivery', [site, 'refused']),
    database.get('facts', 'clock-ahead'),
  ])
  const known = new Map<string, KnownEntry>()
  for (const stored of received) known.set(keyOf(stored), { entry: stored.entry, own: null, stored })
  for (const one of own) {
    if (one.entry.site !== site) continue
    const stored = known.get(one.entry.id)?.stored ?? null
    known.set(one.entry.id, { entry: one.entry, own: one, stored })
  }
  setKnownEntries([...known.values()].sort((a, b) => a.entry.writtenAtEpochMs - b.entry.writtenAtEpochMs))
  const here = own.filter(({ entry }) => entry.site === site)
  setWaiting({
    entries: here.filter(({ delivery }) => delivery === 'waiting').length,
    files,
    stuck:
      refused.length +
      here.filter(({ delivery }) => delivery === 'differs' || delivery === 'unreadable').length,
    elsewhere: own.filter(({ entry, delivery }) => entry.site !== site && delivery === 'waiting').length,
  })
  setRefusedFiles(new Map(refused.map((file) => [file.sha256, file.refused ?? ''])))
  setClockAhead((ahead as number | undefined) ?? null)
  setLastSynchronised((synchronised as number | undefined) ?? null)
}

/**
 * Lets what the server would not take try once more: a newer server, or one with more room, may take it. Entries that
 * differ from others of their id are not sent again: both are there already.
 */
export async function tryStuckAgain(site: string): Promise<void> {
  const database = await fieldDatabase()
  const transaction = database.transaction(['own', 'attachments'], 'readwrite')
  const [own, files] = [transaction.objectStore('own'), transaction.objectStore('attachments')]
  for (const one of await own.index('delivery').getAll([site, 'unreadable']))
    await own.put({ ...one, delivery: 'waiting', problem: null })
  for (const file of await files.index('delivery').getAll([site, 'refused']))
    await files.put({ ...file, delivery: 'waiting', refused: null })
  await transaction.done
  await readKnownEntries(site)
}

/** Two entries that came with one id are two. */
const keyOf = ({ entry, differs, number }: StoredFieldEntry) => (differs ? `${entry.id} ${number}` : entry.id)

/** The page knows more of its own position than an entry holds; the server takes no entry with more. */
const positionOf = ({ eastingMetres, northingMetres, accuracyMetres }: DevicePosition): DevicePosition => ({
  eastingMetres,
  northingMetres,
  accuracyMetres,
})

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
    position: draft.position ? positionOf(draft.position) : null,
    files: draft.files ?? [],
    writtenAtEpochMs: Date.now(),
  })
  await readKnownEntries(draft.site)
  dispatchEvent(new CustomEvent('field-work-written'))
  return entry
}
