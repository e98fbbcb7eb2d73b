import type { FieldDocument, FieldResult } from '#contract/field-entry.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { Intake } from '../intake/create-intake.ts'
import { keptPath } from '../intake/keep-file.ts'
import type { Publisher } from '../slices/publisher.ts'
import type { HeldAttachment, Store } from '../store/store.ts'
import { idOf, judgeEntry } from './judge-entry.ts'
import { type AttachmentKeeping, keepAttachmentBytes } from './keep-attachment.ts'

/** What is written along the works: taken in, listed, and acted on. */
export interface FieldWork {
  /** Takes what a device sent, each entry by itself; the answer is in that order. Resolves once all is on the disk. */
  add(site: string, offered: readonly unknown[]): Promise<readonly FieldResult[]>
  list(site: string, after: number): Promise<FieldDocument>
  keepAttachment(
    site: string,
    sha256: string,
    mediaType: string,
    source: AsyncIterable<Uint8Array>,
    signal?: AbortSignal,
  ): Promise<AttachmentKeeping>
  /** Null: not here. */
  findAttachment(site: string, sha256: string): Promise<(HeldAttachment & { readonly path: string }) | null>
}

export interface FieldWorkSettings {
  readonly store: Store
  readonly intake: Intake
  readonly publisher: Pick<Publisher, 'changed'>
  readonly now: () => number
  readonly report: (line: string) => void
}

/** Opens the way in for field entries and their attachments. */
export function createFieldWork({ store, intake, now }: FieldWorkSettings): FieldWork {
  const { filesFolder } = intake

  return {
    async add(site, offered) {
      const judged = offered.map((one) => judgeEntry(site, one))
      const readable = judged.flatMap((one) => (one.ok ? [one.value] : []))
      const additions = await store.addFieldEntries(site, readable, now())
      const sums = readable.flatMap(({ attachments }) => attachments.map(({ sha256 }) => sha256))
      const here = new Set((await store.findAttachments(site, sums)).map(({ sha256 }) => sha256))
      const outcomes = additions.values()
      return judged.map((one: Outcome<FieldEntry>, i): FieldResult => {
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
      if ('bytes' in keeping)
        await store.recordAttachment(site, {
          sha256,
          bytes: keeping.bytes,
          mediaType,
          receivedAtEpochMs: now(),
        })
      return keeping
    },

    async findAttachment(site, sha256) {
      const [held] = await store.findAttachments(site, [sha256])
      return held ? { ...held, path: keptPath(filesFolder, sha256) } : null
    },
  }
}
