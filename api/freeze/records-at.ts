import { showsInFrozen } from '#domain/meeting/record-since.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { KeptFrozenSet, SiteProgressMark } from '../store/frozen-set-verbs.ts'
import type { Store } from '../store/store.ts'

/**
 * The records of a site and how far it had come, neither ahead of the other. Where only such records were written since an
 * earlier set as it does not show (who is told of alerts), they are still at the revision of that set.
 */
export async function recordsAt(
  store: Store,
  site: string,
  earlier: readonly KeptFrozenSet[],
): Promise<{ readonly mark: SiteProgressMark; readonly model: SiteModel }> {
  for (;;) {
    const mark = await store.markOf(site)
    const model = await store.getSite(site)
    if (!model) throw new Error(`There is no site "${site}" to freeze.`)
    const latest = earlier.toSorted((one, other) => other.mark.auditNumber - one.mark.auditNumber).at(0)
    const since = latest ? await store.listLaterRecords(site, latest.mark.auditNumber) : []
    const isAsThen = latest && !since.some(({ kind }) => showsInFrozen(kind))
    const recordsRevision = isAsThen ? latest.set.revision : mark.recordsRevision
    if ((await store.markOf(site)).recordsRevision === mark.recordsRevision)
      return { mark: { ...mark, recordsRevision }, model }
  }
}

/** Whether freezing now could give nothing else than a set that is there. */
export const isTheSame = (
  { set, mark }: KeptFrozenSet,
  now: {
    readonly mark: SiteProgressMark
    readonly cutOffEpochMs: number
    readonly software: string
  },
): boolean =>
  set.cutOffEpochMs === now.cutOffEpochMs &&
  set.software === now.software &&
  mark.revision === now.mark.revision &&
  mark.batch === now.mark.batch &&
  mark.alertEvent === now.mark.alertEvent
