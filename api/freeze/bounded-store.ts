import { isKnownBy } from '#domain/receipt/known-by.ts'
import type { ReceiptBound } from '../store/frozen-set-verbs.ts'
import type { Store } from '../store/store.ts'

export interface StoreBound extends ReceiptBound {
  /** Revision of the records; it stands for that of the site, which readings outside the bound may have moved on. */
  readonly recordsRevision: number
  /** First instant of the readings within the bound and, exclusive, the last; null: there are none. */
  readonly instants: { readonly fromEpochMs: number; readonly untilEpochMs: number } | null
}

/**
 * The store as it would be had a site received no more than a bound lets in, with its records as they are: whatever
 * publishes, evaluates or measures reads those readings and no others. The end of the bound is the site's present. It
 * takes nothing in: what would be recorded of alerts is forgotten.
 */
export function boundedStore(store: Store, site: string, bound: StoreBound): Store {
  const { receivedUntilEpochMs, throughBatch, recordsRevision, instants } = bound
  const own = (asked: string): void => {
    if (asked !== site) throw new Error(`A store bounded for ${site} was asked for ${asked}.`)
  }
  return {
    ...store,
    async getSite(asked) {
      own(asked)
      const model = await store.getSite(site)
      return model && { ...model, facts: { ...model.facts, presentEpochMs: receivedUntilEpochMs } }
    },
    async revision(asked) {
      own(asked)
      return recordsRevision
    },
    async touchedSince(asked, revision) {
      own(asked)
      return revision < recordsRevision ? instants : null
    },
    async arrivedSince(asked, revision) {
      own(asked)
      return { revision: recordsRevision, channels: [], recordsChanged: revision < recordsRevision }
    },
    async exposeReadings(connection, name, window) {
      own(window.site)
      await store.exposeReadings(connection, name, {
        ...window,
        bound: { receivedUntilEpochMs, throughBatch },
      })
    },
    async listBatches(asked) {
      own(asked)
      return (await store.listBatches(site)).filter(({ batch }) => batch <= throughBatch)
    },
    async listAlertEvents(asked, after) {
      own(asked)
      return (await store.listAlertEvents(site, after)).filter(({ atEpochMs }) =>
        isKnownBy(atEpochMs, receivedUntilEpochMs),
      )
    },
    appendAlertEvents: async () => [],
  }
}
