import type { FieldDocument, FieldResult, StoredFieldEntry } from '#contract/field-entry.ts'
import type { ReceiverRecords } from '#contract/receiver-records.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { Intake } from '../intake/create-intake.ts'
import { keptPath } from '../intake/keep-file.ts'
import type { Publisher } from '../slices/publisher.ts'
import type { HeldAttachment, Store } from '../store/store.ts'
import { addReceiverRecords, type RecordsFile } from './add-receiver-records.ts'
import { agreedMediaType } from './agreed-media-type.ts'
import { idOf, judgeEntry } from './judge-entry.ts'
import { type AttachmentKeeping, keepAttachmentBytes } from './keep-attachment.ts'
import { workSite } from './work-site.ts'

/** What is written along the works: taken in, listed, and acted on. */
export interface FieldWork {
  /**
   * Takes what a device sent, each entry by itself; the answer is in that order. Resolves once all is on the disk; what
   * comes of the entries is worked out afterwards.
   */
  /** `sender`: account whose session delivers them; null where there are none. */
  add(site: string, offered: readonly unknown[], sender?: string | null): Promise<readonly FieldResult[]>
  list(site: string, after: number): Promise<FieldDocument>
  keepAttachment(
    site: string,
    sha256: string,
    mediaType: string,
    source: AsyncIterable<Uint8Array>,
    signal?: AbortSignal,
  ): Promise<AttachmentKeeping>
  /** Takes a receiver's record of coverage tests as it comes by file: an entry a test, all of them or none. */
  addReceiverRecords(file: Omit<RecordsFile, 'atEpochMs'>): Promise<Outcome<ReceiverRecords>>
  /** Null: not here. */
  findAttachment(site: string, sha256: string): Promise<(HeldAttachment & { readonly path: string }) | null>
  /** Does what entries ask for and is not done: at a start, and whenever something arrived. Resolves when it is done. */
  work(site: string): Promise<void>
  /** Resolves when nothing is being worked on; to be waited for before the store is closed. */
  settled(): Promise<void>
}

export interface FieldWorkSettings {
  readonly store: Store
  readonly intake: Intake
  readonly publisher: Pick<Publisher, 'changed'>
  readonly now: () => number
  readonly report: (line: string) => void
}

/** Opens the way in for field entries and their attachments. */
export function createFieldWork({ store, intake, publisher, now, report }: FieldWorkSettings): FieldWork {
  const { filesFolder } = intake
  const known = new Map<string, { latest: number; readonly entries: Map<number, StoredFieldEntry> }>()
  const turns = new Map<string, { running: Promise<void>; next: Promise<void> | null }>()

  async function workOnce(site: string): Promise<void> {
    const held = known.get(site) ?? { latest: 0, entries: new Map<number, StoredFieldEntry>() }
    known.set(site, held)
    const { entries, latest } = await store.listFieldEntries(site, held.latest)
    for (const one of entries) held.entries.set(one.number, one)
    held.latest = latest
    if (held.entries.size === 0) return
    let touched = false
    const touch = () => {
      touched = true
    }
    const stored = [...held.entries.values()].sort((one, other) => one.number - other.number)
    await workSite({ store, intake, now, touch }, site, stored, (what, cause) =>
      report(`Field work of ${site}, ${what}: ${cause instanceof Error ? cause.stack : String(cause)}`),
    )
    if (touched) publisher.changed(site)
  }

  /** One run at a time a site; whoever asks during a run shares the next one, which sees all that arrived by then. */
  function work(site: string): Promise<void> {
    const turn = turns.get(site)
    if (turn) {
      turn.next ??= turn.running.then(() => {
        turns.delete(site)
        return work(site)
      })
      return turn.next
    }
    const started = {
      next: null as Promise<void> | null,
      running: workOnce(site).catch((cause: unknown) => report(`Field work of ${site}: ${String(cause)}`)),
    }
    turns.set(site, started)
    return started.running.finally(() => {
      if (started.next === null && turns.get(site) === started) turns.delete(site)
    })
  }

  return {
    async add(site, offered, sender = null) {
      const judged = offered.map((one) => judgeEntry(site, one))
      const readable = judged.flatMap((one) => (one.ok ? [one.value] : []))
      const additions = await store.addFieldEntries(site, readable, now(), sender)
      const sums = readable.flatMap(({ attachments }) => attachments.map(({ sha256 }) => sha256))
      const here = new Set((await store.findAttachments(site, sums)).map(({ sha256 }) => sha256))
      if (additions.some((addition) => addition !== 'repeated')) void work(site)
      const outcomes = additions.values()
      return judged.map((one, i): FieldResult => {
        if (!one.ok)
          return {
            id: idOf(offered[i]),
            outcome: 'unreadable',
            issues: one.issues.map((issue) => ({ ...issue })),
            missingAttachments: [],
          }
        return {
          id: one.value.id,
          outcome: outcomes.next().value ?? 'accepted',
          missingAttachments: one.value.attachments
            .map(({ sha256 }) => sha256)
            .filter((sha256) => !here.has(sha256)),
        }
      })
    },

    async list(site, after) {
      const { entries, latest } = await store.listFieldEntries(site, after)
      return { site, entries, latest, serverEpochMs: now() }
    },

    async keepAttachment(site, sha256, mediaType, source, signal) {
      const keeping = await keepAttachmentBytes(filesFolder, sha256, source, signal)
      if ('bytes' in keeping) {
        const { bytes, head } = keeping
        const agreed = agreedMediaType(mediaType, head)
        await store.recordAttachment(site, { sha256, bytes, mediaType: agreed, receivedAtEpochMs: now() })
        void work(site)
      }
      return keeping
    },

    async addReceiverRecords(file) {
      const keep = async (sha256: string) => {
        await keepAttachmentBytes(filesFolder, sha256, inOnePiece(file.bytes))
        const held = { sha256, bytes: file.bytes.length, mediaType: 'text/csv', receivedAtEpochMs: now() }
        await store.recordAttachment(file.site, held)
      }
      const added = await addReceiverRecords(store, { ...file, atEpochMs: now() }, keep)
      if (added.ok) void work(file.site)
      return added
    },

    async findAttachment(site, sha256) {
      const [held] = await store.findAttachments(site, [sha256])
      return held ? { ...held, path: keptPath(filesFolder, sha256) } : null
    },

    work,

    async settled() {
      while (turns.size > 0)
        await Promise.all([...turns.values()].map(({ running, next }) => next ?? running))
    },
  }
}

async function* inOnePiece(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes
}
