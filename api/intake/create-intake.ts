import type { LayoutProposal } from '#contract/layout-proposal.ts'
import type { LevelLineRecord } from '#contract/level-lines.ts'
import type { Receipt } from '#contract/receipt.ts'
import type { SiteFacts, SiteModel } from '#domain/site/site.ts'
import type { Store } from '../store/store.ts'
import { cacheChannelNumbers } from './channel-cache.ts'
import { fieldReadingsLayout } from './field-readings-layout.ts'
import { type FileBytes, type Keeping, keepFile, keptPath } from './keep-file.ts'
import type { TakingProgress } from './kept-file-request.ts'
import { readLevelLines } from './level-lines.ts'
import { proposeLayout } from './propose-layout.ts'
import { readHead } from './read-head.ts'
import { sizeText } from './size-text.ts'
import { takeKept } from './take-kept.ts'

export interface FileRequest {
  readonly site: string
  readonly fileName: string
  /** The bytes, or what `keep` has made of them already. */
  readonly bytes: FileBytes | Keeping
  /** Who or what sent it, as people will read it. */
  readonly from: string
  readonly receivedAtEpochMs: number
  /** Layout to read it under; chosen by file name and content where not given. */
  readonly layoutId?: string
  readonly onProgress?: (progress: TakingProgress) => void
  /** Calls the taking off: nothing of the file is stored, its bytes may be kept. */
  readonly signal?: AbortSignal
}

export interface Intake {
  /** Where files are kept byte for byte. */
  readonly filesFolder: string
  /** Keeps a file and reads nothing of it yet, so that the next one can be kept while one is being stored. */
  keep(bytes: FileBytes): Promise<Keeping>
  /** Keeps a file and takes its readings; says in the receipt what became of every one of them. */
  takeFile(request: FileRequest): Promise<Receipt>
  /** Says what a file looks like, without keeping or storing anything. The beginning of it is enough. */
  look(request: { site: string; fileName: string; bytes: FileBytes | Uint8Array }): Promise<LayoutProposal>
  /** Takes the kept file of an earlier batch again, after a logger or a layout was registered or corrected. */
  retry(site: string, batch: number, layoutId?: string): Promise<Receipt>
  /** The lines of a kept level book, worked out again under the layout it was taken with; null: it is none. */
  levelLines(site: string, sha256: string): Promise<readonly LevelLineRecord[] | null>
  /** Facts of a site, null when there is none. */
  factsOf(site: string): Promise<SiteFacts | null>
}

export interface IntakeSettings {
  readonly store: Store
  /** Where files are kept byte for byte. */
  readonly filesFolder: string
  /** The instant that counts as the present at a site. */
  readonly presentEpochMs: (site: string) => Promise<number> | number
  /** Largest file that is kept, 2 GiB unless said otherwise. */
  readonly largestFileBytes?: number
  /** Most that a compressed file may hold, 8 GiB unless said otherwise. */
  readonly largestInflatedBytes?: number
}

const lookBytes = 1 << 20

/** Opens the way in for files: keep, choose the layout, parse, set aside what cannot be read, store the rest. */
export function createIntake(settings: IntakeSettings): Intake {
  const { store, filesFolder, presentEpochMs } = settings
  const largestFileBytes = settings.largestFileBytes ?? 2 * 1024 ** 3
  const inflatedLimitBytes = settings.largestInflatedBytes ?? 8 * 1024 ** 3

  const channels = cacheChannelNumbers(store)

  async function modelOf(site: string): Promise<SiteModel> {
    const model = await store.getSite(site)
    if (model === null) throw new Error(`there is no site "${site}" to take files for`)
    return model
  }

  return {
    filesFolder,
    keep: (bytes) => keepFile(filesFolder, bytes, largestFileBytes),

    async takeFile(request) {
      const { site, fileName, bytes, from, receivedAtEpochMs, layoutId, onProgress, signal } = request
      const model = await modelOf(site)
      const keeping = isKept(bytes)
        ? bytes
        : await keepFile(filesFolder, bytes, largestFileBytes, {
            ...(signal && { signal }),
            ...(onProgress && {
              onBytes: (bytesDone: number) =>
                onProgress({ stage: 'keeping', bytesDone, bytesTotal: null, readings: 0 }),
            }),
          })
      if ('tooLargeAfterBytes' in keeping) {
        const head = {
          site,
          fileName,
          sha256: '',
          bytes: keeping.tooLargeAfterBytes,
          receivedAtEpochMs,
          from,
          layout: null,
          layoutVersion: null,
        }
        const limit = sizeText(largestFileBytes)
        return store.refuseBatch(
          head,
          `The file is larger than ${limit}, the most that is taken at once; it was not kept and nothing of it was taken. Split it and send the parts.`,
        )
      }
      return takeKept({
        store,
        channels,
        model,
        kept: keeping.kept,
        fileName,
        from,
        receivedAtEpochMs,
        presentEpochMs: await presentEpochMs(site),
        inflatedLimitBytes,
        ...(layoutId !== undefined && { layoutId }),
        ...(onProgress && { onProgress }),
        ...(signal && { signal }),
      })
    },

    async look({ site, fileName, bytes }) {
      const model = await modelOf(site)
      const layouts = await store.listLayouts(site)
      const head = await readHead(
        typeof bytes === 'string' || bytes instanceof Uint8Array ? bytes : await beginningOf(bytes),
      )
      return proposeLayout({ model, layouts, fileName, head })
    },

    async retry(site, batch, layoutId) {
      const model = await modelOf(site)
      const earlier = (await store.listBatches(site)).find((receipt) => receipt.batch === batch)
      if (!earlier) throw new Error(`site "${site}" has no batch ${batch}`)
      if (earlier.sha256 === '') return earlier
      return takeKept({
        store,
        channels,
        model,
        kept: {
          path: keptPath(filesFolder, earlier.sha256),
          sha256: earlier.sha256,
          bytes: earlier.bytes,
          known: true,
        },
        fileName: earlier.fileName,
        from: earlier.from,
        receivedAtEpochMs: earlier.receivedAtEpochMs,
        presentEpochMs: await presentEpochMs(site),
        inflatedLimitBytes,
        ...layoutOf(earlier, layoutId),
      })
    },

    async levelLines(site, sha256) {
      const receipt = (await store.listBatches(site)).findLast(
        (one) => one.sha256 === sha256 && one.outcome !== 'refused',
      )
      return receipt === undefined
        ? null
        : readLevelLines({ store, model: await modelOf(site), receipt, path: keptPath(filesFolder, sha256) })
    },

    async factsOf(site) {
      return (await store.getSite(site))?.facts ?? null
    },
  }
}

/** A file that the server made itself is read again under the layout that it was made in. */
function layoutOf({ layout }: Receipt, asked: string | undefined): { layoutId?: string } {
  const layoutId = asked ?? (layout === fieldReadingsLayout.id ? layout : undefined)
  return layoutId === undefined ? {} : { layoutId }
}

async function beginningOf(bytes: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const pieces: Uint8Array[] = []
  let length = 0
  for await (const piece of bytes) {
    pieces.push(piece)
    length += piece.length
    if (length >= lookBytes) break
  }
  return Buffer.concat(pieces)
}

function isKept(bytes: FileBytes | Keeping): bytes is Keeping {
  return typeof bytes === 'object' && ('kept' in bytes || 'tooLargeAfterBytes' in bytes)
}
