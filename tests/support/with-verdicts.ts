import type { Verdict } from '#domain/site/tables.ts'
import type { Publisher } from '../../api/slices/publisher.ts'
import type { Store } from '../../api/store/store.ts'
import type { ReviewSample } from './review-sample.ts'

/** The sample's store and what it publishes as if people had found these verdicts, as at an instant. */
export function withVerdicts(
  sample: Pick<ReviewSample, 'store' | 'publisher' | 'site'>,
  verdicts: readonly Verdict[],
  presentEpochMs: number,
): {
  readonly store: Store
  readonly publisher: Pick<Publisher, 'siteDocument' | 'sliceList' | 'sliceFile'>
} {
  const found = { verdicts, verdictWithdrawals: [] }
  const store: Store = Object.assign(Object.create(sample.store), {
    getSite: async (site: string) => {
      const model = await sample.store.getSite(site)
      return model && { ...model, facts: { ...model.facts, presentEpochMs }, ...found }
    },
  })
  const json = JSON.stringify({ ...sample.site, ...found, verdictEvidence: [] })
  const publisher = {
    sliceList: sample.publisher.sliceList,
    sliceFile: sample.publisher.sliceFile,
    siteDocument: async () => ({ json, etag: String(verdicts.length) }),
  }
  return { store, publisher }
}
