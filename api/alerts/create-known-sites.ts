import type { SiteModel } from '#domain/site/site.ts'
import type { Store } from '../store/store.ts'
import { seriesWords } from './compose-message.ts'
import type { SeriesWords } from './level-words.ts'

/** The records of a site, as alerts are judged and told by them. */
export interface KnownSite {
  readonly revision: number
  readonly model: SiteModel
  /** The model as telling people takes it. */
  readonly tellingSite: SiteModel
  readonly series: ReadonlyMap<string, SeriesWords>
}

/** The records of sites; read again where they changed, and not for every reading that arrives. Null: no such site. */
export function createKnownSites(store: Store): (site: string) => Promise<KnownSite | null> {
  const models = new Map<string, KnownSite>()
  return async (site) => {
    const before = models.get(site)
    let revision = await store.revision(site)
    if (before?.revision === revision) return before
    if (before) {
      const arrived = await store.arrivedSince(site, before.revision)
      revision = arrived.revision
      if (!arrived.recordsChanged) {
        const same = { ...before, revision }
        models.set(site, same)
        return same
      }
    }
    const model = await store.getSite(site)
    if (!model) return null
    const fresh = { revision, model, tellingSite: atAnyDate(model), series: seriesWords(model) }
    models.set(site, fresh)
    return fresh
  }
}

/**
 * Where the present is invented, the people of a drill are those whom the roster has on at this weekday and hour: they are
 * told now, and its dates lie elsewhere.
 */
const atAnyDate = (model: SiteModel): SiteModel =>
  model.facts.presentEpochMs === null
    ? model
    : {
        ...model,
        dutyShifts: model.dutyShifts.map((shift) => ({ ...shift, validFrom: 0, validUntil: null })),
      }
