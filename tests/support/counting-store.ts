import type { Layout } from '#contract/layout.ts'
import type { Quarantined, Receipt } from '#contract/receipt.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { BatchHead, Store } from '../../api/store/store.ts'

export interface CountingStore {
  readonly store: Store
  /** Every reading handed over by committed batches, where they are kept at all. */
  readonly readings: { channel: number; atMicros: bigint; raw: number }[]
  readonly quarantined: Omit<Quarantined, 'batch'>[]
  readonly channels: string[]
}

/**
 * The store's port in memory, which only counts: for files too large, or too many, to be stored in a test.
 * It neither finds repeats nor conflicts, so all it is given counts as accepted.
 */
export function createCountingStore(options: { keep: boolean } = { keep: true }): CountingStore {
  let model: SiteModel | null = null
  const layouts: Layout[] = []
  const receipts: Receipt[] = []
  const readings: CountingStore['readings'] = []
  const quarantined: CountingStore['quarantined'] = []
  const channels: string[] = []
  const receiptOf = (head: BatchHead, more: Partial<Receipt>): Receipt => {
    const receipt: Receipt = {
      ...head,
      batch: receipts.length + 1,
      outcome: 'taken',
      message: null,
      accepted: 0,
      repeated: 0,
      conflicting: 0,
      quarantined: 0,
      absent: 0,
      firstEpochMs: null,
      lastEpochMs: null,
      ...more,
    }
    receipts.push(receipt)
    return receipt
  }
  const port: Partial<Store> = {
    async putSite(given) {
      model = given
      return { changed: 1 }
    },
    getSite: async () => model,
    async putLayout(_, layout) {
      layouts.push(layout)
    },
    listLayouts: async () => layouts,
    listBatches: async () => receipts,
    findTaken: async () => null,
    supersedeBatch: async () => undefined,
    async channelNumbers(_, keys) {
      return keys.map(({ logger, name }) => {
        const key = `${logger}/${name}`
        if (!channels.includes(key)) channels.push(key)
        return channels.indexOf(key) + 1
      })
    },
    refuseBatch: async (head, message) => receiptOf(head, { outcome: 'refused', message }),
    async beginBatch(head) {
      let accepted = 0
      let aside = 0
      return {
        async append(block) {
          accepted += block.count
          if (!options.keep) return
          for (let i = 0; i < block.count; i++) {
            readings.push({
              channel: block.channel[i] as number,
              atMicros: block.atMicros[i] as bigint,
              raw: block.raw[i] as number,
            })
          }
        },
        async quarantine(entries) {
          for (const entry of entries) aside += entry.readings
          quarantined.push(...entries)
        },
        commit: async ({ absent }) => receiptOf(head, { accepted, quarantined: aside, absent }),
        abandon: async () => undefined,
      }
    },
    close: async () => undefined,
  }
  return { store: port as Store, readings, quarantined, channels }
}
