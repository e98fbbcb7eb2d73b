import { layoutSchema } from '#contract/layout.ts'
import type { LevelLineRecord } from '#contract/level-lines.ts'
import type { Receipt } from '#contract/receipt.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { BatchWriter, Store } from '../store/store.ts'
import { createCellReader } from './cell-reader.ts'
import { createLoggerRegister } from './logger-register.ts'
import { createQuarantineLog } from './quarantine-log.ts'
import { freshReadingState, readKept } from './read-kept.ts'
import { readRows } from './read-rows.ts'
import { createReadingBlocks } from './reading-blocks.ts'

/** More than the setups that one level book may hold. */
const mostBytes = 64 * 1024 ** 2

/**
 * The level lines of a kept file, read again under the version of its layout that its receipt names, so that they are the
 * ones that were taken. Nothing is stored. Null where that layout is not one of level books.
 */
export async function readLevelLines({
  store,
  model,
  receipt,
  path,
}: {
  readonly store: Store
  readonly model: SiteModel
  readonly receipt: Receipt
  readonly path: string
}): Promise<readonly LevelLineRecord[] | null> {
  const site = model.facts.id
  const versions = receipt.layout === null ? [] : await store.listVersions(site, 'layout', receipt.layout)
  const body = versions.find(({ version }) => version === receipt.layoutVersion)?.body
  const layout = layoutSchema.safeParse(body).data
  if (!layout?.levelBook) return null
  const lines: LevelLineRecord[] = []
  const state = freshReadingState()
  const writer = storesNothing()
  const limits = {
    earliestMicros: Number.NEGATIVE_INFINITY,
    latestMicros: Number.POSITIVE_INFINITY,
    receivedMicros: receipt.receivedAtEpochMs * 1000,
  }
  await readRows(
    readKept(path, layout.encoding, state, { inflatedBytes: mostBytes }),
    layout,
    limits,
    {
      site,
      // What a level becomes is not asked here: a look at a book makes no channels.
      store: { channelNumbers: async (_site, keys) => keys.map(() => -1) },
      register: createLoggerRegister(model),
      cells: createCellReader(layout),
      log: createQuarantineLog(),
      blocks: createReadingBlocks(writer),
      writer,
      absent: 0,
      remarks: [],
      onLevelLine: (line) => lines.push(line),
    },
    () => state.broken,
  )
  return lines
}

const storesNothing = (): BatchWriter => ({
  append: async () => undefined,
  quarantine: async () => undefined,
  commit: () => Promise.reject(new Error('a level book that is only looked at is not stored')),
  abandon: async () => undefined,
})
